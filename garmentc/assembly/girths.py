"""How wide a sewn garment is at a level: a tape laid over the pieces, across their seams, back to its start."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.gluing import Part
from garmentc.assembly.instances import Leaf, Side
from garmentc.assembly.runs import place_on, sewn_to
from garmentc.assembly.sewn import Surface
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.functions import InfiniteLine
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import DraftedPiece
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.crossing import line_places
from garmentc.geometry.outline import Outline
from garmentc.geometry.vector import Point, dot
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span

_ON = 0.05  # mm; a point nearer than this to an edge lies on it
_OFF = 10.0
"""How far (mm) a tape may miss its own start after going round, where seams are eased; common practice, no source."""
_MOST = 500


class _Crossing(Record):
    """Where the tape lies on a leaf: it comes on at one point and leaves at another."""

    leaf: int
    enters: Point
    leaves: Point


class Girths:
    """What is known of a garment once it is sewn together, as values of a spec may ask for it."""

    def __init__(self, surface: Surface, values: Evaluator) -> None:
        self._surface = surface
        self._values = values

    def opening(self, name: str) -> float:
        """How long an opening is all round (mm); raises Poisoned where there is none."""
        for opening in self._surface.openings:
            if name in opening.names:
                return opening.length
        raise Poisoned

    def girth(self, piece: DraftedPiece, line: InfiniteLine, span: Span) -> float:
        """How wide the garment is all round along a line of a piece (mm), darts and tucks closed.

        On the pieces that follow, the tape goes on at right angles to the upright of the pattern, as they are drawn.
        Raises Poisoned, after a finding, where it comes to an open edge or does not come back to its start.
        """
        leaves = self._surface.leaves
        start = next(i for i, leaf in enumerate(leaves) if leaf.piece.name == piece.name and not leaf.part)
        first = self._begun(start, line, span)
        total, at, direction = self._across(first, line.direction), first, line.direction
        for _ in range(_MOST):
            at, direction = self._beyond(at, line, span)
            if at.leaf == start and abs(at.enters - first.enters) < abs(at.enters - first.leaves):
                off = abs(at.enters - first.enters)
                if off > _OFF:
                    raise self._fault(span, f"the tape comes back {length(off)} beside its start")
                return total
            total += self._across(at, direction)
        raise self._fault(span, "the tape does not come back to its start")

    def _begun(self, leaf: int, line: InfiniteLine, span: Span) -> _Crossing:
        outline = _outline(self._surface.leaves[leaf])
        found = outline.line_spans(line.at, line.direction)
        if not found:
            raise self._fault(span, f"the line does not cross the {self._surface.leaves[leaf].piece.title}")
        low, high = min(found, key=lambda one: (max(one[0], -one[1], 0.0), one[0] - one[1]))
        return _Crossing(leaf, line.at + low * line.direction, line.at + high * line.direction)

    def _beyond(self, at: _Crossing, line: InfiniteLine, span: Span) -> tuple[_Crossing, complex]:
        """The next leaf that the tape crosses, and the direction in which it does."""
        leaf = self._surface.leaves[at.leaf]
        for number, side in enumerate(leaf.sides):
            along, off = side.path.nearest(at.leaves)
            if off > _ON:
                continue
            sewn = sewn_to(leaf.piece, side.edge, along) if side.edge is not None else along
            for one, other, against in self._bonds(at.leaf, number):
                if one.low - _ON <= sewn <= one.high + _ON:
                    share = min(max((sewn - one.low) / one.length, 0.0), 1.0)
                    run = other.high - share * other.length if against else other.low + share * other.length
                    return self._on(other, run, line, span)
        open_at = next((side for side in leaf.sides if side.path.nearest(at.leaves)[1] <= _ON), leaf.sides[0])
        raise self._fault(span, f"it is open there at the {spoken(open_at.name)} of the {leaf.piece.title}", open_at)

    def _on(self, part: Part, run: float, line: InfiniteLine, span: Span) -> tuple[_Crossing, complex]:
        leaf = self._surface.leaves[part.disc]
        side = leaf.sides[part.edge]
        along = place_on(leaf.piece, side.edge, run) if side.edge is not None else run
        p = side.path.point_at(along)
        found = _outline(leaf).line_spans(p, line.direction)
        ends = [(abs(end), low, high, end is low) for low, high in found for end in (low, high)]
        if not ends or min(ends)[0] > _OFF:
            raise self._fault(span, f"it leaves the {leaf.piece.title} where it comes onto it", side)
        _, low, high, from_low = min(ends, key=lambda one: (one[0], one[1] - one[2]))
        first, last = (low, high) if from_low else (high, low)
        crossing = _Crossing(part.disc, p + first * line.direction, p + last * line.direction)
        return crossing, line.direction if from_low else -line.direction

    def _bonds(self, leaf: int, side: int) -> Iterator[tuple[Part, Part, bool]]:
        for bond in self._surface.bonds:
            for one, other in ((bond.one, bond.other), (bond.other, bond.one)):
                if (one.disc, one.edge) == (leaf, side):
                    yield one, other, bond.against

    def _across(self, at: _Crossing, direction: complex) -> float:
        """How much cloth of a leaf lies along the tape (mm), without what darts and tucks take."""
        wide = abs(at.leaves - at.enters)
        for one in self._surface.leaves[at.leaf].piece.takeups:
            if one.kind not in ("dart", "tuck"):
                continue
            legs = takeup_lines(one).legs
            places = [
                [dot(p - at.enters, direction) for _, p in line_places(leg, at.enters, direction)] for leg in legs
            ]
            if all(places):
                first, second = places[0][0], places[1][0]
                if min(first, second) >= -_ON and max(first, second) <= wide + _ON:
                    wide -= abs(first - second)
        return wide

    def _fault(self, span: Span, note: str, side: Side | None = None) -> Poisoned:
        drawn = None if side is None or side.edge is None else side.edge.span
        self._values.fault(
            "no-girth",
            "the sewn garment has no girth here",
            span,
            others=() if drawn is None else (Label(drawn, "drawn here"),),
            notes=(note,),
            help="choose another level, or add up the widths of the pieces: width(PIECE, LINE)",
        )
        return Poisoned()


def _outline(leaf: Leaf) -> Outline:
    return Outline(tuple(side.path for side in leaf.sides))
