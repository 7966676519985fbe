"""Findings as a JSON document, described by ``grammar/schemas/finding.schema.json``."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from garmentc.diagnostics.finding import Finding, Severity
from garmentc.diagnostics.render.words import page_command
from garmentc.source import Span

VERSION = 1


def as_json(findings: Iterable[Finding]) -> str:
    """All findings with their places; a document without findings is one, too."""
    kept = list(findings)
    document = {
        "version": VERSION,
        "errors": sum(finding.severity is Severity.ERROR for finding in kept),
        "warnings": sum(finding.severity is Severity.WARNING for finding in kept),
        "findings": [_finding(finding) for finding in kept],
    }
    return json.dumps(document, indent=2)


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "slug": finding.slug,
        "severity": finding.severity.value,
        "headline": finding.headline,
        **_place(finding.span),
        "label": finding.label,
        "related": [{**_place(other.span), "label": other.text} for other in finding.others],
        "notes": list(finding.notes),
        "help": finding.help,
        "sizes": list(finding.sizes),
        "page": page_command(finding.slug),
    }


def _place(span: Span) -> dict[str, Any]:
    start, end = (span.source.place(offset) for offset in (span.start, max(span.start, span.end)))
    return {
        "file": span.source.name,
        "line": start.line,
        "column": start.column,
        "end_line": end.line,
        "end_column": end.column,
    }
