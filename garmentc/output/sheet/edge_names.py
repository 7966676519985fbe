"""Finds places for the names of edges in a sketch: clear of every line, and beyond doubt which edge is meant."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from garmentc.geometry.segments import Box
from garmentc.geometry.vector import Point, left, unit
from garmentc.output.patterns.clear import Ground
from garmentc.record import Record

# All in heights of the letters.
_WIDE = 0.6  # mean width of a letter; the sheet takes whatever font is there
_LOW, _HIGH = 0.3, 0.95  # what a word takes below and above its base line
_CLEAR = 0.2  # that words keep from lines and from each other
_STEP = 1.0  # between two points of an edge, where the nearest edge is looked for
_GAPS = (0.45, 0.9, 1.5, 2.4, 3.6, 5.0, 7.0, 10.0, 14.0)  # between an edge and its name
_NEAR = 1.0  # a name farther from its edge has a line that leads there

_SHARES = (0.5, 0.38, 0.62, 0.22, 0.78)  # places along an edge, best first
_TURNS = (0.0, 0.4, -0.4, 0.8, -0.8, 1.2, -1.2)  # radians off the square
_UPRIGHT = 0.35  # a way that leans less than this to the side has the name above or below its end
_ALONE = 1.6  # a name without a leading line is so many times nearer to its own edge than to any other
_MOVED = 3  # fewer names than this make room for another
_INSIDE = 1.0  # what lying inside counts against a place, in heights


class NamedEdge(Record):
    """An edge to be named: points along its drawn line outside and inside (the same without an allowance).

    A line inside the piece can also be named from its ends, ``from_ends``.
    """

    text: str
    outer: tuple[Point, ...]
    inner: tuple[Point, ...]
    from_ends: bool = False


class Name(Record):
    """A name: its base line begins, has its middle or ends ``at`` a point, as ``anchor`` (start, middle, end) says.

    ``leader`` is a line from the edge to a name that lies apart.
    """

    text: str
    at: Point
    anchor: str
    box: Box
    leader: tuple[Point, Point] | None


class _Way(Record):
    """A way from an edge to its name; ``extra`` is what counts against it, and it may leave the edge slanting."""

    start: Point
    outward: complex
    extra: float
    slants: bool


class _Place(Record):
    name: Name
    edge: Point
    near: Point


def name_edges(edges: Sequence[NamedEdge], lines: Iterable[Sequence[Point]], letter: float) -> list[Name]:
    """The names that find a place, in the order of the edges; ``lines`` are all that is drawn, as points (y up)."""
    sketch = _Names(edges, lines, letter)
    for i in sorted(range(len(edges)), key=lambda i: (_length(edges[i].outer), i)):  # short edges have least choice
        if not sketch.give(i):
            sketch.give_instead(i)
    return [sketch.found[i] for i in sorted(sketch.found)]


class _Kept:
    """The places of a generator, found when they are first asked for, and kept."""

    def __init__(self, places: Iterator[_Place]) -> None:
        self._found: list[_Place] = []
        self._rest = places

    def __iter__(self) -> Iterator[_Place]:
        yield from self._found
        for place in self._rest:
            self._found.append(place)
            yield place


class _Names:
    """A sketch being lettered; ``found`` are the names so far, by the number of the edge."""

    def __init__(self, edges: Sequence[NamedEdge], lines: Iterable[Sequence[Point]], letter: float) -> None:
        self.found: dict[int, Name] = {}
        self._edges = edges
        self._letter = letter
        self._near = [_Kept(self._beside(i)) for i in range(len(edges))]
        self._far = [_Kept(self._led(i)) for i in range(len(edges))]
        self._ground = Ground((0j,), 0.0)
        self._ground.walls = [(a, b, _CLEAR * letter) for line in lines for a, b in pairwise(line)]

    def give(self, i: int) -> bool:
        """Name an edge at the best place that is left; says whether there is one."""
        taken = self._taken(self.found.values())
        for places in (self._near[i], self._far[i]):
            free = next((place for place in places if _is_clear(place, taken, self._letter)), None)
            if free is not None:
                self.found[i] = free.name
                return True
        return False

    def give_instead(self, i: int) -> None:
        """Name an edge where other names are now, if those find other places."""
        before = dict(self.found)
        taken = {j: self._taken([name]) for j, name in before.items()}
        for place in self._far[i]:
            hit = [j for j in before if not _is_clear(place, taken[j], self._letter)]
            self.found = {j: name for j, name in before.items() if j not in hit}
            self.found[i] = place.name
            if len(hit) < _MOVED and all(self.give(j) for j in hit):
                return
        self.found = before

    def _beside(self, i: int) -> Iterator[_Place]:
        """Places clear of all lines so near to an edge that no other can be meant, best first."""
        others = [edge for j, edge in enumerate(self._edges) if j != i]
        lines = {line for other in others for line in (other.outer, other.inner)}
        rivals = [p for line in lines for p in _dots(line, _STEP * self._letter)]
        for _, _, gap, way in _in_order(self._edges[i], [gap for gap in _GAPS if gap <= _NEAR]):
            if way.slants:
                continue
            place = _place(self._edges[i].text, way, gap, self._letter)
            if not _is_clear(place, self._ground, self._letter):
                continue
            own = abs(place.near - place.edge)
            if all(_apart(p, place.name.box) >= _ALONE * own for p in rivals):
                yield place

    def _led(self, i: int) -> Iterator[_Place]:
        """Places clear of all lines to which a line has to lead from the edge, best first."""
        blocked = set()
        for _, n, gap, way in _in_order(self._edges[i], [gap for gap in _GAPS if gap > _NEAR]):
            if n in blocked:
                continue
            place = _place(self._edges[i].text, way, gap, self._letter)
            if not _is_open(place, self._ground, self._letter):
                blocked.add(n)  # nor is it farther out
            elif _is_clear(place, self._ground, self._letter):
                yield place

    def _taken(self, names: Iterable[Name]) -> Ground:
        taken = Ground((0j,), 0.0)
        taken.walls = []
        for name in names:
            x0, y0, x1, y1 = name.box
            taken.walls.append((complex(x0, (y0 + y1) / 2), complex(x1, (y0 + y1) / 2), (y1 - y0) / 2))
            if name.leader is not None:
                taken.walls.append((*name.leader, _CLEAR * self._letter))
        return taken


def _is_clear(place: _Place, ground: Ground, letter: float) -> bool:
    """Whether a name and the line to it touch no wall."""
    x0, y0, x1, y1 = place.name.box
    return not ground.meets(complex(x0, y0), 1 + 0j, x1 - x0, y1 - y0) and _is_open(place, ground, letter)


def _is_open(place: _Place, ground: Ground, letter: float) -> bool:
    """Whether the line to a name, if it has one, touches no wall once it has left its own edge."""
    if place.name.leader is None:
        return True
    start, end = place.name.leader
    along = unit(end - start)
    begin = start + along * (2 * _CLEAR * letter)
    return not ground.meets(begin, along, abs(end - begin), 0.0)


def _in_order(edge: NamedEdge, gaps: Iterable[float]) -> list[tuple[float, int, float, _Way]]:
    """Ways with their number, and gaps on them, by what counts against them."""
    return sorted((gap + way.extra, n, gap, way) for n, way in enumerate(_ways(edge)) for gap in gaps)


def _ways(edge: NamedEdge) -> Iterator[_Way]:
    for line, side in ((edge.outer, 1), (edge.inner, -1)):
        for share in _SHARES:
            p, along = _at(line, share)
            for turn in _TURNS:
                extra = 2 * abs(share - 0.5) + abs(turn) + (_INSIDE if side < 0 else 0.0)
                yield _Way(p, -side * left(along) * cmath.rect(1.0, turn), extra, turn != 0.0)
    if edge.from_ends:
        yield _Way(edge.outer[0], unit(edge.outer[0] - edge.outer[1]), _INSIDE, False)
        yield _Way(edge.outer[-1], unit(edge.outer[-1] - edge.outer[-2]), _INSIDE, False)


def _place(text: str, way: _Way, gap: float, letter: float) -> _Place:
    """The name at the end of a way out from an edge, the gap in heights of the letters."""
    p, outward = way.start, way.outward
    near = p + outward * gap * letter
    wide = len(text) * _WIDE * letter
    if abs(outward.real) < _UPRIGHT:
        anchor = "middle"
        at = near + complex(0, (_LOW if outward.imag > 0 else -_HIGH) * letter)
    else:
        anchor = "start" if outward.real > 0 else "end"
        at = near - complex(0, (_HIGH - _LOW) / 2 * letter)
    x0 = at.real - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    box = (x0, at.imag - _LOW * letter, x0 + wide, at.imag + _HIGH * letter)
    leader = (p, p + outward * (gap - _CLEAR) * letter) if gap > _NEAR else None
    return _Place(Name(text, at, anchor, box, leader), p, near)


def _apart(p: Point, box: Box) -> float:
    x0, y0, x1, y1 = box
    return math.hypot(max(x0 - p.real, p.real - x1, 0.0), max(y0 - p.imag, p.imag - y1, 0.0))


def _dots(line: Sequence[Point], step: float) -> Iterator[Point]:
    """Points along a line, no farther apart than a step."""
    for a, b in pairwise(line):
        parts = max(1, math.ceil(abs(b - a) / step))
        yield from (a + (b - a) * i / parts for i in range(parts + 1))


def _at(line: Sequence[Point], share: float) -> tuple[Point, complex]:
    """The point at a share of a line, and the direction there."""
    rest = share * _length(line)
    for a, b in pairwise(line):
        if abs(b - a) >= rest and a != b:
            return a + (b - a) * (rest / abs(b - a)), unit(b - a)
        rest -= abs(b - a)
    return line[-1], unit(line[-1] - line[0])


def _length(line: Sequence[Point]) -> float:
    return sum(abs(b - a) for a, b in pairwise(line))
