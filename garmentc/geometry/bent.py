"""Paths with an end moved, so that they meet something else."""

from __future__ import annotations

import cmath
from itertools import pairwise

from garmentc.geometry.path import Path
from garmentc.geometry.segments import Arc, Cubic, Line, Segment
from garmentc.geometry.vector import Point


def drawn_from(start: Point, path: Path) -> Path:
    """A path with another start, which moves less and less toward the end."""
    off, total = start - path.start, path.length
    stations = path.stations
    shifts = [off * (1 - s / total) for s in stations]
    segments: list[Segment] = []
    for segment, (a, b) in zip(path.segments, pairwise(shifts), strict=True):
        if isinstance(segment, Arc):
            segments += [_bent(part, a + (b - a) * t, a + (b - a) * u) for part, t, u in _as_cubics(segment)]
        else:
            segments.append(_bent(segment, a, b))
    return Path(tuple(segments))


def _bent(segment: Segment, a: complex, b: complex) -> Segment:
    """A line or cubic with its start moved by a, its end by b, and what lies between in proportion."""
    if isinstance(segment, Line):
        return Line(segment.start + a, segment.end + b)
    assert isinstance(segment, Cubic)
    third = (b - a) / 3
    return Cubic(segment.start + a, segment.c1 + a + third, segment.c2 + b - third, segment.end + b)


def _as_cubics(arc: Arc) -> list[tuple[Cubic, float, float]]:
    """An arc in cubics of at most an eighth of a circle each, with their shares of it."""
    count = max(1, round(abs(arc.sweep) / 0.7853981633974483 + 0.5))
    found = []
    for i in range(count):
        t, u = i / count, (i + 1) / count
        a, b = arc.point(t), arc.point(u)
        # The handle length of the usual cubic for an arc: 4/3 tan of a quarter of its angle.
        long = 4 / 3 * arc.radius * abs(cmath.tan(arc.sweep / count / 4).real)
        found.append((Cubic(a, a + long * arc.tangent(t), b - long * arc.tangent(u), b), t, u))
    return found
