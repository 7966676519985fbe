"""Interfacing: what it is cut by, and the work of putting it onto its pieces, which comes before any other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.assembly.takeups import FlatWork
from garmentc.draft.model import DraftedPiece


def interfacing_name(piece: DraftedPiece) -> str:
    """What the task is called that puts interfacing onto a piece."""
    return f"{piece.name}.interfacing"


def interfacing_work(pieces: Iterable[DraftedPiece]) -> Iterator[FlatWork]:
    """The interfacing of all pieces, one after the other."""
    for piece in pieces:
        one = piece.interfacing
        if one is None:
            continue
        where = "level with the cut edges" if one.with_allowances else "its edges along the sewing lines"
        lines = [
            f"Lay the interfacing ({one.text}) on the wrong side of the {piece.title}, {where}.",
            "Fuse it the way its maker says, on a scrap of the cloth first; one that does not fuse is basted all round "
            "inside the allowances.",
        ]
        if piece.copies > 1 and not piece.on_fold:
            lines.insert(0, f"Do this {piece.copies} times, once on each.")
        yield FlatWork(
            interfacing_name(piece),
            f"{piece.title}: interfacing",
            tuple(lines),
            piece.copies,
            0.0,
            one.span,
            edges=tuple((piece.name, edge.name) for edge in piece.edges),
            kind="interfacing",
            why="the interfacing lies under it",
        )
