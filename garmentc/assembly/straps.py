"""Straps: strips that are caught by both ends where the garment ends, and so make openings of one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.copies import Run
from garmentc.assembly.gluing import Bond, Part
from garmentc.assembly.instances import Cut, Leaf, Side
from garmentc.assembly.model import Inserted, JoinedSeam
from garmentc.assembly.sewing import part_of_run
from garmentc.assembly.turning import ENCLOSES
from garmentc.draft.model import DraftedPiece
from garmentc.record import Record

_NONE = 1e-3  # mm


class _Hold(Record):
    """A part of a rim that holds an end of a strap; ``onward`` when its ring runs the way the side of the seam does."""

    part: Part
    onward: bool


class _End(Record):
    """Where an end of a strap is caught: on parts of the rim in order, on which half of the garment."""

    holds: tuple[_Hold, ...]
    half: int
    taken: float


class Straps:
    """Finds the strips that are straps, and sews them on.

    ``worn`` are the leaves that lie outside. ``halves`` are those that hang together without the seams and folds that
    lead from the left half of a garment to the right: a strap stays on its half.
    """

    def __init__(
        self, cut: Cut, seams: Iterable[JoinedSeam], worn: Iterable[int], halves: Iterable[Sequence[int]]
    ) -> None:
        self._cut = cut
        self._rims = [seam for seam in seams if seam.join.turning == ENCLOSES]
        self._worn = frozenset(worn)
        self._half = {disc: i for i, half in enumerate(halves) for disc in half}

    def sewn_on(self, strips: Iterable[DraftedPiece]) -> tuple[list[Leaf], list[Bond]]:
        """A leaf for each strap, numbered on from those of the pieces, and what holds its two ends."""
        leaves: list[Leaf] = []
        bonds: list[Bond] = []
        for strip in strips:
            for copy, (one, other) in enumerate(self._pairs(strip)):
                number = len(self._cut.leaves) + len(leaves)
                making = strip.making
                assert making is not None
                wide = [sum(hold.part.length for hold in end.holds) for end in (one, other)]
                long = max(making.length - one.taken - other.taken, 1.0)
                lengths = (wide[0], long, wide[1], long)
                sides = tuple(
                    Side(edge.name.removeprefix("far_"), edge.path, length, edge)
                    for edge, length in zip(strip.edges, lengths, strict=True)
                )
                leaves.append(Leaf(strip, "", copy, False, sides))
                for edge, end in ((0, one), (2, other)):
                    bonds += self._held(number, edge, end, strip.name)
        return leaves, bonds

    def _pairs(self, strip: DraftedPiece) -> list[tuple[_End, _End]]:
        """The ends of each copy, when all of them are caught by both."""
        groups = [
            list(self._ends(strip, seam, insert))
            for seam in self._rims
            for insert in seam.inserts
            if insert.strip == strip.name and not insert.folded
        ]
        if sum(map(len, groups)) != 2 * strip.copies:
            return []
        if len(groups) == 2:
            free = list(groups[1])
            pairs = []
            for one in groups[0]:
                other = next((end for end in free if end.half == one.half), free[0])
                free.remove(other)
                pairs.append((one, other))
            return pairs
        ends = [end for group in groups for end in group]
        return list(zip(ends[::2], ends[1::2], strict=True))

    def _ends(self, strip: DraftedPiece, seam: JoinedSeam, insert: Inserted) -> Iterator[_End]:
        """Where an insert catches a strip, place by place."""
        assert strip.making is not None
        reach = strip.making.finished_width / 2
        caught = next(side for side in seam.sides if any(one.piece.name == insert.piece for one in side))
        pairs = [seam.sewn[number] for number in insert.sewn]
        for number in range(0, len(pairs), 2 if insert.at_fold else 1):
            for side, which in ((seam.sides[0], 0), (seam.sides[1], 1)):
                at = insert.run * side[-1].after / caught[-1].after
                holds = list(self._holds(side, pairs[number][which], at - reach, at + reach))
                if insert.at_fold and number + 1 < len(pairs):
                    holds = self._over_fold(side, pairs[number + 1][which], at, reach, holds)
                if holds and all(hold.part.disc in self._worn for hold in holds):
                    yield _End(tuple(holds), self._half[holds[0].part.disc], seam.join.allowance)
                    break

    def _holds(self, side: Sequence[Stretch], run: Run, low: float, high: float) -> Iterator[_Hold]:
        for stretch in side:
            if min(high, stretch.after) - max(low, stretch.before) > _NONE:
                yield _Hold(part_of_run(stretch, run, low, high, self._cut), not stretch.backward)

    def _over_fold(self, side: Sequence[Stretch], run: Run, at: float, reach: float, holds: list[_Hold]) -> list[_Hold]:
        """The same with what lies beyond the fold at which a side begins or ends."""
        beyond = [hold._replace(onward=not hold.onward) for hold in self._holds(side, run, at - reach, at + reach)]
        if at < side[-1].after / 2:
            return [*reversed(beyond), *holds]
        return [*holds, *reversed(beyond)]

    def _held(self, number: int, edge: int, end: _End, name: str) -> Iterator[Bond]:
        """What holds an end so that the strap is not twisted: its ring runs against the rim as the body wears it."""
        first = end.holds[0]
        rim_onward = first.onward != self._cut.leaves[first.part.disc].mirrored
        at = 0.0
        for hold in reversed(end.holds) if rim_onward else end.holds:
            own = Part(number, edge, at, at + hold.part.length)
            yield Bond(own, hold.part, rim_onward == hold.onward, name)
            at = own.high
