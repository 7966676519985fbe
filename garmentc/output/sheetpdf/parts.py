"""What a page is filled with: parts below each other, with their marks. All in mm from the top left corner, y down."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.output.pictures.model import Picture
from garmentc.output.sheet.sketch import Sketch
from garmentc.record import Record


class Text(Record):
    """A line of text; ``x`` and ``y`` are where its base line begins. ``size`` is that of the font in mm."""

    x: float
    y: float
    text: str
    size: float
    bold: bool = False


class Rule(Record):
    """A straight line."""

    x: float
    y: float
    to_x: float
    to_y: float
    width: float


class Frame(Record):
    """An empty rectangle, as a box to tick; ``width`` is that of its line."""

    x: float
    y: float
    wide: float
    high: float
    width: float


class Drawn(Record):
    """A picture or a sketch, ``scale`` mm for each of its own units."""

    x: float
    y: float
    picture: Picture | Sketch
    scale: float


Mark = Text | Rule | Frame | Drawn


class Part(Record):
    """A stretch of the page that is never divided.

    ``above`` is the room over it, which falls away at the top of a page; a part that ``holds`` stays on the page of the
    next one. ``part_of`` names the part of the sheet that begins here, for the bookmarks.
    """

    high: float
    marks: tuple[Mark, ...]
    above: float = 0.0
    holds: bool = False
    part_of: str = ""


def moved(mark: Mark, x: float, y: float) -> Mark:
    """A mark elsewhere."""
    if isinstance(mark, Rule):
        return mark._replace(x=mark.x + x, y=mark.y + y, to_x=mark.to_x + x, to_y=mark.to_y + y)
    return mark._replace(x=mark.x + x, y=mark.y + y)


def beside(one: Part, x: float) -> Part:
    """A part set in by so much."""
    return one._replace(marks=tuple(moved(mark, x, 0.0) for mark in one.marks))


def stacked(parts: Sequence[Part]) -> Part:
    """Parts as one that is never divided."""
    marks: list[Mark] = []
    high = 0.0
    for number, part in enumerate(parts):
        high += part.above if number else 0.0
        marks += (moved(mark, 0.0, high) for mark in part.marks)
        high += part.high
    first, last = parts[0], parts[-1]
    return Part(high, tuple(marks), first.above, last.holds, first.part_of)


def height(parts: Iterable[Part]) -> float:
    """How high parts are together, with the room over each."""
    return sum(part.above + part.high for part in parts)
