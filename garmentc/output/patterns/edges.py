"""The lines of a piece: where it is cut, sewn and folded, and the notches in its edges."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import CutPiece
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import left
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
    """A slit from the cut line inward, square to the edge, for each notch."""
    for notch in piece.drafted.notches:
        edge = piece.drafted.edge(notch.edge)
        if edge is None:
            continue
        wide = allowance(piece, notch.edge)
        inward = left(edge.path.tangent_at(notch.along))
        start = edge.path.point_at(notch.along) - inward * wide
        deep = min(wide / 2, _SLIT) if wide > 0 else _INWARD
        yield Stroke("notch", "wide", polyline(start, start + inward * deep), notch.edge, notch.span.line)


def allowance(piece: CutPiece, edge: str) -> float:
    """The allowance of an edge (mm); a strip has none beyond its width."""
    use = piece.uses.get(edge)
    return 0.0 if use is None else use.allowance
