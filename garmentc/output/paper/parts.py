"""What is drawn on paper: pieces and strips of one size, or of several laid over each other."""

from __future__ import annotations

from garmentc.geometry.motion import Motion
from garmentc.geometry.segments import Box
from garmentc.geometry.vector import Point
from garmentc.output.patterns.scene import Look, Stroke, Words
from garmentc.record import Record


class Part(Record):
    """Lines and words of one layer; the nameless one is always shown. ``look`` replaces the look of its lines.

    Of ``back`` the insides are made white before the words are written.
    """

    layer: str
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]
    look: Look | None = None
    back: tuple[tuple[Point, ...], ...] = ()


class PaperPiece(Record):
    """A piece ready for paper: what is drawn, its outlines as points (one for each size), and the box round it all."""

    name: str
    title: str
    parts: tuple[Part, ...]
    rings: tuple[tuple[Point, ...], ...]
    box: Box


class Laid(Record):
    """A piece where it lies in the whole drawing (mm, y up): turned by a unit complex number, then moved."""

    piece: PaperPiece
    turn: complex
    by: complex

    def place(self, p: Point) -> Point:
        """Where a point of the piece lies."""
        return p * self.turn + self.by

    @property
    def motion(self) -> Motion:
        """The same as a motion."""
        return Motion(self.turn, self.by, False)

    @property
    def rings(self) -> list[list[Point]]:
        """Its outlines where they lie."""
        return [[self.place(p) for p in ring] for ring in self.piece.rings]
