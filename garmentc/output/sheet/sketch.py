"""A small picture of a piece with the names of its edges: enough to know which edge is meant, not to measure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from garmentc.assembly.joins import edge_title
from garmentc.assembly.model import CutPiece
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, dot, left

_LINE = 0.5  # how far a drawn curve may stray, in mm of the piece


class Stroke(NamedTuple):
    """A line of a sketch; ``kind`` is cut, stitch or fold."""

    kind: str
    points: tuple[Point, ...]


class Label(NamedTuple):
    """A word beside an edge; ``side`` says whether it starts, centres or ends there."""

    text: str
    at: Point
    side: str


class Sketch(NamedTuple):
    """A picture of a piece as drawn, in mm, y down, with its corner at 0."""

    alt: str
    width: float
    height: float
    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]
    letter: float


def sketch_piece(piece: CutPiece) -> Sketch:
    """The cut line, the stitching line, the folds and the names of the edges of one piece."""
    raise NotImplementedError
