"""Whether the lines of two sizes cross that should lie beside each other."""

from __future__ import annotations

from itertools import pairwise

from garmentc.geometry.crossing import meetings
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, cross, dot

DEEP = 0.5
"""mm that one line has to lie on both sides of the other: less can't be told on paper (common practice, no source)."""

_LOOKS = 32
_END = 1e-3  # mm


def unnested(one: Path, other: Path) -> Point | None:
    """Where two lines cross that are supposed to lie beside each other; None when they do not, or have to cross.

    They have to when an edge is carried along round its own bend: both its ends move the same way, as when a neckline
    goes up with the shoulder, and that is to one side of the line at one end and to its other side at the other.
    """
    first, last = other.start - one.start, other.end - one.end
    sides = cross(one.start_direction(), first) * cross(one.end_direction(), last)
    if dot(first, last) > 0 and sides < 0:
        return None
    return crossing(one, other)


def crossing(one: Path, other: Path) -> Point | None:
    """Where the other line passes from one side of a line to its other side; None when it does not.

    Lines that share an end, touch, or run in each other do not cross.
    """
    sides: list[tuple[float, Point]] = []
    for i in range(_LOOKS + 1):
        p = other.point_at(i / _LOOKS * other.length)
        s, away = one.nearest(p)
        if away > DEEP and _END < s < one.length - _END:
            sides.append((cross(one.tangent_at(s), p - one.point_at(s)), p))
    changes = [(a + b) / 2 for (side, a), (next_side, b) in pairwise(sides) if side * next_side < 0]
    if not changes:
        return None
    # Only now, because curves that run almost alike take long to meet: the other may also have gone round an end.
    met = [at for s, _, at in meetings(one, other) if _END < s < one.length - _END]
    return min(met, key=lambda at: abs(at - changes[0]), default=None)
