"""Names whose characters no font holds: on paper they would be empty boxes."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from itertools import chain

from garmentc.assembly.model import Assembly
from garmentc.diagnostics.finding import Finding, Findings, Severity
from garmentc.output.paper.fonts import Fonts
from garmentc.output.patterns.letters import plain
from garmentc.source import Span

_MOST = 4  # characters that are named


def check_characters(
    assembly: Assembly, fonts: Fonts, findings: Findings, others: Iterable[tuple[str, Span]] = ()
) -> None:
    """Warn of each text of a spec, of a body's name and of ``others`` that the fonts can't show in full."""
    for text, span in chain(_texts(assembly), others):
        missing = fonts.missing(plain(text))
        if missing:
            named = ", ".join(
                f"{char} ({unicodedata.name(char, 'without a name').lower()})" for char in missing[:_MOST]
            )
            more = f" and {len(missing) - _MOST} more" if len(missing) > _MOST else ""
            findings.add(
                Finding(
                    "missing-characters",
                    f'no font at hand has {"the character" if len(missing) == 1 else "all characters"} of "{text}"',
                    span,
                    label="printed as empty boxes",
                    notes=(f"missing: {named}{more}",),
                    help="give a font that has them: --font FILE (a .ttf or .otf file you may embed)",
                    severity=Severity.WARNING,
                )
            )


def _texts(assembly: Assembly) -> Iterator[tuple[str, Span]]:
    draft = assembly.draft
    design = draft.design
    at = design.source.text.find(design.title)
    yield design.title, Span(design.source, max(at, 0), max(at, 0) + len(design.title))
    yield draft.body.name, draft.body.span
    for piece in (*draft.pieces, *draft.strips):
        yield piece.title, piece.span
        for line in piece.lines:
            yield line.text, line.span
        for mark in piece.marks:
            yield mark.text, mark.span
