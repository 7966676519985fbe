"""The sides of a seam as one walks along them: edge after edge, each from where the one before ends."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from math import radians, sin
from typing import NamedTuple

from garmentc.design.model import EdgeName, FinishPlan, SeamPlan
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import Draft, DraftedEdge, DraftedPiece
from garmentc.geometry.vector import cross, dot
from garmentc.numbers import length
from garmentc.record import Record

_BEND = sin(radians(20))
"""A side turns a corner where it turns by more than 20 degrees (no source)."""


def is_corner(one: complex, other: complex) -> bool:
    """Whether a line that goes on in another direction turns a corner: a strip does not lie flat across it."""
    return dot(one, other) < 0 or abs(cross(one, other)) > _BEND


class Stretch(Record):
    """One edge of a side: ``before`` is how far the side has run where it begins (mm).

    ``backward`` when the side runs against the outline of the piece.
    """

    name: EdgeName
    piece: DraftedPiece
    edge: DraftedEdge
    before: float
    backward: bool

    @property
    def after(self) -> float:
        """How far the side has run where the edge ends (mm)."""
        return self.before + self.edge.sewn_length

    def direction(self, *, at_end: bool) -> complex:
        """The unit direction in which the side comes onto the edge, or leaves it."""
        path = self.edge.path.reversed() if self.backward else self.edge.path
        return path.end_direction() if at_end else path.start_direction()

    @property
    def corners(self) -> tuple[Corner, Corner]:
        """Both ends of the edge."""
        return self.corner(at_end=False), self.corner(at_end=True)

    def corner(self, *, at_end: bool) -> Corner:
        """Where the side comes onto the edge, or leaves it."""
        index = self.piece.edges.index(self.edge)
        return Corner(self.piece, (index + (at_end != self.backward)) % len(self.piece.edges))

    def beside(self, *, at_end: bool) -> DraftedEdge:
        """The edge of the piece beside this one, where the side comes onto it or leaves it."""
        return next(one for one in self.corner(at_end=at_end).edges if one is not self.edge)

    def onward(self, *, at_end: bool) -> DraftedEdge | None:
        """The edge of the piece that goes straight on beyond an end; None at a corner, and where it lies on a fold."""
        beside = self.beside(at_end=at_end)
        starts_there = at_end != self.backward
        way = beside.path.start_direction() if starts_there else -beside.path.end_direction()
        here = self.direction(at_end=True) if at_end else -self.direction(at_end=False)
        return None if beside.on_fold or is_corner(here, way) else beside


class Corner(NamedTuple):
    """A corner of a piece; corner i lies between edge i - 1 and edge i."""

    piece: DraftedPiece
    place: int

    @property
    def edges(self) -> tuple[DraftedEdge, DraftedEdge]:
        """The two edges that meet there."""
        return self.piece.edges[self.place - 1], self.piece.edges[self.place]


class _Use(Record):
    """An edge as part ``number`` of a side of a seam; ``names`` are all parts of that side."""

    seam: str
    is_first: bool
    number: int
    names: tuple[EdgeName, ...]

    def joints(self, corner: Corner) -> frozenset[int]:
        """At which joints of the side a corner at this edge may lie: 0 is where the side begins.

        An edge with no neighbour of its own piece in the side may be walked either way.
        """
        here, before, after = self.number, self._beside(-1, corner), self._beside(1, corner)
        if before == _AT or (after == _ELSEWHERE and before != _ELSEWHERE):
            return frozenset((here,))
        if after == _AT or before == _ELSEWHERE:
            return frozenset((here + 1,))
        return frozenset((here, here + 1))

    def _beside(self, way: int, corner: Corner) -> int:
        at = self.number + way
        if not 0 <= at < len(self.names) or self.names[at].piece != corner.piece.name:
            return _NO_NEIGHBOUR
        return _AT if self.names[at].edge in {edge.name for edge in corner.edges} else _ELSEWHERE


_NO_NEIGHBOUR, _AT, _ELSEWHERE = range(3)


class Crossings:
    """Which corners of which pieces come together where seams cross."""

    def __init__(self, seams: Iterable[SeamPlan], finishes: Iterable[FinishPlan] = ()) -> None:
        seams = tuple(seams)
        self._edges = {seam.name: seam.edges for seam in seams}
        used = [*self._edges.values(), *(one.edges for one in finishes)]
        self._often = _often(name for edges in used for name in edges)
        self._sewn: dict[tuple[str, str], list[_Use]] = {}
        for seam in seams:
            others = () if seam.mirrored else (seam.second,)
            for names, is_first in ((seam.first, True), *((side, False) for side in (*others, *seam.layers))):
                for number, name in enumerate(names):
                    use = _Use(seam.name, is_first, number, names)
                    self._sewn.setdefault((name.piece, name.edge), []).append(use)

    def uses(self, piece: str, edge: str) -> int:
        """How often seams and finishes use an edge, of one instance of its piece at most."""
        return self._often[piece, edge]

    def is_doubtful(self, name: EdgeName, edge: DraftedEdge) -> bool:
        """Whether an edge can't be meant wherever it is named, since it is used twice or does not exist once cut."""
        return edge.on_fold or self.uses(name.piece, name.edge) > 1

    def is_misled(self, one: Corner, other: Corner, seam: str) -> bool:
        """Whether another seam at one of two corners names an edge that is used twice: it may be meant to join them."""
        seams = {use.seam for corner in (one, other) for use in self._uses(corner)} - {seam}
        return any(self.uses(name.piece, name.edge) > 1 for by in seams for name in self._edges[by])

    def together(self, one: Corner, other: Corner, seam: str) -> bool:
        """Whether two corners are one, or become one by another seam than this."""
        if one.piece.name == other.piece.name and one.place == other.place:
            return True
        return any(True for _ in self.joining(one, other, seam))

    def joining(self, one: Corner, other: Corner, seam: str) -> Iterator[str]:
        """The seams other than this that bring two corners together."""
        return (
            use.seam
            for use in self._uses(one)
            for met in self._uses(other)
            if use.seam == met.seam != seam and use.is_first != met.is_first and _meet(use, one, met, other)
        )

    def meeting(self, corner: Corner) -> list[tuple[str, bool]]:
        """The seams that end at a corner, and whether they do so with their first side."""
        return [(use.seam, use.is_first) for use in self._uses(corner)]

    def _uses(self, corner: Corner) -> list[_Use]:
        return [use for edge in corner.edges for use in self._sewn.get((corner.piece.name, edge.name), ())]


