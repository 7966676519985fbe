"""How a tape lies on the leaves of a sewn garment: level as the pattern is drawn, or beside an edge."""

from __future__ import annotations

from math import pi, radians
from typing import Protocol

from garmentc.assembly.gluing import Part
from garmentc.assembly.instances import Leaf, Side
from garmentc.assembly.runs import place_on
from garmentc.draft.functions import InfiniteLine
from garmentc.geometry.crossing import meetings
from garmentc.geometry.line import Line
from garmentc.geometry.outline import Outline
from garmentc.geometry.parallel import parallel
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import Point, turning
from garmentc.numbers import degrees, length
from garmentc.record import Record

OFF = 10.0
"""How far (mm) a tape may lie beside where it came from, where seams are eased; common practice, no source."""
_BEND = radians(60)
"""A tape that would turn by more than this where it crosses a seam is not level on the next piece (no source)."""


class Strayed(Exception):
    """Raised where a tape does not lie on the garment: why, and at which side of a leaf."""

    def __init__(self, note: str, side: Side | None = None) -> None:
        super().__init__(note)
        self.side = side


class Lap(Record):
    """How the tape lies on a leaf: from where it comes on to where it leaves.

    Beside an edge, ``rim`` is that side of the leaf, and ``forward`` when the tape runs as it does.
    """

    leaf: int
    path: Path
    rim: int = -1
    forward: bool = True


class Crossed(Record):
    """Where a tape crosses a seam: from a place ``along`` a side of one leaf to the part of another sewn to it.

    ``run`` is the place on the other side (mm, as sewn), and ``joined`` are the other leaf's sides sewn to the first.
    """

    side: int
    along: float
    other: Part
    run: float
    against: bool
    joined: frozenset[int]


class Tape(Protocol):
    """A way to lay a tape round; both raise Strayed where it does not lie on the leaf."""

    def begun(self, number: int, leaf: Leaf) -> Lap:
        """The first lap, on this leaf."""

    def onward(self, lap: Lap, leaf: Leaf, crossed: Crossed, onto: Leaf) -> Lap:
        """The lap on the next leaf."""


class Level:
    """Along a line on the first piece, and along lines of the same direction on the others, as they are drawn."""

    def __init__(self, line: InfiniteLine) -> None:
        self._line = line

    def begun(self, number: int, leaf: Leaf) -> Lap:
        """The stretch of the line on the leaf that lies nearest to the point it is drawn through."""
        at, direction = self._line.at, self._line.direction
        found = _outline(leaf).line_spans(at, direction)
        if not found:
            raise Strayed(f"the line does not cross the {leaf.piece.title}")
        low, high = min(found, key=lambda one: (max(one[0], -one[1], 0.0), one[0] - one[1]))
        return Lap(number, straight(at + low * direction, at + high * direction))

    def onward(self, lap: Lap, leaf: Leaf, crossed: Crossed, onto: Leaf) -> Lap:
        """Along a line of the same direction, which must not turn much against the seam it crosses."""
        p = _entry(crossed, onto)
        found = _outline(onto).line_spans(p, self._line.direction)
        ends = [(abs(end), low, high, end is low) for low, high in found for end in (low, high)]
        side = onto.sides[crossed.other.edge]
        if not ends or min(ends)[0] > OFF:
            raise Strayed(f"it leaves the {onto.piece.title} where it comes onto it", side)
        _, low, high, from_low = min(ends, key=lambda one: (one[0], one[1] - one[2]))
        first, last = (low, high) if from_low else (high, low)
        path = straight(p + first * self._line.direction, p + last * self._line.direction)
        bend = _bend(lap.path, leaf, path, onto, crossed)
        if bend > _BEND:
            raise Strayed(
                f"it would turn by {degrees(bend)} from the {leaf.piece.title} to the {onto.piece.title}, which are "
                "not drawn the same way up, or flare much",
                side,
            )
        return Lap(crossed.other.disc, path)


class Beside:
    """At a distance from an edge, and from what goes on from it on the other pieces."""

    def __init__(self, edge: Path, distance: float) -> None:
        self._edge = edge
        self._distance = distance

    def begun(self, number: int, leaf: Leaf) -> Lap:
        """Along the edge itself."""
        sides = enumerate(leaf.sides)
        rim = next((i for i, side in sides if side.edge is not None and side.edge.own_path == self._edge), None)
        if rim is None:
            raise Strayed(f"the edge is none of the {leaf.piece.title}")
        return Lap(number, self._path(leaf, rim, forward=True), rim)

    def onward(self, lap: Lap, leaf: Leaf, crossed: Crossed, onto: Leaf) -> Lap:
        """Along the edge of the next leaf that meets the one before at the end of their seam."""
        forward = lap.forward == crossed.against
        step = 1 if forward else -1
        rim, count = crossed.other.edge, len(onto.sides)
        for _ in range(count):
            rim = (rim + step) % count
            if rim not in crossed.joined:
                break
        path = self._path(onto, rim, forward=forward)
        off = abs(path.start - _entry(crossed, onto))
        if off > OFF:
            raise Strayed(
                f"it comes onto the {onto.piece.title} {length(off)} beside where it would lie "
                f"{length(self._distance)} from its edge",
                onto.sides[rim],
            )
        return Lap(crossed.other.disc, path, rim, forward)

    def _path(self, leaf: Leaf, rim: int, *, forward: bool) -> Path:
        outline = _outline(leaf)
        edge = leaf.sides[rim].path
        line = parallel(edge, self._distance * outline.orientation)
        far = sum(abs(one) for one in outline.bounds())
        before = line.start - far * line.start_direction()
        beyond = line.end + far * line.end_direction()
        line = Path((Line(before, line.start), *line.segments, Line(line.end, beyond)))
        middle = line.length / 2
        met = [at for i, side in enumerate(leaf.sides) if i != rim for at, _, _ in meetings(line, side.path)]
        low = max((at for at in met if at < middle), default=None)
        high = min((at for at in met if at > middle), default=None)
        if low is None or high is None or not outline.contains(line.point_at(middle)):
            what = f"{length(self._distance)} from its {leaf.sides[rim].name}"
            raise Strayed(f"it does not lie on the {leaf.piece.title} {what}", leaf.sides[rim])
        path = line.between(low, high)
        return path if forward else path.reversed()


def _outline(leaf: Leaf) -> Outline:
    return Outline(tuple(side.path for side in leaf.sides))


def _entry(crossed: Crossed, onto: Leaf) -> Point:
    side = onto.sides[crossed.other.edge]
    along = place_on(onto.piece, side.edge, crossed.run) if side.edge is not None else crossed.run
    return side.path.point_at(along)


def _bend(before: Path, leaf: Leaf, after: Path, onto: Leaf, crossed: Crossed) -> float:
    """By how much (radians) a tape turns on the cloth where it crosses a seam."""
    out = turning(leaf.sides[crossed.side].path.tangent_at(crossed.along), before.end_direction())
    side = onto.sides[crossed.other.edge]
    along = side.path.nearest(_entry(crossed, onto))[0]
    into = turning(side.path.tangent_at(along), after.start_direction())
    straight_on = pi - abs(out) if crossed.against else abs(out)
    return abs(abs(into) - straight_on)
