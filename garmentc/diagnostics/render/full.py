"""Findings for people: what is wrong, the lines where it stands, and what to do."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.diagnostics.finding import Finding
from garmentc.diagnostics.render.excerpt import Marked, excerpt
from garmentc.diagnostics.render.words import in_sizes, one_line, page_command
from garmentc.source import Source


def as_full(findings: Iterable[Finding]) -> str:
    """All findings, an empty line between two of them."""
    return "\n\n".join(_block(finding) for finding in findings)


def _block(finding: Finding) -> str:
    by_source: dict[Source, list[Marked]] = {finding.span.source: [Marked(finding.span, finding.label, "^")]}
    for other in finding.others:
        by_source.setdefault(other.span.source, []).append(Marked(other.span, other.text, "-"))
    margin = max(
        (len(str(one.span.source.place(one.span.end).line)) for marked in by_source.values() for one in marked),
        default=1,
    )
    lines = [f"{finding.severity.value}[{finding.slug}]: {one_line(finding.headline)}"]
    for source, marked in by_source.items():
        arrow = "-->" if source is finding.span.source else ":::"
        lines.append(f"{' ' * margin}{arrow} {one_line(str(marked[0].span))}")
        if source.text:
            lines += excerpt(source, marked, margin)
    facts = [("note", note) for note in finding.notes]
    if finding.label and not finding.span.source.text:
        facts.insert(0, ("note", finding.label))
    facts += [
        ("note", in_sizes(finding.sizes, finding.of_sizes)),
        ("help", finding.help),
        ("see", page_command(finding.slug)),
    ]
    lines += [f"{' ' * margin} = {word}: {one_line(text)}" for word, text in facts if text]
    return "\n".join(lines)
