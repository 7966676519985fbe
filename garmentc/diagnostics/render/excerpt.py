"""Lines of a source with the marked stretches underlined."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from itertools import accumulate

from garmentc.diagnostics.render.words import one_line, shown
from garmentc.record import Record
from garmentc.source import Source, Span

_TAB = 4
_WIDEST = 100
_BEFORE = 30  # columns kept before a mark when a long line is cut on its left


class Marked(Record):
    """A stretch to underline with ``sign``, and what is said about it."""

    span: Span
    label: str
    sign: str


class _Mark(Record):
    """The part of a stretch on one line, as code points counted from 0."""

    start: int
    end: int
    label: str
    sign: str


class _Cells(Record):
    """A line as a terminal shows it: the text of each code point, and the column where each begins (and the end)."""

    texts: tuple[str, ...]
    columns: tuple[int, ...]


def excerpt(source: Source, marked: Sequence[Marked], margin: int) -> list[str]:
    """The lines that hold marked stretches, numbered, each with its underlines below; gaps are shown as dots."""
    by_line: dict[int, list[_Mark]] = {}
    for one in marked:
        for line, mark in _marks(source, one):
            by_line.setdefault(line, []).append(mark)
    empty = f"{' ' * margin} |"
    rows = [empty]
    before = 0
    for line in sorted(by_line):
        if before and line == before + 2:
            rows.append(_numbered(line - 1, margin, _cut(_cells(source.line_text(line - 1)), 0)))
        elif before and line > before + 2:
            rows.append(f"{'.' * max(3, margin)}")
        rows += _line(source.line_text(line), line, by_line[line], margin)
        before = line
    rows.append(empty)
    return rows


def _marks(source: Source, one: Marked) -> list[tuple[int, _Mark]]:
    """A stretch as one mark, or as one on its first and one on its last line when it runs over several."""
    text = source.text[one.span.start : one.span.end].rstrip()
    start = source.place(one.span.start)
    end = source.place(one.span.start + len(text))
    first, last = start.column - 1, end.column - 1
    if start.line == end.line:
        return [(start.line, _Mark(first, last, one.label, one.sign))]
    whole = len(source.line_text(start.line).rstrip())
    body = source.line_text(end.line)
    indent = len(body) - len(body.lstrip())
    return [
        (start.line, _Mark(first, whole, "from here", one.sign)),
        (end.line, _Mark(min(indent, last), last, f"to here{': ' if one.label else ''}{one.label}", one.sign)),
    ]


def _line(text: str, number: int, marks: Sequence[_Mark], margin: int) -> list[str]:
    cells = _cells(text)
    start = _window(cells, marks[0])
    rows = [_numbered(number, margin, _cut(cells, start))]
    shift = cells.columns[start] - (1 if start else 0)
    for mark in marks:
        first, last = (cells.columns[min(at, len(cells.texts))] for at in (mark.start, mark.end))
        left = max(0, min(first - shift, _WIDEST))
        right = max(left + 1, min(last - shift, _WIDEST))
        underline = f"{' ' * left}{mark.sign * (right - left)} {one_line(mark.label)}"
        rows.append(f"{' ' * margin} | {underline}".rstrip())
    return rows


def _numbered(number: int, margin: int, text: str) -> str:
    return f"{number:>{margin}} | {text}".rstrip()


def _cells(text: str) -> _Cells:
    texts: list[str] = []
    widths: list[int] = []
    column = 0
    for mark in text:
        if mark == "\t":
            width = _TAB - column % _TAB
            texts.append(" " * width)
        else:
            texts.append(shown(mark))
            width = _width(mark)
        widths.append(width)
        column += width
    return _Cells(tuple(texts), tuple(accumulate(widths, initial=0)))


def _width(mark: str) -> int:
    """How many columns a character takes in a terminal."""
    if unicodedata.combining(mark) or unicodedata.category(mark) in ("Mn", "Me"):
        return 0
    return 2 if unicodedata.east_asian_width(mark) in "WF" else 1


def _window(cells: _Cells, mark: _Mark) -> int:
    """The first code point that is shown: the first of all, unless the line is long and the mark lies far right."""
    at = min(mark.start, len(cells.texts))
    end = min(mark.end, len(cells.texts))
    if cells.columns[-1] <= _WIDEST or cells.columns[end] <= _WIDEST:
        return 0
    return next(i for i, column in enumerate(cells.columns) if column >= max(0, cells.columns[at] - _BEFORE))


def _cut(cells: _Cells, start: int) -> str:
    begin = cells.columns[start]
    room = _WIDEST - (1 if start else 0)
    end = next((i for i, column in enumerate(cells.columns) if column - begin > room), None)
    body = "".join(cells.texts[start:] if end is None else cells.texts[start : end - 1])
    return f"{'…' if start else ''}{body}{'' if end is None else '…'}"
