"""A picture before it becomes SVG: strokes and words in px, y down, from (0, 0) to its width and height."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.geometry.vector import Point
from garmentc.record import Record

LETTER = 12.0
"""Height of the letters (px)."""

_LETTER_WIDTH = 0.55  # mean width of a letter, as a share of its height


class Look(Record):
    """How a line is drawn (px): its width, its dashes, and whether it ends ``blunt`` instead of round."""

    width: float
    dashes: tuple[float, ...] = ()
    blunt: bool = False


LOOKS = {
    "cloth": Look(1.8),
    "hatch": Look(0.5),
    "edge": Look(3.4, (), True),
    "row": Look(1.8, (6.0, 3.0), True),
    "sewn": Look(1.0, (3.0, 3.0), True),
    "hidden": Look(0.8, (4.0, 3.0), True),
    "fold": Look(1.0, (12.0, 3.0, 2.0, 3.0), True),
    "was": Look(1.0, (12.0, 3.0, 2.0, 3.0, 2.0, 3.0), True),
    "thin": Look(0.7),
    "thread": Look(0.9),
    "needle": Look(1.3),
    "pin": Look(0.9),
    "head": Look(0.5),
}
"""The kinds of lines, after ISO 128."""


class Stroke(Record):
    """Lines of one kind; ``closed`` ones are filled with white, so that they hide what lies below.

    Kinds: cloth (its outline or a layer cut across), hatch (its wrong side), edge (the edge in hand), row and sewn
    (stitching of this step and of those before), needle and thread (stitches cut across), fold, was (where an edge
    lay before it was folded), hidden (below another layer), thin (what is measured), pin, head (of an arrow or a pin).
    """

    kind: str
    runs: tuple[tuple[Point, ...], ...]
    closed: bool = False


class Word(Record):
    """A word; ``anchor`` says which part of it lies at the place: start, middle or end of its base line."""

    text: str
    at: Point
    anchor: str = "middle"


class Picture(Record):
    """A picture with its caption and the text that stands for it where it can't be seen."""

    caption: str
    alt: str
    width: float
    height: float
    strokes: tuple[Stroke, ...]
    words: tuple[Word, ...]


def framed(
    caption: str, alt: str, strokes: Iterable[Stroke], words: Iterable[Word], margin: float = 4.0, least: float = 0.0
) -> Picture:
    """A picture as large as what is drawn, with a margin (px), and at least so wide."""
    strokes, words = tuple(strokes), tuple(words)
    points = [p for stroke in strokes for run in stroke.runs for p in run]
    points += [corner for word in words for corner in word_box(word)]
    left, top = min(p.real for p in points) - margin, min(p.imag for p in points) - margin
    width = max(p.real for p in points) + margin - left
    left -= max(0.0, least - width) / 2
    shift = complex(-left, -top)
    return Picture(
        caption,
        alt,
        max(width, least),
        max(p.imag for p in points) + margin - top,
        tuple(one._replace(runs=tuple(tuple(p + shift for p in run) for run in one.runs)) for one in strokes),
        tuple(one._replace(at=one.at + shift) for one in words),
    )


def word_width(text: str) -> float:
    """About how wide a word is (px)."""
    return len(text) * _LETTER_WIDTH * LETTER


def word_box(word: Word) -> tuple[Point, Point]:
    """About where a word stands: its upper left and lower right corner (px)."""
    wide = word_width(word.text)
    left = word.at.real - {"start": 0.0, "middle": wide / 2, "end": wide}[word.anchor]
    return complex(left, word.at.imag - 0.8 * LETTER), complex(left + wide, word.at.imag + 0.25 * LETTER)
