"""Splits lines into what a ruler draws and what needs a table of offsets, and measures those tables."""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import pairwise

from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, turning, unit
from garmentc.output.byhand.ruler import Ruler
from garmentc.record import Record

_STRAIGHT = 0.15  # mm that a line may bow and still be drawn with a ruler
_BIT, _STRAIGHT_BIT = 30.0, 0.6  # mm; a line no longer than this may bow more
_KINK = math.radians(1.0)
_RULED = 40.0  # mm; a straight stretch this long within a curve is drawn with the ruler
_STEEP = 1.2  # rise of a curve over its base line; where it is steeper, the curve is split
_SHORT = 12.0  # mm; what is shorter is not split again
_OFF = 0.4  # mm that a smooth line through the marks of a table may leave the curve
_SAG = 0.8  # mm that straight lines between its marks may leave it: more, and its ends could be drawn in other ways
_LAST = 0.4  # of a step; the last mark keeps so far from the end, where rounding would bend the line
_FINE = 0.01  # mm


class Offset(Record):
    """A place of a table: so far along the base line (mm), the curve is so far on its left (mm, else on its right)."""

    along: float
    height: float


def stretches(path: Path) -> list[Path]:
    """A path from corner to corner, its curves split where they turn too far away from their base lines."""
    return [part for smooth in _smooth(path) for part in _level(smooth)]


def is_ruled(path: Path) -> bool:
    """Whether it is drawn with a ruler."""
    return path.is_straight(_STRAIGHT if path.length > _BIT else _STRAIGHT_BIT)


def table(path: Path, start: Point, end: Point, ruler: Ruler) -> tuple[Offset, ...]:
    """Offsets of a curve from the straight line between two points near its ends, close enough to draw it from them.

    The widest stations that do are taken, or else the narrowest.
    """
    way = unit(end - start)
    long = abs(end - start)
    points = [(p - start) * way.conjugate() for p in path.flatten(_FINE)]
    rows: tuple[Offset, ...] = ()
    for step in ruler.stations:
        count = math.floor(long / step - _LAST)
        exact = [Offset(i * step, _height(points, i * step)) for i in range(1, count + 1)]
        rows = tuple(row._replace(height=ruler.height(row.height)) for row in exact)
        if len(rows) >= 3 and _strays(points, long, exact) <= _OFF and _sags(points, long, step) <= _SAG:
            break
    return rows


def drawn(start: Point, end: Point, rows: Sequence[Offset]) -> list[Point]:
    """Points of the smooth line that a hand draws through the marks of a table, from start to end."""
    way = unit(end - start)
    known = [Offset(0.0, 0.0), *rows, Offset(abs(end - start), 0.0)]
    return [start + complex(x, y) * way for x, y in _through(known)]


def _smooth(path: Path) -> Iterator[Path]:
    """The parts between corners; long straight stretches are parts of their own."""
    group = [path.segments[0]]
    for before, after in pairwise(path.segments):
        bend = abs(turning(before.tangent(1.0), after.tangent(0.0)))
        ruled = [one.is_straight(_STRAIGHT) and one.length() >= _RULED for one in (before, after)]
        if bend > _KINK or ruled[0] != ruled[1]:
            yield Path(tuple(group))
            group = []
        group.append(after)
    yield Path(tuple(group))


def _level(path: Path) -> list[Path]:
    """A smooth path in parts that rise little over the straight lines between their ends."""
    if is_ruled(path) or path.length <= _SHORT:
        return [path]
    if abs(path.chord) > 0.1 * path.length:
        way = unit(path.chord).conjugate()
        points = path.flatten(_FINE)
        steps = [(b - a) * way for a, b in pairwise(points)]
        if all(step.real > 0 and abs(step.imag) <= _STEEP * step.real for step in steps):
            return [path]
        top = max(points, key=lambda p: abs(((p - path.start) * way).imag))
        at = path.nearest(top)[0]
    else:
        at = path.length / 2
    if min(at, path.length - at) < _SHORT / 3:
        at = path.length / 2
    one, other = path.split_at(at)
    return [*_level(one), *_level(other)]


def _height(points: Sequence[Point], x: float) -> float:
    """The height of a line of points, in order of their x."""
    i = min(max(bisect_left(points, x, key=lambda p: p.real), 1), len(points) - 1)
    a, b = points[i - 1], points[i]
    run = b.real - a.real
    return a.imag + (b.imag - a.imag) * (x - a.real) / run if run > 0.0 else a.imag


def _strays(points: Sequence[Point], long: float, rows: Sequence[Offset]) -> float:
    """How far the smooth line through exact marks leaves a curve."""
    ends = [Offset(0.0, _height(points, 0.0)), *rows, Offset(long, _height(points, long))]
    return max(abs(_height(points, x) - y) for x, y in _through(ends))


def _sags(points: Sequence[Point], long: float, step: float) -> float:
    """How far a curve leaves the straight lines between marks at equal steps."""
    marks = [*(i * step for i in range(math.floor(long / step - _LAST) + 1)), long]
    return max(
        abs(_height(points, (a + b) / 2) - (_height(points, a) + _height(points, b)) / 2) for a, b in pairwise(marks)
    )


def _through(known: Sequence[Offset]) -> Iterator[tuple[float, float]]:
    """A smooth line: between two marks the cubic through these and the next on either side (Lagrange)."""
    last = len(known) - 1
    for i in range(last):
        near = known[max(0, min(i - 1, last - 3)) : max(0, min(i - 1, last - 3)) + 4]
        for part in range(8):
            x = known[i].along + (known[i + 1].along - known[i].along) * part / 8
            yield x, _cubic(near, x)
    yield known[-1].along, known[-1].height


def _cubic(near: Sequence[Offset], x: float) -> float:
    total = 0.0
    for one in near:
        share = one.height
        for other in near:
            if other is not one:
                share *= (x - other.along) / (one.along - other.along)
        total += share
    return total
