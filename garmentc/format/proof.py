"""Formats a text, and proves that nothing but its layout has changed."""

from __future__ import annotations

from typing import Any

from garmentc.diagnostics.finding import Findings
from garmentc.format.layout import WIDTH, laid_out
from garmentc.format.marks import Marks, take_apart
from garmentc.source import Source, Span
from garmentc.syntax.parser import Parser


class Unproven(Exception):
    """The layout of a text could not be proved: the text says what would have changed."""


def formatted(parser: Parser, source: Source, findings: Findings, width: int = WIDTH) -> str | None:
    """A text in its canonical layout; None after a finding when it has syntax faults.

    Raises ``Unproven`` when the result would be another tree, lose a comment, or come out differently the second time.
    """
    before = len(findings)
    tree = parser.file(source, findings).statements
    if len(findings) > before:
        return None
    marks = take_apart(parser, source)
    text = laid_out(marks, width)
    again = Source(source.name, text)
    aside = Findings()
    if not same_tree(tree, parser.file(again, aside).statements) or len(aside):
        raise Unproven("another tree")
    marks_again = take_apart(parser, again)
    if _words(marks_again) != _words(marks):
        raise Unproven("other words or comments")
    if laid_out(marks_again, width) != text:
        raise Unproven("another layout the second time")
    return text


def same_tree(one: object, other: object) -> bool:
    """Whether two trees say the same; places in the text do not matter."""
    waiting: list[tuple[Any, Any]] = [(one, other)]
    while waiting:
        a, b = waiting.pop()
        if isinstance(a, Span):
            continue
        if type(a) is not type(b):
            return False
        if isinstance(a, tuple):
            if len(a) != len(b):
                return False
            waiting += zip(a, b, strict=True)
        elif a != b:
            return False
    return True


def _words(marks: Marks) -> tuple[list[str], list[str]]:
    comments = [text for gap in marks.gaps for text in (gap.beside, *(one.text for one in gap.above)) if text]
    return [mark.text for mark in marks.marks], comments
