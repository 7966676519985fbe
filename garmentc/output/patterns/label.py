"""Sets the label of a piece along the grain, at the largest size that fits, with the grain arrow beside it."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from functools import lru_cache

from garmentc.geometry.vector import Point
from garmentc.output.patterns.arrows import upright
from garmentc.output.patterns.letters import line_step, text_width, wrapped
from garmentc.output.patterns.room import Room, Rooms
from garmentc.output.patterns.words import Paragraph, Wording
from garmentc.record import Record

TEXT = 4.5
"""Height of the capitals of ordinary lines (mm) when there is room."""

_SCALES = (1.0, 0.85, 0.72, 0.58)  # the last gives the smallest height that is still read: 2.6 mm
_WIDTHS = (34.0, 29.0, 24.0, 20.0, 17.0, 60.0, 90.0, 130.0)  # of the block, in heights of its text
_ARROW = 3.0  # mm on each side of the grain arrow
_SHORT, _LONG = 36.0, 150.0  # mm, of the grain arrow
_TINY = (24.0, 14.0)  # mm, of a grain arrow that stands alone


class Setting(Record):
    """Lines of text with their heights; ``wide`` and ``tall`` is the block. All in heights of ordinary lines."""

    lines: tuple[tuple[str, float], ...]
    wide: float
    tall: float


class Placed(Record):
    """Lines with their starts and heights, all reading along one direction, and the ends of the grain arrow."""

    along: complex
    lines: tuple[tuple[str, Point, float], ...]
    arrow: tuple[Point, Point] | None
    rest: tuple[Paragraph, ...]


def reading_directions(thread: complex) -> list[complex]:
    """How the label may read, best first: along the threads or across them, then level or upright."""
    grain = sorted((upright(thread), upright(thread * 1j)), key=lambda way: (-round(way.real, 6), -way.imag))
    return grain + [way for way in (1 + 0j, 1j) if all(abs(way - other) > 1e-6 for other in grain)]


def slanting(directions: Sequence[complex]) -> list[complex]:
    """Directions and the diagonals, for what has to go somewhere in a curved or narrow piece."""
    diagonals = (cmath.rect(1.0, math.pi / 4), cmath.rect(1.0, -math.pi / 4))
    return [*directions, *(way for way in diagonals if all(abs(way - other) > 1e-6 for other in directions))]


def place_label(wordings: Sequence[Wording], rooms: Rooms, thread: complex | None) -> Placed | None:
    """The wordings at the largest size at which one fits, the first of them that does, in the first such room.

    Without a thread there is no arrow.
    """
    for scale in _SCALES:
        for wording in wordings:
            for room in rooms:
                for width in _WIDTHS:
                    placed = _place(_setting(wording.block, width), TEXT * scale, room, thread, _SHORT)
                    if placed is not None:
                        return placed._replace(rest=wording.rest)
    return None


def place_arrow(rooms: Rooms, thread: complex) -> Placed | None:
    """The grain arrow alone, in a piece too small for words."""
    tries = (_place(Setting((), 0.0, 0.0), TEXT, room, thread, long) for long in _TINY for room in rooms)
    return next((placed for placed in tries if placed is not None), None)


@lru_cache(maxsize=512)
def _setting(paragraphs: tuple[Paragraph, ...], width: float) -> Setting:
    """The paragraphs broken into lines for a width of the block."""
    lines = tuple([(line, share) for text, share in paragraphs for line in wrapped(text, share, width)])
    wide = max([text_width(text, share) for text, share in lines])
    return Setting(lines, wide, sum([line_step(share) for _, share in lines]))


def _place(setting: Setting, height: float, room: Room, thread: complex | None, shortest: float) -> Placed | None:
    """Lines and arrow as one block: the arrow below lines that are level with it, else on their left."""
    wide, tall = setting.wide * height, setting.tall * height
    if thread is None:
        corner = room.place(wide, tall)
        return None if corner is None else _placed(setting, height, room, corner, None)
    way = upright(thread * room.along.conjugate())
    if abs(way.imag) < 0.1:
        block = max(wide, shortest)
        corner = room.place(block, tall + 2 * _ARROW)
        if corner is not None:
            x, y = corner.real + block / 2, corner.imag + _ARROW
            low, high = _limited(room.stretch(y - _ARROW, y + _ARROW, x), x)
            return _placed(setting, height, room, corner + 2j * _ARROW, (complex(low, y), complex(high, y)))
    arrow = shortest * way
    side = abs(arrow.real) + 2 * _ARROW
    block = max(tall, abs(arrow.imag))
    corner = room.place(wide + side + _ARROW, block)
    if corner is None:
        return None
    middle = corner + complex(side, block) / 2
    ends = middle - arrow / 2, middle + arrow / 2
    x, y = middle.real, middle.imag
    if abs(way.imag) < 0.1:
        low, _ = _limited(room.stretch(y - _ARROW, y + _ARROW, x), ends[1].real - _LONG / 2)
        ends = complex(low, y), ends[1]
    elif abs(way.real) < 0.1:
        low, high = _limited(room.rise(x - _ARROW, x + _ARROW, y), y)
        ends = complex(x, low), complex(x, high)
    return _placed(setting, height, room, corner + complex(side, (block - tall) / 2), ends)


def _placed(setting: Setting, height: float, room: Room, start: Point, arrow: tuple[Point, Point] | None) -> Placed:
    at, found = start + complex(0, setting.tall * height), []
    for text, share in setting.lines:
        at -= complex(0, line_step(share * height))
        found.append((text, room.out(at + complex(0, 0.4 * share * height)), share * height))
    ends = None if arrow is None else (room.out(arrow[0]), room.out(arrow[1]))
    return Placed(room.along, tuple(found), ends, ())


def _limited(span: tuple[float, float], middle: float) -> tuple[float, float]:
    low, high = span
    return max(low, middle - _LONG / 2), min(high, middle + _LONG / 2)
