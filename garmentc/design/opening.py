"""The first lines of a file: which garment it holds, and in which edition of the language."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.diagnostics.finding import Finding, Findings
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import File, Statement

EDITIONS = ("1",)


def check_opening(file: File, statements: Sequence[Statement], findings: Findings) -> tuple[nodes.Header | None, str]:
    """The header and the edition; what is missing, said twice or unknown is reported."""

    def _error(slug: str, headline: str, span: Span, help: str) -> None:
        findings.add(Finding(slug, headline, span, help=help))

    headers = [one for one in statements if isinstance(one, nodes.Header)]
    editions = [one for one in statements if isinstance(one, nodes.Edition)]
    lost_header = any(lost.span.text.startswith("garment") for lost in file.damaged)
    lost_edition = any(lost.span.text.startswith("edition") for lost in file.damaged)
    start = file.source.whole()
    if not headers and not lost_header:
        _error(
            "no-header",
            "the file does not say which garment it is",
            start,
            'begin with `garment NAME "Title"`',
        )
    for extra in headers[1:]:
        _error("duplicate-name", "a file holds one garment", extra.span, "put it in a file of its own")
    if not editions and not lost_edition and (headers or lost_header):
        place = headers[0].span if headers else start
        _error(
            "no-edition",
            "the file does not say in which edition of the language it is written",
            place,
            f"add `edition {EDITIONS[-1]}` below the garment line",
        )
    for extra_edition in editions[1:]:
        _error("said-twice", "the edition is said twice", extra_edition.span, "keep one of them")
    for edition in editions[:1]:
        if edition.number not in EDITIONS:
            _error(
                "unknown-edition",
                f"edition {edition.number} is not known to this compiler",
                edition.span,
                f"it knows {', '.join(EDITIONS)}; a newer garmentc may know more",
            )
    return (headers[0] if headers else None), (editions[0].number if editions else EDITIONS[-1])
