"""The tokens of a text, and what lies between them: comments, blank lines, and how tightly they belong together."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator, Sequence

from lark import Token, Tree

from garmentc.record import Record
from garmentc.source import Source
from garmentc.syntax.layout import goes_on_before
from garmentc.syntax.parser import Parser

_COMMENT = re.compile(r'"[^"\n]*"|#[^\n]*')
_LAST_RESORT = 10_000
"""Added to the level of a break beside a parenthesis: it is taken when nothing else is left."""


class Comment(Record):
    """A comment on a line of its own; ``column`` is where it stood, counted from 0."""

    text: str
    blank_before: bool
    column: int


class Gap(Record):
    """What stands between two marks: a comment beside the first, comments on their own lines, a blank line."""

    beside: str
    beside_column: int
    above: tuple[Comment, ...]
    blank: bool
    newline: bool

    @property
    def has_comment(self) -> bool:
        return bool(self.beside or self.above)


class Mark(Record):
    """A token without the blanks and comments that it may carry, and how it stands to the one before it.

    ``level`` is how deep the two are nested in their statement: where a line is too long, it is broken at the lowest
    level. ``by_word`` tells a break before a word like ``with`` from one behind a sign.
    """

    text: str
    kind: str
    begins: bool
    tight: bool
    breaks: bool
    by_word: bool
    level: int


class Marks(Record):
    """A text taken apart: ``gaps`` has one more than ``marks``, before, between and behind them."""

    marks: tuple[Mark, ...]
    gaps: tuple[Gap, ...]


class _Core(Record):
    text: str
    kind: str
    start: int
    end: int
    begins: bool


def take_apart(parser: Parser, source: Source) -> Marks:
    """The marks and gaps of a text that can be read without a fault."""
    tokens, tree = parser.tokens(source)
    text = source.text
    comments = [found.span() for found in _COMMENT.finditer(text) if found[0][0] == "#"]
    cores = list(_cores(tokens, text, comments))
    levels, extents = _nesting(tree, cores)
    ends = [0, *(core.end for core in cores)]
    starts = [*(core.start for core in cores), len(text)]
    gaps = tuple(_gap(text, start, end, comments) for start, end in zip(ends, starts, strict=True))
    marks = []
    for i, core in enumerate(cores):
        before = cores[i - 1] if i else core
        tight = bool(i) and _is_tight(cores, i, extents[i])
        behind_prefix = tight and before.kind == "SIGN"
        by_word = core.kind != "NAME" and goes_on_before(text, core.start)
        breaks = by_word or (
            not behind_prefix and (_lets_go_on(parser, before, True) or _lets_go_on(parser, core, False))
        )
        beside_parenthesis = before.kind == "_LPAR" or core.kind == "_RPAR"
        level = levels[i] + (_LAST_RESORT if beside_parenthesis else 0)
        marks.append(Mark(core.text, core.kind, core.begins, tight, breaks, by_word, level))
    return Marks(tuple(marks), gaps)


def _cores(tokens: Sequence[Token], text: str, comments: Sequence[tuple[int, int]]) -> Iterator[_Core]:
    """The tokens without blanks, comments and separators; ``begins`` says that a statement begins there."""
    begins = True
    starts = [start for start, _ in comments]
    for token in tokens:
        if token.type == "_SEP":
            begins = True
            continue
        start, end = token.start_pos or 0, min(token.end_pos or 0, len(text))
        first = bisect_left(starts, start)
        last = bisect_left(starts, end)
        for from_, to in comments[first:last]:
            if text[start:from_].strip():
                end = from_
                break
            start = to
        core = text[start:end].strip()
        at = text.index(core, start)
        yield _Core(core, token.type, at, at + len(core), begins or token.type == "RBRACE")
        begins = token.type in ("LBRACE", "RBRACE")


def _gap(text: str, start: int, end: int, comments: Sequence[tuple[int, int]]) -> Gap:
    above: list[Comment] = []
    beside, beside_column = "", 0
    at, lines, newline = start, 0, False
    for from_, to in comments[bisect_left(comments, (start, 0)) :]:
        if from_ >= end:
            break
        lines = text.count("\n", at, from_)
        newline = newline or lines > 0
        words = text[from_:to].rstrip()
        column = from_ - text.rfind("\n", 0, from_) - 1
        if newline or start == 0:
            above.append(Comment(words, lines > 1, column))
        else:
            beside, beside_column = words, column
        at = to
    lines = text.count("\n", at, end)
    return Gap(beside, beside_column, tuple(above), lines > 1, newline or lines > 0)


def _lets_go_on(parser: Parser, core: _Core, behind: bool) -> bool:
    """Whether the grammar lets a line end behind a token (or before it)."""
    pattern = parser.pattern(core.kind)
    return pattern.fullmatch(f"{core.text}\n" if behind else f"\n{core.text}") is not None and core.kind != "_SEP"


def _is_tight(cores: Sequence[_Core], i: int, extent: tuple[int, int]) -> bool:
    """Whether no blank stands before a token; ``extent`` is the part of the tree that holds it and the one before."""
    before, core = cores[i - 1], cores[i]
    first, last = extent
    if core.kind in ("DOT", "_COMMA", "_RPAR") or before.kind in ("DOT", "_LPAR"):
        return True
    if core.kind == "_LPAR" and before.kind == "NAME" and first == i - 1:  # a function and its arguments
        return True
    if before.kind == "SIGN" and first == i - 1:
        return True
    middle = i - 1 if before.kind == "TIMES" else i
    return (  # a share: 1/4
        cores[middle].text == "/"
        and (first, last) == (middle - 1, middle + 1)
        and {cores[middle - 1].kind, cores[middle + 1].kind} == {"NUMBER"}
    )


def _nesting(tree: Tree[Token], cores: Sequence[_Core]) -> tuple[list[int], list[tuple[int, int]]]:
    """For each token, how deep the innermost part of the tree lies that holds it and the one before, and its extent.

    What continues a part of its own kind (a sum of three) lies no deeper than that.
    """
    starts = [core.start for core in cores]
    levels = [0] * len(cores)
    extents = [(0, len(cores) - 1)] * len(cores)

    def extent(node: Tree[Token]) -> tuple[int, int]:
        return bisect_left(starts, node.meta.start_pos), bisect_left(starts, node.meta.end_pos) - 1

    waiting = [(tree, 0, (0, len(cores) - 1))]
    while waiting:
        node, level, (first, last) = waiting.pop()
        at = first
        for child in node.children:
            if not isinstance(child, Tree) or child.meta.empty:
                continue
            own = extent(child)
            if own[1] <= own[0]:
                continue
            for i in range(at + 1, own[0] + 1):
                levels[i], extents[i] = level, (first, last)
            at = own[1]
            alike = child.data == node.data and (own[0] == first or own[1] == last)
            waiting.append((child, level if alike else level + 1, own))
        for i in range(at + 1, last + 1):
            levels[i], extents[i] = level, (first, last)
    return levels, extents
