"""Values given from outside, in place of those in the spec: ``--set ease.bust_girth=10cm``."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.design.model import Design
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.record import Record
from garmentc.source import Source, Span
from garmentc.syntax.nodes import Expr, Ref, Word
from garmentc.syntax.parser import Parser

SETTINGS = "--set"
"""The name under which places in settings are shown."""


class Setting(Record):
    """One value from outside; ``span`` is its name as given."""

    name: str
    value: Expr
    span: Span


def read_settings(texts: Iterable[str], parser: Parser, findings: Findings) -> dict[str, Setting]:
    """Settings by name; what can't be read is reported with the option's own text as its place."""
    found: dict[str, Setting] = {}
    for text in texts:
        name, equals, value = text.partition("=")
        source = Source(SETTINGS, text)
        if not equals or not name.strip() or not value.strip():
            findings.add(
                Finding(
                    "unreadable-setting",
                    f"`{text}` is not of the form name=value",
                    Span(source, 0, len(text)),
                    help="for example --set side_length=20cm or --set ease.bust_girth=10cm",
                )
            )
            continue
        expression = parser.setting(source, len(name) + 1, findings)
        if expression is not None:
            found[name.strip()] = Setting(name.strip(), expression, Span(source, 0, len(name)))
    return found


def other_options(design: Design) -> list[Setting]:
    """A setting for each option that a choice of the design does not stand at."""
    found: list[Setting] = []
    for choice in design.choices.values():
        for option in choice.options:
            if option != choice.value:
                span = Source(SETTINGS, option).span(0, len(option))
                found.append(Setting(choice.name, Ref(span, (Word(option, span),)), span))
    return found
