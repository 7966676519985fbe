"""Letters of the sheet: their sizes, how wide words are, and where a line is broken."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.output.paper.fonts import Fonts
from garmentc.output.sheet.document import plain, tied
from garmentc.output.sheetpdf.parts import Mark, Part, Text
from garmentc.record import Record

_ASCENT = 0.95  # of the font size, from the top of a line of text to its base line
_WIDER = 1.04  # bold letters are drawn with a line round them


class Face(Record):
    """How a text is set: font size and line height in mm."""

    size: float
    line: float
    bold: bool = False


POINT = 25.4 / 72
TITLE = Face(17 * POINT, 7.6, bold=True)
PART = Face(13 * POINT, 6.0, bold=True)
SMALL_PART = Face(10 * POINT, 4.9, bold=True)
BODY = Face(9 * POINT, 4.5)
STRONG = Face(9 * POINT, 4.5, bold=True)
FINE = Face(8 * POINT, 3.9)
CELL = Face(8.5 * POINT, 4.1)
CELL_HEAD = Face(8.5 * POINT, 4.1, bold=True)


class Type:
    """Sets texts with given fonts."""

    def __init__(self, fonts: Fonts) -> None:
        self._fonts = fonts
        self._wide: dict[str, float] = {}

    def wide(self, text: str) -> float:
        """How wide a text is, for a font size of 1."""
        if text not in self._wide:
            self._wide[text] = sum(run.width for run in self._fonts.runs(text)) / 1000.0
        return self._wide[text]

    def width(self, text: str, face: Face) -> float:
        """How wide a text is (mm)."""
        return self.wide(text) * face.size * (_WIDER if face.bold else 1.0)

    def lines(self, text: str, face: Face, room: float) -> list[str]:
        """A text broken between words, and inside a word that is wider than the room."""
        found: list[str] = []
        line, wide = "", 0.0
        space = self.width(" ", face)
        for word in self._words(tied(plain(text)), face, room):
            more = self.width(word, face)
            if line and wide + space + more > room:
                found.append(line)
                line, wide = word, more
            else:
                line, wide = (f"{line} {word}", wide + space + more) if line else (word, more)
        return [*found, line]

    def _words(self, text: str, face: Face, room: float) -> Iterator[str]:
        for word in text.split(" "):
            rest = word
            while self.width(rest, face) > room and len(rest) > 1:
                fits = next(n for n in range(len(rest) - 1, 0, -1) if n == 1 or self.width(rest[:n], face) <= room)
                yield rest[:fits]
                rest = rest[fits:]
            yield rest

    def marks(self, lines: list[str], face: Face, x: float = 0.0, y: float = 0.0) -> tuple[Mark, ...]:
        """Lines of text below each other, from a corner."""
        lead = (face.line - face.size) / 2 + _ASCENT * face.size - 0.12 * face.size
        return tuple(Text(x, y + lead + i * face.line, line, face.size, face.bold) for i, line in enumerate(lines))

    def paragraph(self, text: str, face: Face, room: float, *, above: float = 0.0, holds: bool = False) -> Part:
        """A text as a part of its own."""
        lines = self.lines(text, face, room)
        return Part(len(lines) * face.line, self.marks(lines, face), above, holds)
