"""The shortest plan on a strip that is found in a given time, verified."""

from __future__ import annotations

import math
from collections.abc import Callable

from garmentc.aside import search_aside
from garmentc.host import seconds
from garmentc.packing.finder import Found, Search, row, search
from garmentc.packing.model import StripPlan, StripTask, fits_across, height
from garmentc.packing.verify import plan_faults
from garmentc.record import Record
from garmentc.spread import cores

_LONG = 20.0
"""In so many seconds the library gets further in one search on all cores than in one on each: measured.

In less, pushing together what it has not finished yet gets further.
"""

_GRACE = 0.5  # s that a search may be late before it is ended


class TooWide(Record):
    """A shape that can't lie on the strip in any way that it may be turned: it needs ``least`` mm of width."""

    shape: int
    least: float


class Packed(Record):
    """What a search gave. ``bare`` is the length (mm) that the library alone came to, infinite where it gave none."""

    plan: StripPlan
    bare: float
    broken_off: bool


class Progress(Record):
    """How long a search has been going on (s), and the length (mm) of the shortest plan so far."""

    seconds: float
    length: float


def too_wide(task: StripTask) -> list[TooWide]:
    """The shapes for which the strip is not wide enough; while there is one, there is no plan."""
    found = []
    for index, shape in enumerate(task.shapes):
        if not any(fits_across(task, index, turn) for turn in shape.turns):
            found.append(TooWide(index, min(height(shape.corners, turn) for turn in shape.turns)))
    return found


def least_length(task: StripTask) -> float:
    """A length (mm) below which there is certainly no plan: the area of all shapes, or the longest shape alone."""
    alone = [
        min(height(shape.corners, turn + math.pi / 2) for turn in shape.turns if fits_across(task, index, turn))
        for index, shape in enumerate(task.shapes)
    ]
    return max(task.area / task.width, *alone)


def pack(
    task: StripTask, limit: float, seed: int, report: Callable[[Progress], None] = lambda _: None, processes: int = 0
) -> Packed:
    """The shortest plan found in ``limit`` seconds by searches side by side, on all cores or in so many processes.

    Each shape has to fit across the strip (see ``too_wide``) and be there at least once. How far a search comes in a
    time depends on the machine: the same seed may give another plan, but never one that is not verified. A person may
    break off (Ctrl-C) and keeps the best plan so far.
    """
    began = seconds()
    best = row(task)
    bare = math.inf

    def heard(_: int, found: Found) -> None:
        nonlocal best, bare
        if found.is_bare:
            bare = min(bare, found.plan.length)
        if found.plan.length < best.length:
            best = found.plan
            report(Progress(seconds() - began, best.length))

    number = processes or cores()
    if limit >= _LONG:
        searches = [Search(task, limit, seed, number)]
    else:
        searches = [Search(task, limit, seed * 1000 + index) for index in range(number)]
    done = search_aside(search, searches, heard, limit + _GRACE)
    faults = plan_faults(task, best)
    if faults:
        raise RuntimeError(f"a plan that is none: {faults}")
    return Packed(best, bare, not done)
