"""Notches, marks and lines of a piece in words, with where they lie, so that they can be drawn by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.assembly.model import Inserted, JoinedSeam
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedPiece, PlacedNotch
from garmentc.geometry.vector import Point
from garmentc.numbers import length
from garmentc.output.sheet.words import listed, sentence

_NEAR = 0.05  # mm; a mark nearer than this to an edge or a corner lies on it


def marks(piece: DraftedPiece, seams: Iterable[JoinedSeam]) -> Iterator[str]:
    """What to carry over from the pattern of a piece to the cloth."""
    for notch in piece.notches:
        yield _notch(piece, notch)
    for mark in piece.marks:
        text = f": {mark.text}" if mark.text else ""
        yield sentence(f"{spoken(mark.name)}{_where(piece, mark.at)}{_both(piece, mark.at)}{text}")
    for insert in _inserts(piece, seams):
        yield sentence(f"place of the {insert.strip_title}{_where(piece, insert.at)}{_both(piece, insert.at)}")
    for line in piece.lines:
        kind = "fold line" if line.kind == "fold" else "line"
        text = f": {line.text}" if line.text and line.text != line.kind else ""
        yield sentence(f"{kind} {spoken(line.name)}, {length(line.path.length)} long{text}")


def _inserts(piece: DraftedPiece, seams: Iterable[JoinedSeam]) -> Iterator[Inserted]:
    """What is caught in a seam at a place of the piece that no mark of its own shows."""
    inserts = [insert for seam in seams for insert in seam.inserts if insert.piece == piece.name]
    return (one for one in inserts if all(abs(mark.at - one.at) >= _NEAR for mark in piece.marks))


def _notch(piece: DraftedPiece, notch: PlacedNotch) -> str:
    names = [edge.name for edge in piece.edges]
    before = piece.edges[names.index(notch.edge) - 1]
    both = ", on both halves" if piece.on_fold and not piece.meets_fold(notch.edge) else ""
    place = f"{length(notch.along)} from the corner with the {spoken(before.name)}"
    return f"Notch on the {spoken(notch.edge)}, {place}{both}."


def _where(piece: DraftedPiece, at: Point) -> str:
    """The place of a point on the border of a piece, in words; nothing when it lies inside."""
    corner = [edge for edge in piece.edges if min(abs(edge.path.start - at), abs(edge.path.end - at)) < _NEAR]
    if corner:
        return f", where the {listed([spoken(edge.name) for edge in corner])} meet"
    for i, edge in enumerate(piece.edges):
        along, off = edge.path.nearest(at)
        if off < _NEAR:
            before = spoken(piece.edges[i - 1].name)
            return f", on the {spoken(edge.name)}, {length(along)} from the corner with the {before}"
    return ""


def _both(piece: DraftedPiece, at: Point) -> str:
    on_fold = any(edge.on_fold and edge.path.nearest(at)[1] < _NEAR for edge in piece.edges)
    return ", on both halves" if piece.on_fold and not on_fold else ""
