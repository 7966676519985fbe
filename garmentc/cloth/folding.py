"""Cloth by the metre folded lengthwise: which shapes are cut through both layers, and what their half lies on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.cloth.model import Ground, GroundSide, Shape, Turn
from garmentc.cloth.shapes import mirror_image
from garmentc.cloth.turns import is_way_up, off_grain
from garmentc.geometry.path import Path
from garmentc.geometry.vector import angle_of
from garmentc.record import Record

FOLD = "fold"
"""The finish of the side of folded cloth along which it is folded."""

_GRAIN = 1e-6  # rad of rounding


class Layers(Record):
    """The shapes laid on folded cloth, each cut through both layers, and those left for single cloth.

    What ``must_be_single`` can't be cut through the upper layer of folded cloth either.
    """

    folded: tuple[Shape, ...]
    single: tuple[Shape, ...]
    must_be_single: bool


def folded_ground(flat: Ground) -> Ground:
    """A length of cloth by the metre folded in half along its middle: the fold below, both selvages above."""
    left, _, right, wide = flat.box
    high = wide / 2
    corners = (complex(left, 0), complex(right, 0), complex(right, high), complex(left, high))
    selvage = next(side for side in flat.sides if side.name == "top")
    named = ((FOLD, FOLD, 0.0), ("right", "", 0.0), ("top", selvage.finish, selvage.width), ("left", "", 0.0))
    sides = tuple(
        GroundSide(name, (corners[i], corners[(i + 1) % 4]), True, finish, width)
        for i, (name, finish, width) in enumerate(named)
    )
    return flat._replace(ring=corners, sides=sides)


def layers(assembly: Assembly, found: Sequence[Shape], folded: Ground) -> Layers:
    """Sort the shapes of a garment by how they are cut from folded cloth.

    A piece on the fold is laid as its half, a pair as one of the two; of copies that look the same from both sides,
    two are cut at once.
    """
    through: list[Shape] = []
    single: list[Shape] = []
    must = False
    for name in dict.fromkeys(shape.piece for shape in found):
        copies = [shape for shape in found if shape.piece == name]
        laid = assembly.draft.lays.get(name)
        if laid is not None and laid.layers == 1:
            single += copies
            must = True
            continue
        cut = next((piece for piece in assembly.pieces if piece.drafted.name == name), None)
        halves = [half for shape in copies for half in _half(cut, shape, folded)] if cut else []
        if halves:
            through += halves
            continue
        pairs = [shape for shape in copies if shape.mirrored]
        plain = [shape for shape in copies if not shape.mirrored]
        if pairs:
            through += [shape._replace(beside="") for shape in plain]
        elif copies[0].is_strip or folded.is_alike or (cut is not None and cut.drafted.on_fold):
            through += plain[: len(plain) // 2]
            single += plain[len(plain) // 2 * 2 :]
        else:
            single += plain
    return Layers(tuple(through), tuple(single), must)


def fold_edge(shape: Shape) -> Path | None:
    """The edge of a half that lies on the fold of the cloth; None for what is not laid on the fold."""
    return next((path for name, path in shape.hems if name == FOLD), None)


def fold_turn(shape: Shape) -> Turn:
    """How a half is held with its fold below; ValueError for what is not laid on the fold."""
    edge = fold_edge(shape)
    if edge is None:
        raise ValueError("it does not lie on the fold")
    return Turn(-angle_of(edge.end - edge.start))


def _half(cut: CutPiece, shape: Shape, folded: Ground) -> Iterator[Shape]:
    """The half of a piece on the fold, or the mirror image of it, whichever lies on its grain and the right way up."""
    folds = [edge.path for edge in cut.edges if edge.edge in cut.uses and cut.uses[edge.edge].way == "fold"]
    if len(folds) != 1:
        return
    half = shape._replace(title=f"{shape.title}, on the fold", outline=cut.cut_line, hems=((FOLD, folds[0]),))
    for one in (half, mirror_image(half)):
        turn = fold_turn(one)
        if off_grain(one, turn, folded) <= one.within + _GRAIN and is_way_up(one, turn, folded):
            yield one._replace(mirrored=shape.mirrored)
            return
