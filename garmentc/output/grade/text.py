"""How corners and edges move from size to size, as text in columns."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence

from garmentc.grade.model import ORIGIN, Grade, GradedCorner, GradedPiece, moves, steps

_WIDEST = 112  # characters; more sizes than fit go below

Row = tuple[str, str, tuple[str, ...]]
"""The name of a thing, which of its numbers this is, and the numbers by size."""


def grade_text(grade: Grade) -> str:
    """All pieces, each with its corners and edges, without a line end at the end."""
    head = [
        f"{grade.title}: how it changes from size to size",
        "Corners: mm moved since the size before, to the right (less than 0: left), up (less than 0: down), in all.",
        "Edges: length along the stitching line in cm; step since the size before in mm; length with darts made in cm.",
    ]
    return "\n".join([*head, *(line for piece in grade.pieces for line in _piece(grade, piece))])


def _piece(grade: Grade, piece: GradedPiece) -> Iterator[str]:
    aligned = "its origin, (0, 0)" if piece.aligned == ORIGIN else f"`{piece.aligned}`"
    yield ""
    yield f"{piece.name}: {piece.title}, {'a strip as it is cut' if piece.is_strip else f'aligned at {aligned}'}"
    rows = [*_corner_rows(piece.corners), *_edge_rows(piece)]
    names = max(len(name) for name, _, _ in rows)
    kinds = max(len(kind) for _, kind, _ in rows)
    cell = 2 + max(len(text) for text in (*grade.sizes, *(text for _, _, texts in rows for text in texts)))
    blocks = math.ceil(len(grade.sizes) / max(1, (_WIDEST - names - kinds - 3) // cell))
    fit = math.ceil(len(grade.sizes) / blocks)
    for first in range(0, len(grade.sizes), fit):
        shown = slice(first, first + fit)
        yield _line("size", "", grade.sizes[shown], names, kinds, cell)
        before = ""
        for name, kind, texts in rows:
            yield _line("" if name == before else name, kind, texts[shown], names, kinds, cell)
            before = name
    still = [corner.name for corner in piece.corners if not _moves(corner)]
    if still:
        yield f"  in one place in all sizes: {', '.join(still)}"


def _line(name: str, kind: str, texts: Sequence[str], names: int, kinds: int, cell: int) -> str:
    return f"  {name:<{names}} {kind:<{kinds}}{''.join(f'{text:>{cell}}' for text in texts)}".rstrip()


def _corner_rows(corners: Iterable[GradedCorner]) -> Iterator[Row]:
    for corner in corners:
        if not _moves(corner):
            continue
        moved = moves(corner.at)
        for kind, values in (
            ("right", [move.real for move in moved]),
            ("up", [move.imag for move in moved]),
            ("in all", [abs(move) for move in moved]),
        ):
            yield corner.name, kind, ("", *map(_mm, values))


def _edge_rows(piece: GradedPiece) -> Iterator[Row]:
    for edge in piece.edges:
        yield edge.name, "cm", tuple(f"{value / 10:.1f}" for value in edge.lengths)
        yield edge.name, "mm", ("", *(_mm(step) for step in steps(edge.lengths)))
        if any(edge.taken):
            yield edge.name, "cm sewn", tuple(f"{value / 10:.1f}" for value in edge.sewn_lengths)


def _moves(corner: GradedCorner) -> bool:
    return any(_mm(abs(move)) != "0.0" for move in moves(corner.at))


def _mm(value: float) -> str:
    """A number of millimetres with one decimal, so that columns stay even, and never minus zero."""
    text = f"{value:.1f}"
    return "0.0" if text == "-0.0" else text
