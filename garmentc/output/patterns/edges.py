"""The lines of a piece: where it is cut, sewn and folded, and the notches in its edges."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import CutPiece
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import CLOSE, Point, left
from garmentc.output.patterns.scene import Stroke, polyline

_SLIT = 5.0  # mm, the deepest notch into an allowance
_INWARD = 4.0  # mm, a notch where there is no allowance

LENGTHEN_GAP = 6.0
"""Between the two lines (mm) that show where a piece is lengthened or shortened."""

_INNER = {
    "fold": ("fold", "chain"),
    "guide": ("guide", "narrow"),
    "lengthen": ("lengthen", "narrow"),
    "buttonhole": ("buttonhole", "wide"),
}


def edge_strokes(piece: CutPiece) -> Iterator[Stroke]:
    """The cut line, the stitching line and the folds, edge by edge."""
    for drafted, cut in zip(piece.drafted.edges, piece.edges, strict=True):
        line = drafted.span.line
        corner = () if cut.corner is None else cut.corner.segments
        if drafted.on_fold:
            yield Stroke("fold", "chain", cut.path.segments, drafted.name, line)
            if corner:
                yield Stroke("cut", "wide", corner, drafted.name, line)
        else:
            yield Stroke("cut", "wide", cut.path.segments + corner, drafted.name, line)
    for drafted in piece.drafted.edges:
        if allowance(piece, drafted.name) > 0:
            yield Stroke("stitch", "dashed", drafted.path.segments, drafted.name, drafted.span.line)


def inner_strokes(piece: CutPiece) -> Iterator[Stroke]:
    """The fold lines, guides and lengthening lines inside a piece, and the lines of its darts, tucks and pleats."""
    for one in piece.drafted.lines:
        use, kind = _INNER[one.kind]
        for path in _doubled(one.path) if one.kind == "lengthen" else (one.path,):
            yield Stroke(use, kind, path.segments, "", one.span.line)
    for taken in piece.drafted.takeups:
        lines = takeup_lines(taken)
        kind = "dashed" if taken.kind in ("dart", "tuck") else "narrow"
        for leg in lines.legs:
            yield Stroke("dart" if taken.kind == "dart" else "pleat", kind, leg.segments, taken.edge, taken.span.line)
        for fold in lines.folds:
            yield Stroke("fold", "chain", fold.segments, "", taken.span.line)


def _doubled(path: Path) -> tuple[Path, Path]:
    """A straight path as two lines beside each other."""
    aside = left(path.start_direction()) * LENGTHEN_GAP / 2
    return straight(path.start + aside, path.end + aside), straight(path.start - aside, path.end - aside)


def notch_strokes(piece: CutPiece) -> Iterator[Stroke]:
    """Slits from the cut line inward for each notch: square to the edge, or from corner to corner."""
    for notch in piece.notches:
        edge = piece.drafted.edge(notch.edge)
        if edge is None:
            continue
        wide = allowance(piece, notch.edge)
        for along in notch.places(edge.path.length):
            at = edge.path.point_at(along)
            outward = -left(edge.path.tangent_at(along)) * wide
            if wide > 0 and not CLOSE < along < edge.path.length - CLOSE:
                outward = _cut_corner(piece, notch.edge, at_end=along > CLOSE) - at
            off = abs(outward)
            inward = -outward / off if off > 0 else left(edge.path.tangent_at(along))
            deep = min(off / 2, _SLIT) if off > 0 else _INWARD
            start = at + outward
            yield Stroke("notch", "wide", polyline(start, start + inward * deep), notch.edge, notch.span.line)


def _cut_corner(piece: CutPiece, edge: str, *, at_end: bool) -> Point:
    """The corner of the cut line outside a corner of the piece: where the border of an edge ends or starts."""
    cut = next(one for one in piece.edges if one.edge == edge)
    return cut.path.end if at_end else cut.path.start


def allowance(piece: CutPiece, edge: str) -> float:
    """The allowance of an edge (mm); a strip has none beyond its width."""
    use = piece.uses.get(edge)
    return 0.0 if use is None else use.allowance
