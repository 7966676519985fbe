"""How the functions of the language compute. Which kinds they take stands in ``design.functions``.

``width`` and ``area`` measure whole pieces; ``draft.evaluate`` computes them.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

from garmentc.geometry.arcs import arc_through
from garmentc.geometry.crossing import line_meetings, meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.meeting import meet_lines
from garmentc.geometry.motion import Motion
from garmentc.geometry.parallel import parallel
from garmentc.geometry.path import Path
from garmentc.geometry.segments import Arc
from garmentc.geometry.vector import Point, angle_of, cross, nearest_on_line, unit
from garmentc.record import Record

_STEPS = 240
_ON_CURVE = 0.01  # mm; a point nearer than this lies on a curve


class InfiniteLine(Record):
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


def direction_at(value: InfiniteLine | Path, point: Point) -> complex:
    """The unit direction in which a line runs, or a curve at its place nearest to a point."""
    return value.tangent_at(value.nearest(point)[0]) if isinstance(value, Path) else value.direction


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


def _meet(one: InfiniteLine | Path, other: InfiniteLine | Path, near: Point | None = None) -> Point:
    """The meeting of two lines or curves: the only one, or of several that nearest to a point."""
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
    if near is not None:
        return min(found, key=lambda at: abs(at - near))
    if len(found) > 1:
        raise GeometryFault("several-meetings", found[0], {"meetings": float(len(found))})
    return found[0]


def _circle(centre: Point, radius: float) -> Path:
    if radius <= 0:
        raise GeometryFault("no-radius", centre, {"radius": radius})
    return Path((Arc(centre, radius, 0.0, 2 * math.pi),))


def _circle_through(a: Point, b: Point, c: Point) -> Path:
    arc = arc_through(a, b, c)
    return _circle(arc.centre, arc.radius)


def _foot(point: Point, line: InfiniteLine | Path) -> Point:
    if isinstance(line, InfiniteLine):
        return nearest_on_line(point, line.at, line.direction)
    return line.point_at(line.nearest(point)[0])


def _touch(point: Point, path: Path, near: Point) -> Point:
    """Where a tangent from a point touches a curve: of several places that nearest to ``near``.

    Found between the steps at which the cross product of the way there and the direction of travel changes sign.
    """

    def aside(s: float) -> float:
        return cross(path.point_at(s) - point, path.tangent_at(s))

    steps = [path.length * i / _STEPS for i in range(_STEPS + 1)]
    sides = [aside(s) for s in steps]
    found: list[Point] = []
    for low, high, side, other in zip(steps, steps[1:], sides, sides[1:], strict=False):
        if side == 0.0 or side * other < 0.0:
            for _ in range(60):
                middle = (low + high) / 2
                low, high = (middle, high) if aside(middle) * side > 0.0 else (low, middle)
            found.append(path.point_at(high if side else low))
    if not found:
        raise GeometryFault("no-tangent", point)
    return min(found, key=lambda at: abs(at - near))


def _mirror(value: Point | Path, line: InfiniteLine | Path) -> Point | Path:
    straight = as_line(line)
    return _moved(value, Motion.mirror_in(straight.at, straight.direction))


def _moved(value: Point | Path, motion: Motion) -> Point | Path:
    return value.moved(motion) if isinstance(value, Path) else motion.apply(value)


def _way(one: float | Point, two: float | Point) -> complex:
    """The way from one point to another, or the way so far to the right and up."""
    return two - one if isinstance(one, complex) else complex(one, two.real)


def _part(path: Path, start: Point, end: Point) -> Path:
    """The part of a curve between two points on it, in the direction from the first to the second."""
    (low, off), (high, off_too) = path.nearest(start), path.nearest(end)
    for at, distance in ((start, off), (end, off_too)):
        if distance > _ON_CURVE:
            raise GeometryFault("not-on-curve", at, {"distance": distance})
    if abs(high - low) < _ON_CURVE:
        raise GeometryFault("coinciding-points", start)
    return path.between(low, high) if low < high else path.between(high, low).reversed()


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
    "arc_radius": lambda length, angle: length / angle,
    "arc_length": lambda radius, angle: radius * angle,
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
    "circle": lambda point, *rest: _circle_through(point, *rest) if len(rest) > 1 else _circle(point, *rest),
    "meet": _meet,
    "touch": _touch,
    "foot": _foot,
    "mirror": _mirror,
    "turn": lambda value, about, angle: _moved(value, Motion.turn_about(about, angle)),
    "shift": lambda value, one, two: _moved(value, Motion.shift_by(_way(one, two))),
    "reverse": lambda path: path.reversed(),
    "part": _part,
    "beside": parallel,
    "distance": _distance,
    "heading": lambda a, b: angle_of(line_through(a, b).direction),
}
