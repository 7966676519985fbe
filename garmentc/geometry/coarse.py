"""Polygons with few corners that hold an outline, or are held by it."""

from __future__ import annotations

import math

from garmentc.geometry.line import Line
from garmentc.geometry.outline import Outline
from garmentc.geometry.segment import Segment
from garmentc.geometry.vector import Point, cross, turning, unit

_STRAIGHT = 0.01  # mm that a curve may leave its chord and still be taken for it
_MOST_TURN = math.pi / 3
_DEEPEST = 12


def holding(outline: Outline, tolerance: float) -> list[Point]:
    """Return a polygon that holds an anticlockwise outline and leaves it by at most a tolerance (mm).

    Its straight edges stay where they are: curves that bow out become tangents, hollow ones chords.
    """
    return _ring(outline, tolerance, outward=True)


def held(outline: Outline, tolerance: float) -> list[Point]:
    """Return a polygon that an anticlockwise outline holds, short of it by at most a tolerance (mm)."""
    return _ring(outline, tolerance, outward=False)


def _ring(outline: Outline, tolerance: float, outward: bool) -> list[Point]:
    points: list[Point] = []
    for segment in outline.segments:
        points.append(segment.start)
        if not isinstance(segment, Line):
            points += _between(segment, 0.0, 1.0, tolerance, outward, _DEEPEST)
    count = len(points)
    return [p for i, p in enumerate(points) if not _is_level(points[i - 1], p, points[(i + 1) % count])]


def _between(segment: Segment, t0: float, t1: float, tolerance: float, outward: bool, deepest: int) -> list[Point]:
    """The corners between two places of a curve."""
    a, b = segment.point(t0), segment.point(t1)
    middle = (t0 + t1) / 2
    bow = abs(cross(unit(b - a), segment.point(middle) - a)) if abs(b - a) > _STRAIGHT else 0.0
    u, v = segment.tangent(t0), segment.tangent(t1)
    one, other = cross(u, b - a), cross(b - a, v)
    steady = one * other > 0 and abs(turning(u, v)) < _MOST_TURN
    if (bow <= _STRAIGHT and not (outward == (one > 0) and steady)) or deepest == 0:
        return []
    if steady:
        if (one > 0) != outward:
            if bow <= tolerance:
                return []
        else:
            corner = a + u * (cross(b - a, v) / cross(u, v))
            if abs(corner - segment.point(middle)) <= tolerance:
                return [corner]
    before = _between(segment, t0, middle, tolerance, outward, deepest - 1)
    after = _between(segment, middle, t1, tolerance, outward, deepest - 1)
    return [*before, segment.point(middle), *after]


def _is_level(a: Point, p: Point, b: Point) -> bool:
    """Whether a corner lies on the straight way from the one before to the one after."""
    return abs(p - a) < 1e-7 or (abs(cross(p - a, b - p)) <= 1e-7 * abs(b - a) and abs(b - a) > abs(p - a))
