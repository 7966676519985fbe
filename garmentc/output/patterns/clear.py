"""Whether a line of text lies inside a piece and clear of everything drawn there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from garmentc.geometry.vector import Point
from garmentc.output.patterns.scene import Wall, Words

# The box a wall takes (left, right, low, high) and the wall.
_Boxed = tuple[float, float, float, float, Wall]


class Ground:
    """The inside of a closed ring of points, and the walls in it so far."""

    def __init__(self, ring: Sequence[Point], around: float) -> None:
        self.ring = tuple(ring)
        self.walls: list[Wall] = [(a, b, around) for a, b in pairwise([*ring, ring[0]])]
        self._boxed: list[_Boxed] = []

    def first_free(self, choices: Iterable[Words]) -> Words | None:
        """The first of several places for words that is free."""
        return next((words for words in choices if self.is_free(words)), None)

    def is_free(self, words: Words) -> bool:
        """Whether words lie inside and touch no wall."""
        corner, right, across, _ = words.corners
        if self.meets(corner, words.along, abs(right - corner), abs(across - right)):
            return False
        return self.holds((corner + across) / 2)

    def meets(self, corner: Point, along: complex, length: float, height: float) -> bool:
        """Whether a wall comes into a box, given by its lower left corner and the direction of its length."""
        run, rise = length * along, height * along * 1j
        left, right = corner.real + min(run.real, 0.0), corner.real + max(run.real, 0.0)
        low, high = corner.imag + min(run.imag, 0.0), corner.imag + max(run.imag, 0.0)
        left, right = left + min(rise.real, 0.0), right + max(rise.real, 0.0)
        low, high = low + min(rise.imag, 0.0), high + max(rise.imag, 0.0)
        for west, east, south, north, wall in self._boxes():
            if east < left or west > right or north < low or south > high:
                continue
            if _comes_in(wall, corner, along, length, height):
                return True
        return False

    def holds(self, p: Point) -> bool:
        """Whether a point lies inside the ring."""
        inside = False
        x, y = p.real, p.imag
        last = self.ring[-1]
        for point in self.ring:
            if (last.imag > y) != (point.imag > y):
                at = last.real + (y - last.imag) * (point.real - last.real) / (point.imag - last.imag)
                inside ^= at > x
            last = point
        return inside

    def _boxes(self) -> list[_Boxed]:
        """All walls with their boxes; those made before are kept."""
        for wall in self.walls[len(self._boxed) :]:
            a, b, around = wall
            west, east = (a.real, b.real) if a.real < b.real else (b.real, a.real)
            south, north = (a.imag, b.imag) if a.imag < b.imag else (b.imag, a.imag)
            self._boxed.append((west - around, east + around, south - around, north + around, wall))
        return self._boxed


def _comes_in(wall: Wall, corner: Point, along: complex, length: float, height: float) -> bool:
    """Whether a wall comes into a box that may be turned: no side of the box and no side of the wall parts the two."""
    start, end, around = wall
    a, b = (start - corner) * along.conjugate(), (end - corner) * along.conjugate()
    x0, x1, y0, y1 = -around, length + around, -around, height + around
    if max(a.real, b.real) < x0 or min(a.real, b.real) > x1 or max(a.imag, b.imag) < y0 or min(a.imag, b.imag) > y1:
        return False
    dx, dy = b.real - a.real, b.imag - a.imag
    sides = (
        dx * (y0 - a.imag) - dy * (x0 - a.real),
        dx * (y0 - a.imag) - dy * (x1 - a.real),
        dx * (y1 - a.imag) - dy * (x0 - a.real),
        dx * (y1 - a.imag) - dy * (x1 - a.real),
    )
    return min(sides) <= 0.0 <= max(sides)
