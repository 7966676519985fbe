"""Edge accounting: every edge of every piece is sewn, finished, folded or the cloth's own, and only once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from garmentc.assembly.model import EdgeUse, FinishedEdge, JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.design.raw import raw_edge_words
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import Draft, DraftedEdge, DraftedPiece
from garmentc.geometry.vector import cross, unit
from garmentc.numbers import degrees, length
from garmentc.source import Span

Uses = dict[str, dict[str, EdgeUse]]
_SQUARE = 1e-3  # radians; a thread direction nearer than this to an edge runs along it


def account(
    pieces: Iterable[DraftedPiece],
    seams: Iterable[JoinedSeam],
    finishes: Iterable[FinishedEdge],
    values: Evaluator,
) -> Uses:
    """What becomes of each edge, by piece and edge; edges left raw or used twice are reported."""
    pieces = tuple(pieces)
    uses: Uses = {piece.name: {} for piece in pieces}
    for piece in pieces:
        for edge in piece.edges:
            if edge.on_fold:
                uses[piece.name][edge.name] = EdgeUse("fold", edge.name, None, edge.span)
    for seam in seams:
        for name in seam.edges:
            _use(uses, name, EdgeUse("seam", seam.name, seam.join, name.span), values)
    for finish in finishes:
        for name in finish.edges:
            if name.piece in uses:  # the ends and sides of strips are accounted for with what catches them
                _use(uses, name, EdgeUse("finish", finish.join.name, finish.join, name.span), values)
    for piece in pieces:
        for edge in piece.edges:
            if edge.name not in uses[piece.name]:
                headline, help = raw_edge_words(piece.name, edge.name)
                values.fault(
                    "raw-edge",
                    headline,
                    edge.span,
                    notes=(f"it is {length(edge.sewn_length)} long",),
                    help=help,
                    subject=piece.name,
                )
    return uses


def _use(uses: Uses, name: EdgeName, use: EdgeUse, values: Evaluator) -> None:
    known = uses[name.piece].get(name.edge)
    if known is None:
        uses[name.piece][name.edge] = use
        return
    if known.way == "fold":
        headline = f"edge `{name.text}` lies on the fold and does not exist once the piece is cut"
        help = "drop it here, or do not cut the piece on this fold"
    else:
        headline = f"edge `{name.text}` is used twice"
        help = "an edge is sewn or finished once; split it if two things happen along it"
    values.fault("edge-used-twice", headline, name.span, others=(Label(known.span, "used here"),), help=help)


def check_found(draft: Draft, uses: Uses, values: Evaluator) -> None:
    """The cloth's own edge runs straight along a thread, so an edge that shall be one, or lie on one, has to do so too.

    Of a piece that may be laid on several grains, one has to bring all such edges onto threads.
    """
    for piece in draft.pieces:
        laid = draft.lays.get(piece.name)
        asked: dict[str, Span] = {
            edge.name: use.span
            for edge in piece.edges
            if (use := uses[piece.name].get(edge.name)) is not None
            and use.way == "finish"
            and use.join is not None
            and use.join.name == "found"
        }
        for name in laid.edges if laid else ():
            asked.setdefault(name.edge, name.span)
        grains = laid.grains if laid else (piece.grain,)
        threads = [piece.thread_under(grain) for grain in grains]
        lying = [edge for edge in piece.edges if edge.name in asked and _is_straight(piece, edge, asked, values)]
        best = min(threads, key=lambda thread: max([_off_thread(edge, thread) for edge in lying], default=0.0))
        for edge in lying:
            off = _off_thread(edge, best)
            if off > _SQUARE:
                values.fault(
                    "found-not-along-thread",
                    f"edge `{edge.name}` of `{piece.name}` does not run along a thread",
                    asked[edge.name],
                    others=(Label(edge.span, "drawn here"),),
                    notes=(f"it is {degrees(off)} off the nearest thread under `grain {' or '.join(grains)}`",),
                    help="change the grain or the direction of the edge: the cloth's own hem runs along its threads",
                )


def _is_straight(piece: DraftedPiece, edge: DraftedEdge, asked: Mapping[str, Span], values: Evaluator) -> bool:
    """Whether an edge is straight; if not, a finding."""
    if edge.path.is_straight(0.05):
        return True
    values.fault(
        "found-not-along-thread",
        f"edge `{edge.name}` of `{piece.name}` is curved, and the cloth's own edge is straight",
        asked[edge.name],
        others=(Label(edge.span, "drawn here"),),
        help="draw it straight, or finish it with a hem",
    )
    return False


def _off_thread(edge: DraftedEdge, thread: complex) -> float:
    """How far (radians) an edge is off the nearest thread, lengthwise or crosswise."""
    off = abs(cross(unit(edge.path.chord), thread))
    return math.asin(min(off, abs(1 - off * off) ** 0.5, 1.0))
