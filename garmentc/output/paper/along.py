"""The size written along its own cut line, again and again, where the lines lie far enough apart."""

from __future__ import annotations

import bisect
import math
from collections.abc import Sequence
from itertools import pairwise

from garmentc.geometry.vector import Point
from garmentc.output.patterns.arrows import upright
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.scene import Words
from garmentc.record import Record

_HEIGHTS = (2.8, 2.2, 1.7)  # mm of capitals
_EVERY = 150.0  # mm of a line for each label
_STEP = 1.5  # mm between the points by which lines are found
_CELL = 6.0  # mm
_AIR = 0.5  # mm of white between a label and the next line
_TRIES = 24  # places along a stretch


class Line(Record):
    """The cut line of an edge in one size, as points."""

    size: str
    edge: str
    points: tuple[Point, ...]


class SizeLabel(Record):
    size: str
    words: Words


class _Near:
    """All lines as points in cells, to be found by where they are; labels too, once they are placed."""

    def __init__(self, lines: Sequence[Line]) -> None:
        self._cells: dict[tuple[int, int], list[tuple[Point, int]]] = {}
        for number, line in enumerate(lines):
            for a, b in pairwise(line.points):
                self.add(a, b, number)

    def add(self, a: Point, b: Point, number: int) -> None:
        count = max(1, math.ceil(abs(b - a) / _STEP))
        cells = self._cells
        for i in range(count):
            p = a + (b - a) * i / count
            cells.setdefault((int(p.real // _CELL), int(p.imag // _CELL)), []).append((p, number))

    def is_clear(self, middle: Point, along: complex, half_long: float, half_high: float, own: int) -> bool:
        """Whether a box holds no point of another line."""
        reach = half_long + half_high
        low_x, high_x = int((middle.real - reach) // _CELL), int((middle.real + reach) // _CELL)
        low_y, high_y = int((middle.imag - reach) // _CELL), int((middle.imag + reach) // _CELL)
        back = along.conjugate()
        for x in range(low_x, high_x + 1):
            for y in range(low_y, high_y + 1):
                for p, number in self._cells.get((x, y), ()):
                    if number != own:
                        away = (p - middle) * back
                        if abs(away.real) < half_long and abs(away.imag) < half_high:
                            return False
        return True


def labels_along(lines: Sequence[Line]) -> list[SizeLabel]:
    """Labels on the lines; where sizes share a line, or lie too near to each other all along, there are none."""
    near = _Near(lines)
    found: list[SizeLabel] = []
    for number, line in enumerate(lines):
        stations = [0.0]
        for a, b in pairwise(line.points):
            stations.append(stations[-1] + abs(b - a))
        length = stations[-1]
        stretches = max(1, round(length / _EVERY))
        for stretch in range(stretches):
            words = _label(near, line, number, stations, length * stretch / stretches, length / stretches)
            if words is not None:
                found.append(SizeLabel(line.size, words))
                corners = words.corners
                for a, b in pairwise((*corners, corners[0])):
                    near.add(a, b, -1)
    return found


def _label(near: _Near, line: Line, number: int, stations: Sequence[float], start: float, long: float) -> Words | None:
    for height in _HEIGHTS:
        wide = text_width(line.size, height)
        if wide > 0.6 * long:
            continue
        for i in range(_TRIES):
            # From the middle of the stretch outward, first to one side and then to the other.
            share = 0.5 + (i + 1) // 2 * (1 if i % 2 else -1) / _TRIES
            at, along = _place(line.points, stations, start + share * long)
            half_long, half_high = wide / 2 + _AIR, height * 0.65 + _AIR
            if near.is_clear(at, along, half_long, half_high, number):
                along = upright(along)
                return Words("size", line.size, at - along * 1j * height / 2, along, height, True, line.edge)
    return None


def _place(points: Sequence[Point], stations: Sequence[float], s: float) -> tuple[Point, complex]:
    """The point at a distance along points, and the direction there."""
    i = min(max(bisect.bisect_right(stations, s) - 1, 0), len(points) - 2)
    along = points[i + 1] - points[i]
    way = along / abs(along)
    return points[i] + way * (s - stations[i]), way
