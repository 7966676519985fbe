"""The pattern of one size as files."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

from garmentc.assembly.model import Assembly
from garmentc.geometry.vector import Point
from garmentc.output.patterns.arrange import beside, in_rows
from garmentc.output.patterns.check_square import SIDE, check_strokes, check_words
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.piece import DrawnPiece, draw_piece
from garmentc.output.patterns.scene import Words
from garmentc.output.patterns.svg import Page, Pen, moved, write_page
from garmentc.output.patterns.words import PLAINLY, Told

MARGIN = 8.0
"""White around everything drawn (mm)."""

_TITLE = 7.5  # mm, height of capitals
_ABOUT = "True to scale: one unit of the drawing is one millimetre. The square is 5 cm on each side."


def pattern_files(assembly: Assembly, told: Told = PLAINLY) -> list[tuple[str, bytes]]:
    """One SVG for each piece and strip, and one with all of them, by name below the folder of the size."""
    drawn = [draw_piece(assembly, piece, told) for piece in (*assembly.pieces, *assembly.strips)]
    written = [_one(assembly, piece) for piece in drawn]
    files = [(f"{piece.name}.svg", data) for piece, (data, _) in zip(drawn, written, strict=True)]
    files.append(("all-pieces.svg", _all(assembly, drawn, [group for _, group in written])))
    return files


def _one(assembly: Assembly, piece: DrawnPiece) -> tuple[bytes, str]:
    """The file of a piece, and its group with the upper left corner of its box at 0."""
    x0, _, _, y1 = piece.box
    group = Pen(complex(x0, y1)).group(piece.name, piece.strokes, piece.words)
    laid = beside(piece.box, piece.ring, [words.wall for words in piece.words], SIDE)
    square = laid.corners[0] - complex(x0, y1)
    title = f"{assembly.draft.design.title}: {piece.title}, {assembly.draft.body.shown}"
    return _page(title, laid.width, laid.height, [_inside(group), _square(square)]), group


def _all(assembly: Assembly, drawn: Sequence[DrawnPiece], groups: Sequence[str]) -> bytes:
    design = assembly.draft.design
    title = f"{design.title}: all pieces, {assembly.draft.body.shown}, edition {design.edition}"
    heading = Words("heading", title, complex(0, -_TITLE), 1 + 0j, _TITLE)
    sizes = [(piece.box[2] - piece.box[0], piece.box[3] - piece.box[1]) for piece in drawn]
    laid = in_rows([*sizes, (SIDE, SIDE)])
    below = 2 * _TITLE
    *corners, square = [corner - below * 1j for corner in laid.corners]
    parts = [Pen(complex(-MARGIN, MARGIN)).group("heading", (), (heading,)), _square(square)]
    for group, corner, (_, height) in zip(groups, corners, sizes, strict=True):
        parts.append(_inside(group, complex(corner.real, -corner.imag - height)))
    width = max(laid.width, text_width(title, _TITLE))
    return _page(title, width, laid.height + below, parts)


def _page(title: str, width: float, height: float, groups: Sequence[str]) -> bytes:
    return write_page(Page(width + 2 * MARGIN, height + 2 * MARGIN, title, _ABOUT, groups))


def _inside(group: str, by: complex = 0j) -> str:
    return moved(group, by + complex(MARGIN, MARGIN))


def _square(corner: Point) -> str:
    """The check square with its lower left corner at a point, y up from the upper left corner inside the margins."""
    return _inside(_square_group(), complex(corner.real, -corner.imag - SIDE))


@cache
def _square_group() -> str:
    return Pen(complex(0, SIDE)).group("check-square", check_strokes(), check_words())
