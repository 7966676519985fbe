"""Whether what is turned at a hem finds room: on the curve that it follows, and on the piece."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from garmentc.assembly.model import FinishedEdge
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import Draft, DraftedEdge, DraftedPiece
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, cross, dot, left
from garmentc.numbers import length
from garmentc.record import Record

_FULL, _SHORT = 1.35, 0.75
"""How long the cut edge of a hem may be, at most and at least, as a share of the line that it comes to lie on.

What is longer is eased in, what is shorter has to be stretched; common practice, no source.
"""
_WINDOW = 30.0  # mm of an edge that are looked at, or twice the depth of the hem
_PLACES = (0.1, 0.3, 0.5, 0.7, 0.9)  # shares of an edge at which a hem has to find cloth
_EDGE = 0.5  # mm that a hem may come nearer to the other side


def check_hems(finishes: Iterable[FinishedEdge], draft: Draft, values: Evaluator) -> None:
    """Warn of hems on curves too tight for their depth, and of hems deeper than their piece."""
    for finish in finishes:
        if not finish.join.folds:
            continue
        depth = finish.join.folds[0]
        for name in finish.edges:
            piece = draft.piece(name.piece)
            edge = piece.edge(name.edge)
            if edge is None or piece.making is not None:
                continue
            if not any(_is_on(piece, at) for at in _turned_onto(edge, depth)):
                _report_deep(finish, name, depth, values)
                continue
            if any(one.edge == edge.name for one in piece.takeups):
                continue  # as it is drawn it has the corners of what is taken up
            worst = max(_bends(edge.path, depth), key=lambda one: max(one.share, 1 / one.share), default=None)
            if worst is not None and not _SHORT <= worst.share <= _FULL:
                _report_curve(finish, name, depth, worst, values)


class _Bend(Record):
    """A stretch of a hem: how long (mm) its cut edge is, and the line that this comes to lie on."""

    cut: float
    lies: float

    @property
    def share(self) -> float:
        """How many times as long the cut edge is."""
        return self.cut / self.lies


def _bends(path: Path, depth: float) -> Iterator[_Bend]:
    """Stretches of an edge that runs anticlockwise round its piece; bulges turn left."""
    if path.length < 2 * depth:
        return
    wide = min(max(_WINDOW, 2 * depth), path.length)
    count = max(int(path.length / (wide / 2)), 2)
    places = [i / count * path.length for i in range(count + 1)]
    turns = []
    for one, other in pairwise(places):
        a, b = path.tangent_at(one), path.tangent_at(other)
        turns.append(cross(a, b) if dot(a, b) > 0 else (1.0 if cross(a, b) > 0 else -1.0))
    for at in range(len(turns) - 1):
        long, turn = places[at + 2] - places[at], turns[at] + turns[at + 1]
        cut, lies = long + turn * depth, long - turn * depth
        yield _Bend(max(cut, 0.1), max(lies, 0.1))


def _turned_onto(edge: DraftedEdge, depth: float) -> list[Point]:
    """Places on the piece that the raw edge of a hem comes to lie on."""
    places = (share * edge.path.length for share in _PLACES)
    return [edge.path.point_at(at) + left(edge.path.tangent_at(at)) * max(depth - _EDGE, 0.0) for at in places]


def _is_on(piece: DraftedPiece, at: Point) -> bool:
    """Whether a place is on the piece, or beyond a fold on its other half."""
    if piece.outline.contains(at):
        return True
    folds = (edge.path for edge in piece.edges if edge.on_fold)
    return any(piece.outline.contains(Motion.mirror_in(fold.start, fold.chord).apply(at)) for fold in folds)


def _report_deep(finish: FinishedEdge, name: EdgeName, depth: float, values: Evaluator) -> None:
    values.fault(
        "hem-too-deep",
        f"the hem of `{name.text}` is deeper than the piece there",
        finish.span,
        notes=(f"it is {length(depth)} deep, and the piece ends before",),
        help="set a smaller hem, or draw the piece larger",
        severity=Severity.WARNING,
        subject=name.text,
    )


def _report_curve(finish: FinishedEdge, name: EdgeName, depth: float, worst: _Bend, values: Evaluator) -> None:
    longer = worst.share > 1
    values.fault(
        "hem-on-curve",
        f"the {spoken(name.edge)} of `{name.piece}` is curved too tightly for a hem {length(depth)} deep",
        finish.span,
        notes=(
            f"where it bends most, {length(round(worst.cut))} of cut edge come to lie on {length(round(worst.lies))}: "
            + ("so much can hardly be eased in" if longer else "it would have to be stretched")
            + " (common practice, no source)",
        ),
        help="set a narrower hem, or finish it `as bias_faced` or `as bound`",
        severity=Severity.WARNING,
        subject=name.text,
    )
