"""Reads a text into a syntax tree, and as many syntax faults as there are."""

from __future__ import annotations

import re
from functools import cached_property
from typing import TYPE_CHECKING, Any

from garmentc.diagnostics.finding import Finding, Findings
from garmentc.host import Host
from garmentc.shipped import grammar_file
from garmentc.source import Source, Span
from garmentc.syntax.builder import TreeBuilder
from garmentc.syntax.lalr import whole_grammar
from garmentc.syntax.layout import (
    Stretch,
    brace_faults,
    comment_start,
    innermost,
    is_rest,
    join_lines,
    nesting,
    sibling,
    statements,
    unclosed_texts,
)
from garmentc.syntax.machine import Machine, Misfit, Unreadable
from garmentc.syntax.nodes import Damaged, Expr, File
from garmentc.syntax.tables import tables

if TYPE_CHECKING:
    from lark import Lark, Token, Tree

_MOST_FAULTS = 40
_DEEPEST = 60
_DATA_FILE = re.compile(r"^(body|chart|cloth)[ \t]*:", re.MULTILINE)
_DATA = {"body": ("body", "--body"), "chart": ("size chart", "--sizes"), "cloth": ("cloth", "--cloth")}
_REST_OF_DATA = re.compile(r"^(measures|outline|width)[ \t]*:", re.MULTILINE)
_GARMENT = re.compile(r"^garment\b", re.MULTILINE)


class Parser:
    """The grammar, made ready once and used for any number of texts."""

    def __init__(self, host: Host) -> None:
        grammar = host.read(grammar_file("garment.lark"))
        self._machine = Machine(tables(host, grammar))
        self._grammar = grammar.decode()
        self._patterns: dict[str, re.Pattern[str]] = {}

    @cached_property
    def lark(self) -> Lark:
        """The grammar as lark has it."""
        return whole_grammar(self._grammar)

    def file(self, source: Source, findings: Findings) -> File:
        """The statements of a source; what can't be read is reported and left out."""
        if (other := _of_another_kind(source)) is not None:
            findings.add(other)
            return File(source, (), (), readable=False)
        text = join_lines(source.text + "\n")
        deepest, at = nesting(text)
        if deepest > _DEEPEST:
            findings.add(
                too_deep(Span(source, at, at + 1), f"brackets nested {deepest} deep, and the limit is {_DEEPEST}")
            )
            return File(source, (), (), readable=False)
        damaged: list[Damaged] = []
        lost_texts, text = _mend_texts(source, text, findings)
        text = _mend_braces(source, text, findings)
        for span in lost_texts:
            text = self._drop(source, text, innermost(statements(text), span.start), damaged)
        for _ in range(_MOST_FAULTS):
            try:
                return File(source, self._parse(source, text, "start"), tuple(damaged))
            except Misfit as fault:
                every = statements(text)
                stretches = innermost(every, min(fault.start, len(source.text)))
                rest = _rest(fault, text, every, stretches)
                findings.add(_explained(fault, source, stretches, rest is not None))
                if not stretches:
                    break
                text = self._drop(source, text, stretches, damaged)
                if rest is not None:
                    text = text[: rest.start] + _blank(text[rest.start : rest.end]) + text[rest.end :]
        return File(source, (), tuple(damaged))

    def tokens(self, source: Source) -> tuple[list[Token], Tree[Token]]:
        """The tokens of a text without faults, separators among them, and the tree of rules they were reduced to."""
        steps = self.lark.parse_interactive(join_lines(source.text + "\n"), start="start")
        tokens = list(steps.iter_parse())
        tree: Tree[Token] = steps.feed_eof(tokens[-1] if tokens else None)  # type: ignore[no-untyped-call]
        return tokens, tree

    def pattern(self, terminal: str) -> re.Pattern[str]:
        """What a terminal of the grammar matches."""
        if terminal not in self._patterns:
            self._patterns[terminal] = re.compile(self.lark.get_terminal(terminal).pattern.to_regexp())
        return self._patterns[terminal]

    def setting(self, source: Source, start: int, findings: Findings) -> Expr | None:
        """A single value given from outside: the text of a source from an offset on."""
        try:
            value: Expr = self._parse(source, " " * start + source.text[start:], "setting")
            return value
        except Misfit as fault:
            findings.add(_explained(fault, source, (), False))
            return None

    def _parse(self, source: Source, text: str, start: str) -> Any:
        builder = TreeBuilder(source)
        try:
            return self._machine.read(text, start, builder)
        except Unreadable:
            from garmentc.syntax.slow import read

            return read(self.lark, text, start, builder)

    @staticmethod
    def _drop(source: Source, text: str, stretches: tuple[Stretch, ...], damaged: list[Damaged]) -> str:
        if not stretches:
            return text
        lost = stretches[-1]
        outer = stretches[0].names(source.text) if len(stretches) > 1 else ()
        inside = outer[0] if outer else None
        span = Span(source, lost.start, min(lost.end, len(source.text)))
        damaged += [Damaged(name, inside, span) for name in lost.names(source.text) or (None,)]
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
    """A finding when the text is no garment but a body, a size chart or a cloth in YAML."""
    found = _DATA_FILE.search(source.text)
    if found is None or not _REST_OF_DATA.search(source.text) or _GARMENT.search(source.text):
        return None
    what, option = _DATA[found[1]]
    return Finding(
        "wrong-file",
        f"this file holds a {what}, not a garment",
        source.span(*found.span(1)),
        help=f"name the garment first, and this file with `{option}`",
    )


def _mend_texts(source: Source, text: str, findings: Findings) -> tuple[list[Span], str]:
    """Report texts that are not closed. A title is closed before its ``{``; the places of others are given."""
    lost: list[Span] = []
    for span in unclosed_texts(source):
        inches = re.search(r"\d$", source.text[: span.start].rstrip())
        findings.add(
            Finding(
                "unclosed-text",
                "this text is not closed on its line",
                span,
                help="inches are written with `in`" if inches else 'end it with `"` on the same line',
            )
        )
        brace = span.end - 1
        if source.text[brace] == "{" and brace > span.start + 1:
            text = text[: brace - 1] + '"' + text[brace:]
        else:
            lost.append(span)
    return lost, text


def _rest(fault: Misfit, text: str, every: tuple[Stretch, ...], stretches: tuple[Stretch, ...]) -> Stretch | None:
    """The next statement, when this one breaks off at the end of its line and that can only be its rest."""
    if not stretches or fault.kind != "_SEP":
        return None
    after = sibling(every, stretches[-1].start)
    return after if after is not None and is_rest(text, after) else None


def _mend_braces(source: Source, text: str, findings: Findings) -> str:
    """Report braces without a partner, and put in what lets the rest be read."""
    repaired: set[int] = set()
    for fault in reversed(brace_faults(text[: len(source.text)])):
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
                at = _behind_code(text, fault.repair)
                text = text[:at] + "}" + _blank(text[at + 1 : fault.repair + 1]) + text[fault.repair + 1 :]
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


def _behind_code(text: str, line_end: int) -> int:
    """Where a line can be closed: at its comment, or at its end."""
    start = text.rfind("\n", 0, line_end) + 1
    return comment_start(text, start, line_end)


def _explained(fault: Misfit, source: Source, stretches: tuple[Stretch, ...], breaks_off: bool) -> Finding:
    from garmentc.syntax.explain import explain

    start = min(fault.start, len(source.text))
    end = start if fault.kind == "$END" else start + fault.end - fault.start
    return explain(fault, source, Span(source, start, end), stretches, breaks_off)
