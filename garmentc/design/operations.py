"""The kinds of what signs and words compute: points moved, sums, comparisons, lines that are drawn."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from garmentc.design import kinds as k
from garmentc.design.kinds import Kind, unit_advice
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes

if TYPE_CHECKING:
    from garmentc.design.kindcheck import KindChecker, Scope


class Operations:
    """Finds the kinds of computed values for one ``KindChecker``, which knows the names in them."""

    def __init__(self, checker: KindChecker, findings: Findings) -> None:
        self._checker = checker
        self._findings = findings
        self.by_node: dict[type, Callable[[Any, Scope], Kind]] = {
            nodes.Quantity: lambda value, scope: k.of_unit(value.unit, value.value),
            nodes.At: self._at,
            nodes.Move: self._move,
            nodes.MoveToward: self._move_toward,
            nodes.MoveHeading: self._move_heading,
            nodes.MoveBy: self._move_by,
            nodes.Arithmetic: self._arithmetic,
            nodes.Negative: self._negative,
            nodes.Compare: self._compare,
            nodes.Chosen: self._chosen,
            nodes.Logic: self._logic,
            nodes.Not: self._not,
            nodes.If: self._if,
            nodes.Stroke: self._stroke,
        }

    def _at(self, point: nodes.At, scope: Scope) -> Kind:
        self._checker.expect(point.x, k.LENGTH, scope, "the distance to the right")
        self._checker.expect(point.y, k.LENGTH, scope, "the distance up")
        return k.POINT

    def _move(self, move: nodes.Move, scope: Scope) -> Kind:
        base = self._checker.expect(move.base, k.POINT, scope, f"what moves {move.way}")
        self._checker.expect(move.amount, k.LENGTH, scope, "the distance")
        return base

    def _move_toward(self, move: nodes.MoveToward, scope: Scope) -> Kind:
        base = self._checker.expect(move.base, k.POINT, scope, "what moves")
        self._checker.expect(move.target, k.POINT, scope, "where it moves toward")
        self._checker.expect(move.amount, (k.LENGTH, k.RATIO), scope, "how far it moves")
        return base

    def _move_heading(self, move: nodes.MoveHeading, scope: Scope) -> Kind:
        base = self._checker.expect(move.base, k.POINT, scope, "what moves")
        self._checker.expect(move.angle, k.ANGLE, scope, "the heading")
        self._checker.expect(move.amount, k.LENGTH, scope, "the distance")
        return base

    def _move_by(self, move: nodes.MoveBy, scope: Scope) -> Kind:
        base = self._checker.expect(move.base, k.POINT, scope, "what moves")
        what = f"what it moves {move.way}{' to' if move.way == 'square' else ''}"
        self._checker.expect(move.line, k.LINE_LIKE, scope, what)
        self._checker.expect(move.amount, k.LENGTH, scope, "the distance")
        return base

    def _arithmetic(self, value: nodes.Arithmetic, scope: Scope) -> Kind:
        left, right = self._checker.kind(value.left, scope), self._checker.kind(value.right, scope)
        if value.sign in "+-":
            found = k.together(left, right) if {left, right} <= {*k.QUANTITIES, k.FAULT} else None
        else:
            found = k.product(left, right) if value.sign == "*" else k.quotient(left, right)
        if found is not None:
            return found
        verb = {"+": "add {1} to {0}", "-": "subtract {1} from {0}", "*": "multiply {0} by {1}"}
        words = verb.get(value.sign, "divide {0} by {1}").format(k.a(left), k.a(right))
        self._report(
            "unit-mismatch",
            f"can't {words}",
            value.span,
            others=(
                Label(value.left.span, f"{k.a(left)}"),
                Label(value.right.span, f"{k.a(right)}"),
            ),
            help=unit_advice(right if right in (k.COUNT, k.RATIO) else left, (k.LENGTH,))
            if value.sign in "+-" and k.LENGTH in (left, right)
            else "",
        )
        return k.FAULT

    def _negative(self, value: nodes.Negative, scope: Scope) -> Kind:
        return self._checker.expect(value.operand, k.QUANTITIES, scope, "what is made negative")

    def _compare(self, value: nodes.Compare, scope: Scope) -> Kind:
        left = self._checker.expect(value.left, k.QUANTITIES, scope, "what is compared")
        right = self._checker.expect(value.right, k.QUANTITIES, scope, "what is compared")
        if k.together(left, right) is None:
            self._report(
                "unit-mismatch",
                f"can't compare {k.a(left)} with {k.a(right)}",
                value.span,
                others=(
                    Label(value.left.span, k.a(left)),
                    Label(value.right.span, k.a(right)),
                ),
            )
        return k.TRUTH

    def _chosen(self, value: nodes.Chosen, scope: Scope) -> Kind:
        kind = self._checker.kind(value.choice, scope)
        if kind == k.FAULT:
            return kind
        if not kind.options:
            self._report("wrong-kind", "`is` asks about a choice", value.choice.span, label=f"this is {k.a(kind)}")
        elif value.option.text not in kind.options:
            headline = f"the choice has no option `{value.option.text}`"
            help = meant_or_known(value.option.text, kind.options)
            self._report("unknown-name", headline, value.option.span, help=help)
        return k.TRUTH

    def _logic(self, value: nodes.Logic, scope: Scope) -> Kind:
        self._checker.expect(value.left, k.TRUTH, scope, f"what stands before `{value.word}`")
        self._checker.expect(value.right, k.TRUTH, scope, f"what stands after `{value.word}`")
        return k.TRUTH

    def _not(self, value: nodes.Not, scope: Scope) -> Kind:
        return self._checker.expect(value.operand, k.TRUTH, scope, "what stands after `not`")

    def _if(self, value: nodes.If, scope: Scope) -> Kind:
        self._checker.expect(value.condition, k.TRUTH, scope, "the condition")
        then, otherwise = self._checker.kind(value.then, scope), self._checker.kind(value.otherwise, scope)
        found = k.together(then, otherwise)
        if found is None:
            self._report(
                "wrong-kind",
                "both branches have to be of one kind",
                value.span,
                others=(
                    Label(value.then.span, k.a(then)),
                    Label(value.otherwise.span, k.a(otherwise)),
                ),
            )
            return k.FAULT
        return found

    def _stroke(self, stroke: nodes.Stroke, scope: Scope) -> Kind:
        if isinstance(stroke.shape, nodes.ArcShape):
            self._report(
                "bow-without-outline",
                f"`{stroke.shape.bow}` has a meaning only for an edge of an outline",
                stroke.shape.span,
                help="elsewhere draw the arc through a third point: arc through P",
            )
        return self.drawn(stroke, scope)

    def drawn(self, stroke: nodes.Stroke, scope: Scope) -> Kind:
        found = [
            self._checker.expect(stroke.start, k.POINT, scope, "the start of a line"),
            self._checker.expect(stroke.end, k.POINT, scope, "the end of a line"),
        ]
        if stroke.shape is not None:
            found += self.shape(stroke.shape, scope)
        return k.FAULT if k.FAULT in found else k.CURVE

    def shape(self, shape: nodes.Shape, scope: Scope) -> list[Kind]:
        """The kinds of what a shape is drawn with."""
        if isinstance(shape, nodes.CurveShape):
            ways = [way for way in (shape.leaving, shape.arriving) if way is not None]
            points = [
                self._checker.expect(point, k.POINT, scope, "what a curve goes through") for point in shape.through
            ]
            return points + [self._direction(way, scope) for way in ways]
        if isinstance(shape, nodes.ArcShape):
            wanted: tuple[Kind, ...] = (k.LENGTH,) if shape.by_radius else (k.LENGTH, k.RATIO)
            what = "the radius" if shape.by_radius else "the depth of an arc"
            return [self._checker.expect(shape.amount, wanted, scope, what)]
        return [self._checker.expect(shape.point, k.POINT, scope, "what an arc goes through")]

    def _direction(self, direction: nodes.Direction, scope: Scope) -> Kind:
        if direction.operand is None:
            return k.ANGLE
        if direction.way == "heading":
            return self._checker.expect(direction.operand, k.ANGLE, scope, "a heading")
        if direction.way == "toward":
            return self._checker.expect(direction.operand, k.POINT, scope, "what a curve heads toward")
        return self._checker.expect(direction.operand, k.LINE_LIKE, scope, f"what a curve is {direction.way} to")

    def _report(self, slug: str, headline: str, span: Span, **more: Any) -> None:
        self._findings.add(Finding(slug, headline, span, **more))
