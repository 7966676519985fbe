"""Where one region may lie beside or inside another: no-fit and inner-fit regions.

A place is the shift of a shape. The sums of boundaries that both rest on are made by the library pyclipper, on a grid
of a ten-thousandth of a millimetre.
"""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.geometry.region import (
    Region,
    area,
    box,
    covers,
    is_empty,
    minus,
    moved,
    nearest_place,
    opposite,
    overlaps,
    parts,
    rings,
    union,
)
from garmentc.geometry.vector import Point

_PER_MM = 10_000


def no_fit(fixed: Region, shape: Region) -> Region:
    """Return the places at which a shape overlaps a fixed region; on its border they touch."""
    mirrored = opposite(shape)
    edge = union(_sum(ring, other) for ring in rings(fixed) for other in rings(mirrored))
    whole = []
    for part in parts(edge):
        outer, *holes = rings(part)
        kept = [hole for hole in holes if not overlaps(fixed, moved(shape, nearest_place(area(hole))))]
        whole.append(area(outer, kept))
    return union(whole)


def inner_fit(room: Region, shape: Region) -> Region:
    """Return the places at which a room holds a shape; empty when it holds it nowhere."""
    if is_empty(room):
        return room
    low, inner = shape.bounds, room.bounds
    cells = box(*(limit - own for limit, own in zip(inner, low, strict=True)))
    if is_empty(cells):
        return cells
    mirrored = opposite(shape)
    cells = minus(cells, union(_sum(ring, other) for ring in rings(room) for other in rings(mirrored)))
    return union(cell for cell in parts(cells) if covers(room, moved(shape, nearest_place(cell))))


def holding_places(shape: Region, thing: Region) -> Region:
    """Return the places at which a shape holds a thing that lies where it is."""
    return opposite(inner_fit(shape, thing))


def _sum(ring: Sequence[Point], other: Sequence[Point]) -> Region:
    """What the boundary of one ring sweeps when it is moved along another."""
    import pyclipper

    paths = pyclipper.MinkowskiSum(_grid(other), _grid(ring), True)
    made = [(pyclipper.Orientation(path), [complex(x / _PER_MM, y / _PER_MM) for x, y in path]) for path in paths]
    outer, holes = ([area(points) for is_outer, points in made if is_outer == wanted] for wanted in (True, False))
    return minus(union(outer), union(holes))  # it hangs together, so nothing lies inside a hole


def _grid(ring: Sequence[Point]) -> list[tuple[int, int]]:
    return [(round(p.real * _PER_MM), round(p.imag * _PER_MM)) for p in ring]
