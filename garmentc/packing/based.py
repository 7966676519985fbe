"""For the library, all shapes that lie on the lower edge of the strip as one: it can't keep a shape in a place.

They are put side by side in some order and pushed together. A thin slab below and a rod as high as the strip hold the
one shape that they make in its place; the others are packed around it.
"""

from __future__ import annotations

from random import Random

from garmentc.geometry.region import silhouette
from garmentc.geometry.vector import Point
from garmentc.packing.model import Placed, Shape, StripPlan, StripTask, fits_across, laid_corners, turned_corners
from garmentc.packing.relax import Layout, plan_of
from garmentc.record import Record

_THIN = 1.0  # mm


class Gathered(Record):
    """A task with one shape in place of all based ones: the first, ``base`` says where they lie in it."""

    task: StripTask
    base: tuple[Placed, ...]
    others: tuple[int, ...]
    """The other shapes, as the task that was given numbers them."""

    def plan(self, found: StripPlan) -> StripPlan:
        """A plan of this task as one of the task that was given."""
        down = complex(0.0, -_THIN)
        placed: list[Placed] = []
        for one in found.placed:
            if one.shape == 0:
                placed += [its._replace(shift=its.shift + one.shift + down) for its in self.base]
            else:
                placed.append(one._replace(shape=self.others[one.shape - 1], shift=one.shift + down))
        return StripPlan(found.length, tuple(placed))


def gathered(task: StripTask, random: Random) -> Gathered:
    """The based shapes put together in an order, each turned, as chance will have it."""
    based = [index for index, shape in enumerate(task.shapes) for _ in range(shape.number) if shape.is_based]
    random.shuffle(based)
    base: list[Placed] = []
    at = 0.0
    for index in based:
        shape = task.shapes[index]
        turn = random.choice([turn for turn in shape.turns if fits_across(task, index, turn)])
        base.append(beside(shape, index, turn, at))
        at = max(p.real for p in laid_corners(task, base[-1]))
    layout = Layout(task, plan_of(task, base))
    while layout.compact(layout.length):
        shorter = layout.plan()
        if shorter.length > plan_of(task, base).length - _THIN:
            break
        base = list(shorter.placed)
    # The slab reaches a little into the shapes, so that all hang together for all rounding.
    rings = [[p + _THIN * (1 + 1j) for p in laid_corners(task, one)] for one in base]
    at = max(p.real for ring in rings for p in ring)
    height = task.width + _THIN
    rings += [box(0j, complex(at, 1.01 * _THIN)), box(0j, complex(_THIN, height))]
    others = tuple(index for index, shape in enumerate(task.shapes) if not shape.is_based)
    one = Shape("base", tuple(silhouette(rings)), (0.0,), 1)
    moved = tuple(its._replace(shift=its.shift + _THIN * (1 + 1j)) for its in base)
    return Gathered(StripTask(height, (one, *(task.shapes[index] for index in others))), moved, others)


def beside(shape: Shape, index: int, turn: float, at: float) -> Placed:
    """A shape turned and laid on the lower edge, to the right of a place along the strip, hardly off it."""
    ring = turned_corners(shape.corners, turn)
    left, right = min(p.real for p in ring), max(p.real for p in ring)
    return Placed(index, turn, complex(at - left + (right - left) * 1e-9, -min(p.imag for p in ring)))


def box(low: Point, high: Point) -> list[Point]:
    """The corners of a rectangle along the axes."""
    return [low, complex(high.real, low.imag), high, complex(low.real, high.imag)]
