"""How corners and edges move from size to size, as a table for programs: one number in each row."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from garmentc.grade.model import Grade, GradedPiece, moves, steps
from garmentc.numbers import decimal

COLUMNS = ("piece", "aligned_at", "thing", "name", "size", "size_before", "quantity", "value_mm")
"""``thing`` is corner or edge. A corner has x and y, to the right and up from where the piece is aligned, and with a
size before it dx, dy and distance; an edge has a length, a sewn_length once its darts, tucks and pleats are made, and
with a size before it a step of its length."""

Row = tuple[str, str, str, str, str, str, str, str]


def grade_csv(grade: Grade) -> bytes:
    """The table as CSV: comma, UTF-8, CR LF, the names of the columns first."""
    import csv
    import io

    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    for piece in grade.pieces:
        writer.writerows(_rows(grade, piece))
    return text.getvalue().encode()


def _rows(grade: Grade, piece: GradedPiece) -> Iterator[Row]:
    for corner in piece.corners:
        start = piece.name, piece.aligned, "corner", corner.name
        for size, at in zip(grade.sizes, corner.at, strict=True):
            yield (*start, size, "", "x", _mm(at.real))
            yield (*start, size, "", "y", _mm(at.imag))
        for (before, size), move in zip(pairwise(grade.sizes), moves(corner.at), strict=True):
            yield (*start, size, before, "dx", _mm(move.real))
            yield (*start, size, before, "dy", _mm(move.imag))
            yield (*start, size, before, "distance", _mm(abs(move)))
    for edge in piece.edges:
        start = piece.name, piece.aligned, "edge", edge.name
        for size, drawn, sewn in zip(grade.sizes, edge.lengths, edge.sewn_lengths, strict=True):
            yield (*start, size, "", "length", _mm(drawn))
            yield (*start, size, "", "sewn_length", _mm(sewn))
        for (before, size), step in zip(pairwise(grade.sizes), steps(edge.lengths), strict=True):
            yield (*start, size, before, "step", _mm(step))


def _mm(value: float) -> str:
    return decimal(value, 3)
