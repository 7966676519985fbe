"""Lays a garment on a cloth: keeps a plan that still holds, else finds one, or says why there is none."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from garmentc.assembly.model import Assembly
from garmentc.cloth.finder import Limits, find
from garmentc.cloth.joins import joinable, ways_to_join
from garmentc.cloth.model import Ground, Plan
from garmentc.cloth.proofs import Reason, impossible
from garmentc.cloth.saved import splits_of, spots_of
from garmentc.cloth.shapes import shapes
from garmentc.cloth.verify import PlanFault, verify
from garmentc.data.plans import SavedPiece, SavedPlan
from garmentc.host import seconds
from garmentc.record import Record

_FIRST = 0.6
"""The share of the time that is left for a way to join strips while there are others; those with fewer come first."""


class Laying(Record):
    """What came of laying: a ``plan`` that has been verified, or None.

    ``homeless`` are the titles of shapes for which not even a place alone was found.

    ``held`` says that it is the kept one. Else ``faults`` are what is wrong with the kept one, by shape key its entry
    in ``entries``; those of pinned pieces rule out any plan. ``reasons`` prove that there is none.
    """

    plan: Plan | None
    held: bool = False
    faults: tuple[PlanFault, ...] = ()
    pinned_faults: tuple[PlanFault, ...] = ()
    entries: Mapping[str, SavedPiece] = MappingProxyType({})
    reasons: tuple[Reason, ...] = ()
    steps: int = 0
    broken_off: bool = False
    homeless: tuple[str, ...] = ()


def lay(assembly: Assembly, cloth: str, ground: Ground, saved: SavedPlan | None, limits: Limits) -> Laying:
    """Lay all shapes that are cut from one cloth of a garment, starting from a kept plan if there is one."""
    pieces = () if saved is None else saved.pieces
    splits = splits_of(pieces)
    parts = shapes(assembly, cloth, splits)
    spots, entries = spots_of(pieces, parts)
    faults: tuple[PlanFault, ...] = ()
    if saved is not None:
        plan = Plan(ground, parts, spots)
        faults = verify(plan)
        if not faults:
            return Laying(plan, held=True)
    pinned = {key: spot for key, spot in spots.items() if spot.pinned}
    of_pinned = tuple(shape for shape in parts if shape.key in pinned)
    wrong = verify(Plan(ground, of_pinned, pinned))
    if wrong:
        return Laying(None, faults=faults, pinned_faults=wrong, entries=entries)
    whole = shapes(assembly, cloth)
    reasons = impossible(ground, whole, joinable(assembly))
    if reasons:
        return Laying(None, faults=faults, entries=entries, reasons=reasons)
    steps = 0
    homeless: dict[str, None] = {}
    end = seconds() + limits.time
    fixed = any(shape.part is not None for shape in of_pinned)
    ways = [splits] if fixed else list(ways_to_join(assembly, cloth))
    for i, way in enumerate(ways):
        share = (end - seconds()) * (_FIRST if i < len(ways) - 1 else 1.0)
        found = find(ground, shapes(assembly, cloth, way), pinned, limits._replace(time=share))
        steps += found.steps
        homeless |= dict.fromkeys(shape.title for shape in whole if shape.key in found.homeless)
        if found.plan is not None or found.broken_off:
            return Laying(found.plan, False, faults, (), entries, (), steps, found.broken_off)
    return Laying(None, faults=faults, entries=entries, steps=steps, homeless=tuple(homeless))
