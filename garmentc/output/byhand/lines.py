"""Where drawn lines lie, and how long they are."""

from __future__ import annotations

from itertools import pairwise

from garmentc.geometry.vector import Point
from garmentc.output.byhand.curves import drawn
from garmentc.output.byhand.model import Curve, Join, Parallel


def line_points(line: Join | Curve | Parallel) -> list[Point]:
    """Points of a line as a hand draws it."""
    if isinstance(line, Curve):
        return drawn(line.start.at, line.end.at, line.rows)
    if isinstance(line, Parallel):
        return [line.start.at, *line.points[1:-1], line.end.at]
    return [line.start.at, line.end.at]


def length_of(line: Join | Curve) -> float:
    """The length of a drawn line (mm)."""
    return sum(abs(b - a) for a, b in pairwise(line_points(line)))
