"""Computes the values of a design for one body, each once, in the order in which they need each other."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple, NoReturn, Protocol

from garmentc.data.model import Body
from garmentc.design.functions import CONSTANTS
from garmentc.design.model import Design, PiecePlan
from garmentc.design.reused import literal_kind, literal_value
from garmentc.diagnostics.finding import Finding, Findings, Label, Severity
from garmentc.draft.functions import COMPUTE, InfiniteLine, as_line, direction_at
from garmentc.draft.memo import Memo, Poisoned
from garmentc.draft.model import DraftedPiece
from garmentc.draft.shown import shown_as
from garmentc.draft.strokes import stroke_path
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.path import Path
from garmentc.geometry.vector import heading, left, unit
from garmentc.numbers import decimal, length
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Expr

Value = Any
"""float (mm, mm², radians or plain), complex (a point), Path, InfiniteLine, bool, str (an option) or DraftedPiece."""


class Sewn(Protocol):
    """What is known of a garment once it is sewn together."""

    def opening(self, name: str) -> float:
        """How long an opening is all round (mm)."""

    def girth(self, piece: DraftedPiece, line: InfiniteLine, span: Span) -> float:
        """How wide the garment is all round along a line of a piece (mm); raises Poisoned where it is open."""

    def girth_beside(self, piece: DraftedPiece, edge: Path, distance: float, span: Span) -> float:
        """The same at a distance (mm) from an edge of the piece."""


class Scope(NamedTuple):
    """Where a value stands: in a piece, among the definitions of a seam type, or in a function with what is handed."""

    piece: str | None = None
    own: Mapping[str, Expr] | None = None
    handed: Mapping[str, Value] | None = None


TOP = Scope()
_WAYS = {"up": 1j, "down": -1j, "left": -1 + 0j, "right": 1 + 0j}
_ARITHMETIC: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}
COMPARE: dict[str, Callable[[float, float], bool]] = {
    "<": lambda a, b: a < b - 1e-6,
    "<=": lambda a, b: a <= b + 1e-6,
    ">": lambda a, b: a > b + 1e-6,
    ">=": lambda a, b: a >= b - 1e-6,
    "==": lambda a, b: abs(a - b) <= 1e-6,
    "!=": lambda a, b: abs(a - b) > 1e-6,
}
_FAULT_WORDS = {
    "coinciding-points": "two points that have to be apart are one",
    "straight": "the points lie on one straight line, so there is no arc through them",
    "too-small-radius": "the radius is smaller than half the distance between the ends",
    "no-meeting": "these do not meet",
    "several-meetings": "these meet more than once",
    "beyond-the-end": "this lies beyond the end of the edge",
    "no-tangent": "no tangent leads from this point to the curve",
    "no-radius": "a circle needs a radius above zero",
    "not-on-curve": "this point does not lie on the curve",
    "too-tight": "the curve is too tight for a line beside it at this distance",
    "not-straight": "a straight line is due here, and this is a curve",
    "too-wide": "this does not fit on its edge",
    "tip-outside": "the tip of the dart does not lie inside the piece",
    "misses-dart": "the edge drawn anew does not cross the line of its dart or fold",
    "not-through": "the dart does not run through the piece, from edge to edge",
    "same-place": "the new place lies in the dart itself",
}
_FAULT_HELP = {
    "coinciding-points": "look for a length that is zero here, or for one point named twice",
    "no-meeting": "draw them farther, or look for a wrong sign or a level beyond the piece",
    "several-meetings": "say which: a third value, a point near the one that is meant",
    "beyond-the-end": "measure from the start of the edge, or give a share: 40 %",
    "not-on-curve": "take the point from the curve: along(CURVE, 40 %)",
    "too-wide": "take up less, or move it away from the end of its edge",
    "tip-outside": "let the tip lie inside the outline: look for a wrong sign, or a place on the wrong edge",
    "misses-dart": "draw the edge so that it crosses the middle of each dart or fold once",
    "same-place": "name a place beside the dart, or another edge",
    "not-through": "cut the tip of the dart off first, with `keep`; a whole dart is moved by `pivot`",
}


class Evaluator:
    """Values of one design for one body.

    ``pieces`` drafts a piece by name when a value needs it whole. ``solved`` are params whose values are found.
    ``sewn`` is set once the garment is sewn together.
    """

    def __init__(
        self,
        design: Design,
        body: Body,
        findings: Findings,
        pieces: Callable[[str], DraftedPiece],
        solved: Mapping[str, float],
    ) -> None:
        self.design = design
        self.body = body
        self._findings = findings
        self._pieces = pieces
        self.memo = Memo(solved)
        self.sewn: Sewn | None = None
        self._calls: list[Label] = []  # of functions whose bodies are being computed, outermost first
        self._by_node: dict[type, Callable[[Any, Scope], Value]] = {
            nodes.Quantity: self._quantity,
            nodes.Ref: self._ref,
            nodes.Call: self._call,
            nodes.At: self._at,
            nodes.Move: self._move,
            nodes.MoveToward: self._move_toward,
            nodes.MoveHeading: self._move_heading,
            nodes.MoveBy: self._move_by,
            nodes.Arithmetic: self._arithmetic,
            nodes.Negative: lambda value, scope: -self.value(value.operand, scope),
            nodes.Compare: self._compare,
            nodes.Chosen: lambda value, scope: self.value(value.choice, scope) == value.option.text,
            nodes.Logic: self._logic,
            nodes.Not: lambda value, scope: not self.value(value.operand, scope),
            nodes.If: self._if,
            nodes.Stroke: self._stroke,
            nodes.Lookup: self._lookup,
        }

    def value(self, expr: Expr, scope: Scope = TOP) -> Value:
        """The value of an expression; raises Poisoned when it has none (the fault is then reported)."""
        return self._by_node[type(expr)](expr, scope)

    def edge_path(self, plan: PiecePlan, name: str) -> Path:
        """The path of an edge as its statement draws it, before anything is cut off or grown on."""
        edge = plan.edges[name]
        path: Path = self._once((plan.name, name), edge.name.span, lambda: self._edge(edge, plan))
        return path

    def amount(self, expr: Expr, of: float, scope: Scope) -> float:
        """A length (mm), or a share taken of ``of``."""
        found: float = self.value(expr, scope)
        return found * of if expr.span in self.design.shares else found

    def fault(
        self,
        slug: str,
        headline: str,
        span: Span,
        *,
        label: str = "",
        others: tuple[Label, ...] = (),
        notes: tuple[str, ...] = (),
        help: str = "",
        severity: Severity = Severity.ERROR,
        subject: str = "",
    ) -> None:
        """Report something that is wrong for this body; inside a function, with the places it is called from."""
        if self._calls:
            others = (*others, *reversed(self._calls))
            subject = f"{subject} {' '.join(str(call.span) for call in self._calls)}"
        self._findings.add(
            Finding(slug, headline, span, label, others, notes, help, severity, (self.body.name,), subject)
        )

    def impossible(self, fault: GeometryFault, span: Span) -> NoReturn:
        """Report a construction that has no answer; what depends on it is poisoned."""
        notes = [f"{name.replace('-', ' ')} {_shown(name, value)}" for name, value in fault.numbers.items()]
        at = f"at ({decimal(fault.at.real / 10, 1)} cm, {decimal(fault.at.imag / 10, 1)} cm)"
        self.fault(
            "impossible-construction",
            _FAULT_WORDS.get(fault.reason, fault.reason.replace("-", " ")),
            span,
            notes=(", ".join([*notes, at]),),
            help=_FAULT_HELP.get(fault.reason, ""),
        )
        raise Poisoned

    # ---- names

    def _once(self, key: tuple[str, str], span: Span, find: Callable[[], Value]) -> Value:
        if self.memo.is_under_way(key) and key not in self.memo:
            self.memo.poison(key)
            self.fault("ring", f"`{key[1]}` is defined by itself", span)
        return self.memo.once(key, find)

    def _ref(self, ref: nodes.Ref, scope: Scope) -> Value:
        words = ref.words
        if scope.handed is not None and words[0].text in scope.handed:
            return self._members(scope.handed[words[0].text], words[1:])
        if words[0].text == scope.piece and len(words) > 1:  # a piece that names itself means what it draws
            words = words[1:]
        name = words[0].text
        if name == "ease" and len(words) > 1:
            return self.param(f"ease.{words[1].text}")
        if scope.own is not None and name in scope.own:
            return self.value(scope.own[name], scope)
        design = self.design
        used = 1
        if scope.piece is not None:
            plan: PiecePlan | None = design.pieces[scope.piece]
            while plan is not None:
                if name in plan.edges and words[-1].text == "sewn_length":
                    return self._drafted_edge(scope.piece, words, ref)
                if name in plan.defines or name in plan.edges:
                    return self._members(self._local(plan, name), words[1:])
                if name in plan.parts or name in plan.made_edges:
                    return self._drafted_edge(plan.name, words, ref)
                plan = design.pieces[plan.parent] if plan.parent else None
        if name in CONSTANTS:
            return CONSTANTS[name]
        if name in design.values:
            define = design.values[name]
            found = self._once(("", name), define.name.span, lambda: self.value(define.value, TOP))
        elif name in design.params:
            found = self.param(name)
        elif name in design.measures:
            found = self.body.measures[name].mm
        elif name in design.choices:
            found = design.choices[name].value
        elif name in design.strips:
            found = self._pieces(name)
        elif name in design.openings:
            assert self.sewn is not None
            return self.sewn.opening(name)
        else:
            piece = design.pieces[name]
            if len(words) == 1:
                return self._pieces(name)
            return self._of_piece(piece, words[1:], ref)
        return self._members(found, words[used:])

    def param(self, name: str) -> float:
        """The value of a param or ease (mm, radians or plain); raises Poisoned."""
        param = self.design.params[name]
        return float(self._once(("", name), param.span, lambda: self.value(param.value, TOP)))

    def _local(self, plan: PiecePlan, name: str) -> Value:
        define = plan.defines.get(name)
        if define is None:
            return self.edge_path(plan, name)
        scope = Scope(plan.name)
        return self._once((plan.name, name), define.name.span, lambda: self.value(define.value, scope))

    def _of_piece(self, piece: PiecePlan, words: tuple[nodes.Word, ...], ref: nodes.Ref) -> Value:
        """A name inside a piece, asked for from outside: edges are those that exist after cutting."""
        plan: PiecePlan | None = piece
        while plan is not None:
            if words[0].text in plan.defines:
                return self._members(self._local(plan, words[0].text), words[1:])
            plan = self.design.pieces[plan.parent] if plan.parent else None
        return self._drafted_edge(piece.name, words, ref)

    def _drafted_edge(self, piece: str, words: tuple[nodes.Word, ...], ref: nodes.Ref) -> Value:
        drafted = self._pieces(piece)
        plan = self.design.pieces[piece]
        used = 2 if words[0].text in plan.parts and len(words) > 1 else 1
        name = ".".join(word.text for word in words[:used])
        edge = drafted.edge(name)
        if edge is not None and [word.text for word in words[used:]] == ["sewn_length"]:
            return edge.sewn_length
        if edge is not None:
            return self._members(edge.own_path, words[used:])
        inner = next((line for line in drafted.lines if line.name == name), None)
        if inner is not None:
            return self._members(inner.path, words[used:])
        self.edge_gone(piece, name, drafted, ref.span)
        raise Poisoned

    def edge_gone(self, piece: str, name: str, drafted: DraftedPiece, span: Span) -> None:
        """Report a reference to an edge that has been cut off."""
        self.fault(
            "edge-cut-away",
            f"edge `{name}` of `{piece}` is cut away",
            span,
            notes=(f"what is left: {', '.join(edge.name for edge in drafted.edges)}",),
        )

    def _members(self, value: Value, words: tuple[nodes.Word, ...]) -> Value:
        for word in words:
            value = _MEMBERS[type(value), word.text](value)
        return value

    # ---- values

    def _quantity(self, quantity: nodes.Quantity, scope: Scope) -> float:
        if not math.isfinite(quantity.value):
            self._beyond(quantity.span)
        return quantity.value

    def _beyond(self, span: Span) -> NoReturn:
        self.fault("no-value", "this is larger than any number", span)
        raise Poisoned

    def _call(self, call: nodes.Call, scope: Scope) -> Value:
        name = call.function.text
        arguments = [self.value(argument, scope) for argument in call.arguments]
        if name in self.design.functions:
            return self._call_own(call, self.design.functions[name], arguments)
        try:
            if name == "along":
                return COMPUTE[name](*arguments, call.arguments[1].span in self.design.shares)
            if name == "width":
                line = as_line(arguments[1])
                across: float = arguments[0].outline.width_at(line.at, line.direction)
                return across * (2 if arguments[0].on_fold else 1)
            if name == "girth":
                assert self.sewn is not None
                at = arguments[1]
                if len(arguments) > 2:
                    return self.sewn.girth_beside(arguments[0], arguments[2], arguments[2].nearest(at)[1], call.span)
                level = InfiniteLine(at, 1 + 0j) if isinstance(at, complex) else as_line(at)
                return self.sewn.girth(arguments[0], level, call.span)
            if name == "area":
                return abs(arguments[0].outline.area) * (2 if arguments[0].on_fold else 1)
            return COMPUTE[name](*arguments)
        except GeometryFault as fault:
            self.impossible(fault, call.span)
        except (ValueError, ZeroDivisionError, OverflowError):
            shown = ", ".join(decimal(value) for value in arguments if isinstance(value, float | int))
            self.fault("no-value", f"`{name}` has no value for {shown}", call.span)
            raise Poisoned from None

    def _call_own(self, call: nodes.Call, function: nodes.Function, arguments: list[Value]) -> Value:
        handed: dict[str, Value] = {}
        for parameter, argument, value in zip(function.parameters, call.arguments, arguments, strict=True):
            try:
                handed[parameter.name.text] = as_line(value) if parameter.kind.text == "line" else value
            except GeometryFault as fault:
                self.impossible(fault, argument.span)
        self._calls.append(Label(call.span, f"in `{call.function.span.text}`, which is called here"))
        try:
            return self.value(function.value, Scope(handed=handed))
        finally:
            self._calls.pop()

    def _lookup(self, table: nodes.Lookup, scope: Scope) -> float:
        at: float = self.value(table.by, scope)
        kind = literal_kind(table.rows[0].key)
        keys = [literal_value(row.key) for row in table.rows]
        if not table.held and not keys[0] - 1e-6 <= at <= keys[-1] + 1e-6:
            self.fault(
                "beyond-the-table",
                f"`{table.by.span.text}` is {shown_as(at, kind)}, and the table does not go so far",
                table.by.span,
                notes=(f"its rows go from {shown_as(keys[0], kind)} to {shown_as(keys[-1], kind)}",),
                help="add a row, or write `held` before the brace: then its first and last row count beyond them too",
            )
            raise Poisoned
        after = next((i for i, key in enumerate(keys) if key > at + 1e-6), len(keys))
        low = table.rows[max(0, after - 1)].value
        if table.stepped or after in (0, len(keys)):
            return float(self.value(low, scope))
        share = max(0.0, (at - keys[after - 1]) / (keys[after] - keys[after - 1]))
        start, end = self.value(low, scope), self.value(table.rows[after].value, scope)
        return float(start + (end - start) * share)

    def _at(self, point: nodes.At, scope: Scope) -> complex:
        return complex(self.value(point.x, scope), self.value(point.y, scope))

    def _move(self, move: nodes.Move, scope: Scope) -> complex:
        base: complex = self.value(move.base, scope)
        return base + _WAYS[move.way] * float(self.value(move.amount, scope))

    def _move_toward(self, move: nodes.MoveToward, scope: Scope) -> complex:
        base: complex = self.value(move.base, scope)
        way = self.value(move.target, scope) - base
        if abs(way) < 1e-6:
            self.impossible(GeometryFault("coinciding-points", base), move.span)
        return base + unit(way) * self.amount(move.amount, abs(way), scope)

    def _move_heading(self, move: nodes.MoveHeading, scope: Scope) -> complex:
        base: complex = self.value(move.base, scope)
        return base + heading(self.value(move.angle, scope)) * float(self.value(move.amount, scope))

    def _move_by(self, move: nodes.MoveBy, scope: Scope) -> complex:
        base: complex = self.value(move.base, scope)
        way = direction_at(self.value(move.line, scope), base)
        return base + (left(way) if move.way == "square" else way) * float(self.value(move.amount, scope))

    def _arithmetic(self, value: nodes.Arithmetic, scope: Scope) -> float:
        left, right = self.value(value.left, scope), self.value(value.right, scope)
        try:
            found = _ARITHMETIC[value.sign](left, right)
        except ZeroDivisionError:
            self.fault("no-value", "this divides by zero", value.span, others=(Label(value.right.span, "0 here"),))
            raise Poisoned from None
        if not math.isfinite(found):
            self._beyond(value.span)
        return found

    def _compare(self, value: nodes.Compare, scope: Scope) -> bool:
        return COMPARE[value.sign](self.value(value.left, scope), self.value(value.right, scope))

    def _logic(self, value: nodes.Logic, scope: Scope) -> bool:
        left = bool(self.value(value.left, scope))
        if value.word == "and":
            return left and bool(self.value(value.right, scope))
        return left or bool(self.value(value.right, scope))

    def _if(self, value: nodes.If, scope: Scope) -> Value:
        return self.value(value.then if self.value(value.condition, scope) else value.otherwise, scope)

    def _stroke(self, stroke: nodes.Stroke, scope: Scope) -> Path:
        return stroke_path(self, stroke, scope, None)

    def _edge(self, edge: nodes.Edge, plan: PiecePlan) -> Path:
        scope = Scope(plan.name)
        if not isinstance(edge.value, nodes.Stroke):
            path: Path = self.value(edge.value, scope)
            return path
        inside = self._inside(plan) if isinstance(edge.value.shape, nodes.ArcShape) else None
        return stroke_path(self, edge.value, scope, inside)

    def _inside(self, plan: PiecePlan) -> int:
        """On which side of its edges a piece lies: 1 for the left, -1 for the right."""
        scope = Scope(plan.name)
        corners = [
            self.value(edge.value.start, scope) for edge in plan.edges.values() if isinstance(edge.value, nodes.Stroke)
        ]
        twice = sum((a.conjugate() * b).imag for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
        return 1 if twice >= 0 else -1


_MEMBERS: dict[tuple[type, str], Callable[[Any], Value]] = {
    (complex, "x"): lambda point: point.real,
    (complex, "y"): lambda point: point.imag,
    (Path, "length"): lambda path: path.length,
    (Path, "start"): lambda path: path.start,
    (Path, "end"): lambda path: path.end,
    (DraftedPiece, "length"): lambda strip: strip.making.length,
    (DraftedPiece, "cut_width"): lambda strip: strip.making.cut_width,
    (DraftedPiece, "finished_width"): lambda strip: strip.making.finished_width,
}


def _shown(name: str, value: float) -> str:
    return decimal(value) if name == "meetings" else length(value)
