"""What comparing gives: the corners and edges of each piece through all sizes, in millimetres, y up."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from garmentc.draft.model import DraftedPiece
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.record import Record
from garmentc.source import Span

ORIGIN = "origin"
"""What the place is called at which pieces are aligned when nothing else is said: (0, 0) of the piece."""


class Sized(Record):
    """One size of a garment: the measures it needs (mm), its pieces, its strips, and the named points of each piece."""

    size: str
    measures: Mapping[str, float]
    pieces: tuple[DraftedPiece, ...]
    strips: tuple[DraftedPiece, ...]
    points: Mapping[str, Mapping[str, Point]]


class GradedEdge(Record):
    """An edge in all sizes, aligned. ``span`` is its statement.

    ``taken`` is how much of it (mm) its darts, tucks and pleats take up, by size.
    """

    name: str
    paths: tuple[Path, ...]
    taken: tuple[float, ...]
    span: Span

    @property
    def lengths(self) -> tuple[float, ...]:
        """Along the stitching line, by size."""
        return tuple(path.length for path in self.paths)

    @property
    def sewn_lengths(self) -> tuple[float, ...]:
        """The lengths that are left once darts, tucks and pleats are made, by size."""
        return tuple(long - taken for long, taken in zip(self.lengths, self.taken, strict=True))


class GradedCorner(Record):
    """A corner in all sizes, aligned.

    ``edges`` are the one that ends there and the one that begins. A corner is called after the point of the spec that
    lies there in every size, and ``span`` is that point's statement; else after its edges, and ``span`` is None.
    """

    name: str
    edges: tuple[str, str]
    at: tuple[Point, ...]
    span: Span | None


class GradedPiece(Record):
    """A piece or strip in all sizes. ``aligned`` names the point that is laid at (0, 0), ``shifts`` where it was.

    A fold that only some sizes have is left out. ``inside`` are the lines of darts, tucks and pleats, aligned, by size.
    """

    name: str
    title: str
    is_strip: bool
    aligned: str
    shifts: tuple[Point, ...]
    edges: tuple[GradedEdge, ...]
    corners: tuple[GradedCorner, ...]
    inside: tuple[tuple[Path, ...], ...]


class Grade(Record):
    """A garment in all sizes of a chart, in the chart's order; ``measures`` are those it needs, by size (mm)."""

    name: str
    title: str
    sizes: tuple[str, ...]
    measures: tuple[Mapping[str, float], ...]
    pieces: tuple[GradedPiece, ...]


def steps(values: tuple[float, ...]) -> tuple[float, ...]:
    """What each value adds to the one before it: one fewer than the values."""
    return tuple(after - before for before, after in pairwise(values))


def moves(places: tuple[Point, ...]) -> tuple[complex, ...]:
    """How a corner has moved since the size before: one fewer than the places."""
    return tuple(after - before for before, after in pairwise(places))
