"""One line for each finding, for editors and for searching."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.diagnostics.finding import Finding
from garmentc.diagnostics.render.words import in_sizes, one_line


def as_plain(findings: Iterable[Finding]) -> str:
    """``path:line:column: severity[slug]: headline (label); notes; help; sizes``, one line each."""
    return "\n".join(_line(finding) for finding in findings)


def _line(finding: Finding) -> str:
    head = f"{finding.span}: {finding.severity.value}[{finding.slug}]: {finding.headline}"
    if finding.label:
        head += f" ({finding.label})"
    parts = (head, *finding.notes, finding.help, in_sizes(finding.sizes, finding.of_sizes))
    return one_line("; ".join(part for part in parts if part))
