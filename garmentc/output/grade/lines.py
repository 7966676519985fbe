"""The kinds of line that keep sizes apart in black and white."""

from __future__ import annotations

from garmentc.record import Record

_WIDTHS = ("0.25", "0.5")
_PATTERNS = ("", "4 1.5", "0.5 1.2", "8 1.2 0.5 1.2", "1.8 1.2", "8 1.2 0.5 1.2 0.5 1.2")
"""mm of stroke and gap: continuous, dashed, dotted, chain, short dashes, chain with two dots."""


class Line(Record):
    """How the lines of one size are drawn: width and dash pattern in mm, the latter empty for a continuous line."""

    width: str
    dashes: str


def line_of(number: int) -> Line:
    """The kind of line of a size by its number: six patterns, first narrow, then wide, then over again."""
    return Line(_WIDTHS[number // len(_PATTERNS) % len(_WIDTHS)], _PATTERNS[number % len(_PATTERNS)])
