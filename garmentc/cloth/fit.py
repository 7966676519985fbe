"""Which cloth gives which size, and how large a cloth a size needs."""

from __future__ import annotations

import math
from collections.abc import Callable

from garmentc.assembly.model import Assembly
from garmentc.cloth.finder import Limits
from garmentc.cloth.lay import Laying, lay
from garmentc.cloth.model import Ground
from garmentc.cloth.shapes import least_area, shapes
from garmentc.data.plans import SavedPlan
from garmentc.record import Record

FITS, JOINED, NOT, UNKNOWN = "fits", "fits with joins", "does not fit", "not found"

_STEP = 10.0  # mm: sizes of cloth are told in whole ones of these
_FURTHER = 1.12  # a cloth on which nothing was found is tried so many times as large
_MOST = 12  # such tries: a square four times as wide


class Fit(Record):
    """Whether a size can be cut from a cloth: ``verdict`` is one of the words above.

    ``words`` say what is short and by how much, where it is proved that it can't. ``used`` is the share of the cloth
    that is covered, ``joins`` how many joins its strips get. ``kept`` says that it is a plan that was kept.
    """

    size: str
    part: str
    cloth: str
    verdict: str
    words: tuple[str, ...] = ()
    used: float = 0.0
    joins: int = 0
    kept: bool = False


def fit(assembly: Assembly, part: str, ground: Ground, saved: SavedPlan | None, limits: Limits) -> Fit:
    """Whether what is cut from one cloth (``part``) of a garment fits on a cloth."""
    laying = lay(assembly, part, ground, saved, limits)
    size = assembly.draft.body.name
    if laying.plan is not None:
        parts = [shape for shape in laying.plan.shapes if shape.part is not None]
        joins = len(parts) - len({(shape.piece, shape.number) for shape in parts})
        verdict = JOINED if joins else FITS
        return Fit(size, part, ground.key, verdict, (), laying.plan.used, joins, laying.held)
    if laying.reasons:
        return Fit(size, part, ground.key, NOT, tuple(dict.fromkeys(one.words for one in laying.reasons)))
    alone = tuple(f"no place was found for {title} even alone" for title in laying.homeless)
    return Fit(size, part, ground.key, UNKNOWN, alone)


class Need(Record):
    """How large a cloth a size needs: on one of ``found`` mm a verified plan was found, infinite where on none.

    On one of ``ruled_out`` mm it is proved that there is no plan.
    """

    size: str
    part: str
    found: float
    ruled_out: float
    used: float


def need(assembly: Assembly, part: str, cloth: Callable[[float], Ground], limits: Limits) -> Need:
    """The least size (mm, in whole cm) of a cloth, made by ``cloth``, on which a plan was found.

    A cloth smaller than the shapes together is ruled out. Sizes in between are halved; one on which no plan was found
    in the time is taken as too small.
    """
    area = least_area(shapes(assembly, part))
    ruled_out = too_small = _rounded(_size_of(cloth, area)) - _STEP

    def tried(size: float) -> Laying:
        nonlocal ruled_out
        laying = lay(assembly, part, cloth(size), None, limits)
        if laying.reasons:
            ruled_out = max(ruled_out, size)
        return laying

    best: Laying | None = None
    found, size = math.inf, too_small + _STEP
    for _ in range(_MOST):
        laying = tried(size)
        if laying.plan is not None:
            best, found = laying, size
            break
        too_small, size = size, _rounded(size * _FURTHER)
    while found < math.inf and found - too_small > _STEP:
        middle = _rounded((found + too_small) / 2)
        middle = middle - _STEP if middle >= found else middle
        laying = tried(middle)
        if laying.plan is not None:
            best, found = laying, middle
        else:
            too_small = middle
    used = 0.0 if best is None or best.plan is None else best.plan.used
    return Need(assembly.draft.body.name, part, found, ruled_out, used)


def _size_of(cloth: Callable[[float], Ground], area: float) -> float:
    """The size at which a cloth is as large as an area; it grows with its size, or with the square of it."""
    low, high = 0.0, 1.0e5
    while high - low > 1.0:
        middle = (low + high) / 2
        x0, y0, x1, y1 = cloth(middle).box
        low, high = (middle, high) if (x1 - x0) * (y1 - y0) < area else (low, middle)
    return high


def _rounded(size: float) -> float:
    return math.ceil(size / _STEP - 1e-9) * _STEP
