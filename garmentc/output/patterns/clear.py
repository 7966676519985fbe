"""Whether a line of text lies inside a piece and clear of everything drawn there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from garmentc.geometry.vector import Point
from garmentc.output.patterns.scene import Wall, Words

# A wall turned so that text is level: the box it takes (left, right, low, high), its start, its run, its width.
_Level = tuple[float, float, float, float, float, float, float, float, float]


class Ground:
    """The inside of a closed ring of points, and the walls in it so far."""

    def __init__(self, ring: Sequence[Point], around: float) -> None:
        self.ring = tuple(ring)
        self.walls: list[Wall] = [(a, b, around) for a, b in pairwise([*ring, ring[0]])]
        self._turned: dict[complex, list[_Level]] = {}

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
        low = corner * along.conjugate()
        left, bottom = low.real, low.imag
        right, top = left + length, bottom + height
        for west, east, south, north, ax, ay, dx, dy, around in self._level_walls(along):
            if east < left or west > right or north < bottom or south > top:
                continue
            # No side of the box parts the two: they meet unless all its corners lie on one side of the wall.
            x0, x1, y0, y1 = left - around, right + around, bottom - around, top + around
            sides = (
                dx * (y0 - ay) - dy * (x0 - ax),
                dx * (y0 - ay) - dy * (x1 - ax),
                dx * (y1 - ay) - dy * (x0 - ax),
                dx * (y1 - ay) - dy * (x1 - ax),
            )
            if min(sides) <= 0.0 <= max(sides):
                return True
        return False

    def holds(self, p: Point) -> bool:
        """Whether a point lies inside the ring."""
        inside = False
        for a, b in pairwise([*self.ring, self.ring[0]]):
            if (a.imag > p.imag) != (b.imag > p.imag):
                at = a.real + (p.imag - a.imag) * (b.real - a.real) / (b.imag - a.imag)
                inside ^= at > p.real
        return inside

    def _level_walls(self, along: complex) -> list[_Level]:
        """All walls turned for a direction of reading; those turned before are kept."""
        turned = self._turned.setdefault(along, [])
        if len(turned) < len(self.walls):
            level = along.conjugate()
            for start, end, around in self.walls[len(turned) :]:
                a, b = start * level, end * level
                (west, east), (south, north) = sorted((a.real, b.real)), sorted((a.imag, b.imag))
                box = west - around, east + around, south - around, north + around
                turned.append((*box, a.real, a.imag, b.real - a.real, b.imag - a.imag, around))
        return turned
