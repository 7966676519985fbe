"""Marks that pictures share: arrows, pins, and a width between two places."""

from __future__ import annotations

from garmentc.geometry.vector import Point
from garmentc.output.pictures.model import LETTER, Stroke, Word

_HEAD = 6.0  # px; length of an arrow head
_SLIM = 0.35  # half its width, as a share of its length
_BAR = 4.0  # px; half the bar at each end of a width


def arrow_head(tip: Point, way: Point, size: float = _HEAD) -> Stroke:
    """A head that ends at ``tip``, pointing along the unit vector ``way``."""
    side = way * 1j * size * _SLIM
    return Stroke("head", ((tip, tip - way * size + side, tip - way * size - side),), closed=True)


def arrow(run: tuple[Point, ...], kind: str = "thin") -> list[Stroke]:
    """A line with a head at its end."""
    step = run[-1] - run[-2]
    return [Stroke(kind, (run,)), arrow_head(run[-1], step / abs(step))]


def between(start: Point, end: Point, text: str, *, below: bool = False) -> tuple[list[Stroke], Word]:
    """A level width between two places, with bars at its ends, and its text above or below."""
    way = 1.0 if end.real >= start.real else -1.0
    bars = tuple((p - _BAR * 1j, p + _BAR * 1j) for p in (start, end))
    strokes = [Stroke("thin", ((start, end), *bars))]
    if abs(end - start) > 3 * _HEAD:
        strokes += [arrow_head(end, way + 0j), arrow_head(start, -way + 0j)]
    return strokes, Word(text, (start + end) / 2 + complex(0, 1.2 * LETTER if below else -0.4 * LETTER))
