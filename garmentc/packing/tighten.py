"""Makes a plan shorter: pushes all shapes together, then tries again and again on a strip a little shorter."""

from __future__ import annotations

import math
from collections.abc import Callable
from random import Random
from typing import TYPE_CHECKING

from garmentc.host import seconds
from garmentc.packing.model import StripPlan, StripTask
from garmentc.packing.relax import Layout

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

# Lengths here are thousandths of the width of the strip.
_REACHES = (50.0, 20.0, 5.0)  # how far shapes may go in one push: first far, then near
_SETTLED = 1e-4  # less than that is no overlap
_LEAST_GAIN = 1e-3
_SHRINKS = (0.004, 0.3)  # the least and greatest share of the length by which a try is shorter
_BOLDER, _MEEKER = 1.2, 0.9
_ROOM = 1.002  # overlaps may be pushed apart on a strip longer by this factor: pushing together takes more off again
_PROMISING = 1.004  # a layout that is longer by less than that is worth a try on a shorter strip
_ROUNDS = 25  # after so many pushes a try is given up
_FAR, _NEAR = 30.0, 2.0


class Tightener:
    """Keeps the shortest layout it came to; ``better`` is told each plan shorter than the last, and may refuse it."""

    def __init__(self, task: StripTask, random: Random, better: Callable[[StripPlan], bool]) -> None:
        self._task = task
        self._random = random
        self._better = better
        self._best: Layout | None = None
        self._shrink = _SHRINKS[1]

    @property
    def has_plan(self) -> bool:
        """Whether it came to a layout at all."""
        return self._best is not None

    def take(self, plan: StripPlan, ends: float) -> None:
        """Push together what a plan says, after what overlaps in it has been pushed apart."""
        layout = Layout(self._task, plan)
        length = max(layout.length, layout.units(plan.length)) * _ROOM
        if (layout.has_overlaps and not _separated(layout, length, ends)) or not _settle(layout, ends):
            return
        self._keep(layout)
        if self._best is not None and layout is not self._best and layout.length < self._best.length * _PROMISING:
            self._press(layout, _SHRINKS[0], ends)

    def attempt(self, ends: float) -> None:
        """Change the shortest layout and try to lay it on a shorter strip; the shorter, the easier that has been."""
        if self._best is not None:
            if self._press(self._random.choice(_CHANGES)(self._best, self._random), self._shrink, ends):
                self._shrink = min(_SHRINKS[1], self._shrink * _BOLDER)
            else:
                self._shrink = max(_SHRINKS[0], self._shrink * _MEEKER)

    def _press(self, layout: Layout, shrink: float, ends: float) -> bool:
        assert self._best is not None
        length = self._best.length * (1 - self._random.uniform(0.1, 1.0) * shrink)
        layout.squash(length)
        return _separated(layout, length, ends) and _settle(layout, ends) and self._keep(layout)

    def _keep(self, layout: Layout) -> bool:
        if (self._best is None or layout.length < self._best.length - _LEAST_GAIN) and self._better(layout.plan()):
            self._best = layout
            return True
        return False


def _settle(layout: Layout, ends: float) -> bool:
    """Push all together as far as they go; False where something overlaps and can't be pushed apart."""
    for reach in _REACHES:
        before = math.inf
        while layout.length < before - _LEAST_GAIN:
            before = layout.length
            if not layout.compact(reach):
                return False
            if seconds() > ends:
                return True
    return True


def _separated(layout: Layout, length: float, ends: float) -> bool:
    """Push apart what overlaps on a strip of some length; overlaps that stay count ever more."""
    import numpy as np

    weights = np.ones((len(layout.shifts), len(layout.shifts)))
    reach = _FAR
    for _ in range(_ROUNDS):
        if layout.separate(reach, length, weights) < _SETTLED:
            return True
        if seconds() > ends:
            return False
        overlaps = layout.overlaps()
        most = float(overlaps.max())
        if most < _SETTLED:
            return True
        weights *= np.where(overlaps > _SETTLED, 1.2 + 0.6 * overlaps / most, 0.97)
        reach = min(_FAR, max(_NEAR, 2 * most))
    return False


# ---- where a try begins


def _leave(best: Layout, random: Random) -> Layout:
    return best.copy()


def _shake(best: Layout, random: Random) -> Layout:
    import numpy as np

    shaken = best.copy()
    pull = np.array([(random.gauss(0, 1), random.gauss(0, 1)) for _ in range(len(best.shifts))])
    for _ in range(2):
        shaken.compact(2 * _FAR, pull)
    return shaken


def _swap(best: Layout, random: Random) -> Layout:
    """Two shapes of about the same area change places."""
    swapped = best.copy()
    first = random.randrange(len(best.shifts))
    others = [one for one in range(len(best.shifts)) if not best.alike(one, first)]
    if others:
        second = min(
            others, key=lambda one: abs(math.log(best.areas[one] / best.areas[first])) * random.uniform(0.5, 1.5)
        )
        a, b = swapped.middle(first), swapped.middle(second)
        swapped.put(first, b)
        swapped.put(second, a)
    return swapped


def _turn(best: Layout, random: Random) -> Layout:
    """One shape is turned where it lies."""
    turned = best.copy()
    one = random.randrange(len(best.shifts))
    turned.turn(one, random)
    return turned


def _scatter(best: Layout, random: Random) -> Layout:
    scattered = best.copy()
    scattered.scatter(best.length, random)
    return scattered


def _jump(best: Layout, random: Random) -> Layout:
    """One shape goes elsewhere."""
    jumped = best.copy()
    jumped.jump(random.randrange(len(best.shifts)), best.length, random)
    return jumped


_CHANGES = (_leave, _shake, _swap, _turn, _jump, _scatter)
