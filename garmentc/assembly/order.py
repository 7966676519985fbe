"""Order of work: what waits for what; then strips, flat work, seams as listed, hems; own steps where they are put."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from heapq import heapify, heappop, heappush

from garmentc.assembly.chains import Crossings
from garmentc.assembly.model import FinishedEdge, JoinedSeam, PlannedStep
from garmentc.assembly.takeups import FlatWork
from garmentc.assembly.tasks import Task, own_task, tasks_of, with_lines
from garmentc.assembly.waits import Wait, waits_of
from garmentc.design.model import EdgeName
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.draft.model import Draft
from garmentc.syntax import nodes

_Key = tuple[int, ...]


def plan_steps(
    draft: Draft,
    flat: Sequence[FlatWork],
    seams: Sequence[JoinedSeam],
    finishes: Sequence[FinishedEdge],
    crossings: Crossings,
    findings: Findings,
) -> tuple[PlannedStep, ...]:
    """All steps in an order that works; a ring of orders is reported, and then there are no steps."""
    own = draft.design.steps
    tasks = list(tasks_of(draft.strips, flat, seams, finishes))
    called = _called(tasks, own)
    rings = _rings(own)
    waiting = [ring for ring in rings if len({step.order for step in ring}) == 1]
    for ring in waiting:
        _report_own_ring(ring, findings)
    loose = {_loose(ring) for ring in rings if ring not in waiting}
    last = [own_task(step) for step in own if step.anchor is None or step.name.text in loose]
    asked = _asked(draft.design.orderings, own, called)
    waits = [*waits_of(tasks, draft, crossings), *asked]
    order = _sorted([*tasks, *last], waits, findings)
    if waiting or order is None:
        return ()
    taken_in: dict[str, list[EdgeName]] = {}
    for wait in waits:
        taken_in.setdefault(wait.later, []).extend(wait.taken_in)
    steps = with_lines(_with_own(order, own, called, loose), draft, taken_in)
    return tuple(
        PlannedStep(number, task.name, task.title, task.about, task.lines, task.thing)
        for number, task in enumerate(steps, start=1)
    )


def _called(tasks: Iterable[Task], own: Iterable[nodes.Step]) -> dict[str, str]:
    """The names of tasks by what a spec calls them: an edge stands for the work on it."""
    found: dict[str, str] = {}
    for task in tasks:
        found[task.name] = task.name
        if isinstance(task.thing, FinishedEdge | JoinedSeam):
            for edge in task.thing.edges:
                found.setdefault(edge.text, task.name)
    return {**found, **{step.name.text: step.name.text for step in own}}


def _asked(orderings: Iterable[nodes.Ordering], own: Iterable[nodes.Step], called: Mapping[str, str]) -> Iterator[Wait]:
    """The orders of the spec; an own step that leans on something stands for that."""
    steps = {step.name.text: step for step in own}

    def task(word: nodes.Word) -> str:
        name, met = called[word.text], set[str]()
        while name in steps and name not in met and (anchor := steps[name].anchor) is not None:
            met.add(name)
            name = called.get(anchor.text, name)
        return name

    for one in orderings:
        if one.thing.text in called and one.other.text in called:
            pair = (task(one.thing), task(one.other))
            later, earlier = pair if one.order == "after" else reversed(pair)
            yield Wait(later, earlier, "the spec asks for it", asked=one)


# ---- sorting


def _sorted(tasks: Sequence[Task], waits: Iterable[Wait], findings: Findings) -> list[Task] | None:
    """The tasks, each as early as its rank and place in the spec let it once nothing it waits for is left.

    Custom that would close a ring gives way; other rings are reported, and then there is no order.
    """
    named = {task.name: task for task in tasks}
    ahead: dict[str, dict[str, Wait]] = {name: {} for name in named}
    for wait in waits:
        known = ahead.get(wait.later)
        if known is None or wait.earlier not in named:
            continue
        if wait.earlier not in known or (wait.firm and not known[wait.earlier].firm):
            known[wait.earlier] = wait
    keys = _keys(tasks, ahead)
    fine = True
    while (order := _next_first(keys, ahead)) is not None and len(order) < len(named):
        ring = _ring(ahead, set(order), keys)
        custom = next((wait for wait in ring if not wait.firm and not _is_last(wait, ahead[wait.later].values())), None)
        if custom is None:
            fine = False
            _report_ring(ring, named, findings)
        dropped = custom or next((wait for wait in ring if wait.asked), ring[0])
        del ahead[dropped.later][dropped.earlier]
    return [named[name] for name in order] if fine else None


def _is_last(wait: Wait, waits: Iterable[Wait]) -> bool:
    """Whether no other way is left to what a task has to wait for in one of several ways."""
    return bool(wait.one_of) and not any(other.one_of == wait.one_of for other in waits if other is not wait)


def _keys(tasks: Sequence[Task], ahead: Mapping[str, Mapping[str, Wait]]) -> dict[str, _Key]:
    """Where tasks stand when nothing else orders them. What a thing draws to it stands just before it."""
    keys: dict[str, _Key] = {task.name: (task.rank, at) for at, task in enumerate(tasks)}
    for waits in ahead.values():
        for wait in waits.values():
            if not wait.taken_in and (wait.asked is None or wait.asked.order != "before"):
                continue
            drawn = [wait.earlier]
            while drawn:
                name = drawn.pop()
                if keys[name] > keys[wait.later]:
                    keys[name] = (*keys[wait.later][:-1], keys[wait.later][-1] - 1, *keys[name])
                    drawn += (earlier for earlier, one in ahead[name].items() if one.firm)
    return keys


def _next_first(keys: Mapping[str, _Key], ahead: Mapping[str, Mapping[str, Wait]]) -> list[str]:
    """The tasks in order, as far as no ring is in the way."""
    left = {name: len(waits) for name, waits in ahead.items()}
    behind: dict[str, list[str]] = {}
    for name, waits in ahead.items():
        for earlier in waits:
            behind.setdefault(earlier, []).append(name)
    ready = [(keys[name], name) for name, count in left.items() if not count]
    heapify(ready)
    order: list[str] = []
    while ready:
        _, name = heappop(ready)
        order.append(name)
        for later in behind.get(name, ()):
            left[later] -= 1
            if not left[later]:
                heappush(ready, (keys[later], later))
    return order


def _ring(ahead: Mapping[str, Mapping[str, Wait]], done: Container[str], keys: Mapping[str, _Key]) -> list[Wait]:
    """A ring among the tasks that are not done, each waiting for the next, from the one that would come first."""
    name = min((one for one in ahead if one not in done), key=lambda one: keys[one])
    walked: dict[str, Wait] = {}
    while name not in walked:
        left = [wait for wait in ahead[name].values() if wait.earlier not in done]
        walked[name] = next((wait for wait in left if wait.firm), left[0])
        name = walked[name].earlier
    ring = list(walked.values())
    ring = ring[next(at for at, wait in enumerate(ring) if wait.later == name) :]
    first = min(range(len(ring)), key=lambda at: keys[ring[at].later])
    return [*ring[first:], *ring[:first]]


def _report_ring(ring: Sequence[Wait], named: Mapping[str, Task], findings: Findings) -> None:
    words = tuple(f"`{wait.later}` waits for `{wait.earlier}`: {wait.why}" for wait in ring)
    asked = [wait.asked for wait in ring if wait.asked is not None]
    if len(asked) == 1:
        order = asked[0]
        late, early = (order.thing, order.other) if order.order == "after" else (order.other, order.thing)
        findings.add(
            Finding(
                "out-of-reach",
                f"`{late.text}` can no longer be reached once `{early.text}` is done",
                order.span,
                others=tuple(Label(named[wait.later].span, "and this waits") for wait in ring if wait.asked is None),
                notes=words,
                help="drop this order; or part what is done in one go, such as a hem across a seam, piece by piece",
            )
        )
        return
    spans = [wait.asked.span if wait.asked else named[wait.later].span for wait in ring]
    findings.add(
        Finding(
            "order-ring",
            "these steps wait for each other",
            spans[0],
            others=tuple(Label(span, "and this") for span in spans[1:]),
            notes=words,
            help="drop one of the orders" if asked else "let one of the seams end at the joint instead of crossing it",
        )
    )


# ---- the maker's own steps


def _with_own(
    tasks: Sequence[Task], own: Sequence[nodes.Step], called: Mapping[str, str], loose: Container[str]
) -> list[Task]:
    """The tasks with the maker's own steps among them: each right before or after its anchor.

    Steps at one anchor keep the order in which they are written. A loose step leans on nothing.
    """
    before: dict[str, list[Task]] = {}
    after: dict[str, list[Task]] = {}
    for step in own:
        if step.anchor is not None and step.name.text not in loose:
            side = before if step.order == "before" else after
            side.setdefault(called[step.anchor.text], []).append(own_task(step))
    order: list[Task] = []
    waiting = [(task, False) for task in reversed(tasks)]
    while waiting:
        task, is_due = waiting.pop()
        if is_due:
            order.append(task)
            continue
        around = [*((one, False) for one in before.get(task.name, ())), (task, True)]
        around += [(one, False) for one in after.get(task.name, ())]
        waiting += reversed(around)
    return order


def _rings(own: Sequence[nodes.Step]) -> list[list[nodes.Step]]:
    """The rings in which steps lean on each other, each leaning on the next, from the first that is written."""
    steps = {step.name.text: step for step in own}
    met: set[str] = set()
    rings: list[list[nodes.Step]] = []
    for first in own:
        walked: list[nodes.Step] = []
        step: nodes.Step | None = first
        while step is not None and step.name.text not in met:
            met.add(step.name.text)
            walked.append(step)
            step = None if step.anchor is None else steps.get(step.anchor.text)
        if step is not None and step in walked:
            rings.append(walked[walked.index(step) :])
    return rings


def _loose(ring: Sequence[nodes.Step]) -> str:
    """The step of a ring whose order follows from those of the others, so that it need not lean on the next."""
    return next(
        step.name.text for before, step in zip([ring[-1], *ring], ring, strict=False) if before.order != step.order
    )


def _report_own_ring(ring: Sequence[nodes.Step], findings: Findings) -> None:
    back = ring if ring[0].order == "after" else [ring[0], *reversed(ring[1:])]
    words = " waits for ".join(f"`{step.name.text}`" for step in [*back, ring[0]])
    findings.add(
        Finding(
            "order-ring",
            "these steps wait for each other",
            ring[0].span,
            others=tuple(Label(step.span, "and this") for step in ring[1:]),
            notes=(words,),
            help="drop one of the orders",
        )
    )
