"""Findings as text: for people, one line each, or as JSON. Each form is loaded only when it is asked for."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.diagnostics.finding import Finding, Severity

FORMS = ("full", "plain", "json")


def render(findings: Iterable[Finding], form: str) -> str:
    """All findings in one of the forms, without a line end at the end; full and plain are empty for none."""
    findings = list(findings)
    if not findings and form in ("full", "plain"):
        return ""
    if form == "full":
        from garmentc.diagnostics.render.full import as_full

        return as_full(findings)
    if form == "plain":
        from garmentc.diagnostics.render.plain import as_plain

        return as_plain(findings)
    if form == "json":
        from garmentc.diagnostics.render.json import as_json

        return as_json(findings)
    raise ValueError(f"no form '{form}' of findings; there are {', '.join(FORMS)}")


def summary(findings: Iterable[Finding]) -> str:
    """How many there are, in words: ``2 errors, 1 warning``."""
    severities = [finding.severity for finding in findings]
    counts = [(severities.count(severity), severity.value) for severity in Severity]
    return ", ".join(f"{number} {word}{'' if number == 1 else 's'}" for number, word in counts if number) or (
        "no errors, no warnings"
    )
