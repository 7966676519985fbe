"""Seams as bonds between the leaves that they join, run after run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from garmentc.assembly.chains import Stretch
from garmentc.assembly.copies import Run
from garmentc.assembly.gluing import Bond, Part
from garmentc.assembly.instances import Cut
from garmentc.assembly.model import JoinedSeam
from garmentc.record import Record

_SLIVER = 2.0
"""Joints nearer than this (mm) to each other are meant to meet."""


def seam_bonds(seam: JoinedSeam, cut: Cut) -> Iterator[Bond]:
    """All bonds that sewing a seam makes."""
    first, second = seam.sides
    overlaps = list(_overlaps(first, second))
    for one, other in seam.sewn:
        for lap in overlaps:
            a, b = first[lap.first], second[lap.second]
            here, there = part_of_run(a, one, *lap.here, cut), part_of_run(b, other, *lap.there, cut)
            yield Bond(here, there, a.backward != b.backward, seam.name)


def layer_bonds(seam: JoinedSeam, cut: Cut) -> Iterator[Bond]:
    """Which leaves of the first side lie on which of its further layers, which are inside the garment."""
    for layer in seam.layers:
        for one, other in layer.sewn:
            for a in seam.sides[0]:
                for b in layer.side:
                    here = part_of_run(a, one, a.before, a.after, cut)
                    there = part_of_run(b, other, b.before, b.after, cut)
                    yield Bond(here, there, a.backward != b.backward, seam.name)


def part_of_run(stretch: Stretch, run: Run, low: float, high: float, cut: Cut) -> Part:
    """The part of a leaf that lies between two places of a run (mm), as far as the stretch goes."""
    number, i = cut.places[(stretch.piece.name, stretch.edge.name, *run.leaf(stretch))]
    start, end = max(low, stretch.before) - stretch.before, min(high, stretch.after) - stretch.before
    if stretch.backward:
        whole = stretch.edge.sewn_length
        start, end = whole - end, whole - start
    return Part(number, i, start, end)


class _Overlap(Record):
    """Parts of two sides that lie on each other: which stretches, and from where to where each side has run (mm)."""

    first: int
    second: int
    here: tuple[float, float]
    there: tuple[float, float]


def _overlaps(first: Sequence[Stretch], second: Sequence[Stretch]) -> Iterator[_Overlap]:
    """The parts of two sides that lie on each other, cut at the joints of both."""
    places = _joints(first, second)
    for (low, aside), (high, beyond) in pairwise(places):
        i, j = _at(first, (low + high) / 2), _at(second, (aside + beyond) / 2)
        yield _Overlap(i, j, (low, high), (aside, beyond))


def _joints(first: Sequence[Stretch], second: Sequence[Stretch]) -> list[tuple[float, float]]:
    """Where joints of either side lie on both, ends included: joints near to each other are one."""
    ratio = second[-1].after / first[-1].after
    if len(first) == len(second):
        met = [(a.after, b.after) for a, b in zip(first, second, strict=True)]
        return [(0.0, 0.0), *met]
    met = [(0.0, 0.0)]
    for a in first[:-1]:
        near = [b.after for b in second[:-1] if abs(a.after * ratio - b.after) < _SLIVER and b.after > met[-1][1]]
        met += [(a.after, min(near))] if near else []
    met.append((first[-1].after, second[-1].after))
    places = set(met)
    for (low, aside), (high, beyond) in pairwise(met):
        grow = (beyond - aside) / (high - low)
        places |= {(a.after, aside + (a.after - low) * grow) for a in first if low < a.after < high}
        places |= {(low + (b.after - aside) / grow, b.after) for b in second if aside < b.after < beyond}
    return sorted(places)


def _at(side: Sequence[Stretch], run: float) -> int:
    return next((i for i, one in enumerate(side) if run < one.after), len(side) - 1)
