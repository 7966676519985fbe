"""How wide a sewn garment is: a tape laid over the pieces, across their seams, back to its start."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.gluing import Part
from garmentc.assembly.runs import sewn_to
from garmentc.assembly.sewn import Surface
from garmentc.assembly.tapes import OFF, Beside, Crossed, Lap, Level, Strayed, Tape
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.functions import InfiniteLine
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import DraftedPiece
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.crossing import meetings
from garmentc.geometry.path import Path
from garmentc.numbers import length
from garmentc.source import Span

_ON = 0.05  # mm; a point nearer than this to an edge lies on it
_MOST = 500


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

        On the pieces that follow, the tape goes on level as they are drawn. Raises Poisoned, after a finding, where it
        comes to an open edge, turns, or does not come back to its start.
        """
        return self._round(piece, Level(line), span)

    def girth_beside(self, piece: DraftedPiece, edge: Path, distance: float, span: Span) -> float:
        """The same at a distance (mm) from an edge of a piece, and from what goes on from it on the other pieces."""
        return self._round(piece, Beside(edge, distance), span)

    def _round(self, piece: DraftedPiece, tape: Tape, span: Span) -> float:
        leaves = self._surface.leaves
        start = next(i for i, leaf in enumerate(leaves) if leaf.piece.name == piece.name and not leaf.part)
        try:
            lap = first = tape.begun(start, leaves[start])
            total = self._long(first)
            for _ in range(_MOST):
                crossed = self._crossed(lap)
                lap = tape.onward(lap, leaves[lap.leaf], crossed, leaves[crossed.other.disc])
                off = abs(lap.path.start - first.path.start)
                if lap.leaf == start and off < abs(lap.path.start - first.path.end):
                    if off > OFF:
                        raise Strayed(f"the tape comes back {length(off)} beside its start")
                    return total
                total += self._long(lap)
            raise Strayed("the tape does not come back to its start")
        except Strayed as strayed:
            raise self._fault(span, strayed) from None

    def _crossed(self, lap: Lap) -> Crossed:
        """Where the tape leaves a leaf over a seam."""
        leaf = self._surface.leaves[lap.leaf]
        open_at = leaf.sides[0]
        for number, side in enumerate(leaf.sides):
            along, off = side.path.nearest(lap.path.end)
            if off > _ON:
                continue
            open_at = side
            sewn = sewn_to(leaf.piece, side.edge, along) if side.edge is not None else along
            for one, other, against in self._bonds(lap.leaf, number):
                if one.low - _ON <= sewn <= one.high + _ON:
                    share = min(max((sewn - one.low) / one.length, 0.0), 1.0)
                    run = other.high - share * other.length if against else other.low + share * other.length
                    return Crossed(number, along, other, run, against, self._joined(other.disc, lap.leaf))
        raise Strayed(f"it is open there at the {spoken(open_at.name)} of the {leaf.piece.title}", open_at)

    def _bonds(self, leaf: int, side: int) -> Iterator[tuple[Part, Part, bool]]:
        for bond in self._surface.bonds:
            for one, other in ((bond.one, bond.other), (bond.other, bond.one)):
                if (one.disc, one.edge) == (leaf, side):
                    yield one, other, bond.against

    def _joined(self, leaf: int, to: int) -> frozenset[int]:
        """The sides of a leaf that are sewn to another one."""
        sides = range(len(self._surface.leaves[leaf].sides))
        return frozenset(
            side for side in sides if any(other.disc == to and leaf != to for _, other, _ in self._bonds(leaf, side))
        )

    def _long(self, lap: Lap) -> float:
        """How much cloth of a leaf lies along the tape (mm), without what darts and tucks take."""
        piece = self._surface.leaves[lap.leaf].piece
        long = lap.path.length
        for one in piece.takeups:
            if one.kind not in ("dart", "tuck"):
                continue
            first, second = (meetings(lap.path, leg) for leg in takeup_lines(one).legs)
            if first and second:
                long -= abs(first[0][0] - second[0][0])
        return long

    def _fault(self, span: Span, strayed: Strayed) -> Poisoned:
        side = strayed.side
        drawn = None if side is None or side.edge is None else side.edge.span
        self._values.fault(
            "no-girth",
            "the sewn garment has no girth here",
            span,
            others=() if drawn is None else (Label(drawn, "drawn here"),),
            notes=(str(strayed),),
            help="choose another level, let the tape follow an edge with girth(PIECE, POINT, EDGE), or add up widths: "
            "width(PIECE, LINE)",
        )
        return Poisoned()
