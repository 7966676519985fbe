"""Shapes a piece as its statements say: darts, tucks and pleats; darts moved, paper spread, edges drawn anew."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NoReturn

from garmentc.design.model import PiecePlan
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.clip import NamedPath
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Shift, TakeUp, shifted
from garmentc.draft.reshape import (
    Mouth,
    Ring,
    close_through,
    closing,
    mouth_width,
    named,
    open_dart,
    opening,
    pivot,
    redrawn,
    reopened,
    spread,
)
from garmentc.draft.strokes import shaped_path
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.vector import Point, dot, left, unit
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes

_WAYS = {"up": 1j, "down": -1j, "left": -1 + 0j, "right": 1 + 0j}
_TAKES = {"knife": 2, "box": 4, "inverted": 4}  # depths of cloth that one pleat takes
_LEGS = 1.0  # mm that the legs of a dart may differ before one is drawn to the other; common practice, no source
_ON = 0.01  # mm; a mouth nearer than this to an edge lies on it
_BLUNT = 0.75  # widths of a dart to its legs above which it is called blunt; no source
_LONG = 60.0  # mm that the lines of a pleat are drawn inward
_LEAST = 1.0  # mm; what is shorter is no part of an edge


class Shaped(Record):
    """A ring of edges with the cloth taken up in it, and the parts that were moved, in their order."""

    ring: Ring
    takeups: tuple[TakeUp, ...] = ()
    shifts: tuple[Shift, ...] = ()

    def moved(self, p: Point) -> Point:
        """Where a point of the piece as drawn lies after all that was moved."""
        return shifted(p, self.shifts)

    def taken(self, edge: NamedPath) -> float:
        """How much of an edge (mm) is taken up."""
        return sum(high - low for low, high in (_held(edge, one) for one in self.takeups if one.edge == edge.name))

    def with_ring(self, ring: Ring) -> Shaped:
        """The same with a ring of which a part may be cut away; take-ups that went with it are gone."""
        names = {edge.name: edge.path for edge in ring}
        kept = [
            one
            for one in self.takeups
            if one.edge in names and all(names[one.edge].nearest(p)[1] < _ON for p in (one.first, one.second))
        ]
        return self._replace(ring=ring, takeups=tuple(kept))


def shape(plan: PiecePlan, shaped: Shaped, stays: str, middle: Sequence[str], values: Evaluator) -> Shaped:
    """A piece after its own shaping statements, one after the other; raises Poisoned after a fault.

    ``stays`` names the edge that keeps its place when a part of the piece is moved, ``middle`` those toward which
    darts are pressed.
    """
    for statement in plan.shapings:
        shaper = _Shaper(plan, shaped, stays, middle, values, statement.span)
        try:
            shaped = _BY_NODE[type(statement)](shaper, statement)
        except GeometryFault as fault:
            values.impossible(fault, statement.span)
    _check_apart(plan, shaped, values)
    return shaped


class _Shaper:
    """One statement at work on a piece."""

    def __init__(
        self, plan: PiecePlan, shaped: Shaped, stays: str, middle: Sequence[str], values: Evaluator, span: Span
    ) -> None:
        self.plan = plan
        self.shaped = shaped
        self.stays = stays
        self.middle = middle
        self.values = values
        self.span = span
        self.scope = Scope(plan.name)

    def dart(self, node: nodes.Dart) -> Shaped:
        edge, at = self._place(node.edge, node.at)
        tip = self.shaped.moved(self._value(node.tip))
        if node.taking is None:
            at, width = self._between(node, edge, at, tip)
        else:
            width = self._value(node.taking)
            if node.taking.span in self.values.design.shares:
                width = mouth_width(edge.path, at, tip, width)
            if width <= 0:
                self._refuse("a dart takes up some cloth", node.taking.span, f"it takes {length(width)} here")
        bow = 0.0
        if node.depth is not None:
            bow = float(self._value(node.depth)) * (1 if node.bow == "bulge" else -1)
        ring, mouth = open_dart(self.shaped.ring, edge.name, at, tip, width)
        self._warn_of_blunt(node, width, abs(mouth.first - tip))
        dart = self._takeup("dart", node.name.text, mouth, 0.0, bow, node.pressed)
        return self.shaped._replace(ring=ring, takeups=(*self.shaped.takeups, dart))

    def _between(self, node: nodes.Dart, edge: NamedPath, at: float, tip: Point) -> tuple[float, float]:
        """The middle and the width of a dart whose legs begin at two places of an edge."""
        assert node.second is not None
        low, high = sorted((at, self._place(node.edge, node.second)[1]))
        if high - low < _ON:
            self._refuse("a dart takes up some cloth", node.second.span, "its legs begin at one place")
        legs = [abs(edge.path.point_at(place) - tip) for place in (low, high)]
        if abs(legs[0] - legs[1]) > _LEGS:
            self._refuse(
                "the legs of a dart have to be equally long",
                node.span,
                f"they are {length(legs[0])} and {length(legs[1])}",
                help="move one of their ends along the edge, or the tip to one side",
            )
        return (low + high) / 2, high - low

    def divide(self, node: nodes.Divide) -> Shaped:
        dart = self._known_dart(node.dart)
        by = float(self._value(node.by))
        edge = named(self.shaped.ring, dart.edge)
        width = abs(dart.second - dart.first)
        if by <= width / 2:
            self._refuse(
                "the two darts would take up the same cloth",
                node.by.span,
                f"each is {length(width / 2)} wide, and their middles lie {length(by)} apart",
            )
        middle, aside = (dart.first + dart.second) / 2, unit(dart.second - dart.first) * by / 2
        ring = self.shaped.ring
        found: list[TakeUp] = []
        for sign in (-1, 1):
            at = named(ring, dart.edge).path.nearest(middle + sign * aside)[0]
            ring, mouth = open_dart(ring, dart.edge, at, dart.tip + sign * aside, width / 2)
            found.append(dart._replace(first=mouth.first, second=mouth.second, tip=mouth.tip, bow=dart.bow / 2))
        new = 0 if edge.backward else 1
        found[new] = found[new]._replace(name=node.part.text, span=self.span)
        others = (one for one in self.shaped.takeups if one is not dart)
        return self.shaped._replace(ring=ring, takeups=(*others, *found))

    def shorten(self, node: nodes.Shorten) -> Shaped:
        dart = self._known_dart(node.dart)
        by = float(self._value(node.by))
        back = (dart.first + dart.second) / 2 - dart.tip
        if not 0 < by < abs(back):
            self._refuse(
                "the tip of a dart is drawn back by a part of its length",
                node.by.span,
                f"it is {length(abs(back))} long, and drawn back by {length(by)}",
            )
        shorter = dart._replace(tip=dart.tip + by * unit(back))
        return self.shaped._replace(takeups=tuple(shorter if one is dart else one for one in self.shaped.takeups))

    def close(self, node: nodes.Close) -> Shaped:
        dart = self._known_dart(node.dart)
        if abs(dart.bow) > 0:
            self._refuse("a dart with curved legs can't be laid together in the paper", node.span)
        ring, shift = close_through(self.shaped.ring, Mouth(dart.edge, dart.first, dart.second, dart.tip), self.stays)
        others = tuple(_shifted(one, shift) for one in self.shaped.takeups if one is not dart)
        return Shaped(ring, others, (*self.shaped.shifts, shift))

    def _known_dart(self, word: nodes.Word) -> TakeUp:
        dart = next((one for one in self.shaped.takeups if one.name == word.text and one.kind == "dart"), None)
        if dart is None:
            self._refuse(f"there is no dart `{word.text}` at this point", word.span, "it comes later, or is cut")
        return dart

    def tuck(self, node: nodes.Tuck) -> Shaped:
        edge, at = self._place(node.edge, node.at)
        deep, long = float(self._value(node.deep)), float(self._value(node.long))
        if deep <= 0 or long <= 0:
            self._refuse("a tuck has a depth and a length", node.span, f"{length(deep)} deep, {length(long)} long")
        tuck = self._folded("tuck", node.name.text, edge, at, 2 * deep, deep, long, node.pressed)
        return self.shaped._replace(takeups=(*self.shaped.takeups, tuck))

    def pleats(self, node: nodes.Pleats) -> Shaped:
        edge, first = self._place(node.edge, node.first)
        _, last = self._place(node.edge, node.last)
        deep = float(self._value(node.deep))
        low, high = sorted((first, last))
        take = _TAKES[node.way] * deep
        if node.number < 1 or deep <= 0:
            self._refuse("pleats have a number and a depth", node.span, f"{node.number} pleats, {length(deep)} deep")
        pitch = (high - low) / node.number
        if take > pitch + 1e-6:
            self.values.fault(
                "pleats-too-deep",
                f"{node.number} {node.way} pleats of {length(deep)} do not fit into this stretch",
                node.span,
                notes=(f"each takes {length(take)}, the stretch has {length(pitch)} for each",),
                help="take fewer or flatter pleats, or give them a longer stretch",
                subject=self.plan.name,
            )
            raise Poisoned
        found = []
        for i in range(node.number):
            name = node.name.text if node.number == 1 else f"{node.name.text}_{i + 1}"
            middle = low + (i + 0.5) * pitch
            found.append(self._folded(node.way, name, edge, middle, take, deep, _LONG, node.pressed))
        return self.shaped._replace(takeups=(*self.shaped.takeups, *found))

    def pivot(self, node: nodes.Pivot) -> Shaped:
        dart = self._known_dart(node.dart)
        edge, at = self._place(node.edge, node.at)
        share = 1.0 if node.share is None else float(self._value(node.share))
        if not 0.0 < share <= 1.0:
            self._refuse("a dart can give more than nothing and at most all of itself", node.span, f"{share:.0%} here")
        mouth = Mouth(dart.edge, dart.first, dart.second, dart.tip)
        ring, rest, opened, shift = pivot(self.shaped.ring, mouth, edge.name, at, share, self.stays)
        others = [_shifted(one, shift) for one in self.shaped.takeups if one is not dart]
        if rest is not None:
            others.append(dart._replace(first=rest.first, second=rest.second))
        name = dart.name if node.part is None else node.part.text
        moved = self._takeup("dart", name, opened, 0.0, dart.bow, None)
        return Shaped(ring, (*others, moved), (*self.shaped.shifts, shift))

    def spread(self, node: nodes.Spread) -> Shaped:
        first, at = self._place(node.first, node.first_at)
        second, there = self._place(node.second, node.second_at)
        by = float(self._value(node.by))
        if by <= 0:
            self._refuse("a piece is spread by more than nothing", node.by.span, "")
        is_angle = node.by.span in self.values.design.shares
        way = opening(by, is_angle, node.hinged)
        ring, shift = spread(self.shaped.ring, (first.name, at), (second.name, there), self.stays, way)
        return Shaped(ring, tuple(_shifted(one, shift) for one in self.shaped.takeups), (*self.shaped.shifts, shift))

    def redraw(self, node: nodes.Redraw) -> Shaped:
        edge = self._edge(node.edge.text, node.edge.span)
        held = sorted((one for one in self.shaped.takeups if one.edge == edge.name), key=lambda one: _held(edge, one))
        if held and not node.closed:
            self._refuse(
                f"the {held[0].title} lies in this edge",
                node.span,
                "it would lose its place",
                help=f"draw the edge with what it takes up closed: redraw {edge.name} closed …",
            )
        if node.closed and not held:
            self._refuse(
                f"nothing is taken up in `{edge.name}` that could be closed",
                node.span,
                help="leave out `closed`, or write the dart above this line",
            )
        mouths = [(Mouth(one.edge, one.first, one.second, one.tip), one.kind == "dart") for one in held]
        closed = closing(edge.path, mouths)
        ends = (edge.path.end, edge.path.start) if edge.backward else (edge.path.start, edge.path.end)
        side = -1 if edge.backward else 1
        drawn = shaped_path(self.values, *ends, node.shape, self.scope, side, node.span, closed.motion_at)
        path, opened = reopened(drawn.reversed() if edge.backward else drawn, closed)
        again = {one.name: _mouthed(one, *ends) for one, ends in zip(held, opened, strict=True)}
        return Shaped(
            redrawn(self.shaped.ring, edge.name, path),
            tuple(again.get(one.name, one) if one.edge == edge.name else one for one in self.shaped.takeups),
            self.shaped.shifts,
        )

    def part(self, node: nodes.Part) -> Shaped:
        edge, first = self._place(node.edge, node.first)
        _, last = self._place(node.edge, node.last)
        if any(one.name == node.name.text for one in self.shaped.ring):
            self._refuse(
                f"the piece has an edge `{node.name.text}` already",
                node.name.span,
                "parts come along with what a piece is taken from",
                help="leave it out, or give it another name",
            )
        low, high = sorted((first, last))
        total = edge.path.length
        if high - low < _LEAST or (low < _LEAST and high > total - _LEAST):
            self._refuse(
                "a part of an edge is some of it, and not all",
                node.span,
                f"it goes from {length(low)} to {length(high)} of {length(total)}",
            )
        if low >= _LEAST and high <= total - _LEAST:
            self._refuse(
                f"what is left of `{edge.name}` would lie on both sides of this part",
                node.span,
                f"{length(low)} before it, {length(total - high)} behind it",
                help="make the rest behind it a part too, in the line above, with a name of its own",
            )
        cut = low if low >= _LEAST else high
        for one in self.shaped.takeups:
            begin, end = _held(edge, one) if one.edge == edge.name else (0.0, 0.0)
            if begin + _ON < cut < end - _ON:
                self._refuse(
                    f"the {one.title} lies across the end of this part",
                    node.span,
                    f"it takes up {length(begin)} to {length(end)} of the edge, which is parted at {length(cut)}",
                )
        sides = [(edge.name, edge.path.between(0.0, cut)), (node.name.text, edge.path.between(cut, total))]
        if cut == high:
            sides = [(node.name.text, sides[0][1]), (edge.name, sides[1][1])]
        parted = [NamedPath(name, path, edge.backward) for name, path in sides]
        names = {one: sides[_held(edge, one)[0] > cut - _ON][0] for one in self.shaped.takeups if one.edge == edge.name}
        at = self.shaped.ring.index(edge)
        return self.shaped._replace(
            ring=(*self.shaped.ring[:at], *parted, *self.shaped.ring[at + 1 :]),
            takeups=tuple(one._replace(edge=names.get(one, one.edge)) for one in self.shaped.takeups),
        )

    def _warn_of_blunt(self, node: nodes.Dart, width: float, leg: float) -> None:
        """A dart nearly as wide as its legs are long would stand out like a cone."""
        if width > _BLUNT * leg:
            self.values.fault(
                "blunt-dart",
                f"dart `{node.name.text}` is too wide for its length",
                node.span,
                notes=(f"it is {length(width)} wide at the edge, its legs are {length(leg)} long",),
                help="let it reach farther in, take up less, or divide it in two: look for a wrong unit too",
                severity=Severity.WARNING,
                subject=self.plan.name,
            )

    # ---- what they share

    def _value(self, expr: nodes.Expr) -> Any:
        return self.values.value(expr, self.scope)

    def _edge(self, name: str, span: Span) -> NamedPath:
        if all(edge.name != name for edge in self.shaped.ring):
            self.values.fault(
                "edge-cut-away",
                f"edge `{name}` of `{self.plan.name}` is cut away",
                span,
                notes=(f"what is left: {', '.join(edge.name for edge in self.shaped.ring)}",),
            )
            raise Poisoned
        return named(self.shaped.ring, name)

    def _place(self, ref: nodes.Ref, expr: nodes.Expr) -> tuple[NamedPath, float]:
        """An edge and a position along the ring, given as length or share from where it is drawn from, or a point."""
        edge = self._edge(ref.words[-1].text, ref.span)
        total = edge.path.length
        value = self._value(expr)
        if isinstance(value, complex):
            at, off = edge.path.nearest(self.shaped.moved(value))
            if off > 1.0:
                self._refuse("this point does not lie on the edge", expr.span, f"it is {length(off)} away")
            return edge, at
        along = self.values.amount(expr, total, self.scope)
        if not 0.0 <= along <= total:
            self._refuse("this place lies beyond the edge", expr.span, f"{length(along)} of {length(total)}")
        return edge, total - along if edge.backward else along

    def _folded(
        self,
        kind: str,
        name: str,
        edge: NamedPath,
        at: float,
        take: float,
        deep: float,
        long: float,
        pressed: str | None,
    ) -> TakeUp:
        """A fold square to an edge, its middle at a position along the ring."""
        path = edge.path
        low, high = at - take / 2, at + take / 2
        if low < -1e-6 or high > path.length + 1e-6:
            raise GeometryFault("too-wide", path.point_at(at), {"width": take, "edge": path.length})
        tip = path.point_at(at) + left(path.tangent_at(at)) * long
        mouth = Mouth(edge.name, path.point_at(low), path.point_at(high), tip)
        return self._takeup(kind, name, mouth, deep, 0.0, pressed)

    def _takeup(self, kind: str, name: str, mouth: Mouth, deep: float, bow: float, pressed: str | None) -> TakeUp:
        """With nothing said, a fold that runs across is pressed down, another toward the middle of the garment."""
        middle = (mouth.first + mouth.second) / 2
        if pressed is not None:
            toward, words = _WAYS[pressed], pressed
        elif abs((mouth.tip - middle).real) > abs((mouth.tip - middle).imag):
            toward, words = -1j, "down"
        else:
            wanted = (*self.middle, self.stays, *(edge.name for edge in self.shaped.ring))
            others = {edge.name: edge.path for edge in self.shaped.ring if edge.name != mouth.edge}
            target = next(edge for edge in wanted if edge in others)
            path = others[target]
            toward, words = (path.start + path.end) / 2 - middle, f"toward the {target.replace('_', ' ')}"
        to_first = dot(toward, mouth.first - mouth.second) > 0
        return TakeUp(
            kind, name, mouth.edge, mouth.first, mouth.second, mouth.tip, deep, bow, to_first, words, self.span
        )

    def _refuse(self, headline: str, span: Span, note: str = "", *, help: str = "") -> NoReturn:
        notes = (note,) if note else ()
        self.values.fault("impossible-shaping", headline, span, notes=notes, help=help, subject=self.plan.name)
        raise Poisoned


_BY_NODE: dict[type, Callable[[_Shaper, Any], Shaped]] = {
    nodes.Dart: _Shaper.dart,
    nodes.Tuck: _Shaper.tuck,
    nodes.Pleats: _Shaper.pleats,
    nodes.Pivot: _Shaper.pivot,
    nodes.Divide: _Shaper.divide,
    nodes.Shorten: _Shaper.shorten,
    nodes.Close: _Shaper.close,
    nodes.Spread: _Shaper.spread,
    nodes.Redraw: _Shaper.redraw,
    nodes.Part: _Shaper.part,
}


def _shifted(one: TakeUp, shift: Shift) -> TakeUp:
    """A take-up after a part of the piece was moved, if it lies in that part."""
    middle = (one.first + one.second) / 2
    if not shift.part.contains(middle + (one.tip - middle) * 1e-3):
        return one
    move = shift.motion.apply
    return one._replace(first=move(one.first), second=move(one.second), tip=move(one.tip))


def _mouthed(one: TakeUp, first: Point, second: Point) -> TakeUp:
    """A take-up with other ends on its edge: the tip of a dart stays, a fold keeps its way inward."""
    aside = 0j if one.kind == "dart" else (first + second - one.first - one.second) / 2
    return one._replace(first=first, second=second, tip=one.tip + aside)


def _held(edge: NamedPath, one: TakeUp) -> tuple[float, float]:
    """The stretch of an edge that a take-up holds, by positions along the ring (mm)."""
    return edge.path.nearest(one.first)[0], edge.path.nearest(one.second)[0]


def _check_apart(plan: PiecePlan, shaped: Shaped, values: Evaluator) -> None:
    """No cloth can be taken up twice."""
    held: list[tuple[float, float, TakeUp]] = []
    for one in shaped.takeups:
        low, high = _held(named(shaped.ring, one.edge), one)
        for begin, end, other in held:
            if other.edge == one.edge and low < end - 1e-3 and begin < high - 1e-3:
                values.fault(
                    "take-ups-overlap",
                    f"the {one.title} and the {other.title} take up the same cloth",
                    one.span,
                    others=(Label(other.span, "this one lies there already"),) if other.span != one.span else (),
                    notes=(f"they overlap by {length(min(end, high) - max(begin, low))} on edge `{one.edge}`",),
                    help="move one of them along the edge, or take up less",
                    subject=plan.name,
                )
                raise Poisoned
        held.append((low, high, one))
