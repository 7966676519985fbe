"""Finds a plan for shapes on a ground, or says that it found none; what is found has passed the verifier."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from garmentc.cloth.model import Ground, Plan, Shape, Spot, Spots
from garmentc.cloth.room import Hold, coarse, held_as, holds
from garmentc.cloth.search import Item, Lying, NoFits, Search, Stopped, spots
from garmentc.cloth.verify import verify
from garmentc.geometry.region import point_place
from garmentc.record import Record

_SLICE = 250
"""Steps after which a search begins anew from other numbers."""


class Limits(Record):
    """When to stop: after some steps, and when ``stop`` says so, which is asked at each step."""

    steps: int = 4000
    seed: int = 1
    stop: Callable[[int], bool] = lambda _steps: False


class Outcome(Record):
    """A plan that can be cut, or None; after how many steps; and which shapes have no place even alone."""

    plan: Plan | None
    steps: int
    homeless: tuple[str, ...] = ()


def find(ground: Ground, shapes: Sequence[Shape], pinned: Spots, limits: Limits) -> Outcome:
    """Look for a plan in which the pinned shapes stay where they are."""
    items, fixed = _items(ground, shapes, pinned)
    homeless = tuple(item.shape.key for item in items if not item.holds)
    if homeless:
        return Outcome(None, 0, homeless)
    taken = 0
    no_fits = NoFits()
    seed = limits.seed * 1_000_003

    def step() -> None:
        nonlocal taken
        taken += 1
        if taken > limits.steps or limits.stop(taken):
            raise _Ended
        if taken >= until:
            raise Stopped

    try:
        while True:
            until = taken + _SLICE * (1 + len(shapes) // 6)
            seed += 1
            try:
                lying = Search(ground, items, fixed, seed, step, no_fits).run()
            except Stopped:
                continue
            plan = Plan(ground, tuple(shapes), spots(items, lying, tuple(pinned)))
            if not verify(plan):
                return Outcome(plan, taken)
            step()
    except _Ended:
        return Outcome(None, min(taken, limits.steps))


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
