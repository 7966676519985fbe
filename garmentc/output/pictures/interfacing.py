"""Interfacing on the wrong side of its piece."""

from __future__ import annotations

from garmentc.assembly.model import Assembly
from garmentc.geometry.motion import Motion
from garmentc.output.pictures.board import Board
from garmentc.output.pictures.laid import middle
from garmentc.output.pictures.leaf import whole
from garmentc.output.pictures.model import Picture, framed
from garmentc.output.sheet.extent import halves

_STRAY = 0.7


def interfacing_picture(assembly: Assembly, name: str) -> tuple[Picture, ...]:
    """The piece of a step called ``PIECE.interfacing``, wrong side up, with the interfacing laid on it."""
    piece_name = name.removesuffix(".interfacing")
    piece = next(one for one in assembly.pieces if one.drafted.name == piece_name)
    assert piece.drafted.interfacing is not None
    face = Motion.mirror_in(0j, 1j)
    leaf, _ = whole(piece)
    ring = [face.apply(p) for p in leaf]
    board = Board(ring)
    cloth = board.px(ring)
    board.cloth(cloth, wrong=True)
    if piece.drafted.interfacing.with_allowances:
        board.line("row", (*cloth, cloth[0]))
    else:
        for half in halves(piece.drafted, piece.drafted.outline):
            run = board.px([face.apply(p) for p in half.flatten(_STRAY)])
            board.line("row", (*run, run[0]))
    board.word(piece.drafted.title, middle(cloth))
    text = "Wrong side up. Broken line: the edge of the interfacing."
    return (framed(text, f"Interfacing of the {piece.drafted.title}. {text}", board.strokes, board.words),)
