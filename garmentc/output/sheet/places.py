"""Where a point of a piece lies, in words, so that it can be found on the cloth."""

from __future__ import annotations

from collections.abc import Container

from garmentc.assembly.model import Inserted, JoinedSeam
from garmentc.assembly.runs import sewn_to
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.geometry.vector import Point
from garmentc.output.sheet.words import tape
from garmentc.record import Record

NEAR = 0.05
"""A point nearer than this (mm) to an edge or a corner lies on it."""

_ON_SEAM = 1.0  # mm; as far as the assembly lets a strip be from the seam that catches it


def place_of_insert(piece: DraftedPiece, seam: JoinedSeam, insert: Inserted, *, closed: bool) -> str:
    """Where a strip is caught on a piece: "at the neckline end of the armhole, one on each side"."""
    sewn = [name.edge for name in (*seam.first, *seam.second) if name.piece == piece.name]
    where = place_on(piece, insert.at, _ON_SEAM, sewn, closed=closed)
    return where + ("" if insert.named.of_one else on_each_side(piece, insert.at))


def place_on(
    piece: DraftedPiece, at: Point, near: float = NEAR, among: Container[str] = (), *, closed: bool = False
) -> str:
    """The place of a point on the border of a piece, on the edges ``among`` when there are any; else nothing.

    Distances run along the sewing line, with darts and folds of the edge ``closed`` or as it is cut.
    """
    for i, edge in enumerate(piece.edges):
        if (among and edge.name not in among) or edge.on_fold:
            continue
        along, off = edge.path.nearest(at)
        if off > near:
            continue
        name, rest = spoken(edge.name), edge.path.length - along
        if closed:
            before = sewn_to(piece, edge, along)
            along, rest = before, edge.sewn_length - before
        start = _End(piece, edge.path.start, piece.edges[i - 1])
        end = _End(piece, edge.path.end, piece.edges[(i + 1) % len(piece.edges)])
        if min(along, rest) < near:
            return f"at the {(start if along < rest else end).name} of the {name}"
        return f"on the {name}, {tape(along)} from {start.place} and {tape(rest)} from {end.place}"
    return ""


def on_each_side(piece: DraftedPiece, at: Point) -> str:
    """Says of a point of a piece on the fold, or of a pair, that it is there twice."""
    if any(edge.on_fold and edge.path.nearest(at)[1] < NEAR for edge in piece.edges):
        return ""
    return ", one on each side" if piece.on_fold else ", one on each piece" if piece.pair else ""


class _End(Record):
    """An end of an edge, and the edge beside it there."""

    piece: DraftedPiece
    corner: Point
    beside: DraftedEdge

    @property
    def name(self) -> str:
        """What it is called after: the fold line that ends there, else the edge beside it."""
        name = spoken(self._fold_line or self.beside.name)
        return name if name.split()[-1] == "end" else f"{name} end"

    @property
    def place(self) -> str:
        """What a tape is laid at there."""
        is_fold = self._fold_line or (self.beside.on_fold and not self.piece.is_unfolded)
        if not is_fold:
            return f"its {self.name}"
        name = spoken(self._fold_line or self.beside.name)
        return f"the {name}" if name.split()[-1] == "fold" else f"the {name} fold"

    @property
    def _fold_line(self) -> str:
        folds = (line for line in self.piece.lines if line.kind == "fold")
        ends = ((line.name, abs(end - self.corner)) for line in folds for end in (line.path.start, line.path.end))
        return next((name for name, off in ends if off < NEAR), "")
