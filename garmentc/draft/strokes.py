"""Turns a stroke of the language (two points and a shape) into a path."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from garmentc.draft.functions import direction_at
from garmentc.geometry.arcs import arc_through, arc_with_bulge, arc_with_radius
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.hobby import curve
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import Point, dot, heading, unit
from garmentc.source import Span
from garmentc.syntax import nodes

if TYPE_CHECKING:
    from garmentc.draft.evaluate import Evaluator, Scope

_WAYS = {"up": 1j, "down": -1j, "left": -1 + 0j, "right": 1 + 0j}
_STILL = Motion.identity()
_APART = 1e-3  # mm; two ends nearer than this can't be meant as an edge


Carried = Callable[[Point], Motion]


def _stays(p: Point) -> Motion:
    return _STILL


def stroke_path(evaluator: Evaluator, stroke: nodes.Stroke, scope: Scope, inside: int | None) -> Path:
    """The path of a stroke.

    ``inside`` says on which side the piece lies (1 left, -1 right), which arcs that bulge or hollow need.
    What can't be drawn is reported through the evaluator, which raises Poisoned.
    """
    start: Point = evaluator.value(stroke.start, scope)
    end: Point = evaluator.value(stroke.end, scope)
    return shaped_path(evaluator, start, end, stroke.shape, scope, inside, stroke.span)


def shaped_path(
    evaluator: Evaluator,
    start: Point,
    end: Point,
    shape: nodes.Shape | None,
    scope: Scope,
    inside: int | None,
    span: Span,
    carried: Carried = _stays,
) -> Path:
    """The path between two points in a shape, straight without one; as ``stroke_path``.

    All points and directions are meant on the paper as drawn; ``carried`` says for a point how it was moved since.
    """

    def there(p: Point) -> Point:
        return carried(p).apply(p)

    def way(direction: nodes.Direction | None, at: Point, onward: complex) -> complex | None:
        found = _direction(evaluator, direction, scope, at, onward)
        return None if found is None else carried(at).apply_vector(found)

    try:
        first, last = there(start), there(end)
        if not isinstance(shape, nodes.CurveShape) and abs(last - first) < _APART:
            raise GeometryFault("coinciding-points", first)
        if shape is None:
            return straight(first, last)
        if isinstance(shape, nodes.ArcThrough):
            return Path((arc_through(first, there(evaluator.value(shape.point, scope)), last),))
        if isinstance(shape, nodes.ArcShape):
            assert inside is not None
            return _bowed(evaluator, shape, scope, first, last, inside)
        points: list[Point] = [start, *(evaluator.value(point, scope) for point in shape.through), end]
        leaving = way(shape.leaving, start, points[1] - start)
        arriving = way(shape.arriving, end, end - points[-2])
        return curve([there(p) for p in points], leaving, arriving)
    except GeometryFault as fault:
        evaluator.impossible(fault, span)


def _bowed(evaluator: Evaluator, shape: nodes.ArcShape, scope: Scope, start: Point, end: Point, inside: int) -> Path:
    to_left = (inside > 0) == (shape.bow == "hollow")
    chord = abs(end - start)
    if shape.by_radius:
        radius: float = evaluator.value(shape.amount, scope)
        return Path((arc_with_radius(start, end, radius, to_left),))
    depth = evaluator.amount(shape.amount, chord, scope)
    if abs(depth) < _APART:
        return straight(start, end)
    return Path((arc_with_bulge(start, end, depth if to_left else -depth),))


def _direction(
    evaluator: Evaluator, direction: nodes.Direction | None, scope: Scope, at: Point, onward: complex
) -> complex | None:
    """A direction at one end of a curve; of two opposite ones that which leads onward."""
    if direction is None:
        return None
    if direction.operand is None:
        return _WAYS[direction.way]
    value = evaluator.value(direction.operand, scope)
    if direction.way == "heading":
        return heading(value)
    if direction.way == "toward":
        if abs(value - at) < _APART:
            raise GeometryFault("coinciding-points", at)
        return unit(value - at)
    tangent = direction_at(value, at)
    if direction.way == "square":
        tangent *= 1j
    return -tangent if dot(tangent, onward) < 0 else tangent
