"""Edge accounting: every edge of every piece is sewn, finished, folded or the cloth's own, and only once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from garmentc.assembly.agree import Spare, explained, right_edge
from garmentc.assembly.copies import Hands, Instance, instances
from garmentc.assembly.model import EdgeUse, FinishedEdge, Join, JoinedSeam
from garmentc.design.model import EdgeName, SeamPlan
from garmentc.design.raw import raw_edge_words
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import Draft, DraftedEdge, DraftedPiece
from garmentc.geometry.vector import cross, unit
from garmentc.numbers import degrees, length
from garmentc.record import Record
from garmentc.source import Span

Uses = dict[str, dict[str, EdgeUse]]
FOUND = "found"
"""The finish that is the cloth's own edge."""
_SQUARE = 1e-3  # radians; a thread direction nearer than this to an edge runs along it


def account(
    pieces: Iterable[DraftedPiece],
    plans: Iterable[SeamPlan],
    seams: Iterable[JoinedSeam],
    finishes: Iterable[FinishedEdge],
    hands: Hands,
    values: Evaluator,
    *,
    whole: bool,
) -> Uses:
    """What becomes of each edge, by piece and edge; edges of an instance of a piece that are used twice are reported.

    Edges left raw are too, where the seams and finishes are ``whole``, without a fault in any of them.
    """
    pieces, joined = tuple(pieces), {seam.name: seam for seam in seams}
    drafted = {piece.name: piece for piece in pieces}
    uses: Uses = {piece.name: {} for piece in pieces}
    for piece in pieces:
        for edge in piece.edges:
            if edge.on_fold:
                uses[piece.name][edge.name] = EdgeUse("fold", edge.name, None, edge.span)
    named: dict[tuple[str, str], list[_Named]] = {}
    for plan in plans:
        seam = joined.get(plan.name)
        for name in plan.edges:
            use = EdgeUse("seam", plan.name, seam.join if seam else None, name.span, name.of_one)
            named.setdefault((name.piece, name.edge), []).append(_Named(name, use, seam))
    for finish in finishes:
        for name in finish.edges:
            if name.piece in uses:  # the ends and sides of strips are accounted for with what catches them
                use = EdgeUse("finish", finish.join.name, finish.join, name.span, name.of_one)
                named.setdefault((name.piece, name.edge), []).append(_Named(name, use, None))
    shares = {key: _shares(found, drafted[key[0]], hands) for key, found in named.items()}
    for (piece_name, edge_name), found in named.items():
        first = found[0].use
        if len(found) > 1 and shares[piece_name, edge_name] is not None:
            first = first._replace(others=tuple(one.use for one in found[1:]))
            _agree(found, values)
        uses[piece_name].setdefault(edge_name, first)

    def spare(piece: str) -> list[DraftedEdge]:
        return [edge for one in pieces if one.name == piece for edge in one.edges if edge.name not in uses[piece]]

    told = {meant for seam in joined.values() for meant in explained(seam, spare)}
    for found in named.values():
        key = found[0].name.piece, found[0].name.edge
        known = uses[key[0]][key[1]]
        if shares[key] is None or known.way == "fold":
            told |= _report_twice(found, known, spare, values)
    for piece in pieces if whole else ():
        for edge in spare(piece.name):
            if (piece.name, edge.name) not in told:
                _report_raw(piece, edge, values)
        for edge in piece.edges:
            used = shares.get((piece.name, edge.name))
            missing = [] if used is None else [one for one in instances(piece) if one not in used]
            if missing and not edge.on_fold:
                _report_raw(piece, edge, values, *hands.common(piece, missing))
    return uses


def _shares(found: Sequence[_Named], piece: DraftedPiece, hands: Hands) -> set[Instance] | None:
    """The instances of a piece of which an edge is used, or None where it is used twice of one."""
    used: set[Instance] = set()
    for one in found:
        meant = set(hands.meant(piece, one.name))
        if used & meant:
            return None
        used |= meant
    return used


def _cut(join: Join) -> tuple[float, str, tuple[float, ...], bool]:
    """What says how an edge is cut."""
    return join.allowance, join.corner, join.folds, join.name == FOUND


def _agree(found: Sequence[_Named], values: Evaluator) -> None:
    """An edge is drawn once for all instances, so that what becomes of it takes the same of the cloth everywhere."""
    first = found[0]
    for other in found[1:]:
        one, two = first.use.join, other.use.join
        if one is None or two is None:
            continue
        if _cut(one) == _cut(two):
            continue
        alike = abs(one.allowance - two.allowance) < 1e-9
        note = f"`{first.name.text}` takes {length(one.allowance)}, `{other.name.text}` {length(two.allowance)}"
        values.fault(
            "allowances-differ",
            f"edge `{other.name.piece}.{other.name.edge}` is drawn once, and would be cut in two ways",
            other.name.span,
            others=(Label(first.name.span, "the other way"),),
            notes=("their corners or folds differ, or one is the cloth's own edge",) if alike else (note,),
            help="cut them by pieces of their own: piece other from …"
            if alike
            else f"give both the same: {{ set allowance = {length(max(one.allowance, two.allowance))} }}",
        )


class _Named(Record):
    """An edge as a seam or a finish names it."""

    name: EdgeName
    use: EdgeUse
    seam: JoinedSeam | None


def _report_twice(found: Sequence[_Named], known: EdgeUse, spare: Spare, values: Evaluator) -> set[tuple[str, str]]:
    """Report an edge that is used more than once, at the use that may be wrong; gives the edges meant instead."""
    if known.way == "fold":
        one = found[0]
        headline = f"edge `{one.name.text}` lies on the fold and does not exist once the piece is cut"
        _fault(headline, one, known.span, "drop it here, or do not cut the piece on this fold", values)
        return {meant for other in found if other.seam for meant in explained(other.seam, spare)}
    wrong = next((one for one in reversed(found) if one.seam and any(explained(one.seam, spare))), found[-1])
    meant = set(explained(wrong.seam, spare)) if wrong.seam else set()
    help = "an edge is sewn or finished once; split it if two things happen along it"
    for piece, name in sorted(meant)[:1]:
        help = right_edge(wrong.name.text, piece, next(edge for edge in spare(piece) if edge.name == name))
    headline = f"edge `{wrong.name.text}` is used twice"
    for other in (one for one in found if one is not wrong):
        _fault(headline, wrong, other.use.span, help, values)
        break
    return meant


def _fault(headline: str, one: _Named, other: Span, help: str, values: Evaluator) -> None:
    values.fault("edge-used-twice", headline, one.name.span, others=(Label(other, "used here"),), help=help)


def _report_raw(piece: DraftedPiece, edge: DraftedEdge, values: Evaluator, hand: str = "", copy: int = 0) -> None:
    headline, help = raw_edge_words(EdgeName(piece.name, edge.name, edge.span, hand, copy))
    notes = (f"it is {length(edge.sewn_length)} long",)
    values.fault("raw-edge", headline, edge.span, notes=notes, help=help, subject=piece.name)


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
            and use.join.name == FOUND
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
