"""What a garment declares for use: a name that nothing uses is told, since it was often meant somewhere."""

from __future__ import annotations

import re
from collections.abc import Iterable

from garmentc.design import kinds as k
from garmentc.design.kindcheck import Names
from garmentc.design.reused import parameter_key
from garmentc.diagnostics.finding import Finding, Severity
from garmentc.record import Record
from garmentc.source import Source, Span

_NAME = re.compile(r"ease\.[a-z_A-Z0-9]+|[A-Za-z_][A-Za-z0-9_]*")
_HELP = {
    "measure": "use it or drop it: the maker would take it for nothing",
    "function": "use it or drop it",
    "parameter": "use it or drop it: whoever calls the function would hand it over for nothing",
    "strip": "insert it in a seam, or drop it",
    "value": "use it or drop it: something else may stand where it was meant",
}


class Declared(Record):
    """Something with a name. ``key`` is how its uses are known: a name in a piece has the piece in front."""

    what: str
    name: str
    key: str
    span: Span

    def can_go(self, source: Source) -> bool:
        """Whether the file could do without it: a variant can't drop the values and params of its base."""
        return self.what in ("strip", "measure") or self.span.source.name == source.name

    def finding(self) -> Finding:
        """The warning that nothing uses it."""
        return Finding(
            "unused-name",
            f"nothing uses the {self.what} `{self.name}`",
            self.span,
            help=_HELP.get(self.what, "use it or drop it: the maker would set it for nothing"),
            severity=Severity.WARNING,
        )


def declared(names: Names) -> Iterable[Declared]:
    """All that is declared to be used; a measure nobody knows has had its finding."""
    for measure in names.measures.values():
        if measure.kind != k.FAULT:
            yield Declared("measure", measure.name, measure.name, measure.span)
    for param in names.params.values():
        yield Declared("ease" if param.name.startswith("ease.") else "param", param.name, param.name, param.span)
    for choice in names.choices.values():
        yield Declared("choice", choice.name, choice.name, choice.span)
    for strip in names.strips.values():
        yield Declared("strip", strip.name, strip.name, strip.span)
    for value in names.values.values():
        yield Declared("value", value.name.text, value.name.text, value.name.span)
    for function in names.functions.values():
        yield Declared("function", function.name.text, function.name.text, function.name.span)
        for parameter in function.parameters:
            key = parameter_key(function.name.text, parameter.name.text)
            yield Declared("parameter", parameter.name.text, key, parameter.span)
    for piece in names.pieces.values():
        for word in (define.name for define in piece.defines.values()):
            yield Declared("value", word.text, f"{piece.name}.{word.text}", word.span)


def names_in(text: str) -> set[str]:
    """The names in statements that count only when a choice stands elsewhere."""
    return set(_NAME.findall(text))
