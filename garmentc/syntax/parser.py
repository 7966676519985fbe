"""Reads a text into a syntax tree, and as many syntax faults as there are."""

from __future__ import annotations

import re
from typing import Any

from lark import Lark, Token, UnexpectedInput, UnexpectedToken
from lark.exceptions import UnexpectedCharacters

from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import closest, did_you_mean
from garmentc.host import Host
from garmentc.shipped import grammar_file
from garmentc.source import Source, Span
from garmentc.syntax.builder import TreeBuilder
from garmentc.syntax.layout import Stretch, brace_faults, innermost, nesting, statements, unclosed_texts
from garmentc.syntax.nodes import Damaged, Expr, File
from garmentc.syntax.words import ITEM_WORDS, STATEMENT_WORDS, in_words

_MOST_FAULTS = 40
_DEEPEST = 60
_NOT_KEYWORDS = {
    "NAME",
    "NUMBER",
    "QUANTITY",
    "INCHES",
    "TEXT",
    "SIGN",
    "TIMES",
    "COMPARE",
    "LBRACE",
    "RBRACE",
    "EQUAL",
}
_DATA_FILE = re.compile(r"^(body|chart)[ \t]*:", re.MULTILINE)
_MEASURES = re.compile(r"^measures[ \t]*:", re.MULTILINE)
_GARMENT = re.compile(r"^garment\b", re.MULTILINE)
_FIRST_WORD = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")


class Parser:
    """The grammar, made ready once and used for any number of texts."""

    def __init__(self, host: Host) -> None:
        self._lark = Lark(
            host.read(grammar_file("garment.lark")).decode(),
            parser="lalr",
            lexer="contextual",
            start=["start", "setting"],
            maybe_placeholders=True,
            propagate_positions=True,
            cache=host.cache_file("grammar.bin") or False,
        )

    def file(self, source: Source, findings: Findings) -> File:
        """The statements of a source; what can't be read is reported and left out."""
        if (other := _of_another_kind(source)) is not None:
            findings.add(other)
            return File(source, (), (), readable=False)
        text = source.text + "\n"
        deepest, at = nesting(text)
        if deepest > _DEEPEST:
            findings.add(
                too_deep(Span(source, at, at + 1), f"brackets nested {deepest} deep, and the limit is {_DEEPEST}")
            )
            return File(source, (), (), readable=False)
        damaged: list[Damaged] = []
        text = _mend_braces(source, text, findings)
        for span in unclosed_texts(source):
            findings.add(
                Finding(
                    "unclosed-text",
                    "this text is not closed on its line",
                    span,
                    help='end it with `"` on the same line',
                )
            )
            text = self._drop(source, text, innermost(statements(text), span.start), damaged)
        for _ in range(_MOST_FAULTS):
            try:
                return File(source, self._parse(source, text, "start"), tuple(damaged))
            except UnexpectedInput as fault:
                offset, end = _place(fault, source)
                stretches = innermost(statements(text), offset)
                findings.add(_explain(fault, source, Span(source, offset, end), stretches))
                if not stretches:
                    break
                text = self._drop(source, text, stretches, damaged)
        return File(source, (), tuple(damaged))

    def setting(self, source: Source, start: int, findings: Findings) -> Expr | None:
        """A single value given from outside: the text of a source from an offset on."""
        try:
            value: Expr = self._parse(source, " " * start + source.text[start:], "setting")
            return value
        except UnexpectedInput as fault:
            offset, end = _place(fault, source)
            findings.add(_explain(fault, source, Span(source, offset, end), ()))
            return None

    def _parse(self, source: Source, text: str, start: str) -> Any:
        def probe(fault: UnexpectedInput) -> bool:
            if isinstance(fault, UnexpectedToken):
                fault.expected = fault.accepts or fault.expected
            return False

        return TreeBuilder(source).transform(self._lark.parse(text, start=start, on_error=probe))

    @staticmethod
    def _drop(source: Source, text: str, stretches: tuple[Stretch, ...], damaged: list[Damaged]) -> str:
        if not stretches:
            return text
        lost = stretches[-1]
        inside = stretches[0].name(source.text) if len(stretches) > 1 else None
        damaged.append(Damaged(lost.name(source.text), inside, Span(source, lost.start, lost.end)))
        return text[: lost.start] + _blank(text[lost.start : lost.end]) + text[lost.end :]


def _blank(text: str) -> str:
    return "".join(mark if mark == "\n" else " " for mark in text)


def too_deep(span: Span, note: str = "") -> Finding:
    """The finding about something nested, or leaning on other things, deeper than can be followed."""
    return Finding(
        "nested-too-deep",
        "this goes too deep to be followed",
        span,
        notes=(note,) if note else ("values, conditions or pieces lean on each other in hundreds of steps",),
        help="name the inner parts and use the names",
    )


