"""Makes findings of what came of laying a garment on a cloth."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.assembly.model import Assembly
from garmentc.cloth.lay import Laying
from garmentc.cloth.saved import name, splits_of
from garmentc.cloth.shapes import least_area, shapes
from garmentc.data.plans import SavedPlan
from garmentc.data.stock import Cloth
from garmentc.diagnostics.finding import Finding, Findings, Label, Severity
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.geometry.outline import Outline
from garmentc.numbers import decimal, percent

_MOST = 5  # faults of a kept plan that are told one by one


def is_of(saved: SavedPlan, assembly: Assembly, cloth: Cloth, findings: Findings) -> bool:
    """Whether a kept plan is one of this garment, size and cloth; where not, it is reported and of no use."""
    design, body = assembly.draft.design, assembly.draft.body
    asked = (design.name, body.name, cloth.key)
    kept = (saved.garment, saved.size, saved.cloth)
    if kept == asked or saved.span is None:
        return True
    findings.add(
        Finding(
            "plan-of-another",
            f"the kept plan is of {saved.garment}, size {saved.size}, on {saved.cloth}",
            saved.span,
            notes=(f"asked for was {design.name}, size {body.name}, on {cloth.key}",),
            help="move the file away if it was copied here, or mend its first lines",
        )
    )
    return False


def check_entries(saved: SavedPlan, assembly: Assembly, part: str, findings: Findings) -> None:
    """Warn (``unknown-name``) of entries of a kept plan that are of no piece that is cut from this cloth."""
    known = list(dict.fromkeys(name(shape) for shape in shapes(assembly, part, splits_of(saved.pieces))))
    for one in saved.pieces:
        if one.piece not in known and one.span is not None:
            findings.add(
                Finding(
                    "unknown-name",
                    f"nothing called `{one.piece}` is cut from this cloth",
                    one.span,
                    help=meant_or_known(one.piece, known),
                    severity=Severity.WARNING,
                )
            )


def judge(laying: Laying, assembly: Assembly, part: str, cloth: Cloth, searched: float, findings: Findings) -> None:
    """Report why there is no plan, or what was wrong with the kept one; ``searched`` is how long (s) it took."""
    sizes = (assembly.draft.body.name,)
    for fault in laying.pinned_faults:
        entries = [laying.entries[key].span for key in fault.keys if key in laying.entries]
        spans = [span for span in entries if span is not None]
        findings.add(
            Finding(
                "pinned-wrongly",
                fault.words,
                spans[0],
                "it is pinned here",
                tuple(Label(span, "and this one here") for span in spans[1:]),
                help="change its numbers, or take `place: pinned` away so that a place is found for it",
                sizes=sizes,
                subject=fault.kind,
            )
        )
    if laying.pinned_faults:
        return
    if laying.plan is None:
        _no_plan(laying, assembly, part, cloth, searched, findings)
    if laying.faults and laying.plan is not None:
        _no_longer(laying, cloth, findings)


def _no_longer(laying: Laying, cloth: Cloth, findings: Findings) -> None:
    """One finding for all faults of a kept plan: they mostly have one cause."""
    spans = [
        (span, fault.words)
        for fault in laying.faults
        for span in (laying.entries[fault.keys[0]].span if fault.keys[0] in laying.entries else None,)
        if span is not None
    ]
    words = tuple(fault.words for fault in laying.faults[:_MOST])
    more = len(laying.faults) - len(words)
    findings.add(
        Finding(
            "plan-no-longer-holds",
            "the kept plan could not be cut as it stands: what is not pinned was laid anew",
            spans[0][0] if spans else cloth.span,
            others=tuple(Label(span, text) for span, text in spans[1:_MOST]),
            notes=(*words, *((f"and {more} more",) if more else ())),
            help="pin what you move (`place: pinned`); lay again, and the new plan is taken as it is",
            severity=Severity.WARNING,
        )
    )


def _no_plan(laying: Laying, assembly: Assembly, part: str, cloth: Cloth, searched: float, findings: Findings) -> None:
    sizes = (assembly.draft.body.name,)
    for reason in laying.reasons:
        piece = reason.keys[0].split()[0] if reason.keys else ""
        drafted = [one for one in (*assembly.draft.pieces, *assembly.draft.strips) if one.name == piece]
        span = drafted[0].span if drafted and reason.kind != "area" else cloth.span
        findings.add(
            Finding(
                "does-not-fit",
                reason.words,
                span,
                others=(Label(cloth.span, "on this cloth"),) if span is not cloth.span else (),
                help="take a larger cloth or a smaller size, allow another grain, or change the piece",
                sizes=sizes,
                subject=reason.kind,
            )
        )
    if laying.reasons:
        return
    found = shapes(assembly, part)
    findings.add(
        Finding(
            "no-plan-found",
            f"no way to lay the pieces on this cloth was found in {decimal(searched, 1)} s",
            cloth.span,
            notes=(
                *(f"no place was found for {one} even alone" for one in laying.homeless),
                f"{laying.steps:,} places were tried; that there is no way is not proved",
                f"the pieces take {percent(least_area(found) / _area(cloth))} of the cloth",
            ),
            help="give it longer (`--limit`), another start (`--seed`), joins in strips, or a larger cloth",
            sizes=sizes,
        )
    )


def _area(cloth: Cloth) -> float:
    """The area of a cloth (mm²), as measured."""
    return _areas([cloth.outline]) - _areas(cloth.holes)


def _areas(outlines: Iterable[Outline]) -> float:
    return sum(abs(one.area) for one in outlines)
