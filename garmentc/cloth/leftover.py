"""What is left of a cloth: the largest upright rectangles beside the shapes, one after the other."""

from __future__ import annotations

import math

from garmentc.cloth.model import Plan
from garmentc.cloth.verify import left_over
from garmentc.geometry.region import Region, box, covers, inside_grid, minus, widened
from garmentc.record import Record

_CELL = 6.0  # mm
_STEPS = (8.0, 4.0, 2.0, 1.0)
SMALLEST = 100.0
"""The shorter side of what is worth keeping (mm): common practice, no source."""
MOST = 5


class Rest(Record):
    """A rectangle that is left: its lower left corner and its size (mm)."""

    x: float
    y: float
    wide: float
    high: float

    @property
    def area(self) -> float:
        """Its area (mm²)."""
        return self.wide * self.high


def rests(plan: Plan, most: int = MOST) -> tuple[Rest, ...]:
    """The largest rectangle that is left, then the largest beside it, and so on, while they are worth keeping."""
    region = left_over(plan)
    found: list[Rest] = []
    while len(found) < most:
        rest = _largest(region)
        if rest is None or min(rest.wide, rest.high) < SMALLEST:
            break
        found.append(rest)
        region = minus(region, box(rest.x, rest.y, rest.x + rest.wide, rest.y + rest.high))
    return tuple(found)


def largest(plan: Plan) -> float:
    """The area (mm²) of the largest rectangle that is left."""
    return max((rest.area for rest in rests(plan, 1)), default=0.0)


def _largest(region: Region) -> Rest | None:
    """About the largest rectangle in a region, in whole millimetres."""
    if region.is_empty:
        return None
    x0, y0, x1, y1 = region.bounds
    columns, rows = int((x1 - x0) // _CELL), int((y1 - y0) // _CELL)
    reach = _CELL / math.sqrt(2)
    free = inside_grid(widened(region, -reach), complex(x0, y0) + complex(_CELL, _CELL) / 2, _CELL, columns, rows)
    best: tuple[int, int, int, int, int] = (0, 0, 0, 0, 0)
    heights = [0] * columns
    for row, cells in enumerate(free):
        heights = [height + 1 if cell else 0 for height, cell in zip(heights, cells, strict=True)]
        best = max(best, _below(heights, row))
    _, row, column, wide, high = best
    if not wide:
        return None
    left, top = x0 + column * _CELL, y0 + (row + 1) * _CELL
    return _grown(region, left, top - high * _CELL, left + wide * _CELL, top)


def _below(heights: list[int], row: int) -> tuple[int, int, int, int, int]:
    """The largest rectangle under a row of columns: its cells, the row, its first column, width and height."""
    best = (0, row, 0, 0, 0)
    open_columns: list[tuple[int, int]] = []
    for i, height in enumerate([*heights, 0]):
        start = i
        while open_columns and open_columns[-1][1] > height:
            start, tall = open_columns.pop()
            best = max(best, (tall * (i - start), row, start, i - start, tall))
        if height and (not open_columns or open_columns[-1][1] < height):
            open_columns.append((start, height))
    return best


def _grown(region: Region, x0: float, y0: float, x1: float, y1: float) -> Rest:
    """A rectangle pushed outward as far as the region goes, to a millimetre."""
    sides = [x0, y0, x1, y1]
    for step in _STEPS:
        for i, way in enumerate((-1.0, -1.0, 1.0, 1.0)):
            tried = list(sides)
            tried[i] += way * step
            if covers(region, box(*tried)):
                sides = tried
    x0, y0, x1, y1 = sides
    return Rest(x0, y0, math.floor(x1 - x0), math.floor(y1 - y0))
