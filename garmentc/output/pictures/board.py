"""The board that leaves are drawn on: from mm, y up, to px, y down, at a scale that fits the sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.geometry.vector import Point
from garmentc.output.pictures.hatch import hatch
from garmentc.output.pictures.laid import along, long
from garmentc.output.pictures.leaf import Line
from garmentc.output.pictures.marks import arrow
from garmentc.output.pictures.model import LETTER, Stroke, Word

_WIDE, _HIGH = 300.0, 230.0
_PINS_APART = 42.0  # px
_PIN = 9.0


class Board:
    """Strokes and words in px; ``extent`` are all points (mm) that have to fit."""

    def __init__(self, extent: Iterable[Point]) -> None:
        points = list(extent)
        wide = max(p.real for p in points) - min(p.real for p in points)
        high = max(p.imag for p in points) - min(p.imag for p in points)
        self.scale = min(_WIDE / max(wide, 1.0), _HIGH / max(high, 1.0))
        self.strokes: list[Stroke] = []
        self.words: list[Word] = []

    def px(self, line: Sequence[Point], shift: Point = 0j) -> Line:
        """A line of the garment on the board."""
        return tuple(p.conjugate() * self.scale + shift for p in line)

    def cloth(self, ring: Line, *, wrong: bool) -> None:
        """A layer of cloth by its outline (px), seen from its wrong side when ``wrong``."""
        self.strokes.append(Stroke("cloth", (ring,), closed=True))
        if wrong:
            self.strokes.append(hatch(ring))
            self.strokes.append(Stroke("cloth", ((*ring, ring[0]),)))

    def line(self, kind: str, *runs: Line) -> None:
        self.strokes.append(Stroke(kind, runs))

    def pins(self, line: Line) -> None:
        """Pins across a line (px), evenly over it and not at its ends."""
        count = max(2, round(long(line) / _PINS_APART))
        runs, heads = [], []
        for i in range(count):
            share = (i + 0.5) / count
            at = along(line, share)
            step = along(line, min(1.0, share + 0.02)) - along(line, max(0.0, share - 0.02))
            across = step / (abs(step) or 1.0) * 1j
            runs.append((at - across * _PIN, at + across * _PIN))
            heads.append(_dot(at - across * _PIN))
        self.line("pin", *runs)
        self.strokes.append(Stroke("head", tuple(heads), closed=True))

    def arrow(self, run: Line) -> None:
        self.strokes += arrow(run)

    def word(self, text: str, at: Point, anchor: str = "middle") -> None:
        self.words.append(Word(text, at + complex(0, 0.35 * LETTER), anchor))


def _dot(at: Point, radius: float = 2.0) -> Line:
    return tuple(at + radius * p for p in (1, 0.7 + 0.7j, 1j, -0.7 + 0.7j, -1, -0.7 - 0.7j, -1j, 0.7 - 0.7j))


def bent(start: Point, end: Point, bow: float) -> Line:
    """A bowed line between two points; ``bow`` (px) is how far it leaves the straight one, to its left on the board."""
    middle = (start + end) / 2
    step = end - start
    top = middle - 1j * step / (abs(step) or 1.0) * 2 * bow
    return tuple((1 - t) ** 2 * start + 2 * t * (1 - t) * top + t**2 * end for t in (i / 10 for i in range(11)))
