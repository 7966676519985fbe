"""One search for a short plan: the library spyrrow finds layouts, linear programs push them together."""

from __future__ import annotations

import cmath
import math
import threading
from collections.abc import Callable, Iterator
from contextlib import suppress
from random import Random
from typing import TYPE_CHECKING

from garmentc.aside import pause
from garmentc.host import seconds
from garmentc.packing.based import beside, gathered
from garmentc.packing.model import TINY, Placed, StripPlan, StripTask, fits_across, height, laid_corners
from garmentc.packing.relax import plan_of
from garmentc.packing.tighten import Tightener
from garmentc.packing.verify import plan_faults
from garmentc.record import Record

if TYPE_CHECKING:
    import spyrrow

_OWN_SHARE = 0.07
"""The share of the time that is kept for our own tries after the library's."""

_COMPRESSING = 0.2  # the share of the library's time that it spends on its second phase, its own default
_PARTIAL = (1, 2)  # kinds of reports of layouts with overlaps: ExplInfeas, ExplImproving
_REST = 2.0  # after each push together the library has the processor for so many times as long
_ROOM = 1.002  # the library can't lay what just fits: it gets a wider strip, and linear programs do the rest
_WAYS = 3  # in which based shapes are put together
_LOOK = 0.02  # s between looks at what the library has found


class Search(Record):
    """A search to be made: for so many seconds, from a seed, by so many ``workers`` of the library side by side."""

    task: StripTask
    limit: float
    seed: int
    workers: int = 1


class Found(Record):
    """A verified plan, and whether it is the library's own layout."""

    plan: StripPlan
    is_bare: bool


def search(wanted: Search, tell: Callable[[Found], None]) -> None:
    """Look for plans until the time is over, and tell each that is verified and shorter than those of its kind before.

    That the library's own are told too lets us compare.
    """
    task, ends = wanted.task, seconds() + wanted.limit
    least = {False: math.inf, True: math.inf}

    def offer(plan: StripPlan, is_bare: bool) -> bool:
        if plan.length >= least[is_bare] or plan_faults(task, plan):
            return False
        least[is_bare] = plan.length
        tell(Found(plan, is_bare))
        return True

    tightener = Tightener(task, Random(wanted.seed), lambda plan: offer(plan, False))
    last: StripPlan | None = None
    for plan, is_whole in _layouts(wanted, ends - wanted.limit * _OWN_SHARE):
        if is_whole:
            offer(plan, True)
        if wanted.workers > 1:  # they leave no processor for pushing together; that comes when they are done
            last = plan if is_whole else last
            continue
        began = seconds()
        tightener.take(plan, ends)
        pause(min(_REST * (seconds() - began), 0.5))
    if last is not None:
        tightener.take(last, ends)
    if not tightener.has_plan:
        tightener.take(row(task), ends)
    while seconds() < ends and tightener.has_plan:
        tightener.attempt(ends)


def row(task: StripTask) -> StripPlan:
    """All shapes one after the other along the strip: a plan, if a long one, wherever each fits across."""
    placed: list[Placed] = []
    at = 0.0
    for index, shape in enumerate(task.shapes):
        turn = next(turn for turn in shape.turns if fits_across(task, index, turn))
        for _ in range(shape.number):
            placed.append(beside(shape, index, turn, at))
            at = max(p.real for p in laid_corners(task, placed[-1]))
    return plan_of(task, placed)


def _layouts(wanted: Search, ends: float) -> Iterator[tuple[StripPlan, bool]]:
    """What the library comes to, until it is done or the clock says ``ends``, and whether it takes it for a plan.

    In the others shapes overlap still; the library spends most of its time on getting rid of that. Where some shapes
    are based it begins several times, with these put together in several ways.
    """
    based = sum(shape.number for shape in wanted.task.shapes if shape.is_based)
    if not based:
        yield from _packed(wanted, ends)
        return
    random = Random(wanted.seed)
    ways = 1 if based == 1 else _WAYS
    for left in range(ways, 0, -1):
        gathering = gathered(wanted.task, random)
        now = seconds()
        for plan, _ in _packed(wanted._replace(task=gathering.task), now + (ends - now) / left):
            yield gathering.plan(plan), False


def _packed(wanted: Search, ends: float) -> Iterator[tuple[StripPlan, bool]]:
    import spyrrow

    task = wanted.task
    items = [
        spyrrow.Item(
            str(index),
            [(p.real, p.imag) for p in shape.corners],
            shape.number,
            [math.degrees(turn) for turn in shape.turns if fits_across(task, index, turn)],
        )
        for index, shape in enumerate(task.shapes)
    ]
    time = max(0, math.ceil(ends - seconds()))
    compressing = round(time * _COMPRESSING)
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        exploration_time=time - compressing,
        compression_time=compressing,
        total_computation_time=None,
        num_workers=wanted.workers,
        seed=wanted.seed,
    )
    queue = spyrrow.ProgressQueue()
    heights = [height(shape.corners, turn) for shape in task.shapes for turn in shape.turns]
    is_tight = any(task.width / _ROOM < tall <= task.width + TINY for tall in heights)
    instance = spyrrow.StripPackingInstance("strip", task.width * (_ROOM if is_tight else 1.0), items)

    def solve() -> None:
        with suppress(BaseException):  # the library panics where it can't go on; what it found before is good
            instance.solve(config, queue)

    thread = threading.Thread(target=solve, daemon=True)
    thread.start()
    running = True
    while running and seconds() < ends:
        running = thread.is_alive()
        told = queue.drain()
        if not told:
            pause(_LOOK)
            continue
        whole = [one for kind, one in told if kind not in _PARTIAL]
        if whole:
            yield _read(task, min(whole, key=lambda one: one.width)), True
        if told[-1][0] in _PARTIAL:
            yield _read(task, told[-1][1])._replace(length=told[-1][1].width), False


def _read(task: StripTask, found: spyrrow.StripPackingSolution) -> StripPlan:
    """A layout of the library as a plan, each turn the one that was allowed."""
    placed = []
    for one in found.placed_items:
        index = int(one.id)
        by = cmath.rect(1.0, math.radians(one.rotation))
        turn = min(task.shapes[index].turns, key=lambda turn: abs(cmath.rect(1.0, turn) - by))
        placed.append(Placed(index, turn, complex(*one.translation)))
    return plan_of(task, placed)
