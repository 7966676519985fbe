"""The lines of what is taken up in a piece: what is sewn or brought together, and where the cloth folds."""

from __future__ import annotations

from garmentc.draft.model import TakeUp
from garmentc.geometry.arcs import arc_with_bulge
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import Point
from garmentc.record import Record

_FLAT = 1e-3  # mm; legs that bow less are straight


class TakeUpLines(Record):
    """``legs`` are two lines that come to lie on each other, from the edge inward; ``folds`` where the cloth folds."""

    legs: tuple[Path, Path]
    folds: tuple[Path, ...]


def takeup_lines(one: TakeUp) -> TakeUpLines:
    """The lines of a dart, tuck or pleat."""
    first, second, tip = one.first, one.second, one.tip
    middle = (first + second) / 2
    if one.kind == "dart":
        legs = _leg(first, tip, one.bow), _leg(second, tip, -one.bow)
        return TakeUpLines(legs, (straight(middle, tip),))
    inward = tip - middle
    shares = (0.25, 0.75) if one.kind in ("box", "inverted") else (0.5,)
    folds = tuple(straight(at, at + inward) for at in (first + share * (second - first) for share in shares))
    return TakeUpLines((straight(first, first + inward), straight(second, second + inward)), folds)


def _leg(start: Point, tip: Point, bow: float) -> Path:
    return straight(start, tip) if abs(bow) < _FLAT else Path((arc_with_bulge(start, tip, bow),))