def _often(names: Iterable[EdgeName]) -> Counter[tuple[str, str]]:
    """How often edges are named; uses that speak of one instance each, never of the same, count as one."""
    found: dict[tuple[str, str], Counter[str]] = {}
    for name in names:
        found.setdefault((name.piece, name.edge), Counter())[name.of_one] += 1
    return Counter({key: max(often.values()) if "" not in often else often.total() for key, often in found.items()})


def _meet(use: _Use, one: Corner, met: _Use, other: Corner) -> bool:
    """Whether corners on the two sides of a seam may lie on each other: at one joint, or where but lengths can tell."""
    here, there = use.joints(one), met.joints(other)
    lasts = len(use.names), len(met.names)
    if lasts[0] == lasts[1]:
        return bool(here & there)
    inside = (any(0 < joint < last for joint in joints) for joints, last in zip((here, there), lasts, strict=True))
    return (0 in here and 0 in there) or (lasts[0] in here and lasts[1] in there) or any(inside)


def walk(
    seam: str, names: tuple[EdgeName, ...], draft: Draft, crossings: Crossings, values: Evaluator
) -> tuple[Stretch, ...] | None:
    """A side of a seam in the order in which the spec names its edges, or None where one does not follow the other.

    That is reported.
    """
    ways: list[tuple[Stretch, ...]] = [()]
    run = 0.0
    for name in names:
        piece = draft.piece(name.piece)
        edge = piece.edge(name.edge)
        assert edge is not None
        turns = [Stretch(name, piece, edge, run, backward) for backward in (False, True)]
        longer = [(*way, turn) for way in ways for turn in turns if not way or _follows(way[-1], turn, crossings, seam)]
        if not longer:
            _report(seam, ways[0][-1], turns[0], crossings, values)
            return None
        ways = longer
        run += edge.sewn_length
    return ways[0]


def _follows(one: Stretch, other: Stretch, crossings: Crossings, seam: str) -> bool:
    return crossings.together(one.corner(at_end=True), other.corner(at_end=False), seam)


def _report(seam: str, one: Stretch, other: Stretch, crossings: Crossings, values: Evaluator) -> None:
    if one.piece.name != other.piece.name and any(
        crossings.is_misled(a, b, seam) for a in one.corners for b in other.corners
    ):
        return  # told where the edge is named twice
    if one.piece.name == other.piece.name:
        ends = [(a, b) for a in _ends(one) for b in _ends(other)]
        gap = min(abs(a - b) for a, b in ends)
        note = f"their nearest ends are {length(gap)} apart"
        help = "name edges that share a corner, in the order in which the seam meets them, or write two seams"
        if crossings.together(one.corner(at_end=False), other.corner(at_end=False), seam):
            note = "they touch where the seam comes from, not where it goes on"
    else:
        note = f"no other seam joins the {one.piece.title} to the {other.piece.title} where both edges end"
        help = "join the edges beside them by a seam of its own, or write two seams"
    values.fault(
        "chain-broken",
        f"seam `{seam}` can't go on from `{one.name.text}` to `{other.name.text}`",
        other.name.span,
        others=(Label(one.name.span, "from here"),),
        notes=(note,),
        help=help,
    )


def _ends(stretch: Stretch) -> tuple[complex, complex]:
    return stretch.edge.path.start, stretch.edge.path.end


def turned(side: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """The same side walked from its other end."""
    whole = side[-1].after
    return tuple(one._replace(before=whole - one.after, backward=not one.backward) for one in reversed(side))
