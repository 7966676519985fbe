"""Strip tasks with a known answer: a strip cut up into pieces without waste, and the pieces shuffled."""

from __future__ import annotations

import math
from random import Random

from shapely import Polygon

from garmentc.packing.model import Shape, StripTask

_LEAST = 5000.0  # mm²

HALF = (0.0, math.pi)


def cut_up(seed: int, width: float = 1000.0, length: float = 800.0, cuts: int = 5) -> StripTask:
    """A strip cut ``cuts`` times, each time the largest piece, along a line with a step in it.

    The plan that the pieces came from has the given length and no waste, so there is none shorter.
    """
    random = Random(seed)
    pieces = [[0j, complex(length, 0), complex(length, width), complex(0, width)]]
    for _ in range(cuts):
        pieces.sort(key=_area)
        largest = pieces.pop()
        tries = (_halves(largest, random) for _ in range(1000))
        pieces += next(halves for halves in tries if all(_is_simple(half) for half in halves))
    shapes = []
    for index, ring in enumerate(pieces):
        turn = random.choice((1, -1))
        shapes.append(Shape(f"piece {index}", tuple((p - ring[0]) * turn for p in ring), HALF, 1))
    random.shuffle(shapes)
    return StripTask(width, tuple(shapes))


def _area(ring: list[complex]) -> float:
    return sum((a.conjugate() * b).imag for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)) / 2


def _halves(ring: list[complex], random: Random) -> list[list[complex]]:
    """Two parts of a ring, cut between two of its sides along a line with a step in it, or straight."""
    count = len(ring)
    first, second = sorted(random.sample(range(count), 2))
    a, b = (ring[i] + (ring[(i + 1) % count] - ring[i]) * random.uniform(0.35, 0.65) for i in (first, second))
    along = b - a
    off = along * 1j * random.uniform(-0.08, 0.08)
    step = [a + along * 0.4, a + along * 0.4 + off, a + along * 0.6 + off, a + along * 0.6]
    one = [a, *ring[first + 1 : second + 1], b]
    other = [b, *ring[second + 1 :], *ring[: first + 1], a]
    return [one, other] if random.random() < 0.3 else [[*one, *reversed(step)], [*other, *step]]


def _is_simple(ring: list[complex]) -> bool:
    shape = Polygon([(p.real, p.imag) for p in ring])
    return bool(shape.is_valid and shape.exterior.is_ccw and shape.area > _LEAST)
