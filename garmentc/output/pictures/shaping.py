"""Darts, tucks and pleats of a flat piece: the lines that are brought together, and which way the cloth is pressed."""

from __future__ import annotations

from garmentc.assembly.model import Assembly
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path
from garmentc.output.pictures.board import Board, bent
from garmentc.output.pictures.laid import middle
from garmentc.output.pictures.leaf import Line, whole
from garmentc.output.pictures.model import Picture, framed

_STRAY = 0.7
_REACH = 24.0  # px from the middle that the arrow reaches on each side


def shaping_picture(assembly: Assembly, name: str) -> tuple[Picture, ...]:
    """The piece of a step called ``PIECE.NAME``, wrong side up where it is folded right sides together."""
    piece_name, _, statement = name.partition(".")
    piece = next((one for one in assembly.pieces if one.drafted.name == piece_name), None)
    if piece is None:
        return ()
    found = [one for one in piece.drafted.takeups if one.name == statement]
    found = found or [one for one in piece.drafted.takeups if one.name.startswith(statement)]
    if not found:
        return ()
    span = found[0].span
    found = [one for one in piece.drafted.takeups if one.span == span]
    wrong = found[0].kind == "dart"
    leaf, mirror = whole(piece)
    face = Motion.mirror_in(0j, 1j) if wrong else Motion.identity()
    halves = [face] if mirror is None else [face, mirror.then(face)]
    board = Board(face.apply(p) for p in leaf)
    ring = board.px([face.apply(p) for p in leaf])
    board.cloth(ring, wrong=wrong)

    def drawn(path: Path, motion: Motion) -> Line:
        return board.px([motion.apply(p) for p in path.flatten(_STRAY)])

    for one in found:
        lines = takeup_lines(one)
        for motion in halves:
            board.line("row", *(drawn(leg, motion) for leg in lines.legs))
            board.line("fold", *(drawn(fold, motion) for fold in lines.folds))
            start, end = (one.second, one.first) if one.to_first else (one.first, one.second)
            a, b = board.px([motion.apply(start), motion.apply(end)])
            way = (b - a) / (abs(b - a) or 1.0)
            inward = board.px([motion.apply(one.tip)])[0] - (a + b) / 2
            at = (a + b) / 2 + inward * 0.3
            board.arrow(bent(at - way * _REACH, at + way * _REACH, 8.0))
    board.word(piece.drafted.title, middle(ring))
    side = "Wrong" if wrong else "Right"
    text = (
        f"{side} side up. Broken lines: brought together, and sewn or pinned there. Dashes and dots: where the cloth "
        "folds. Arrow: the way it is pressed."
    )
    return (framed(text, f"{found[0].title} of the {piece.drafted.title}. {text}", board.strokes, board.words),)
