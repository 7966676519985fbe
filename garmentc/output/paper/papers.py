"""Sheets of paper: what a printer leaves white, and what is left for the drawing."""

from __future__ import annotations

import re

from garmentc.numbers import MM_PER_UNIT
from garmentc.record import Record

MARGIN = 10.0
"""White that a printer may leave along the edges (mm): 4 to 6.5 are usual; a value from memory."""

OVERLAP = 10.0
"""How much two pages that are joined show of the same (mm); common practice, no source."""

LONGEST = 5000.0
"""Of a page (mm): readers are only sure to take 14,400 units of 1/72 inch."""

_SIZES = {  # mm; ISO 216, and ANSI/ASME Y14.1 from memory
    "a4": ("A4", 210.0, 297.0),
    "a3": ("A3", 297.0, 420.0),
    "a2": ("A2", 420.0, 594.0),
    "a1": ("A1", 594.0, 841.0),
    "a0": ("A0", 841.0, 1189.0),
    "letter": ("Letter", 215.9, 279.4),
    "legal": ("Legal", 215.9, 355.6),
    "tabloid": ("Tabloid", 279.4, 431.8),
}
_ROLL = re.compile(r"roll:([0-9]+(?:\.[0-9]+)?) *(mm|cm|m|in|inch)")
_ROOMY = 380.0  # mm; on a narrower sheet the first page stands alone


class Paper(Record):
    """A sheet, upright, with the width of its white edges; an endless one is cut where the drawing ends (mm)."""

    name: str
    width: float
    height: float
    margin: float = MARGIN
    endless: bool = False

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of the drawing on a page."""
        return self.width - 2 * self.margin, self.height - 2 * self.margin

    @property
    def step(self) -> tuple[float, float]:
        """From one page to the next in the whole drawing."""
        across, up = self.window
        return across - OVERLAP, up - OVERLAP

    @property
    def roomy(self) -> bool:
        """Whether the sheet holds pieces beside the notes of the first page."""
        return self.width >= _ROOMY

    @property
    def lying(self) -> Paper:
        """The sheet turned by a quarter."""
        return self._replace(width=self.height, height=self.width)


def read_paper(text: str) -> Paper:
    """A paper by its name, or ``roll:914mm``; ValueError with what is known when it is neither."""
    name = text.strip().lower()
    if name in _SIZES:
        return Paper(*_SIZES[name])
    roll = _ROLL.fullmatch(name)
    if roll is None:
        raise ValueError(f"'{text}' is no paper: give {', '.join(_SIZES)}, or a roll by its width, as roll:914mm")
    width = float(roll[1]) * MM_PER_UNIT[roll[2]]
    if not 200.0 <= width <= LONGEST:
        raise ValueError(f"a roll is from 20 cm to 5 m wide, not {roll[1]} {roll[2]}")
    return Paper(f"roll {roll[1]} {roll[2]}", width, LONGEST, endless=True)


PAPERS = tuple(_SIZES)
"""The names of the sheets."""
