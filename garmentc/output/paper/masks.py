"""Pieces as cells of a grid, in which free places are found for all positions at once.

A grid is one long integer, row after row, a bit for each cell. Moving a piece over a grid is shifting bits.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from garmentc.geometry.vector import Point
from garmentc.record import Record

Rows = tuple[int, ...]
"""The cells of a piece: an integer for each row, upward, a bit for each cell, the lowest on the left."""


class Mask(Record):
    """A piece as cells; ``corner`` is where the lower left corner of its first cell lies."""

    rows: Rows
    wide: int
    corner: Point

    @property
    def tall(self) -> int:
        return len(self.rows)

    def turned(self) -> Mask:
        """Turned by half a turn."""
        rows = [int(f"{row:0{self.wide}b}"[::-1], 2) for row in reversed(self.rows)]
        return Mask(tuple(rows), self.wide, self.corner)

    def grown(self) -> Mask:
        """With one more cell all around."""
        padded = (0, *(row << 1 for row in self.rows), 0)
        flat = [row | row << 1 | row >> 1 for row in padded]
        rows = [a | b | c for a, b, c in zip((0, *flat[:-1]), flat, (*flat[1:], 0), strict=True)]
        return Mask(tuple(rows), self.wide + 2, self.corner)


def mask_of(rings: Iterable[Sequence[Point]], cell: tuple[float, float]) -> Mask:
    """All cells that closed rings of points touch or hold, cells being so wide and high (mm)."""
    rings = [tuple(ring) for ring in rings]
    wide, high = cell
    corner = complex(min(p.real for ring in rings for p in ring), min(p.imag for ring in rings for p in ring))
    tall = 1 + max(int((p.imag - corner.imag) / high) for ring in rings for p in ring)
    across = 1 + max(int((p.real - corner.real) / wide) for ring in rings for p in ring)
    rows = [0] * tall
    for ring in rings:
        points = [complex((p.real - corner.real) / wide, (p.imag - corner.imag) / high) for p in ring]
        _add_ring(rows, points)
    return Mask(tuple(rows), across, corner)


def _add_ring(rows: list[int], points: Sequence[Point]) -> None:
    """Mark the cells that a ring (in cells) touches or holds."""
    crossings: list[list[float]] = [[] for _ in rows]
    for a, b in pairwise((*points, points[0])):
        if a.imag > b.imag:
            a, b = b, a
        rise = b.imag - a.imag
        for row in range(int(a.imag), min(int(b.imag), len(rows) - 1) + 1):
            low = a.real if row <= a.imag else a.real + (row - a.imag) / rise * (b.real - a.real)
            high = b.real if row + 1 >= b.imag else a.real + (row + 1 - a.imag) / rise * (b.real - a.real)
            rows[row] |= _bits(int(min(low, high)), int(max(low, high)))
            if a.imag <= row + 0.5 < b.imag:
                crossings[row].append(a.real + (row + 0.5 - a.imag) / rise * (b.real - a.real))
    for row, found in enumerate(crossings):
        found.sort()
        for low, high in zip(found[::2], found[1::2], strict=False):
            rows[row] |= _bits(int(low), int(high))


def _bits(first: int, last: int) -> int:
    return (1 << (last + 1)) - (1 << first)


def _runs(rows: Rows) -> Iterable[tuple[int, int, int]]:
    """Neighbouring cells: row, first cell, how many."""
    for number, row in enumerate(rows):
        start = 0
        while row:
            skip = (row & -row).bit_length() - 1
            row >>= skip
            start += skip
            long = (~row & (row + 1)).bit_length() - 1
            yield number, start, long
            row >>= long
            start += long


class Board:
    """A grid of a number of columns and rows on which pieces are laid."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = columns, rows

    def block(self, left: int, low: int, wide: int, tall: int) -> int:
        """The cells of a rectangle; what of it lies outside is left out."""
        right, top = min(left + wide, self.columns), min(low + tall, self.rows)
        left, low = max(left, 0), max(low, 0)
        if right <= left or top <= low:
            return 0
        every_row = ((1 << (self.columns * (top - low))) - 1) // ((1 << self.columns) - 1)
        return _bits(left, right - 1) * every_row << (low * self.columns)

    def laid(self, mask: Mask, at: int) -> int:
        """The cells of a piece laid at a place (the number of the cell of its lower left corner)."""
        return sum(row << (at + number * self.columns) for number, row in enumerate(mask.rows))

    def around(self, mask: Mask, at: int) -> int:
        """The cells of a piece laid at a place, and those beside them."""
        line, all_of_it = (1 << self.columns) - 1, 0
        column, row = at % self.columns, at // self.columns
        for number, bits in enumerate(mask.grown().rows):
            here = row + number - 1
            if 0 <= here < self.rows:
                shifted = bits << (column - 1) if column else bits >> 1
                all_of_it |= (shifted & line) << (here * self.columns)
        return all_of_it

    def places(self, mask: Mask) -> int:
        """The places at which a piece is inside the grid."""
        return self.block(0, 0, self.columns - mask.wide + 1, self.rows - mask.tall + 1)

    def touching(self, mask: Mask, taken: int) -> int:
        """The places at which a piece touches cells, right as far as the piece is inside the grid."""
        doubled = [taken]
        touched = 0
        for row, start, long in _runs(mask.rows):
            power = long.bit_length() - 1
            while len(doubled) <= power:
                last = doubled[-1]
                doubled.append(last | last >> (1 << (len(doubled) - 1)))
            shift = row * self.columns + start
            bits = doubled[power]
            touched |= bits >> shift
            rest = long - (1 << power)
            if rest:
                touched |= bits >> (shift + rest)
        return touched


def fewest(counted: Sequence[int], among: int) -> int:
    """Of some places those that lie in the fewest of the sets of places counted."""
    digits: list[int] = []
    for one in counted:
        carry = one
        for i, digit in enumerate(digits):
            digits[i], carry = digit ^ carry, digit & carry
            if not carry:
                break
        if carry:
            digits.append(carry)
    for digit in reversed(digits):
        among = among & ~digit or among
    return among


def lowest(places: int) -> int:
    """The first of some places."""
    return (places & -places).bit_length() - 1


def from_on(places: int, start: int) -> int:
    """The first of some places that is not before a start, or else the first of all."""
    later = places >> start
    return start + lowest(later) if later else lowest(places)


def cells(long: float, about: float) -> int:
    """Into how many cells of about a size a length is divided."""
    return max(1, math.ceil(long / about))
