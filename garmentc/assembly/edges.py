"""Edge accounting: every edge of every piece is sewn, finished, folded or the cloth's own, and only once."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.assembly.model import EdgeUse, FinishedEdge, JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.design.raw import raw_edge_words
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedPiece
from garmentc.geometry.vector import cross, unit
from garmentc.numbers import degrees, length

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


def check_found(pieces: Iterable[DraftedPiece], uses: Uses, values: Evaluator) -> None:
    """The cloth's own hem runs straight along a thread, so an edge that shall be one has to do so too."""
    for piece in pieces:
        for edge in piece.edges:
            use = uses[piece.name].get(edge.name)
            if use is None or use.way != "finish" or use.join is None or use.join.name != "found":
                continue
            if not edge.path.is_straight(0.05):
                values.fault(
                    "found-not-along-thread",
                    f"edge `{edge.name}` of `{piece.name}` is curved, and the cloth's own edge is straight",
                    use.span,
                    others=(Label(edge.span, "drawn here"),),
                    help="draw it straight, or finish it with a hem",
                )
                continue
            off = abs(cross(unit(edge.path.chord), piece.thread))
            off = min(off, abs((1 - off * off) ** 0.5))
            if off > _SQUARE:
                values.fault(
                    "found-not-along-thread",
                    f"edge `{edge.name}` of `{piece.name}` does not run along a thread",
                    use.span,
                    others=(Label(edge.span, "drawn here"),),
                    notes=(f"it is {degrees(off)} off the nearest thread under `grain {piece.grain}`",),
                    help="change the grain or the direction of the edge: the cloth's own hem runs along its threads",
                )
