"""What there is to measure on one garment in one size."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence

from garmentc.design import kinds as k
from garmentc.design.kinds import Kind
from garmentc.record import Record

# Up to which length (mm) a measurement may be off by how much (mm): common practice, no source.
_TOLERANCES = ((100.0, 2.0), (300.0, 5.0), (math.inf, 10.0))

FINISHED, OPENING, EASE, SEAM, EDGE, CLOTH = "finished", "opening", "ease", "seam", "edge", "cloth"
GROUPS = {
    FINISHED: "Finished measurements",
    OPENING: "Openings, all round",
    EASE: "Body, and ease added to it",
    SEAM: "Seams, along the stitching line",
    EDGE: "Finished edges",
    CLOTH: "Cloth that is cut, allowances included",
}
"""The groups of the sheet in their order, with their headings."""


class Measured(Record):
    """One thing to measure: mm, mm², radians or a plain number, as ``kind`` says.

    ``tolerance`` (mm) is how far the finished garment may be off, or None where nothing is measured on it.
    """

    group: str
    name: str
    title: str
    how: str
    value: float
    kind: Kind
    tolerance: float | None


class SizeMeasures(Record):
    """All that is measured in one size or for one person."""

    size: str
    measured: tuple[Measured, ...]


def rows_of(sizes: Sequence[SizeMeasures]) -> list[tuple[Measured | None, ...]]:
    """Each thing with its values in all sizes, in the order they are met; None in a size that does not have it."""
    found: dict[tuple[str, str, int], list[Measured | None]] = {}
    for number, size in enumerate(sizes):
        met: Counter[tuple[str, str]] = Counter()
        for one in size.measured:
            key = one.group, one.name
            row = found.setdefault((*key, met[key]), [None] * len(sizes))
            row[number] = one
            met[key] += 1
    return [tuple(row) for row in found.values()]


def tolerance_of(mm: float) -> float:
    """How far (mm) a measurement of a length may be off."""
    return next(off for most, off in _TOLERANCES if abs(mm) <= most)


def unit_of(kind: Kind) -> str:
    """The unit in which the tables for programs give a value."""
    return {k.LENGTH: "mm", k.AREA: "mm2", k.ANGLE: "rad"}.get(kind, "")
