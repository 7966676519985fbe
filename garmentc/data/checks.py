"""What can be said of a body before anything is drafted from it."""

from __future__ import annotations

from collections.abc import Mapping

from garmentc.data.measures import KnownMeasure, known_measures, near_measures
from garmentc.data.model import Body, Measured
from garmentc.data.words import quoted
from garmentc.diagnostics.finding import Finding, Findings, Label, Severity
from garmentc.numbers import MM_PER_UNIT, decimal, length
from garmentc.source import Span


def check_plausible(body: Body, findings: Findings) -> None:
    """Warn (``implausible-measure``) of every known measure that hardly any person has, at its value."""
    known = known_measures()
    for name, measured in body.measures.items():
        measure = known.get(name)
        if measure is None or measure.least_mm <= measured.mm <= measure.most_mm:
            continue
        findings.add(
            Finding(
                "implausible-measure",
                f"`{name}` of {_written(measured)} is hardly a person's",
                measured.span,
                label=f"expected between {length(measure.least_mm)} and {length(measure.most_mm)}",
                notes=(f"{measure.term}: {measure.definition}", f"limits: {measure.limits_from}"),
                help=_unit_hint(measured, measure) or "measure again, and look for a slip of the pen",
                severity=Severity.WARNING,
                sizes=(body.name,),
            )
        )


def check_complete(body: Body, needed: Mapping[str, Span], findings: Findings, *, in_table: bool = False) -> None:
    """Report (``missing-measures``, once per file) the measures a garment needs and a body lacks.

    ``needed`` gives for every name the place where the garment declares it. A missing measure that the body gives
    under a name nobody knows is a finding of its own, where that name stands. A body may be a row ``in_table``.
    """
    missing = {name: span for name, span in needed.items() if name not in body.measures}
    known = known_measures()
    strange = [name for name in body.measures if name not in needed and name not in known]
    for name in list(missing):
        meant = near_measures(name, strange)
        if not meant:
            continue
        written = body.measures[meant[0]]
        strange.remove(meant[0])
        findings.add(
            Finding(
                "missing-measures",
                f"the garment needs `{name}`, and this file gives `{meant[0]}`",
                written.named or written.span,
                label=f"did you mean `{name}`?",
                others=(Label(missing.pop(name), f"`{name}` is declared here"),),
                help=f"write `{name}` here if this is it; else add a {'column' if in_table else 'line'} for it",
                sizes=(body.name,),
            )
        )
    if not missing:
        return
    names = quoted(missing)
    findings.add(
        Finding(
            "missing-measures",
            f"the garment needs {names}, which this {'row' if in_table else 'file'} does not give",
            body.measures_span,
            label=f"{names} is empty here, or has no column" if in_table else f"add {names} here",
            others=tuple(Label(span, f"`{name}` is declared here") for name, span in missing.items()),
            notes=tuple(f"`{name}`: {known[name].definition}" for name in missing if name in known),
            help="take the measure and fill in its cell, in a column such as `name cm`"
            if in_table
            else "take the measure and add a line such as `name: 88 cm`",
            sizes=(body.name,),
        )
    )


def _written(measured: Measured) -> str:
    return f"{decimal(measured.mm / MM_PER_UNIT[measured.unit])} {measured.unit}"


def _unit_hint(measured: Measured, measure: KnownMeasure) -> str:
    """The units in which the same number would be plausible, if any."""
    number = measured.mm / MM_PER_UNIT[measured.unit]
    fitting = [
        f"{decimal(number)} {unit}"
        for unit in ("mm", "cm", "in", "m")
        if measure.least_mm <= number * MM_PER_UNIT[unit] <= measure.most_mm
    ]
    return f"is the unit right? {' or '.join(fitting)} would be plausible" if fitting else ""
