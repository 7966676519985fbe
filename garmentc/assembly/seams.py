"""Seams and finishes of one body: both sides measured along the stitching line, and held against each other."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.assembly.joins import Place, edge_words, fill
from garmentc.assembly.model import FinishedEdge, Inserted, JoinedSeam
from garmentc.design.model import Design, EdgeName, FinishPlan, SeamPlan
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator, Poisoned, Scope
from garmentc.draft.model import Draft, DraftedEdge
from garmentc.numbers import length

TOLERANCE = 1.0
"""How far two sides of a seam may differ (mm) where the spec does not say; common practice, no source."""


def join_seam(plan: SeamPlan, design: Design, draft: Draft, values: Evaluator) -> JoinedSeam | None:
    """A seam with its numbers, or None when one of its edges is missing; differences of length are reported."""
    first, second = _edges(plan.first, draft, values), _edges(plan.second, draft, values)
    if first is None or second is None:
        return None
    halves = [sum(edge.path.length for edge in side) for side in (first, second)]
    times = [_copies(side, draft) for side in (plan.first, plan.second)]
    runs_on = any(draft.piece(name.piece).meets_fold(name.edge) for name in (*plan.first, *plan.second))
    lengths = [2 * one for one in halves] if runs_on else halves
    shown = " / ".join(dict.fromkeys(length(one) for one in lengths))
    words = {
        "first_side": edge_words(draft, plan.first),
        "second_side": edge_words(draft, plan.second),
        "length": shown,
    }
    try:
        join = fill(design.joins["seam", plan.type], Place(words, plan.changes, plan.span), design, values)
        ease = 0.0 if plan.ease is None else float(values.value(plan.ease.amount))
        within = TOLERANCE
        if plan.ease is not None and plan.ease.within is not None:
            within = float(values.value(plan.ease.within))
        inserts = _inserts(plan, draft, values)
    except Poisoned:
        return None
    _agree(plan, first, second, halves, ease, within, values)
    if times[0] != times[1]:
        values.fault(
            "unequal-copies",
            f"seam `{plan.name}` joins {times[0]} edges with {times[1]}",
            plan.span,
            others=(
                Label(plan.first[0].span, f"cut {times[0]} times"),
                Label(plan.second[0].span, f"cut {times[1]} times"),
            ),
            help="a fold or a pair gives two; change `cut` of one of the pieces",
        )
    return JoinedSeam(
        plan.name,
        join,
        plan.first,
        plan.second,
        lengths[0],
        lengths[1],
        ease,
        times[0] // 2 if runs_on else times[0],
        inserts,
        _folded(plan, design, draft),
        plan.span,
    )


def finish_edge(plan: FinishPlan, design: Design, draft: Draft, values: Evaluator) -> FinishedEdge | None:
    """A finish with its numbers, or None when one of its edges is missing."""
    edges = _edges(plan.edges, draft, values)
    if edges is None:
        return None
    copies = [draft.piece(name.piece).copies for name in plan.edges]
    total = sum(edge.path.length * times for edge, times in zip(edges, copies, strict=True))
    shown = edge_words(draft, plan.edges)
    words = {"edges": shown, "length": length(total)}
    try:
        join = fill(design.joins["finish", plan.type], Place(words, plan.changes, plan.span), design, values)
    except Poisoned:
        return None
    return FinishedEdge(plan.edges, shown, join, total, plan.span)


def _edges(names: Iterable[EdgeName], draft: Draft, values: Evaluator) -> list[DraftedEdge] | None:
    found: list[DraftedEdge] = []
    whole = True
    for name in names:
        piece = draft.piece(name.piece)
        edge = piece.edge(name.edge)
        if edge is not None:
            found.append(edge)
            continue
        whole = False
        fold = next((line for line in piece.lines if line.kind == "fold" and line.name == name.edge), None)
        if fold is None:
            values.edge_gone(name.piece, name.edge, piece, name.span)
        else:
            values.fault(
                "edge-is-fold",
                f"edge `{name.text}` is a fold inside the piece, not an edge",
                name.span,
                others=(Label(fold.span, "a part is grown on here"),),
            )
    return found if whole else None


def _folded(plan: SeamPlan, design: Design, draft: Draft) -> tuple[tuple[str, str], ...]:
    """The fold lines that bring a piece's own grown part onto it."""
    found: dict[tuple[str, str], None] = {}
    for name in (*plan.first, *plan.second):
        head, dot, _ = name.edge.partition(".")
        if dot and any(other.piece == name.piece and "." not in other.edge for other in (*plan.first, *plan.second)):
            across = design.pieces[name.piece].parts[head].across.text
            found[draft.piece(name.piece).title, across] = None
    return tuple(found)


def _copies(names: tuple[EdgeName, ...], draft: Draft) -> int:
    return min(draft.piece(name.piece).copies for name in names)


def _agree(
    plan: SeamPlan,
    first: list[DraftedEdge],
    second: list[DraftedEdge],
    lengths: list[float],
    ease: float,
    within: float,
    values: Evaluator,
) -> None:
    off = lengths[0] - lengths[1] - ease
    if abs(off) <= within + 1e-6:
        return
    declared = f", the declared ease is {length(ease)}" if ease else ""
    values.fault(
        "seam-lengths-differ",
        f"the two sides of seam `{plan.name}` differ by {length(abs(lengths[0] - lengths[1]))}",
        plan.span,
        others=(
            Label(first[0].span, f"{length(lengths[0])} on this side"),
            Label(second[0].span, f"{length(lengths[1])} on this side"),
        ),
        notes=(f"they may differ by {length(within)}{declared}",),
        help="draw both edges by the same rule, or declare the difference: { ease 5 mm }",
    )


def _inserts(plan: SeamPlan, draft: Draft, values: Evaluator) -> tuple[Inserted, ...]:
    found: list[Inserted] = []
    for insert in plan.inserts:
        at = values.value(insert.point, Scope(insert.piece))
        names = [*plan.first, *plan.second]
        on_seam = [
            edge.path.nearest(at)[1]
            for name in names
            if name.piece == insert.piece and (edge := draft.piece(name.piece).edge(name.edge)) is not None
        ]
        if not on_seam or min(on_seam) > TOLERANCE:
            off = f"it is {length(min(on_seam))} away" if on_seam else f"`{insert.piece}` is not in this seam"
            values.fault(
                "insert-off-seam",
                f"strip `{insert.strip}` is inserted where seam `{plan.name}` does not run",
                insert.span,
                notes=(off,),
                help="name a point on one of the edges that the seam joins",
            )
            continue
        found.append(
            Inserted(
                insert.strip,
                draft.piece(insert.strip).title,
                insert.folded,
                insert.piece,
                draft.piece(insert.piece).title,
                spoken(insert.point.words[-1].text),
                at,
            )
        )
    return tuple(found)
