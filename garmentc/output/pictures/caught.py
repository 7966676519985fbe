"""Strips that a seam catches: the end of each at its place, and a bit of it."""

from __future__ import annotations

from garmentc.assembly.faces import Faces
from garmentc.assembly.model import Assembly, Inserted, JoinedSeam
from garmentc.geometry.vector import Point
from garmentc.output.pictures.board import Board
from garmentc.output.pictures.laid import Group, middle
from garmentc.output.pictures.leaf import Line

_LONG = 46.0  # px of a strip that are drawn
_LEAST = 2.5  # px; half of the width of a strip that is still seen

Rings = dict[Line, str]
"""Outlines (px) of strips, each with its title."""


def strips_by_place(
    assembly: Assembly, board: Board, seam: JoinedSeam, how: Faces, top: Group, below: Group, peek: Point
) -> tuple[Rings, Rings, Rings]:
    """The strips that lie under both layers, between them and over them; the upper layer is drawn ``peek`` (px) off.

    They lie on the right side of their piece, those that are to come out inside on its wrong side.
    """
    under: Rings = {}
    between: Rings = {}
    over: Rings = {}
    for insert in seam.inserts:
        for group, wrong, outer in ((top, how.top_wrong, over), (below, not how.below_wrong, under)):
            ring = strip(assembly, board, insert, group, peek if outer is over else 0j)
            if ring is not None:
                inner = wrong != insert.inside
                (between if inner else outer)[ring] = insert.strip_title
                break
    return under, between, over


def strip(assembly: Assembly, board: Board, insert: Inserted, group: Group, peek: Point) -> Line | None:
    """The outline (px) of the end of a strip at the seam; None where its piece is not in the group."""
    cut = assembly.draft.piece(insert.strip)
    assert cut.making is not None
    half = cut.making.finished_width / 2 * board.scale
    for laid in group:
        if laid.leaf.piece != insert.piece or laid.leaf.part:
            continue
        at = board.px([laid.motion.apply(insert.at)], peek)[0]
        way = middle(board.px(laid.outline, peek)) - at
        way /= abs(way) or 1.0
        side = way * 1j * max(half, _LEAST)
        return at + side, at + side + way * _LONG, at - side + way * _LONG, at - side, at + side
    return None
