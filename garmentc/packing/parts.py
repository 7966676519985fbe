"""Convex parts of polygons, and for two polygons the lines that may keep their parts apart."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from garmentc.geometry.region import triangles
from garmentc.geometry.vector import Point, cross
from garmentc.record import Record

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.int64]

Corners = tuple[Point, ...]

_FLAT = 1e-10
"""How far a corner may lie off the line between its neighbours and not count, as a share of the size."""


class Apart(Record):
    """What keeps a second polygon off a first, when it lies at ``t`` from it.

    For each pair of their convex parts there is a group of directions, from ``starts`` to the next start: ``normals``
    are unit vectors, and ``normal · t + offset`` is how far the two parts are apart in that direction, below 0 where
    they are not. The polygons are apart when in each group one direction is not below 0.
    """

    normals: Floats
    offsets: Floats
    starts: Whole


@lru_cache(maxsize=4096)
def convex_parts(corners: Corners) -> tuple[Corners, ...]:
    """Convex polygons that fill a simple one: triangles, put together as long as the result is convex."""
    parts: list[list[Point]] = [list(triangle) for triangle in triangles(_bent(corners))]
    merged = True
    while merged:
        merged = False
        for i in range(len(parts)):
            for j in range(i + 1, len(parts)):
                joined = _joined(parts[i], parts[j])
                if joined is not None:
                    parts[i] = joined
                    del parts[j]
                    merged = True
                    break
            if merged:
                break
    return tuple(tuple(part) for part in parts)


def _bent(corners: Corners) -> list[Point]:
    """The corners without those that lie as good as straight between their neighbours: they upset the cutting up."""
    size = max(abs(p - corners[0]) for p in corners)
    kept = list(corners)
    for p in corners:
        at = kept.index(p)
        before, after = kept[at - 1], kept[(at + 1) % len(kept)]
        chord = after - before
        if len(kept) > 3 and abs(cross(chord, p - before)) <= _FLAT * size * abs(chord):
            del kept[at]
    return kept


def _joined(first: Sequence[Point], second: Sequence[Point]) -> list[Point] | None:
    """Two convex polygons that share a side as one, if that is convex."""
    sides = {(b, a): k for k, (a, b) in enumerate(pairwise([*second, second[0]]))}
    for k, (a, b) in enumerate(pairwise([*first, first[0]])):
        at = sides.get((a, b))
        if at is None:
            continue
        ring = [*first[k + 1 :], *first[: k + 1]]  # from b round to a
        ring += [second[(at + 2 + step) % len(second)] for step in range(len(second) - 2)]
        size = max(abs(p - q) for p, q in pairwise([*ring, ring[0]]))
        turns = zip(ring, [*ring[1:], ring[0]], [*ring[2:], *ring[:2]], strict=True)
        if all(cross(q - p, r - q) >= -1e-12 * size * size for p, q, r in turns):
            return ring
    return None


@lru_cache(maxsize=65536)
def apart(first: Corners, second: Corners) -> Apart:
    """The directions that may keep two polygons apart: the normals of all sides of their convex parts."""
    import numpy as np

    normals, offsets, starts = [], [], []
    count = 0
    for p in _sided(first):
        for q in _sided(second):
            starts.append(count)
            normals += [p.normals, -q.normals]
            offsets += [
                (q.points @ p.normals.T).min(axis=0) - p.reach,
                (p.points @ q.normals.T).min(axis=0) - q.reach,
            ]
            count += len(p.reach) + len(q.reach)
    return Apart(np.concatenate(normals), np.concatenate(offsets), np.array(starts))


class _Sided(Record):
    """A convex polygon: its corners, the outward normals of its sides, and how far it reaches along each."""

    points: Floats
    normals: Floats
    reach: Floats


@lru_cache(maxsize=4096)
def _sided(corners: Corners) -> tuple[_Sided, ...]:
    import numpy as np

    found = []
    for part in convex_parts(corners):
        points = np.array([(p.real, p.imag) for p in part])
        along = np.roll(points, -1, axis=0) - points
        along = along[np.hypot(along[:, 0], along[:, 1]) > 0]
        normals = np.column_stack((along[:, 1], -along[:, 0])) / np.hypot(along[:, 0], along[:, 1])[:, None]
        found.append(_Sided(points, normals, (points @ normals.T).max(axis=0)))
    return tuple(found)
