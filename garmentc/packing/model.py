"""Shapes to be laid on a strip, and a plan of where they lie. Lengths in mm, angles in radians.

The strip runs to the right from x = 0 and lies between y = 0 and its width.
"""

from __future__ import annotations

import cmath
from collections.abc import Sequence

from garmentc.geometry.vector import Point, cross
from garmentc.record import Record

TINY = 1e-5
"""How far (mm) shapes may reach off the strip or into each other: room for rounding, a hundredth of what light sees."""


class Shape(Record):
    """A simple polygon, its corners anticlockwise, the ways it may be turned, and how many of it there are.

    One that ``is_based`` lies on the lower edge of the strip.
    """

    name: str
    corners: tuple[Point, ...]
    turns: tuple[float, ...]
    number: int
    is_based: bool = False

    @property
    def area(self) -> float:
        """The area of one (mm²)."""
        about = self.corners[0]
        rolled = (*self.corners[1:], about)
        return sum(cross(a - about, b - about) for a, b in zip(self.corners, rolled, strict=True)) / 2


class StripTask(Record):
    """What is to be laid on how wide a strip."""

    width: float
    shapes: tuple[Shape, ...]

    @property
    def area(self) -> float:
        """The area of all shapes (mm²)."""
        return sum(shape.area * shape.number for shape in self.shapes)


class Placed(Record):
    """One shape (by its index in the task): turned about the origin, then moved."""

    shape: int
    turn: float
    shift: Point


class StripPlan(Record):
    """Where all shapes lie, and how long a strip they take."""

    length: float
    placed: tuple[Placed, ...]


def laid_corners(task: StripTask, one: Placed) -> list[Point]:
    """The corners of a shape where it lies."""
    turned = turned_corners(task.shapes[one.shape].corners, one.turn)
    return [corner + one.shift for corner in turned]


def turned_corners(corners: Sequence[Point], turn: float) -> list[Point]:
    """Corners turned about the origin; quarter turns leave the digits alone."""
    by = cmath.rect(1.0, turn)
    by = complex(_whole(by.real), _whole(by.imag))
    return [corner * by for corner in corners]


def height(corners: Sequence[Point], turn: float) -> float:
    """How far a polygon, turned, reaches across the strip (mm)."""
    ys = [p.imag for p in turned_corners(corners, turn)]
    return max(ys) - min(ys)


def fits_across(task: StripTask, shape: int, turn: float) -> bool:
    """Whether the strip is wide enough for a shape that is turned so."""
    return height(task.shapes[shape].corners, turn) <= task.width + TINY


def density(task: StripTask, length: float) -> float:
    """The share of a strip of some length that the shapes cover."""
    return task.area / (task.width * length) if length > 0 else 0.0


def _whole(value: float) -> float:
    return float(round(value)) if abs(value - round(value)) < 1e-12 else value
