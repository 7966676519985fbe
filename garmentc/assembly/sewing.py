"""Seams as bonds between the leaves that they join, run after run."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.gluing import Bond, Part
from garmentc.assembly.instances import Cut, has_mirror
from garmentc.assembly.model import JoinedSeam
from garmentc.record import Record

_SLIVER = 2.0
"""Joints nearer than this (mm) to each other are meant to meet."""


class Run(Record):
    """One time a side of a seam is sewn: which copy, and whether leaves run backward are the mirrored ones."""

    number: int
    turned: bool

    def leaf(self, stretch: Stretch) -> tuple[int, bool]:
        """The copy of a piece that a stretch of this run belongs to, and whether it is a mirrored leaf."""
        if has_mirror(stretch.piece):
            return self.number // 2, stretch.backward != self.turned
        return self.number, False


def runs_of(seam: JoinedSeam) -> Iterator[tuple[Run, Run]]:
    """Each time a seam is sewn, the runs of its two sides: what lies on each other shows the same side of the cloth."""
    first, second = seam.sides
    for number in range(min(stretch.piece.copies for stretch in (*first, *second))):
        turned = number % 2 == 1
        if not (seam.mirrored and turned):
            yield Run(number, turned), Run(number, not turned)


def seam_bonds(seam: JoinedSeam, cut: Cut) -> Iterator[Bond]:
    """All bonds that sewing a seam makes."""
    first, second = seam.sides
    overlaps = list(_overlaps(first, second))
    for one, other in runs_of(seam):
        for i, j, low, high, aside, beyond in overlaps:
            yield Bond(
                part_of_run(first[i], one, low, high, cut),
                part_of_run(second[j], other, aside, beyond, cut),
                first[i].backward != second[j].backward,
                seam.name,
            )


def part_of_run(stretch: Stretch, run: Run, low: float, high: float, cut: Cut) -> Part:
    """The part of a leaf that lies between two places of a run (mm), as far as the stretch goes."""
    number, i = cut.place(stretch.piece.name, stretch.edge.name, *run.leaf(stretch))
    start, end = max(low, stretch.before) - stretch.before, min(high, stretch.after) - stretch.before
    if stretch.backward:
        whole = stretch.edge.sewn_length
        start, end = whole - end, whole - start
    return Part(number, i, start, end)


def _overlaps(
    first: Sequence[Stretch], second: Sequence[Stretch]
) -> Iterator[tuple[int, int, float, float, float, float]]:
    """The parts of two sides that lie on each other: which stretches, and from where to where each side has run."""
    whole, other = first[-1].after, second[-1].after
    if len(first) == len(second):
        for i, (a, b) in enumerate(zip(first, second, strict=True)):
            yield i, i, a.before, a.after, b.before, b.after
        return
    ratio = other / whole
    for i, a in enumerate(first):
        for j, b in enumerate(second):
            low, high = max(a.before * ratio, b.before), min(a.after * ratio, b.after)
            if high - low > _SLIVER:
                yield i, j, low / ratio, high / ratio, low, high
