"""Source texts and the places in them that everything derived points back to."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple
from weakref import WeakValueDictionary


class Place(NamedTuple):
    """A line and a column, both counted from 1; columns count code points."""

    line: int
    column: int


_ALIVE: WeakValueDictionary[str, Source] = WeakValueDictionary()
"""The last text under each name, so that what another process found in it is not kept twice."""


@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class Source:
    """One text, with the name it is shown under (a path as the user wrote it)."""

    name: str
    text: str
    _line_starts: tuple[int, ...] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        starts = [0]
        starts.extend(at + 1 for at, mark in enumerate(self.text) if mark == "\n")
        object.__setattr__(self, "_line_starts", tuple(starts))
        _ALIVE[self.name] = self

    def __reduce__(self) -> tuple[Callable[[str, str], Source], tuple[str, str]]:
        return _unpickled, (self.name, self.text)

    def __repr__(self) -> str:
        return f"Source({self.name!r})"

    def place(self, offset: int) -> Place:
        """The line and column of a code-point offset (clamped to the text)."""
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(self._line_starts, offset)
        return Place(line, offset - self._line_starts[line - 1] + 1)

    def line_text(self, line: int) -> str:
        """The text of a line counted from 1, without its line end."""
        start = self._line_starts[line - 1]
        end = self._line_starts[line] - 1 if line < len(self._line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r")

    @property
    def line_count(self) -> int:
        return len(self._line_starts)

    def span(self, start: int, end: int) -> Span:
        return Span(self, start, end)

    def whole(self) -> Span:
        """The place of findings about the file as such: its first character."""
        return Span(self, 0, min(1, len(self.text)))


def _unpickled(name: str, text: str) -> Source:
    known = _ALIVE.get(name)
    return known if known is not None and known.text == text else Source(name, text)


class Span(NamedTuple):
    """A stretch of one source, as code-point offsets; ``end`` is exclusive."""

    source: Source
    start: int
    end: int

    @property
    def line(self) -> int:
        return self.source.place(self.start).line

    @property
    def column(self) -> int:
        return self.source.place(self.start).column

    @property
    def text(self) -> str:
        return self.source.text[self.start : self.end]

    def to(self, other: Span) -> Span:
        """The stretch from the start of this span to the end of another in the same source."""
        return Span(self.source, self.start, max(self.end, other.end))

    def __str__(self) -> str:
        line, column = self.source.place(self.start)
        return f"{self.source.name}:{line}:{column}"
