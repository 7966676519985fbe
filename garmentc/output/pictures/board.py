"""The board that leaves are drawn on: from mm, y up, to px, y down, at a scale that fits the sheet."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.geometry.vector import Point
from garmentc.output.pictures.hatch import hatch
from garmentc.output.pictures.laid import along, long
from garmentc.output.pictures.leaf import Line
from garmentc.output.pictures.marks import arrow
from garmentc.output.pictures.model import LETTER, Stroke, Word, word_box

_WIDE, _HIGH = 300.0, 230.0
_SEEN = 130.0  # px that what is in hand should measure …
_HIGHER = 1.6  # … and how much higher a picture may be for it
_PINS_APART = 42.0  # px
_PIN = 9.0
_LINE = 1.2 * LETTER  # px from one line of words to the next


class Board:
    """Strokes and words in px; ``extent`` are all points (mm) that have to fit.

    Where the points ``in_hand`` would be too small to be seen, the board is higher.
    """

    def __init__(self, extent: Iterable[Point], in_hand: Iterable[Point] = ()) -> None:
        size, seen = size_of(extent), size_of(in_hand)
        self.scale = scale_for(size.real, size.imag)
        small = max(seen.real, seen.imag) * self.scale
        if small > 0:
            larger = min(max(_SEEN / small, 1.0), _HIGHER)
            self.scale = min(self.scale * larger, _WIDE / max(size.real, 1.0))
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

    def title(self, text: str, at: Point) -> None:
        """A word for a whole piece, at a place or below it where that is taken by another word."""
        word = Word(text, at + complex(0, 0.35 * LETTER))
        while any(_overlap(word, other) for other in self.words):
            word = word._replace(at=word.at + complex(0, _LINE))
        self.words.append(word)

    def word(self, text: str, at: Point, anchor: str = "middle") -> None:
        self.words.append(Word(text, at + complex(0, 0.35 * LETTER), anchor))


def size_of(points: Iterable[Point]) -> complex:
    """How wide and how high points lie."""
    found = list(points) or [0j]
    left, right = min(p.real for p in found), max(p.real for p in found)
    return complex(right - left, max(p.imag for p in found) - min(p.imag for p in found))


def scale_for(wide: float, high: float) -> float:
    """How many px a mm is drawn, so that an extent (mm) fits the sheet."""
    return min(_WIDE / max(wide, 1.0), _HIGH / max(high, 1.0))


def _overlap(one: Word, other: Word) -> bool:
    (low, high), (its_low, its_high) = word_box(one), word_box(other)
    return (
        low.real < its_high.real and its_low.real < high.real and low.imag < its_high.imag and its_low.imag < high.imag
    )


def _dot(at: Point, radius: float = 2.0) -> Line:
    return tuple(at + radius * p for p in (1, 0.7 + 0.7j, 1j, -0.7 + 0.7j, -1, -0.7 - 0.7j, -1j, 0.7 - 0.7j))


def bent(start: Point, end: Point, bow: float) -> Line:
    """A bowed line between two points; ``bow`` (px) is how far it leaves the straight one, to its left on the board."""
    middle = (start + end) / 2
    step = end - start
    top = middle - 1j * step / (abs(step) or 1.0) * 2 * bow
    return tuple((1 - t) ** 2 * start + 2 * t * (1 - t) * top + t**2 * end for t in (i / 10 for i in range(11)))
