"""How the functions of the language compute. Which kinds they take stands in ``design.functions``.

``width`` and ``area`` measure whole pieces; ``draft.evaluate`` computes them.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any, NamedTuple

from garmentc.geometry.crossing import line_meetings, meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.meeting import meet_lines
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, angle_of, nearest_on_line, unit


class InfiniteLine(NamedTuple):
    """The line through a point in a direction (a unit vector)."""

    at: Point
    direction: complex


def as_line(value: InfiniteLine | Path) -> InfiniteLine:
    """A line, or the line that a straight path lies on; GeometryFault "not-straight" for a curve."""
    if isinstance(value, InfiniteLine):
        return value
    if not value.is_straight(1e-4):
        raise GeometryFault("not-straight", value.point_at(value.length / 2))
    return InfiniteLine(value.start, unit(value.chord))


def line_through(a: Point, b: Point) -> InfiniteLine:
    """The line through two points; GeometryFault "coinciding-points" when they are one."""
    if abs(b - a) < 1e-6:
        raise GeometryFault("coinciding-points", a)
    return InfiniteLine(a, unit(b - a))


def along(path: Path, amount: float, is_share: bool = False) -> Point:
    """The point at a length, or a share of the length, from the start; GeometryFault "beyond-the-end"."""
    distance = amount * path.length if is_share else amount
    if not -1e-6 <= distance <= path.length + 1e-6:
        raise GeometryFault("beyond-the-end", path.end, {"asked for": distance, "length": path.length})
    return path.point_at(distance)


def _meet(one: InfiniteLine | Path, other: InfiniteLine | Path) -> Point:
    found: list[Point]
    if isinstance(one, InfiniteLine) and isinstance(other, InfiniteLine):
        met = meet_lines(one.at, one.direction, other.at, other.direction)
        found = [] if met is None else [met]
    elif isinstance(one, Path) and isinstance(other, Path):
        found = [at for _, _, at in meetings(one, other)]
    else:
        path, line = (one, other) if isinstance(one, Path) else (other, one)
        assert isinstance(path, Path) and isinstance(line, InfiniteLine)
        found = [at for _, at in line_meetings(path, line.at, line.direction)]
    if not found:
        at = one.at if isinstance(one, InfiniteLine) else one.start
        raise GeometryFault("no-meeting", at)
    if len(found) > 1:
        raise GeometryFault("several-meetings", found[0], {"meetings": float(len(found))})
    return found[0]


def _foot(point: Point, line: InfiniteLine | Path) -> Point:
    if isinstance(line, InfiniteLine):
        return nearest_on_line(point, line.at, line.direction)
    return line.point_at(line.nearest(point)[0])


def _mirror(point: Point, line: InfiniteLine | Path) -> Point:
    straight = as_line(line)
    return Motion.mirror_in(straight.at, straight.direction).apply(point)


def _distance(point: Point, to: Point | InfiniteLine | Path) -> float:
    if isinstance(to, InfiniteLine | Path):
        return abs(_foot(point, to) - point)
    return abs(to - point)


def _rounded(how: Callable[[float], float]) -> Callable[[float, float], float]:
    def compute(value: float, to: float) -> float:
        return how(value / to) * to

    return compute


def _half_up(value: float) -> float:
    return math.floor(value + 0.5)


COMPUTE: dict[str, Callable[..., Any]] = {
    "min": min,
    "max": max,
    "abs": abs,
    "round": _rounded(_half_up),
    "round_up": _rounded(lambda value: math.ceil(value - 1e-9)),
    "round_down": _rounded(lambda value: math.floor(value + 1e-9)),
    "sqrt": math.sqrt,
    "hypot": math.hypot,
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "asin": math.asin,
    "acos": math.acos,
    "atan": math.atan,
    "mid": lambda a, b: (a + b) / 2,
    "along": along,
    "line": line_through,
    "level": lambda point: InfiniteLine(point, 1 + 0j),
    "plumb": lambda point: InfiniteLine(point, 1j),
    "meet": _meet,
    "foot": _foot,
    "mirror": _mirror,
    "turn": lambda point, about, angle: Motion.turn_about(about, angle).apply(point),
    "distance": _distance,
    "heading": lambda a, b: angle_of(line_through(a, b).direction),
}
