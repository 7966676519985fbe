"""Tables of the sheet: columns as wide as their words ask for; a row is never divided."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.output.sheet.document import Table
from garmentc.output.sheetpdf.parts import Mark, Part, Rule
from garmentc.output.sheetpdf.type import CELL, CELL_HEAD, STRONG, Face, Type

_GAP = 3.0  # between columns
_AIR = 0.9  # over and under the words of a row
_THIN, _THICK = 0.15, 0.4


class TableParts:
    """A table as parts: its caption with its head and first row, then a part for each other row."""

    def __init__(self, table: Table, type: Type, room: float) -> None:
        self._type = type
        self._columns = self._widths(table, room)
        self._wide = sum(self._columns) + _GAP * (len(self._columns) - 1) if table.narrow else room
        caption = type.paragraph(table.caption, STRONG, room, above=3.0, holds=True)
        self.head = self._row(table.head, CELL_HEAD, _THICK)._replace(above=1.0, holds=True)
        self.rows = [self._row(row, CELL, _THIN) for row in table.rows]
        self.caption = caption

    def _row(self, cells: Sequence[str], face: Face, line: float) -> Part:
        marks: list[Mark] = []
        x, most = 0.0, 0
        for cell, wide in zip(cells, self._columns, strict=True):
            lines = self._type.lines(cell, face, wide)
            marks += self._type.marks(lines, face, x, _AIR)
            x, most = x + wide + _GAP, max(most, len(lines))
        high = most * face.line + 2 * _AIR
        return Part(high, (*marks, Rule(0.0, high, self._wide, high, line)))

    def _widths(self, table: Table, room: float) -> list[float]:
        """Each column as wide as its longest word at least; what is left goes by how long its longest cell is."""
        rows = [(table.head, CELL_HEAD), *((row, CELL) for row in table.rows)]
        columns = range(len(table.head))
        least = [
            max(self._type.width(word, face) for row, face in rows for word in row[at].split(" ")) for at in columns
        ]
        wanted = [max(self._type.width(row[at], face) for row, face in rows) for at in columns]
        free = room - _GAP * (len(table.head) - 1)
        if sum(wanted) <= free:
            spare = 0.0 if table.narrow else (free - sum(wanted)) / len(wanted)
            return [wide + spare for wide in wanted]
        least = [min(wide, free / len(least)) for wide in least]
        asked = [most - wide for most, wide in zip(wanted, least, strict=True)]
        share = (free - sum(least)) / max(sum(asked), 1e-9)
        return [wide + share * more for wide, more in zip(least, asked, strict=True)]
