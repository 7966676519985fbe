"""One statement on as few lines as the width allows, broken where it is least nested."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.format.marks import Gap, Mark, Marks

INDENT = 2
DEEPER = 4
"""Columns that the further lines of a statement stand in from its first."""


class Breaker:
    """Sets the marks of statements on lines."""

    def __init__(self, marks: Marks, width: int) -> None:
        self._marks: Sequence[Mark] = marks.marks
        self._gaps: Sequence[Gap] = marks.gaps
        self._width = width

    def flat(self, first: int, end: int, pad: int = 0) -> str:
        """Marks on one line; ``pad`` blanks more behind the first."""
        parts: list[str] = []
        for i in range(first, end):
            if i > first and not self._marks[i].tight:
                parts.append(" ")
            parts.append(self._marks[i].text)
            if i == first:
                parts.append(" " * pad)
        return "".join(parts)

    def lines(self, first: int, end: int, indent: int, pad: int) -> list[str]:
        """The lines of marks whose statement stands at ``indent``; comments among them get lines of their own."""
        found: list[str] = []
        at, start = indent, first
        for i in [*(i for i in range(first + 1, end) if self._gaps[i].has_comment), end]:
            here = self._broken(start, i, at, at, pad if start == first else 0)
            found += [" " * at + here[0], *here[1:]]
            if i < end:
                at = indent + DEEPER
                gap = self._gaps[i]
                if gap.beside:
                    found[-1] += f"  {gap.beside}"
                found += [" " * at + comment.text for comment in gap.above]
                start = i
        return found

    def _broken(self, first: int, end: int, column: int, indent: int, pad: int) -> list[str]:
        """Lines for marks of which the first stands at ``column``; the first line is without its indentation."""
        flat = self.flat(first, end, pad)
        if column + len(flat) <= self._width:
            return [flat]
        breaks = [i for i in range(first + 1, end) if self._marks[i].breaks]
        if not breaks:
            return [flat]
        level = min(self._marks[i].level for i in breaks)
        cuts = [i for i in breaks if self._marks[i].level == level]
        words = [i for i in cuts if self._marks[i].by_word]
        deeper = indent + DEEPER
        found: list[str] = []
        parts = list(zip([first, *(words or cuts)], [*(words or cuts), end], strict=True))
        for start, stop in parts:
            more = pad if start == first else 0
            if not found:
                found = self._broken(start, stop, column, deeper if words else indent, more)
                continue
            behind = (column if len(found) == 1 else 0) + len(found[-1]) + (not self._marks[start].tight)
            if not words and self._stays(start, stop, behind, deeper):
                here = self._broken(start, stop, behind, indent, 0)
                found[-1] += ("" if self._marks[start].tight else " ") + here[0]
            else:
                here = self._broken(start, stop, deeper, deeper, 0)
                found.append(" " * deeper + here[0])
            found += here[1:]
        return found

    def _stays(self, start: int, stop: int, column: int, indent: int) -> bool:
        """Whether a part goes on in the line: it fits, or it fits on no line and its beginning does."""
        long = len(self.flat(start, stop))
        if column + long <= self._width:
            return True
        if indent + long <= self._width:
            return False
        begins = next((i for i in range(start + 1, stop) if self._marks[i].breaks), stop)
        return column + len(self.flat(start, begins)) <= self._width
