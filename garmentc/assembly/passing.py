"""Whether a body gets into the sewn garment: what has to pass each opening, and what helps it through.

Which measure has to pass which opening is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.openings import opening_words
from garmentc.assembly.sewn import Opening
from garmentc.design.model import OpeningPlan
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Draft
from garmentc.numbers import length
from garmentc.record import Record

_PASS = (
    (("neck", "neckline"), ("head_girth",)),
    (("waist",), ("hip_girth", "bust_girth")),
    (("cuff", "wrist"), ("hand_girth",)),
)
"""Words in the names of edges, and the measures of which one at least has to pass the opening that they go round."""


class _Demand(Record):
    """What has to pass: in words, and how large it is (mm)."""

    what: str
    size: float


def check_passing(openings: tuple[Opening, ...], draft: Draft, values: Evaluator) -> None:
    """Warn of openings through which a body does not pass, although they stretch or are opened by a closure."""
    for opening in openings:
        plans = [values.design.openings[name] for name in opening.names]
        try:
            demands = [_demand(plan, values) for plan in plans if plan.passes is not None] or list(
                _usual(opening, values)
            )
            room = _room(opening, plans, values)
        except Poisoned:
            continue
        if not demands or min(demand.size for demand in demands) <= room + 1e-6:
            continue
        demand = min(demands, key=lambda one: one.size)
        edges = [edge for part in opening.parts if (edge := _edge_span(part.piece, part.edge, draft)) is not None]
        notes = [f"it is {length(opening.length)} all round, {demand.what} {length(demand.size)}"]
        if room > opening.length:
            notes.append(f"with what it stretches and is opened, {length(room)}")
        values.fault(
            "no-way-in",
            f"{demand.what} does not pass the opening: {opening_words(opening)}",
            plans[0].span if plans else edges[0].span if edges else draft.piece(opening.parts[0].piece).span,
            others=tuple(edges[:1]) if plans else (),
            notes=tuple(notes),
            help="make it wider, leave a slit, sew a part of a seam as a closure (`as zip`), or say what opens it: "
            f'opening NAME at {opening.parts[0].piece}.{opening.parts[0].edge} opened 20 cm by "a zip"',
            severity=Severity.WARNING,
        )


def _demand(plan: OpeningPlan, values: Evaluator) -> _Demand:
    assert plan.passes is not None
    return _Demand(f"`{plan.passes.span.text}`", float(values.value(plan.passes)))


def _usual(opening: Opening, values: Evaluator) -> Iterator[_Demand]:
    """What usually has to pass an opening with such edges, as far as the garment asks for that measure."""
    words = {word for part in opening.parts for word in part.edge.replace(".", "_").split("_")}
    for names, measures in _PASS:
        if words & set(names):
            for measure in measures:
                if measure in values.design.measures:
                    yield _Demand(spoken(measure), values.body.measures[measure].mm)
            return


def _room(opening: Opening, plans: list[OpeningPlan], values: Evaluator) -> float:
    """How large an opening becomes (mm): its length stretched, its seams that open, and both edges of closures."""
    stretch = max((float(values.value(plan.stretches)) for plan in plans if plan.stretches is not None), default=0.0)
    opened = sum(2 * float(values.value(plan.opened)) for plan in plans if plan.opened is not None)
    return opening.opened + opening.length * stretch + opened


def _edge_span(piece: str, edge: str, draft: Draft) -> Label | None:
    """Where an edge is drawn; None for a fold at which the garment ends, and for strips."""
    drafted = next((one for one in draft.pieces if one.name == piece), None)
    found = None if drafted is None else drafted.edge(edge)
    return None if found is None else Label(found.span, "drawn here")
