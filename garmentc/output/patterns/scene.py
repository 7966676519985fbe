"""What a pattern drawing is made of: strokes and words in the coordinates of the draft (mm, y up)."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from typing import NamedTuple

from garmentc.geometry.segments import Box, Line, Segment
from garmentc.geometry.vector import Point, left
from garmentc.output.patterns.letters import text_width
from garmentc.record import Record

Wall = tuple[Point, Point, float]
"""A straight stretch that words keep clear of, and how far around it."""


class Look(Record):
    """How a kind of line is drawn: its width and the lengths of its dashes and gaps (mm), none for a continuous one."""

    width: float
    dashes: tuple[float, ...] = ()


WIDE, NARROW = 0.7, 0.35
"""Widths of lines (mm), as ISO 128-2 pairs them."""

LOOKS = {
    "wide": Look(WIDE),
    "narrow": Look(NARROW),
    "dashed": Look(NARROW, (4.2, 1.4)),
    "chain": Look(NARROW, (8.4, 1.4, 0.35, 1.4)),
}
"""The kinds of line; a ``solid`` shape has none."""


class Stroke(NamedTuple):
    """Segments drawn in one kind of line: wide, dashed, chain, narrow or solid (a filled shape).

    ``use`` says what it is for: cut, stitch, fold, dart, pleat, grain, notch, mark, guide, lengthen, buttonhole or
    check. ``edge`` and ``line`` are the edge and the line of the source that it comes from, or "" and 0. A gap between
    two segments is not drawn.
    """

    use: str
    kind: str
    segments: tuple[Segment, ...]
    edge: str = ""
    line: int = 0


class Words(NamedTuple):
    """One line of text with capitals ``height`` high. It starts at ``at``, or with ``centred`` has its middle there."""

    use: str
    text: str
    at: Point
    along: complex
    height: float
    centred: bool = False
    edge: str = ""
    line: int = 0

    @property
    def corners(self) -> tuple[Point, ...]:
        """The corners of the space it takes, as well as can be told without knowing the font."""
        long = text_width(self.text, self.height) * self.along
        up = left(self.along) * self.height
        start = self.at - long / 2 if self.centred else self.at
        low = -0.3 * up
        return start + low, start + long + low, start + long + up, start + up

    @property
    def wall(self) -> Wall:
        """The space it takes, as a wall."""
        a, b, c, d = self.corners
        return (a + d) / 2, (b + c) / 2, abs(d - a) / 2


def polyline(*points: Point) -> tuple[Segment, ...]:
    """Straight segments through points."""
    return tuple(Line(a, b) for a, b in pairwise(points))


def box_of(points: Iterable[Point]) -> Box:
    """The smallest box around points."""
    points = tuple(points)
    xs, ys = [p.real for p in points], [p.imag for p in points]
    return min(xs), min(ys), max(xs), max(ys)
