"""Groups of leaves beside each other, in as many rows as show them largest."""

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
    rows, scale = max((_in_rows(groups, count) for count in range(1, len(groups) + 1)), key=lambda one: one[1])
    gap = _APART / scale
    placed: list[Group] = []
    top = 0.0
    for row in rows:
        right = 0.0
        for group in row:
            points = points_of((group,))
            corner = complex(min(p.real for p in points), max(p.imag for p in points))
            placed.append(moved(group, Motion.shift_by(complex(right, top) - corner)))
            right += size_of(points).real + gap
        top -= max(size_of(points_of((group,))).imag for group in row) + gap
    return placed


def _in_rows(groups: Sequence[Group], count: int) -> tuple[list[Sequence[Group]], float]:
    """The groups in about so many rows, in their order, and the scale at which these fit the board."""
    each = -(-len(groups) // count)
    rows = [groups[at : at + each] for at in range(0, len(groups), each)]
    sizes = [[size_of(points_of((group,))) for group in row] for row in rows]
    wide = max(sum(one.real for one in row) for row in sizes)
    return rows, scale_for(wide, sum(max(one.imag for one in row) for row in sizes))


def moved(group: Group, motion: Motion) -> Group:
    """A group somewhere else."""
    return tuple(Laid(laid.leaf, laid.motion.then(motion)) for laid in group)


def points_of(groups: Iterable[Group]) -> list[Point]:
    """All points (mm) of the outlines in groups."""
    return [p for group in groups for laid in group for p in laid.outline]
