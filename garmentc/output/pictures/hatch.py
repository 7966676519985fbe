"""Hatching inside a closed line: what tells the wrong side of the cloth from its right side."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from garmentc.geometry.vector import Point, heading
from garmentc.output.pictures.model import Stroke

_APART = 6.0  # px
_SLANT = heading(0.7853981633974483)


def hatch(ring: Sequence[Point]) -> Stroke:
    """Slanting lines that fill a closed line (px)."""
    turned = [p / _SLANT for p in ring]
    level = min(p.imag for p in turned) + _APART / 2
    highest = max(p.imag for p in turned)
    runs: list[tuple[Point, ...]] = []
    while level < highest:
        cuts = sorted(_cuts(turned, level))
        ends = [complex(cut, level) * _SLANT for cut in cuts]
        runs += zip(ends[::2], ends[1::2], strict=False)
        level += _APART
    return Stroke("hatch", tuple(runs))


def _cuts(ring: Sequence[Point], level: float) -> list[float]:
    return [
        a.real + (level - a.imag) / (b.imag - a.imag) * (b.real - a.real)
        for a, b in pairwise([*ring, ring[0]])
        if (a.imag > level) != (b.imag > level)
    ]