def _of_another_kind(source: Source) -> Finding | None:
    """A finding when the text is no garment but a body or a size chart in YAML."""
    found = _DATA_FILE.search(source.text)
    if found is None or not _MEASURES.search(source.text) or _GARMENT.search(source.text):
        return None
    what, option = ("body", "--body") if found[1] == "body" else ("size chart", "--sizes")
    return Finding(
        "wrong-kind",
        f"this file holds a {what}, not a garment",
        source.span(*found.span(1)),
        help=f"name the garment first, and this file with `{option}`",
    )


def _mend_braces(source: Source, text: str, findings: Findings) -> str:
    """Report braces without a partner, and put in what lets the rest be read."""
    repaired: set[int] = set()
    for fault in reversed(brace_faults(source.text)):
        span = Span(source, fault.at, fault.at + 1)
        if fault.opening:
            findings.add(
                Finding(
                    "unclosed-block",
                    "this block is never closed",
                    span,
                    help="add `}` where the block should end",
                )
            )
            if fault.repair in repaired:  # blocks inside blocks: the outer one is left out as a whole
                line = source.text.rfind("\n", 0, fault.at) + 1
                text = text[:line] + _blank(text[line : fault.repair + 1]) + text[fault.repair + 1 :]
            elif fault.repair >= len(source.text):
                text += "}\n"
            else:  # "}" takes the place of a line end, so that every offset stays true
                text = text[: fault.repair] + "}" + text[fault.repair + 1 :]
            repaired.add(fault.repair)
        else:
            findings.add(
                Finding(
                    "stray-brace",
                    "this `}` closes nothing",
                    span,
                    help="remove it, or add the `{` it belongs to",
                )
            )
            text = text[: fault.at] + " " + text[fault.at + 1 :]
    return text


def _place(fault: UnexpectedInput, source: Source) -> tuple[int, int]:
    if isinstance(fault, UnexpectedToken) and isinstance(fault.token, Token) and fault.token.type != "$END":
        start = fault.token.start_pos or 0
        return start, start + max(1, len(fault.token.rstrip() or " "))
    if isinstance(fault, UnexpectedCharacters):
        start = fault.pos_in_stream or 0
        return start, start + 1
    return len(source.text), len(source.text)


def _explain(fault: UnexpectedInput, source: Source, span: Span, stretches: tuple[Stretch, ...]) -> Finding:
    expected = in_words(fault.expected) if isinstance(fault, UnexpectedToken) else ""
    if stretches:
        stretch = stretches[-1]
        first = _FIRST_WORD.match(source.text, stretch.start)
        if first and first.end() <= span.start and (close := _meant(first.group(), stretches, source.text)):
            return Finding(
                "unknown-statement",
                f"no statement begins with `{first.group()}`",
                Span(source, first.start(), first.end()),
                help=f"did you mean {close}?",
            )
    written = span.text.strip()
    shown = f"`{written}`" if written else "the end of the line"
    others: tuple[Label, ...] = ()
    if stretches and stretches[-1].start < span.start:
        start = stretches[-1].start
        first_line_end = source.text.find("\n", start)
        if first_line_end != -1 and span.start > first_line_end:
            others = (Label(Span(source, start, first_line_end), "in the statement that begins here"),)
    return Finding(
        "unexpected-word",
        f"{shown} does not fit here",
        span,
        label=f"expected {expected}" if expected else "no word, number or sign of the language",
        others=others,
        help=_advice(fault, source, span),
    )


def _meant(word: str, stretches: tuple[Stretch, ...], text: str) -> str:
    """Keywords close to a first word that is none, unless it is the name in ``name =`` or ``name :``."""
    after = text[stretches[-1].start + len(word) : stretches[-1].end].lstrip()
    words = STATEMENT_WORDS if len(stretches) == 1 else ITEM_WORDS + STATEMENT_WORDS
    if after[:1] in ("=", ":") or word in words:
        return ""
    return " or ".join(f"`{name}`" for name in closest(word, words))


def _advice(fault: UnexpectedInput, source: Source, span: Span) -> str:
    """What the writer probably meant, where that can be told."""
    if isinstance(fault, UnexpectedToken) and span.text.isidentifier():
        keywords = [name.lower() for name in fault.expected if name.isalpha() and name not in _NOT_KEYWORDS]
        if meant := did_you_mean(span.text, keywords):
            return meant
    before = source.text[: span.start].rstrip(" \t")
    if re.match(r"(mm|cm|m|in|inch|deg)\b", span.text) and before.endswith(")"):
        return "a unit stands directly after a number: write the unit inside the brackets"
    if span.text and span.text[0] in "'‘’“”„":
        return 'texts stand between straight double quotes: "…"'
    if re.search(r"\d,\d*$", source.text[: span.end]) or (
        re.search(r"\d$", before) and re.match(r",\d", source.text[span.start : span.start + 2])
    ):
        return "decimals are written with a point: 1.5 cm"
    if isinstance(fault, UnexpectedToken) and fault.expected == {"_SEP"}:
        return "end the statement here, or begin a new line for the next one"
    return ""
