"""How much cloth a piece takes once it is unfolded."""

from __future__ import annotations

import math

from garmentc.draft.model import DraftedPiece
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import box_around
from garmentc.geometry.vector import angle_of
from garmentc.record import Record


class Extent(Record):
    """Width and height of a box (mm)."""

    width: float
    height: float


def halves(piece: DraftedPiece, outline: Outline) -> tuple[Outline, ...]:
    """An outline of the piece and, when it is cut on the fold, its mirror image on the other side."""
    fold = next((edge.path for edge in piece.edges if edge.on_fold), None)
    if fold is None:
        return (outline,)
    return outline, outline.moved(Motion.mirror_in(fold.start, fold.chord))


def as_drawn(piece: DraftedPiece, outline: Outline) -> Extent:
    """The box round the unfolded outline, upright as the pattern is drawn."""
    return _box(halves(piece, outline), Motion.identity())


def along_threads(piece: DraftedPiece, outline: Outline) -> Extent:
    """The box round the unfolded outline with its height along the lengthwise threads."""
    upright = Motion.turn_about(0j, math.pi / 2 - angle_of(piece.thread))
    return _box(halves(piece, outline), upright)


def cloth_area(piece: DraftedPiece, outline: Outline) -> float:
    """The area (mm²) of all that is cut for a piece: every copy, unfolded."""
    return abs(outline.area) * piece.copies


def _box(outlines: tuple[Outline, ...], motion: Motion) -> Extent:
    xmin, ymin, xmax, ymax = box_around([outline.moved(motion).bounds() for outline in outlines])
    return Extent(xmax - xmin, ymax - ymin)
