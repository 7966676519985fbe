"""Finds a plan for shapes on a ground, or says that it found none; what is found has passed the verifier."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence

from garmentc.cloth.model import Ground, Plan, Shape, Spot, Spots
from garmentc.cloth.room import Hold, coarse, held_as, holds
from garmentc.cloth.saved import as_kept
from garmentc.cloth.search import Item, Lying, NoFits, Search, Stopped, spots
from garmentc.cloth.verify import verify
from garmentc.geometry.region import point_place
from garmentc.host import seconds
from garmentc.record import Record

_SLICE = 250
"""Steps after which a search begins anew from other numbers."""


class Limits(Record):
    """When to stop: after some steps, or after a ``time`` (s); ``told`` is called with each step's number.

    Once there is a plan, so many ``others`` are looked for, and the one that is most ``worth`` is taken. Only what
    the time ends differs from one run to another.
    """

    steps: int = 4000
    seed: int = 1
    time: float = math.inf
    told: Callable[[int], None] = lambda _step: None
    others: int = 0
    worth: Callable[[Plan], float] = lambda _plan: 0.0


class Outcome(Record):
    """A plan that can be cut, or None; after how many steps; and for which shapes no place was found even alone.

    ``broken_off`` says that a person broke off (Ctrl-C); a plan that had been found is there all the same.
    """

    plan: Plan | None
    steps: int
    homeless: tuple[str, ...] = ()
    broken_off: bool = False


def find(ground: Ground, shapes: Sequence[Shape], pinned: Spots, limits: Limits) -> Outcome:
    """Look for a plan in which the pinned shapes stay where they are."""
    items, fixed = _items(ground, shapes, pinned)
    homeless = tuple(item.shape.key for item in items if not item.holds)
    if homeless:
        return Outcome(None, 0, homeless)
    taken = 0
    no_fits = NoFits()
    seed = limits.seed * 1_000_003
    end = seconds() + limits.time

    def step() -> None:
        nonlocal taken
        taken += 1
        limits.told(taken)
        if taken > limits.steps or seconds() > end:
            raise _Ended
        if taken >= until:
            raise Stopped

    best: Plan | None = None
    others = 0
    try:
        while others <= limits.others:
            until = taken + _SLICE * (1 + len(shapes) // 6)
            if best is not None:
                until = taken + _SLICE // 4
                others += 1
            seed += 1
            try:
                lying = Search(ground, items, fixed, seed, step, no_fits).run()
            except Stopped:
                continue
            plan = as_kept(Plan(ground, tuple(shapes), spots(items, lying, pinned)))
            if verify(plan):
                step()
            elif best is None or limits.worth(plan) > limits.worth(best):
                best = plan
    except _Ended:
        return Outcome(best, min(taken, limits.steps))
    except KeyboardInterrupt:
        return Outcome(best, taken, broken_off=True)
    return Outcome(best, taken)


class _Ended(Exception):
    """No more steps are allowed."""


def _items(ground: Ground, shapes: Sequence[Shape], pinned: Spots) -> tuple[list[Item], Mapping[int, Lying]]:
    kinds: dict[object, int] = {}
    items: list[Item] = []
    fixed: dict[int, Lying] = {}
    known: dict[object, tuple[Hold, ...]] = {}
    for i, shape in enumerate(shapes):
        kind = kinds.setdefault(shape.outline, len(kinds))
        spot = pinned.get(shape.key)
        if spot is not None:
            items.append(Item(shape, (_pinned(shape, spot),), kind))
            fixed[i] = Lying(0, spot.at)
            continue
        alike = (kind, shape.lengthwise, shape.within, shape.hems, shape.corners, shape.motifs, shape.mirrored)
        if alike not in known:
            known[alike] = holds(shape, ground)
        items.append(Item(shape, known[alike], kind))
    return items, fixed


def _pinned(shape: Shape, spot: Spot) -> Hold:
    return Hold(spot.turn, held_as(coarse(shape), spot.turn), point_place(spot.at))
