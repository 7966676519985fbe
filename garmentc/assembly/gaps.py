"""Openings that a seam leaves, to turn the work through or to fill it, and closes later."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.joins import Place, fill
from garmentc.assembly.model import Gap
from garmentc.design.model import Design, SeamPlan
from garmentc.draft.evaluate import TOP, Evaluator
from garmentc.draft.memo import Poisoned
from garmentc.numbers import length

_LEAST = 10.0
"""How much (mm) of a seam is sewn on either side of its opening at least; common practice, no source."""


def left_open(plan: SeamPlan, side: Sequence[Stretch], design: Design, values: Evaluator) -> Gap | None:
    """The opening that a seam leaves in its first side, if any; raises Poisoned where it does not lie in the seam."""
    leave = plan.leave
    if leave is None:
        return None
    whole = side[-1].after
    wide = float(values.value(leave.wide, TOP))
    middle = values.amount(leave.at, whole, TOP)
    if _runs_back(plan, side):
        middle = whole - middle
    low, high = middle - wide / 2, middle + wide / 2
    if wide <= 0 or low < _LEAST - 1e-6 or high > whole - _LEAST + 1e-6:
        values.fault(
            "opening-beyond-seam",
            f"the opening of seam `{plan.name}` does not lie within it",
            leave.span,
            notes=(
                f"it would go from {length(low)} to {length(high)}, and the seam is {length(whole)} long; "
                f"{length(_LEAST)} have to be sewn on either side of it",
            ),
            help="leave less, or move it toward the middle; what is open at an end of a seam is a part of the edge",
        )
        raise Poisoned
    words = {
        "first_side": "one side",
        "second_side": "the other",
        "length": length(wide),
        "toward": "to one side",
        "both": "both",
    }
    return Gap(low, high, fill(design.joins["seam", leave.type], Place(words, {}, leave.span), design, values))


def _runs_back(plan: SeamPlan, side: Sequence[Stretch]) -> bool:
    """Whether a side is walked against the way in which its only edge is drawn, or its edges are named."""
    if len(side) == 1:
        return side[0].backward != side[0].edge.backward
    return side[0].name != plan.first[0]
