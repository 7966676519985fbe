"""The shapes of cloths and of places on them, from what a tape measures."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from garmentc.geometry.arcs import arc_with_bulge
from garmentc.geometry.crossing import find_crossing
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.path import Path, straight
from garmentc.geometry.segments import Arc
from garmentc.geometry.vector import Point
from garmentc.numbers import length

FOUR_SIDES = ("bottom", "right", "top", "left")
_FLAT = 1e-6  # mm; a bulge below this is a straight side
_WRITTEN = "`square`, `length` and `width`, `width`, `round`, four sides and a `diagonal`, or `corners`"

NamedSides = list[tuple[str, Path]]


def outline_sides(lengths: Mapping[str, float], corners: Sequence[Point], bulges: Sequence[float]) -> NamedSides | str:
    """The named sides of a cloth, anticlockwise; or in words why the measures make none."""
    given = set(lengths)
    if corners and not given:
        return _of_corners(corners, bulges)
    if bulges:
        return "bulges belong to sides that `corners` give"
    if corners:
        return f"the outline is given twice over: write one of {_WRITTEN}"
    if given == {"square"}:
        return _box(lengths["square"], lengths["square"])
    if given == {"length", "width"}:
        return _box(lengths["length"], lengths["width"])
    if given == {"round"}:
        return [("rim", path) for path in disc(0j, lengths["round"]).edges]
    if given == {*FOUR_SIDES, "diagonal"}:
        return _of_tape(*(lengths[name] for name in (*FOUR_SIDES, "diagonal")))
    return f"this is no outline: write one of {_WRITTEN}"


def disc(at: Point, wide: float) -> Outline:
    """A round area by its middle and its diameter, as four quarters from the right on."""
    return Outline(tuple(Path((Arc(at, wide / 2, turn * math.pi / 2, math.pi / 2),)) for turn in range(4)))


def area_shape(points: Mapping[str, Point], wide: float | None, corners: Sequence[Point]) -> Outline | None:
    """A place by its middle and diameter, its opposite corners or all its corners, anticlockwise; None for neither."""
    given = {*points, *(["round"] if wide is not None else []), *(["corners"] if corners else [])}
    if given == {"at", "round"} and wide is not None:
        return disc(points["at"], wide)
    if given == {"from", "to"}:
        a, b = points["from"], points["to"]
        if b.real > a.real and b.imag > a.imag:
            return ring([a, complex(b.real, a.imag), b, complex(a.real, b.imag)])
    if given == {"corners"}:
        shape = ring(corners)
        shape = shape if shape.area > 0 else shape.reversed()
        if abs(shape.area) > 1.0 and simple(shape.edges):
            return shape
    return None


def simple(sides: Sequence[Path]) -> bool:
    """Whether a closed ring of sides has no two that coincide or cross."""
    return all(abs(side.chord) > 0.0 or side.length > 0.0 for side in sides) and find_crossing(sides) is None


def _box(long: float, wide: float) -> NamedSides:
    corners = (0j, complex(long, 0), complex(long, wide), complex(0, wide))
    return list(zip(FOUR_SIDES, ring(corners).edges, strict=True))


def _of_corners(corners: Sequence[Point], bulges: Sequence[float]) -> NamedSides | str:
    ends = [*corners, corners[0]]
    if any(abs(a - b) < 1.0 for a, b in pairwise(ends)):
        return "two corners of the cloth lie in one place"
    depths = bulges or [0.0] * len(corners)
    turned = 1.0 if ring(corners).area > 0 else -1.0  # a bulge is outward whichever way the corners are listed
    paths = [
        straight(a, b) if abs(depth) < _FLAT else Path((arc_with_bulge(a, b, -depth * turned),))
        for (a, b), depth in zip(pairwise(ends), depths, strict=True)
    ]
    named = [(f"side {number}", path) for number, path in enumerate(paths, start=1)]
    return named if turned > 0 else [(name, path.reversed()) for name, path in reversed(named)]


def _of_tape(bottom: float, right: float, top: float, left: float, diagonal: float) -> NamedSides | str:
    """Four sides round a diagonal from the lower left to the upper right corner: two triangles."""
    for one, other, words in ((bottom, right, "bottom and right"), (left, top, "left and top")):
        if not abs(one - other) < diagonal < one + other:
            return (
                f"the sides {words} and the diagonal make no triangle: "
                f"{length(one)}, {length(other)} and {length(diagonal)}"
            )
    far = complex(diagonal, 0.0)
    low, high = _apex(bottom, right, diagonal).conjugate(), _apex(left, top, diagonal)
    turn = complex(bottom, 0.0) / low  # so that the bottom lies level
    corners = [0j, complex(bottom, 0.0), far * turn, high * turn]
    return list(zip(FOUR_SIDES, ring(corners).edges, strict=True))


def _apex(near: float, far: float, base: float) -> Point:
    """The upper corner of a triangle over a base from 0 to the right, by its other two sides."""
    x = (near * near - far * far + base * base) / (2 * base)
    return complex(x, math.sqrt(max(near * near - x * x, 0.0)))
