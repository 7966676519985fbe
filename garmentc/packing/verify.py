"""Says what is wrong with a plan, from the task and the plan alone: it knows nothing of how the plan was found."""

from __future__ import annotations

from garmentc.geometry.region import overlapping_pairs
from garmentc.packing.model import TINY, StripPlan, StripTask, laid_corners
from garmentc.record import Record


class PlanFault(Record):
    """What is wrong: ``what`` is number, turn, outside, base or overlap.

    ``shapes`` are indices into the plan, for number into the task.
    """

    what: str
    shapes: tuple[int, ...]


def plan_faults(task: StripTask, plan: StripPlan) -> list[PlanFault]:
    """All faults of a plan.

    Each shape is there as often as asked (``number``), turned as allowed (``turn``), on the strip (``outside``)
    and on its lower edge if it is based (``base``), and lies beside all others (``overlap``), all to ``TINY``. Borders
    may touch.
    """
    faults: list[PlanFault] = []
    for index, shape in enumerate(task.shapes):
        if sum(one.shape == index for one in plan.placed) != shape.number:
            faults.append(PlanFault("number", (index,)))
    rings = []
    for index, one in enumerate(plan.placed):
        if one.turn not in task.shapes[one.shape].turns:
            faults.append(PlanFault("turn", (index,)))
        ring = laid_corners(task, one)
        rings.append(ring)
        inside = all(-TINY <= p.real <= plan.length + TINY and -TINY <= p.imag <= task.width + TINY for p in ring)
        if not inside:
            faults.append(PlanFault("outside", (index,)))
        if task.shapes[one.shape].is_based and min(p.imag for p in ring) > TINY:
            faults.append(PlanFault("base", (index,)))
    return faults + [PlanFault("overlap", pair) for pair in overlapping_pairs(rings, TINY)]
