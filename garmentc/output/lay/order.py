"""In which order the shapes of a plan are cut out."""

from __future__ import annotations

from garmentc.cloth.model import Plan, Shape

_BESIDE = 50.0  # mm: shapes whose near ends are no further apart are cut as they lie across the cloth


def cutting_order(plan: Plan) -> tuple[Shape, ...]:
    """The shapes from one end of the cloth to the other, so that what is not cut yet lies still.

    Along the longer way of the cloth, from its left or its lower end; common practice, no source.
    """
    x0, y0, x1, y1 = plan.ground.box
    is_long = x1 - x0 >= y1 - y0

    def key(shape: Shape) -> tuple[int, float]:
        left, low, _, _ = plan.outline(shape).bounds()
        near, across = (left - x0, low) if is_long else (low - y0, left)
        return int(near // _BESIDE), across

    return tuple(sorted(plan.shapes, key=key))
