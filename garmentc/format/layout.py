"""The canonical layout of a file: statements on lines, names and comments in columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from garmentc.format.blocks import Block, Statement, gather
from garmentc.format.lines import INDENT, Breaker
from garmentc.format.marks import Comment, Marks
from garmentc.record import Record

WIDTH = 120
_LONGEST_NAME = 16
"""Longer names do not move the sign behind the names of their neighbours."""
_LONGEST_LINE = 64
"""Longer lines do not move the comments beside their neighbours."""


def laid_out(marks: Marks, width: int = WIDTH) -> str:
    """A text in its canonical layout."""
    lines = _Layout(marks, width).block(gather(marks), 0)
    return "".join(f"{line}\n" for line in lines)


class _Shown(Record):
    """The lines of a statement or comment, and the comments beside the last of them."""

    lines: list[str]
    beside: str
    below: tuple[str, ...]
    blank_before: bool


class _Layout:
    def __init__(self, marks: Marks, width: int) -> None:
        self._marks = marks.marks
        self._width = width
        self._breaker = Breaker(marks, width)
        self._gaps = marks.gaps

    def block(self, block: Block, indent: int) -> list[str]:
        pads = self._pads(block.entries)
        shown: list[_Shown] = []
        for entry, pad in zip(block.entries, pads, strict=True):
            if isinstance(entry, Comment):
                shown.append(_Shown([" " * indent + entry.text], "", (), entry.blank_before))
            else:
                lines = self._statement(entry, indent, pad)
                shown.append(_Shown(lines, entry.beside, entry.below, entry.blank_before))
        found: list[str] = []
        for one, column in zip(shown, _columns(shown), strict=True):
            if one.blank_before and found:
                found.append("")
            found += one.lines
            if one.beside:
                found[-1] = f"{found[-1].ljust(column)}{one.beside}"
                found += [" " * column + more for more in one.below]
        return found

    def _statement(self, one: Statement, indent: int, pad: int) -> list[str]:
        if one.block is None:
            return self._breaker.lines(one.first, one.end, indent, pad)
        flat = self._flat(one)
        if flat is not None and indent + len(flat) <= self._width:
            return [" " * indent + flat]
        lines = self._breaker.lines(one.first, one.end, indent, pad)
        if one.block.beside:
            lines[-1] += f"  {one.block.beside}"
        return [*lines, *self.block(one.block, indent + INDENT), " " * indent + "}"]

    def _flat(self, one: Statement) -> str | None:
        """A statement on one line, where its block was written so, or holds nothing; else None."""
        if any(self._gaps[i].has_comment for i in range(one.first + 1, one.end)):
            return None
        head = self._breaker.flat(one.first, one.end)
        if one.block is None:
            return head
        if one.block.beside or not (one.block.on_one_line or not one.block.entries):
            return None
        inside = [self._flat(entry) for entry in one.block.entries if isinstance(entry, Statement)]
        return " ".join([head, "; ".join(text for text in inside if text is not None), "}"]).replace("{  }", "{ }")

    def _pads(self, entries: Sequence[Statement | Comment]) -> list[int]:
        """How many blanks more stand behind the first mark of each entry, so that signs stand under each other."""
        pads = [0] * len(entries)
        for run in self._runs(entries):
            long = [len(self._marks[first].text) for _, first in run]
            column = max((one for one in long if one <= _LONGEST_NAME), default=0)
            for (i, _), one in zip(run, long, strict=True):
                pads[i] = max(0, column - one)
        return pads

    def _runs(self, entries: Sequence[Statement | Comment]) -> Iterator[list[tuple[int, int]]]:
        """Neighbours that are a name, the same sign and a value: the number and the first mark of each."""
        run: list[tuple[int, int]] = []
        sign = ""
        for i, entry in enumerate(entries):
            here = "" if isinstance(entry, Comment) else self._sign(entry)
            if entry.blank_before or (here != sign and isinstance(entry, Statement)):
                yield run
                run = []
            if isinstance(entry, Statement):
                sign = here
                if here:
                    run.append((i, entry.first))
        yield run

    def _sign(self, one: Statement) -> str:
        if one.block is not None or one.end - one.first < 3 or self._marks[one.first].kind != "NAME":
            return ""
        sign = self._marks[one.first + 1].text
        return sign if sign in ("=", ":") else ""


def _columns(shown: Sequence[_Shown]) -> list[int]:
    """Where the comment beside each entry stands: under those of its neighbours, two blanks behind the longest."""
    numbered = list(enumerate(shown))
    columns = [0] * len(shown)
    run = 0
    keys = []
    for one in shown:
        run += one.blank_before or not one.beside
        keys.append(run)
    for _, group in groupby(numbered, key=lambda pair: keys[pair[0]]):
        members = [(i, len(one.lines[-1])) for i, one in group if one.beside]
        column = max((long for _, long in members if long <= _LONGEST_LINE), default=0)
        for i, long in members:
            columns[i] = max(column, long) + 2
    return columns
