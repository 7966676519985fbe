"""Finds the kind of every value, and with it unknown names, unit errors and rings of definitions."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from garmentc.design import kinds as k
from garmentc.design.functions import CONSTANTS, FUNCTIONS, MEMBERS, describe
from garmentc.design.kinds import Kind, unit_advice
from garmentc.design.model import ChoicePlan, MeasurePlan, ParamPlan, PiecePlan, StripPlan
from garmentc.design.operations import Operations
from garmentc.design.reused import Handed, Reused
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import did_you_mean, meant_or_known
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Damaged, Expr


class Names(Record):
    """Everything a garment declares, by name; filled while its statements are gathered."""

    measures: dict[str, MeasurePlan]
    params: dict[str, ParamPlan]
    choices: dict[str, ChoicePlan]
    values: dict[str, nodes.Define]
    pieces: dict[str, PiecePlan]
    strips: dict[str, StripPlan]
    functions: dict[str, nodes.Function]
    openings: dict[str, nodes.Opening]


class Scope(Record):
    """Where a value stands: in a piece, in a seam type (its own definitions), in a function, or at the top."""

    piece: str | None = None
    own: Mapping[str, nodes.Define] | None = None
    own_title: str = ""
    handed: Handed | None = None


TOP = Scope()
_LARGEST_SHARE = 2.0  # a plain number above it lacks its unit where a length is as good as a share
Key = tuple[str, str]


class KindChecker:
    """One run over one garment. Every fault is reported once; what depends on it is left alone.

    ``used`` are the names that something refers to, those of a piece with the piece in front. ``shares`` are the
    places where a length, a share of it or an angle may stand, and a share or an angle does. While ``sewn`` is asked
    for, values may stand that are known only of the sewn garment; ``met_sewn`` says that one did.
    """

    def __init__(self, names: Names, damaged: Iterable[Damaged], findings: Findings) -> None:
        self._names = names
        self._findings = findings
        damaged = tuple(damaged)
        self._lost = {(lost.inside, lost.name) for lost in damaged if lost.name}
        self._damaged_pieces = {lost.inside for lost in damaged if lost.inside}
        self._holes = [lost.span for lost in damaged]
        self._known: dict[Key, Kind] = {}
        self._under_way: dict[Key, Span] = {}
        self.used: set[str] = set()
        self.shares: set[Span] = set()
        self.sewn, self.met_sewn = False, False
        self._reused = Reused(self, lambda value, handed: self.kind(value, Scope(handed=handed)), self._once, findings)
        self.operations = Operations(self, findings)
        self._by_node: dict[type, Callable[[Any, Scope], Kind]] = {
            **self.operations.by_node,
            nodes.Ref: self._ref,
            nodes.Call: self._call,
            nodes.Lookup: self._reused.lookup,
        }

    # ---- what others ask

    def kind(self, value: Expr, scope: Scope = TOP) -> Kind:
        """The kind of a value, or FAULT when that can't be known."""
        return self._by_node[type(value)](value, scope)

    def expect(self, value: Expr, wanted: Kind | tuple[Kind, ...], scope: Scope = TOP, what: str = "") -> Kind:
        """The kind of a value that has to be of certain kinds; else a finding, and FAULT."""
        choices = (wanted,) if isinstance(wanted, Kind) else wanted
        kind = self.kind(value, scope)
        if any(k.fits(kind, one) for one in choices):
            is_share = k.RATIO in choices and kind in (k.RATIO, k.COUNT)
            if k.LENGTH in choices and (is_share or kind == k.ANGLE):
                self.shares.add(value.span)
                if is_share and k.COUNT not in choices and self._lost_unit(value):
                    return k.FAULT
            return kind
        due = " or ".join(k.a(one) for one in choices)
        self._report(
            "wrong-kind",
            f"{what or 'this'} has to be {due}",
            value.span,
            label=f"this is {k.a(kind)}",
            help=unit_advice(kind, choices),
        )
        return k.FAULT

    def _lost_unit(self, value: Expr) -> bool:
        """Whether a plain number stands where a length or a share is due, and is no share; then a finding."""
        if not isinstance(value, nodes.Quantity) or value.unit or value.value <= _LARGEST_SHARE:
            return False
        number = value.span.text.strip()
        self._report(
            "wrong-kind",
            f"`{number}` has no unit",
            value.span,
            label=f"as a share this would be {number}00 %" if "." not in number else "this is no share",
            help=f"write {number} cm, or {number} % for a share",
        )
        return True

    def is_damaged(self, piece: str) -> bool:
        """Whether a statement inside this piece could not be read."""
        return piece in self._damaged_pieces

    def has_hole(self, span: Span) -> bool:
        """Whether something in this stretch of a file could not be read."""
        return any(span.source is hole.source and span.start <= hole.start < span.end for hole in self._holes)

    def is_lost(self, name: str, piece: str | None = None) -> bool:
        """Whether what seems to define this name could not be read or found: a statement or a block."""
        if (None, name) in self._lost or (None, name.partition(".")[0]) in self._lost:
            return True
        return piece is not None and (piece, name) in self._lost

    def edge(self, piece: str, dotted: str, span: Span) -> bool:
        """Whether a piece has an edge of this name; if not, a finding."""
        plan = self._names.pieces[piece]
        found = self._edge_kind(plan, dotted, span)
        return found is not None

    def edge_names(self, plan: PiecePlan) -> list[str]:
        """The names of all edges a piece may have, those of grown parts dotted."""
        own: list[str] = []
        for piece in reversed(self.ancestry(plan)):
            own.extend(piece.edges)
            own.extend(piece.made_edges)
        for part in plan.parts.values():
            own.extend(f"{part.name.text}.{name}" for name in (*plan.edges, *plan.made_edges))
            own.append(f"{part.name.text}.{part.keep.name.text}")
        return own

    def ancestry(self, plan: PiecePlan) -> list[PiecePlan]:
        """The piece, the one it is taken from, and so on; a ring is gone through once."""
        found = [plan]
        while (parent := self._names.pieces.get(found[-1].parent or "")) is not None and parent not in found:
            found.append(parent)
        return found

    def define(self, define: nodes.Define, piece: str | None = None) -> None:
        """Look into a definition of the garment or of a piece; this alone is no use of its name."""
        self._once((piece or "", define.name.text), define.name.span, lambda: self._defined(define, Scope(piece)))

    def _may_have(self, plan: PiecePlan, name: str) -> bool:
        """Whether a piece would perhaps have a name, if all it is taken from were known and could be read."""
        line = self.ancestry(plan)
        unknown = line[-1].parent is not None and line[-1].parent not in self._names.pieces
        return unknown or any(self.is_lost(name, piece.name) for piece in line)

    def function(self, function: nodes.Function) -> None:
        """Look into a function of the garment; this alone is no use of its name."""
        self._reused.body(function)

    def piece_depends(self, plan: PiecePlan) -> None:
        """Follow everything a piece's outline depends on, so that rings through whole pieces are found."""
        self._once(("whole", plan.name), plan.span, lambda: self._whole(plan))

    # ---- definitions

    def _whole(self, plan: PiecePlan) -> Kind:
        scope = Scope(plan.name)
        if plan.parent and plan.parent in self._names.pieces:
            self.piece_depends(self._names.pieces[plan.parent])
        for name in plan.edges:
            self._edge_kind(plan, name, plan.span)
        for keep in (*plan.keeps, *(part.keep for part in plan.parts.values())):
            if keep.edges:
                self.expect(keep.line, k.LENGTH, scope, "the width of what is kept")
            else:
                self.expect(keep.line, k.LINE_LIKE, scope, "what is kept along")
        return k.PIECE

    def _edge_kind(self, plan: PiecePlan, dotted: str, span: Span) -> Kind | None:
        head, _, rest = dotted.partition(".")
        if rest:
            part = plan.parts.get(head)
            if part is not None and rest in (*plan.edges, *plan.made_edges, part.keep.name.text):
                self.piece_depends(plan)
                return k.EDGE
        elif head in plan.edges:
            edge = plan.edges[head]
            return self._once((plan.name, head), edge.name.span, lambda: self._edge_value(edge, plan))
        elif head in plan.made_edges or (
            plan.parent
            and plan.parent in self._names.pieces
            and head in self.edge_names(self._names.pieces[plan.parent])
        ):
            self.piece_depends(plan)
            return k.EDGE
        if self.is_lost(plan.name) or self._may_have(plan, head) or (rest and self._may_have(plan, rest)):
            return k.FAULT
        self._unknown(span, f"piece `{plan.name}` has no edge `{dotted}`", dotted, self.edge_names(plan))
        return None

    def _edge_value(self, edge: nodes.Edge, plan: PiecePlan) -> Kind:
        scope = Scope(plan.name)
        value = edge.value
        if isinstance(value, nodes.Stroke) and isinstance(value.shape, nodes.ArcShape):
            for other in plan.edges.values():  # bulge and hollow need to know where the inside is
                if isinstance(other.value, nodes.Stroke):
                    self.expect(other.value.start, k.POINT, scope, "the start of an edge")
            kind = self.operations.drawn(value, scope)
        elif isinstance(value, nodes.Stroke):
            kind = self.operations.drawn(value, scope)
        elif isinstance(value, nodes.Compare) and value.sign == ">":
            self._report(
                "wrong-kind",
                "an edge is drawn with an arrow",
                value.span,
                label="this compares two values",
                help="write `->` between its ends",
            )
            return k.FAULT
        else:
            kind = self.expect(value, k.PATH_LIKE, scope, "an edge")
        return k.FAULT if kind == k.FAULT else k.EDGE

    def _once(self, key: Key, span: Span, find: Callable[[], Kind]) -> Kind:
        known = self._known.get(key)
        if known is not None:
            return known
        if key in self._under_way:
            self._ring(key)
            return k.FAULT
        self._under_way[key] = span
        try:
            kind = find()
        finally:
            del self._under_way[key]
        return self._known.setdefault(key, kind)

    def _ring(self, key: Key) -> None:
        keys = list(self._under_way)
        ring = keys[keys.index(key) :]
        if all(self._known.get(one) == k.FAULT for one in ring):
            return
        shown = [name if owner in ("", "whole", "param", "function") else f"{owner}.{name}" for owner, name in ring]
        for one in ring:
            self._known[one] = k.FAULT
        self._report(
            "ring",
            f"`{shown[0]}` is defined by itself",
            self._under_way[key],
            others=tuple(
                Label(self._under_way[one], f"`{name}`, which needs `{after}`")
                for one, name, after in zip(ring[1:], shown[1:], [*shown[2:], shown[0]], strict=False)
            ),
            notes=(" needs ".join(f"`{name}`" for name in [*shown, shown[0]]),),
            help="give one of them a value that does not need the others",
        )

    # ---- names

    def _ref(self, ref: nodes.Ref, scope: Scope) -> Kind:
        first, *rest = ref.words
        if scope.handed is not None:
            return self._members(self._reused.handed(ref, scope.handed), rest)
        if first.text == "ease" and rest:
            return self._ease(rest[0], rest[1:])
        kind = self._first(first, scope)
        if kind is None:
            return k.FAULT
        if kind in (k.PIECE, k.PART):
            return self._inside_piece(ref, scope)
        return self._members(kind, rest)

    def _ease(self, word: nodes.Word, rest: list[nodes.Word]) -> Kind:
        name = f"ease.{word.text}"
        param = self._names.params.get(name)
        if param is None:
            if not self.is_lost(word.text):
                eases = [known[5:] for known in self._names.params if known.startswith("ease.")]
                self._unknown(word.span, f"no ease `{word.text}` is declared", word.text, eases)
            return k.FAULT
        return self._members(self._param(name), rest)

    def _param(self, name: str) -> Kind:
        """The kind of a param or ease; what its own value needs is followed, so that rings are found."""
        param = self._names.params[name]
        self.used.add(name)
        found = self._once(("param", name), param.span, lambda: self.kind(param.value, TOP))
        return k.FAULT if found == k.FAULT else param.kind

    def _defined(self, define: nodes.Define, scope: Scope) -> Kind:
        """The kind of a definition, which holds a value and not a piece."""
        kind = self.kind(define.value, scope)
        if kind in (k.PIECE, k.PART):
            self._report(
                "wrong-kind",
                f"`{define.name.text}` has to be a value",
                define.value.span,
                label=f"this is {k.a(kind)}",
                help="use its own name where it is needed",
            )
            return k.FAULT
        return kind

    def _first(self, word: nodes.Word, scope: Scope) -> Kind | None:
        """The kind of the first word of a reference; None when nothing has this name, or more than one thing."""
        name = word.text
        if scope.own is not None and name in scope.own:
            define = scope.own[name]
            return self._once((scope.own_title, name), define.name.span, lambda: self.kind(define.value, scope))
        if scope.piece is not None:
            found = self._local(self._names.pieces.get(scope.piece), name, word.span)
            if found is not None:
                return found
        plan = self._names.pieces.get(scope.piece or "")
        if self.is_lost(name, scope.piece):
            return None
        names = self._names
        if name in CONSTANTS:
            return k.RATIO
        if name in names.values:
            self.used.add(name)
            value = names.values[name]
            return self._once(("", name), value.name.span, lambda: self._defined(value, TOP))
        if name in names.params:
            return self._param(name)
        if name in names.measures:
            self.used.add(name)
            return names.measures[name].kind
        if name in names.choices:
            self.used.add(name)
            return Kind("choice", names.choices[name].options)
        if name in names.pieces:
            return k.PIECE
        if name in names.strips:
            self.used.add(name)
            return k.STRIP
        if name in names.openings:
            return self._sewn_only(k.OPENING, f"opening `{name}`", word.span)
        if plan is not None and self._may_have(plan, name):
            return None
        written = word.span.text  # inside a block without the block's name, which no suggestion has to show then
        help = did_you_mean(name, self._visible(scope)).replace(f"`{name.removesuffix(written)}", "`")
        self._report("unknown-name", f"nothing here is called `{written}`", word.span, help=help)
        return None

    def _sewn_only(self, kind: Kind, what: str, span: Span) -> Kind:
        """The kind of something that only the sewn garment has, where that may stand; else a finding."""
        if self.sewn:
            self.met_sewn = True
            return kind
        self._report(
            "not-sewn-yet",
            f"{what} is known only once the garment is sewn together",
            span,
            help="ask for it in a `check`, a `warn` or a `finished`; here compute with edges and widths of the pieces",
        )
        return k.FAULT

    def _local(self, plan: PiecePlan | None, name: str, span: Span) -> Kind | None:
        """The kind of a name inside a piece, or inside the pieces it is taken from."""
        seen: set[str] = set()
        start = plan
        while plan is not None and plan.name not in seen:
            seen.add(plan.name)
            define = plan.defines.get(name)
            if define is not None:
                self.used.add(f"{plan.name}.{name}")
                scope = Scope(plan.name)
                return self._once(
                    (plan.name, name),
                    define.name.span,
                    lambda d=define, s=scope: self._defined(d, s),  # type: ignore[misc]
                )
            if name in plan.edges:
                return self._edge_kind(plan, name, span)
            if name in plan.parts:
                return k.PART
            plan = self._names.pieces.get(plan.parent) if plan.parent else None
        if start is not None and name in start.made_edges:
            return self._edge_kind(start, name, span)
        return None

    def _inside_piece(self, ref: nodes.Ref, scope: Scope) -> Kind:
        """``front.side``, ``front.facing.side.length``, or ``facing.side`` inside the piece itself."""
        words = list(ref.words)
        plan = self._names.pieces.get(words[0].text)
        if plan is None or (scope.piece and words[0].text in self._names.pieces[scope.piece].parts):
            plan = self._names.pieces[scope.piece or ""]
        else:
            words = words[1:]
        if not words:
            return k.PIECE
        if words[0].text in plan.parts:
            if len(words) == 1:
                return k.PART
            found = self._edge_kind(plan, f"{words[0].text}.{words[1].text}", ref.span)
            return k.FAULT if found is None else self._members(found, words[2:])
        local = self._local(plan, words[0].text, words[0].span)
        if local is None:
            if not self._may_have(plan, words[0].text):
                known = [*self.edge_names(plan), *plan.defines, *plan.parts]
                headline = f"piece `{plan.name}` has nothing called `{words[0].text}`"
                self._unknown(words[0].span, headline, words[0].text, known)
            return k.FAULT
        return self._members(local, words[1:])

    def _members(self, kind: Kind, words: list[nodes.Word]) -> Kind:
        for word in words:
            if kind == k.FAULT:
                return kind
            members = MEMBERS.get(kind.name, {})
            if word.text not in members:
                self._report(
                    "unknown-name",
                    f"{k.a(kind)} has no `{word.text}`",
                    word.span,
                    help=f"it has {', '.join(members)}" if members else "",
                )
                return k.FAULT
            kind = members[word.text]
        return kind

    def _visible(self, scope: Scope) -> list[str]:
        names = self._names
        found: list[str] = list(scope.own or ())
        plan = names.pieces.get(scope.piece) if scope.piece else None
        seen: set[str] = set()
        while plan is not None and plan.name not in seen:
            seen.add(plan.name)
            found += [*plan.defines, *plan.edges, *plan.parts, *plan.made_edges]
            plan = names.pieces.get(plan.parent) if plan.parent else None
        for table in (names.values, names.params, names.measures, names.choices, names.pieces, names.strips):
            found.extend(table)
        found.extend(names.openings if self.sewn else ())
        return found

    # ---- values

    def _call(self, call: nodes.Call, scope: Scope) -> Kind:
        name = call.function.text
        found = tuple(self.kind(argument, scope) for argument in call.arguments)
        if name in self._names.functions:
            return self._reused.call(call, self._names.functions[name], found)
        if name not in FUNCTIONS:
            if self.is_lost(name):
                return k.FAULT
            help = did_you_mean(name, (*FUNCTIONS, *self._names.functions))
            self._report("unknown-name", f"there is no function `{name}`", call.function.span, help=help)
            return k.FAULT
        if name == "girth" and self._sewn_only(k.LENGTH, "a `girth`", call.span) == k.FAULT:
            return k.FAULT
        ways = [one for one in FUNCTIONS[name] if one.accepts(found)]
        if len(ways) > 1 and k.FAULT in found:  # what it would give can't be told
            return k.FAULT
        if ways:
            for argument, kind, wanted in zip(call.arguments, found, ways[0].takes, strict=False):
                if k.LENGTH in wanted and kind in (k.RATIO, k.COUNT) and not ways[0].alike:
                    self.shares.add(argument.span)
                    if self._lost_unit(argument):
                        return k.FAULT
            return ways[0].gives or (k.FAULT if k.FAULT in found else found[0])
        self._report(
            "wrong-kind",
            f"`{name}` can't take {' and '.join(k.a(kind) for kind in found) or 'nothing'}",
            call.span,
            notes=(f"it is called as {describe(name)}",),
        )
        return k.FAULT

    # ---- findings

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._report("unknown-name", headline, span, help=meant_or_known(name, known))

    def _report(self, slug: str, headline: str, span: Span, **more: Any) -> None:
        self._findings.add(Finding(slug, headline, span, **more))
