"""Where a block of text fits: scan lines across a piece in the direction of reading."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from garmentc.geometry.vector import Point
from garmentc.output.patterns.scene import Wall
from garmentc.record import Record

Span = tuple[float, float]

_FINEST, _MOST = 1.5, 44  # mm between scan lines, and about how many there may be


_ROUNDING = 1e-6  # what arithmetic may add: of a step to a height on a scan line, in mm to the end of a stretch


class Room(Record):
    """The free stretches of scan lines that lie ``step`` apart from ``base`` up, turned so that text is level.

    ``widest`` is the longest stretch of each line, ``longest`` that of all; ``middle`` is the centre of what is free.
    """

    along: complex
    base: float
    step: float
    rows: tuple[tuple[Span, ...], ...]
    widest: tuple[float, ...]
    longest: float
    middle: Point

    def out(self, p: Point) -> Point:
        """A point of the room in the coordinates of the draft."""
        return p * self.along

    def place(self, width: float, height: float) -> Point | None:
        """The lower left corner, in the room, of a free block: the one nearest to the middle."""
        tall = math.ceil(height / self.step)
        if width > self.longest or tall >= len(self.rows):
            return None
        middle_row = (self.middle.imag - height / 2 - self.base) / self.step
        best: Point | None = None
        least = math.inf
        for i in sorted(self._starts(width, tall), key=lambda i: abs(i - middle_row)):
            up = abs(i - middle_row) * self.step
            if up >= least:
                break
            for low, high in self._common(i, i + tall, width):
                x = min(max(self.middle.real - width / 2, low), high - width)
                far = math.hypot(up, x + width / 2 - self.middle.real)
                if far < least:
                    least, best = far, complex(x, self.base + i * self.step)
        return best

    def _starts(self, width: float, tall: int) -> list[int]:
        """The lines from which on so many more are each wide enough."""
        starts, run = [], 0
        for i, widest in enumerate(self.widest):
            run = run + 1 if widest >= width else 0
            if run > tall:
                starts.append(i - tall)
        return starts

    def stretch(self, low: float, high: float, x: float) -> Span:
        """How far left and right a bar between two heights can reach from x."""
        first = max(math.floor((low - self.base) / self.step + _ROUNDING), 0)
        last = min(math.ceil((high - self.base) / self.step - _ROUNDING), len(self.rows) - 1)
        return next((span for span in self._common(first, last, 0.0) if span[0] <= x <= span[1]), (x, x))

    def rise(self, left: float, right: float, y: float) -> Span:
        """How far down and up a bar between two sides can reach from y."""
        first = last = round((y - self.base) / self.step)
        while first > 0 and self._is_free(first - 1, left, right):
            first -= 1
        while last < len(self.rows) - 1 and self._is_free(last + 1, left, right):
            last += 1
        return self.base + first * self.step, self.base + last * self.step

    def _is_free(self, row: int, left: float, right: float) -> bool:
        return any(low - _ROUNDING <= left and right <= high + _ROUNDING for low, high in self.rows[row])

    def _common(self, first: int, last: int, width: float) -> Sequence[Span]:
        """What is free on every line from the first to the last, no narrower than a width."""
        common: Sequence[Span] = [span for span in self.rows[first] if span[1] - span[0] >= width]
        for row in self.rows[first + 1 : last + 1]:
            if not common:
                break
            common = [
                (low, high) for a, b in common for c, d in row if (high := min(b, d)) - (low := max(a, c)) >= width
            ]
        return common


class Rooms:
    """The rooms in a closed ring of points, clear of the walls, one for each direction; each is built when reached."""

    def __init__(self, ring: Sequence[Point], walls: Sequence[Wall], directions: Sequence[complex]) -> None:
        self._built: list[Room] = []
        self._unbuilt = (room_in(ring, walls, along) for along in directions)

    def __iter__(self) -> Iterator[Room]:
        yield from self._built
        for room in self._unbuilt:
            self._built.append(room)
            yield room


def room_in(ring: Sequence[Point], walls: Sequence[Wall], along: complex) -> Room:
    """The room in a closed ring of points, clear of the walls, for text that reads along a direction."""
    level = along.conjugate()
    points = [p * level for p in ring]
    ys = [p.imag for p in points]
    step = max(_FINEST, (max(ys) - min(ys)) / _MOST)
    base, top = min(ys) + step / 2, max(ys)
    count = max(int((top - base) / step) + 1, 1)
    crossings: list[list[float]] = [[] for _ in range(count)]
    for a, b in pairwise([*points, points[0]]):
        if a.imag > b.imag:
            a, b = b, a
        first = math.ceil((a.imag - base) / step)
        slope = (b.real - a.real) / (b.imag - a.imag) if b.imag > a.imag else 0.0
        for i in range(max(first, 0), min(math.ceil((b.imag - base) / step), count)):
            crossings[i].append(a.real + (base + i * step - a.imag) * slope)
    blocked: list[list[Span]] = [[] for _ in range(count)]
    for start, end, around in walls:
        _block(blocked, start * level - base * 1j, end * level - base * 1j, around, step)
    rows = tuple(_free(sorted(xs), sorted(taken)) for xs, taken in zip(crossings, blocked, strict=True))
    widest = tuple([max([high - low for low, high in row], default=0.0) for row in rows])
    return Room(along, base, step, rows, widest, max(widest), _middle(rows, base, step))


def _block(blocked: list[list[Span]], a: Point, b: Point, around: float, step: float) -> None:
    """Note on each scan line, the first of them at height 0, what a wall takes of the band halfway to the next ones."""
    if a.imag > b.imag:
        a, b = b, a
    ax, ay, bx, rise = a.real, a.imag, b.real, b.imag - a.imag
    reach = around + step / 2
    first = max(math.ceil((ay - reach) / step), 0)
    last = min(math.floor((ay + rise + reach) / step) + 1, len(blocked))
    if rise < reach or ax == bx:
        span = (ax - around, bx + around) if ax < bx else (bx - around, ax + around)
        for i in range(first, last):
            blocked[i].append(span)
        return
    slope = (bx - ax) / rise
    for i in range(first, last):
        # Only the part of the wall that comes near the line counts.
        up = i * step - ay
        x0 = ax + (up - reach) * slope if up > reach else ax
        x1 = ax + (up + reach) * slope if up + reach < rise else bx
        blocked[i].append((x0 - around, x1 + around) if slope > 0 else (x1 - around, x0 + around))


def _free(crossings: Sequence[float], taken: Sequence[Span]) -> tuple[Span, ...]:
    free: list[Span] = []
    for low, high in zip(crossings[::2], crossings[1::2], strict=False):
        for start, end in taken:
            if end <= low:
                continue
            if start >= high:
                break
            if start > low:
                free.append((low, start))
            low = end
        if low < high:
            free.append((low, high))
    return tuple(free)


def _middle(rows: Sequence[Sequence[Span]], base: float, step: float) -> Point:
    """The centre of all that is free."""
    area = x = y = 0.0
    for i, row in enumerate(rows):
        for low, high in row:
            area += high - low
            x += (high - low) * (low + high) / 2
            y += (high - low) * (base + i * step)
    return complex(x / area, y / area) if area else 0j
