"""How a shape may be held over a cloth: its grain on the threads, its face up, its upper end up."""

from __future__ import annotations

import math
from collections.abc import Iterator

from garmentc.cloth.model import Ground, Shape, Turn, off_axis
from garmentc.geometry.vector import angle_of, dot, heading

_LEVEL = math.radians(1.0)  # a piece this near to lying across the pile lies across it


def turns(shape: Shape, ground: Ground) -> tuple[Turn, ...]:
    """The ways to hold a shape with its grain exactly on the threads, none twice, in a fixed order."""
    found: dict[tuple[int, bool], Turn] = {}
    for over in (False, True) if ground.is_alike else (False,):
        flat = Turn(0.0, over)
        for thread in shape.lengthwise:
            for axis in ground.lengthwise:
                for half in (0.0, math.pi):
                    angle = (axis + half - angle_of(flat.motion.apply_vector(thread))) % (2 * math.pi)
                    turn = Turn(0.0 if 2 * math.pi - angle < 1e-9 else angle, over)
                    if is_way_up(shape, turn, ground):
                        found.setdefault((round(turn.angle * 1e6), over), turn)
    return tuple(found.values())


def off_grain(shape: Shape, turn: Turn, ground: Ground) -> float:
    """How far (radians) the nearest grain that a shape may have lies off the threads."""
    threads = [turn.motion.apply_vector(thread) for thread in shape.lengthwise]
    return min(off_axis(thread, heading(axis)) for thread in threads for axis in ground.lengthwise)


def pile(shape: Shape, turn: Turn, ground: Ground) -> complex:
    """The direction toward the upper end of the cloth, as the piece is drawn."""
    along = turn.motion.inverse().apply_vector(ground.up)
    return complex(-along.real, along.imag) if shape.mirrored else along


def is_way_up(shape: Shape, turn: Turn, ground: Ground) -> bool:
    """Whether the upper end of a one-way cloth is at the upper end of a piece, or, across, on its drawn right.

    Strips are too narrow for it to be seen.
    """
    if not ground.is_one_way or shape.is_strip:
        return True
    along = pile(shape, turn, ground)
    if abs(along.imag) < math.sin(_LEVEL):
        return along.real > 0
    return along.imag > 0


def same_threads(one: Shape, turn: Turn, other: Shape, its: Turn, ground: Ground) -> bool:
    """Whether two shapes lie like mirror images: on the same threads and, if that counts, the same way up."""
    mine = turn.motion.inverse().apply_vector(ground.up)
    theirs = its.motion.inverse().apply_vector(ground.up)
    image = complex(-theirs.real, theirs.imag)
    near = one.within + other.within + 1e-6
    if off_axis(mine, image) > near:
        return False
    return not ground.is_one_way or dot(mine, image) > 0


def nearby(shape: Shape, ground: Ground) -> Iterator[tuple[float, float, bool]]:
    """All ways to hold a shape within its tolerance: ranges of angles, and whether it is turned over."""
    for turn in turns(shape, ground):
        yield turn.angle - shape.within, turn.angle + shape.within, turn.over
