"""Whether marks and guide lines lie on the cloth of their piece, allowances and all."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.assembly.model import CutPiece
from garmentc.draft.evaluate import Evaluator
from garmentc.geometry.outline import Outline
from garmentc.geometry.vector import Point
from garmentc.numbers import length
from garmentc.source import Span

_STRAY = 0.5
"""How far beyond the cut line a mark or a guide may reach (mm): the width of a line on paper."""


def check_inside(pieces: Iterable[CutPiece], values: Evaluator) -> None:
    """Report what could not be carried over to the cloth, because it lies beyond the cut line."""
    for piece in pieces:
        for mark in piece.drafted.marks:
            _check(piece, f"mark `{mark.name}`", (mark.at,), mark.span, values)
        for line in piece.drafted.lines:
            if line.kind == "guide":
                _check(piece, f"guide `{line.name}`", line.path.flatten(_STRAY), line.span, values)


def _check(piece: CutPiece, what: str, points: Iterable[Point], span: Span, values: Evaluator) -> None:
    far = max(_beyond(piece.cut_line, point) for point in points)
    if far > _STRAY:
        values.fault(
            "off-the-piece",
            f"{what} lies beyond the edge of the piece `{piece.drafted.name}`",
            span,
            notes=(f"it reaches {length(far)} beyond the cut line",),
            help="what has no cloth under it can't be carried over: look at its signs and at the point it starts from",
        )


def _beyond(outline: Outline, point: Point) -> float:
    """How far outside a point lies (mm); 0 inside."""
    if outline.contains(point):
        return 0.0
    return min(edge.nearest(point)[1] for edge in outline.edges)
