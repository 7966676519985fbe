"""Where the pieces lie, as distances that a tape measure finds again on the cloth."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from garmentc.cloth.model import TOLERANCE, Ground, GroundSide, Plan, Shape, off_axis
from garmentc.geometry.vector import Point
from garmentc.output.lay.order import cutting_order
from garmentc.record import Record

_SHARP = math.radians(20.0)  # a corner that turns less is hard to find on a piece of paper


class Marked(Record):
    """A point of a shape: its letter, its place on the cloth, and its two distances (mm) in the frame."""

    letter: str
    at: Point
    first: float
    second: float


class Placed(Record):
    """A shape with its number in the order of cutting, and the two points that fix how it lies."""

    number: int
    shape: Shape
    points: tuple[Marked, ...]


class Frame(Record):
    """What is measured from: the left and the lower edge of the cloth, or two marked ``pins`` on it.

    From edges, distances are level and upright; from pins they are those at which two tapes cross.
    """

    first: str
    second: str
    pins: tuple[Point, Point] | None

    def measure(self, p: Point) -> tuple[float, float]:
        """The two distances (mm) of a point; of a frame of edges, from x and y 0."""
        if self.pins is None:
            return p.real, p.imag
        return abs(p - self.pins[0]), abs(p - self.pins[1])


def frame(ground: Ground) -> Frame:
    """What to measure from on a cloth: its edges where they are square, else two points far apart on its border."""
    x0, y0, _, _ = ground.box
    straight = [side for side in ground.sides if side.is_straight]
    if abs(complex(x0, y0)) < TOLERANCE and _lies(straight, 1 + 0j) and _lies(straight, 1j):
        return Frame("the left edge", "the lower edge", None)
    if straight:
        longest = max(straight, key=lambda side: abs(side.points[-1] - side.points[0]))
        ends = sorted((longest.points[0], longest.points[-1]), key=lambda p: (p.real, p.imag))
    else:
        ends = [min(ground.ring, key=lambda p: p.real), max(ground.ring, key=lambda p: p.real)]
    return Frame("pin P", "pin Q", (ends[0], ends[1]))


def _lies(sides: Sequence[GroundSide], along: complex) -> bool:
    """Whether a side begins or ends in the corner at 0 and runs along an axis."""
    return any(
        min(abs(side.points[0]), abs(side.points[-1])) < TOLERANCE
        and off_axis(side.points[-1] - side.points[0], along) < 1e-3
        for side in sides
    )


def places(plan: Plan) -> tuple[Placed, ...]:
    """All shapes in the order of cutting, each with two of its corners, as far apart as can be."""
    base = frame(plan.ground)
    found = []
    for number, shape in enumerate(cutting_order(plan), 1):
        ends = sorted(_far_apart(_corners(plan, shape)), key=lambda p: (round(p.real), round(p.imag)))
        marks = [Marked(f"{number}{letter}", p, *base.measure(p)) for letter, p in zip("ab", ends, strict=True)]
        found.append(Placed(number, shape, tuple(marks)))
    return tuple(found)


def _corners(plan: Plan, shape: Shape) -> list[Point]:
    """The corners of a shape that can be found on it; of a round one, its leftmost and rightmost points."""
    outline = plan.outline(shape)
    edges = outline.edges
    sharp = [
        edge.start
        for before, edge in zip((edges[-1], *edges), edges, strict=False)
        if _turn(before.end_direction(), edge.start_direction()) > _SHARP
    ]
    if len(sharp) >= 2:
        return sharp
    ring = outline.flatten(1.0)
    return [min(ring, key=lambda p: p.real), max(ring, key=lambda p: p.real)]


def _turn(coming: complex, going: complex) -> float:
    turned = going * coming.conjugate()
    return abs(math.atan2(turned.imag, turned.real))


def _far_apart(points: Sequence[Point]) -> tuple[Point, Point]:
    # Rounded, so that of two pairs alike the same one is taken in every run.
    return max(combinations(points, 2), key=lambda pair: round(abs(pair[0] - pair[1]), 1))
