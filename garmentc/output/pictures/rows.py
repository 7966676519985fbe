"""Buttons and buttonholes on their piece."""

from __future__ import annotations

from math import pi

from garmentc.assembly.model import Assembly
from garmentc.geometry.arc import Arc
from garmentc.numbers import length
from garmentc.output.pictures.board import Board
from garmentc.output.pictures.laid import middle
from garmentc.output.pictures.leaf import whole
from garmentc.output.pictures.model import Picture, framed

_STRAY = 0.3


def row_picture(assembly: Assembly, name: str) -> tuple[Picture, ...]:
    """The piece of a step called ``PIECE.KIND.NAME``, right side up, with the row on it."""
    piece_name, kind, row_name = name.rsplit(".", 2)
    piece = next(one for one in assembly.pieces if one.drafted.name == piece_name)
    row = next(one for one in piece.drafted.rows if (one.kind, one.name) == (kind, row_name))
    leaf, _ = whole(piece)
    board = Board(leaf)
    ring = board.px(leaf)
    board.cloth(ring, wrong=False)
    if row.slits:
        board.line("row", *(board.px((slit.start, slit.end)) for slit in row.slits))
    else:
        board.line("thin", *(board.px(Arc(at, row.size / 2, 0.0, 2 * pi).flatten(_STRAY)) for at in row.places))
    board.word(piece.drafted.title, middle(ring))
    apart = f", {length(row.apart)} from one to the next" if row.apart else ""
    text = f"Right side up. {len(row.places)} {row.kind}{apart}."
    return (framed(text, f"{row.kind.capitalize()} of the {piece.drafted.title}. {text}", board.strokes, board.words),)
