"""Groups of leaves beside each other: in a row, or one below the other, whichever shows them larger."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.geometry.motion import Motion
from garmentc.geometry.vector import Point
from garmentc.output.pictures.board import scale_for, size_of
from garmentc.output.pictures.laid import Group, Laid
from garmentc.output.pictures.model import LETTER

_APART = 2.6 * LETTER  # px between groups: room for the letters beside them


def arranged(groups: Sequence[Group]) -> list[Group]:
    """The groups, each moved clear of the others; none of them is turned."""
    if not groups:
        return []
    sizes = [size_of(points_of((group,))) for group in groups]
    row = scale_for(sum(one.real for one in sizes), max(one.imag for one in sizes))
    column = scale_for(max(one.real for one in sizes), sum(one.imag for one in sizes))
    down = column > row
    gap = _APART / max(row, column)
    placed: list[Group] = []
    at = 0j  # the upper left corner of the next group
    for group, size in zip(groups, sizes, strict=True):
        points = points_of((group,))
        corner = complex(min(p.real for p in points), max(p.imag for p in points))
        placed.append(moved(group, Motion.shift_by(at - corner)))
        at += -1j * (size.imag + gap) if down else size.real + gap
    return placed


def moved(group: Group, motion: Motion) -> Group:
    """A group somewhere else."""
    return tuple(Laid(laid.leaf, laid.motion.then(motion)) for laid in group)


def points_of(groups: Iterable[Group]) -> list[Point]:
    """All points (mm) of the outlines in groups."""
    return [p for group in groups for laid in group for p in laid.outline]
