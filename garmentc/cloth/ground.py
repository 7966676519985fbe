"""A cloth of the stock as it lies ready to be cut: washed and ironed."""

from __future__ import annotations

import math

from garmentc.cloth.model import Ground, GroundArea, GroundSide
from garmentc.data.stock import Area, Cloth
from garmentc.geometry.outline import Outline
from garmentc.geometry.vector import Point

_FLAT = 0.05  # mm that a short side may leave a curve of the cloth
_WAYS = {"up": (math.pi / 2,), "across": (0.0,), "either": (math.pi / 2, 0.0)}


def ground(cloth: Cloth, length: float | None = None) -> Ground:
    """The ground that a cloth makes; of cloth by the metre, ``length`` mm of it (as bought, before it is washed).

    ValueError for cloth by the metre without a length.
    """
    x, y = shrunk = _left(cloth)

    def washed(p: Point) -> Point:
        return complex(p.real * x, p.imag * y)

    if cloth.by_metre:
        if length is None:
            raise ValueError("cloth by the metre has no length of its own")
        sides = _cut_off(cloth, length * x, cloth.width * y)
    else:
        sides = tuple(
            GroundSide(
                side.name,
                tuple(washed(p) for p in side.path.flatten(_FLAT)),
                side.path.is_straight(_FLAT),
                side.finish,
                side.finish_width,
            )
            for side in cloth.sides
        )
    across, up = cloth.repeat
    return Ground(
        cloth.key,
        cloth.title,
        tuple(p for side in sides for p in side.points[:-1]),
        sides,
        tuple(tuple(washed(p) for p in _ring(hole)) for hole in cloth.holes),
        tuple(GroundArea(one.name, tuple(washed(p) for p in _ring(one))) for one in cloth.flaws),
        tuple(GroundArea(one.name, tuple(washed(p) for p in _ring(one))) for one in cloth.places),
        _WAYS[cloth.threads],
        1 + 0j if cloth.by_metre else 1j,
        cloth.is_one_way,
        cloth.is_alike,
        cloth.is_round,
        (across * x, up * y),
        shrunk,
        length,
    )


def rectangle(wide: float, high: float, hem: float | None) -> Ground:
    """A washed cloth of a size (mm) of which no more is known: its threads upright, its sides alike.

    All its edges are finished, ``hem`` mm wide; with None they are raw.
    """
    corners = (0j, complex(wide, 0.0), complex(wide, high), complex(0.0, high))
    finish = "" if hem is None else "hem"
    sides = tuple(
        GroundSide(name, (corners[i], corners[(i + 1) % 4]), True, finish, hem or 0.0)
        for i, name in enumerate(("bottom", "right", "top", "left"))
    )
    return Ground(
        "rectangle", "A cloth", corners, sides, (), (), (), (math.pi / 2,), 1j, False, True, False, (0.0, 0.0),
        (1.0, 1.0),
    )  # fmt: skip


def _left(cloth: Cloth) -> tuple[float, float]:
    """The shares of width and height that washing leaves; the lesser both ways where the threads are not known."""
    along, across = 1.0 - cloth.shrinkage.along, 1.0 - cloth.shrinkage.across
    if cloth.threads == "either":
        return min(along, across), min(along, across)
    return (along, across) if cloth.threads == "across" else (across, along)


def _ring(shape: Outline | Area) -> list[Point]:
    return (shape.outline if isinstance(shape, Area) else shape).flatten(_FLAT)


def _cut_off(cloth: Cloth, long: float, wide: float) -> tuple[GroundSide, ...]:
    """A length of cloth by the metre: raw where it is cut off, with the selvages below and above."""
    corners = (0j, complex(long, 0.0), complex(long, wide), complex(0.0, wide))
    finish = "selvage" if cloth.selvage else ""
    named = (("bottom", finish), ("right", ""), ("top", finish), ("left", ""))
    return tuple(
        GroundSide(name, (corners[i], corners[(i + 1) % 4]), True, kind, cloth.selvage if kind else 0.0)
        for i, (name, kind) in enumerate(named)
    )
