"""Drafts a whole design for one body, and holds it against its own rules."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import suppress

from garmentc.data.model import Body
from garmentc.design.model import CheckPlan, Design, ParamPlan
from garmentc.diagnostics.finding import Findings, Label, Severity
from garmentc.draft.evaluate import COMPARE, TOP, Evaluator, Scope
from garmentc.draft.laying import laid
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Draft, DraftedPiece, FinishedMeasure
from garmentc.draft.pieces import Drafter
from garmentc.draft.shown import shown_as
from garmentc.draft.solve import solve
from garmentc.syntax import nodes


def draft(design: Design, body: Body, findings: Findings) -> tuple[Draft, Drafter] | None:
    """A design drafted for a body, with the drafter that knows its values; None when a piece can't be drafted."""
    solved: dict[str, float] = {}
    unknowns = {name for plan in design.solves for name in plan.unknowns}
    for plan in design.solves:
        aside = Findings()
        found = solve(plan, design, body, solved, aside)
        if found is None:
            given = [param for param in design.params.values() if param.name not in unknowns]
            if _check_ranges(given, Drafter(design, body, findings, solved).values):
                for one in aside:
                    findings.add(one)
            return None
        solved.update(found)
    drafter = Drafter(design, body, findings, solved)
    values = drafter.values
    _check_ranges(design.params.values(), values)
    pieces = [_drafted(drafter, name) for name, plan in design.pieces.items() if plan.made]
    strips = [_drafted(drafter, name) for name, plan in design.strips.items() if plan.made]
    for define in design.values.values():  # what nothing asks for is computed too, so that no fault stays unseen
        with suppress(Poisoned):
            values.value(nodes.Ref(define.name.span, (define.name,)))
    for check in design.checks:
        if not check.is_sewn:
            hold(check, values, TOP)
    finished = tuple(finished_measures(design, values, is_sewn=False))
    whole = [piece for piece in (*pieces, *strips) if piece is not None]
    if len(whole) < len(pieces) + len(strips):
        return None
    params = {name: value for name in design.params if (value := _param(values, name)) is not None}
    made = Draft(
        design,
        body,
        params,
        tuple(whole[: len(pieces)]),
        tuple(whole[len(pieces) :]),
        finished,
        laid(design, drafter) if design.lays else {},
        {piece.name: piece for piece in whole},
    )
    return made, drafter


def finished_measures(design: Design, values: Evaluator, *, is_sewn: bool) -> Iterator[FinishedMeasure]:
    """The finished measurements that are known before the garment is sewn together, or only then."""
    for one in design.finished:
        if one.is_sewn == is_sewn and (value := _value(values, one.value)) is not None:
            yield FinishedMeasure(one.name, one.title, value, one.kind)


def hold(check: CheckPlan, values: Evaluator, scope: Scope) -> bool:
    """Whether a rule holds; one that does not is reported with both sides of what it compares."""
    condition = check.condition
    try:
        notes: tuple[str, ...] = ()
        if isinstance(condition, nodes.Compare):
            left, right = values.value(condition.left, scope), values.value(condition.right, scope)
            holds = COMPARE[condition.sign](left, right)
            if check.within is not None:
                holds = abs(left - right) <= values.value(check.within, scope) + 1e-6
            shown = [shown_as(side, check.kind) for side in (left, right, abs(left - right))]
            notes = (f"{shown[0]} against {shown[1]}: {shown[2]} apart",)
        else:
            holds = bool(values.value(condition, scope))
    except Poisoned:
        return False
    if not holds:
        values.fault(
            "check-fails",
            f"check fails: {check.text}",
            check.span,
            notes=notes,
            severity=Severity.WARNING if check.is_warning else Severity.ERROR,
        )
    return holds or check.is_warning


def _drafted(drafter: Drafter, name: str) -> DraftedPiece | None:
    try:
        return drafter.piece(name)
    except Poisoned:
        return None


def _value(values: Evaluator, expr: nodes.Expr) -> float | None:
    try:
        return float(values.value(expr))
    except Poisoned:
        return None


def _param(values: Evaluator, name: str) -> float | None:
    try:
        return values.param(name)
    except Poisoned:
        return None


def _check_ranges(params: Iterable[ParamPlan], values: Evaluator) -> bool:
    """Whether every param lies in its range; each that does not is reported."""
    all_inside = True
    for plan in params:
        if plan.least is None or plan.most is None:
            continue
        value = _param(values, plan.name)
        least, most = (_value(values, expr) for expr in (plan.least, plan.most))
        if least is not None and most is not None and least > most:
            all_inside = False
            values.fault(
                "reversed-range",
                f"the range of `{plan.name}` ends below its start",
                plan.span,
                notes=(f"it goes from {shown_as(least, plan.kind)} to {shown_as(most, plan.kind)}",),
                help="write the smaller value first",
            )
            continue
        if value is None or least is None or most is None or least - 1e-6 <= value <= most + 1e-6:
            continue
        all_inside = False
        shown = [shown_as(number, plan.kind) for number in (value, least, most)]
        values.fault(
            "out-of-range",
            f"`{plan.name}` is {shown[0]}, outside its range",
            plan.value.span,
            others=() if plan.value.span.source is plan.span.source else (Label(plan.span, "declared here"),),
            notes=(f"the range is {shown[1]} to {shown[2]}",),
        )
    return all_inside
