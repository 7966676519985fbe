"""Where things lie on a page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import accumulate, islice

from garmentc.geometry.segments import Box
from garmentc.geometry.vector import Point
from garmentc.output.patterns.clear import Ground
from garmentc.output.patterns.scene import Wall
from garmentc.record import Record

GAP = 12.0
"""Between things on a page (mm)."""

_TRIES = 60  # widths of rows that are tried
_WIDE = 1.4  # how much wider than high a page with all pieces may well be


class Laid(Record):
    """Lower left corners (y up), and the width and height of the whole."""

    corners: tuple[Point, ...]
    width: float
    height: float


def beside(box: Box, ring: Sequence[Point], walls: Iterable[Wall], side: float) -> Laid:
    """A place for a square in a free corner of the box round a ring and walls, or beside it; the ring stays put."""
    x0, y0, x1, y1 = box
    ground = Ground(ring, GAP / 2)
    ground.walls += walls
    for corner in (complex(x1 - side, y0), complex(x0, y0), complex(x1 - side, y1 - side), complex(x0, y1 - side)):
        middle = corner + complex(side, side) / 2
        fits = x1 - x0 >= side and y1 - y0 >= side
        if fits and not ground.meets(corner, 1 + 0j, side, side) and not ground.holds(middle):
            return Laid((corner,), x1 - x0, y1 - y0)
    right = (x1 - x0 + GAP + side, max(y1 - y0, side))
    below = (max(x1 - x0, side), y1 - y0 + GAP + side)
    if right[0] * right[1] < below[0] * below[1]:
        return Laid((complex(x1 + GAP, y1 - side),), *right)
    return Laid((complex(x0, y0 - GAP - side),), *below)


def in_rows(sizes: Sequence[tuple[float, float]]) -> Laid:
    """Boxes in rows from the top, on the smallest page found; y up from the top left corner."""
    step = -(-len(sizes) // _TRIES)
    ends = accumulate(width + GAP for width, _ in sizes)
    widths = [end - GAP for end in islice(ends, 0, None, step)]
    widest = max(width for width, _ in sizes)
    tries = [_rows(sizes, max(width, widest)) for width in widths]
    return min(tries, key=lambda laid: max(laid.width, laid.height * _WIDE))


def _rows(sizes: Sequence[tuple[float, float]], widest: float) -> Laid:
    """Boxes in rows, highest first; a box that fits below the one before it in the row goes there."""
    corners = [0j] * len(sizes)
    top = bottom = across = 0.0  # of the row, and how wide the rows are so far
    left = right = level = 0.0  # of the column in the row, and how far down it is filled
    for i in sorted(range(len(sizes)), key=lambda i: -sizes[i][1]):
        width, height = sizes[i]
        if i_fits_below := (level < top and level - GAP - height >= bottom and left + width <= right):
            level -= GAP
        elif right > 0.0 and right + GAP + width <= widest:
            left, level = right + GAP, top
        elif right > 0.0:
            top = bottom - GAP
            left, level = 0.0, top
        if not i_fits_below:
            right = left + width
        if level == top:
            bottom = min(bottom, top - height) if left > 0.0 else top - height
        level -= height
        corners[i] = complex(left, level)
        across = max(across, right)
    return Laid(tuple(corners), across, -bottom)
