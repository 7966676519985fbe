"""The order of work: strips, then edges that a seam will shut in, seams as the spec lists them, hems last."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from heapq import heappop, heappush
from typing import NamedTuple

from garmentc.assembly.model import FinishedEdge, Inserted, JoinedSeam, PlannedStep
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.draft.model import DraftedPiece
from garmentc.numbers import length
from garmentc.source import Span
from garmentc.syntax import nodes

_STRIPS, _FLAT, _SEAMS, _HEMS, _OWN = range(5)


class Task(NamedTuple):
    """Something to do, before it has a number. ``rank`` orders tasks that nothing else orders."""

    name: str
    title: str
    about: str
    lines: tuple[str, ...]
    rank: int
    span: Span
    thing: DraftedPiece | JoinedSeam | FinishedEdge | None = None


def plan_steps(
    strips: Sequence[DraftedPiece],
    seams: Sequence[JoinedSeam],
    finishes: Sequence[FinishedEdge],
    own: Sequence[nodes.Step],
    findings: Findings,
) -> tuple[PlannedStep, ...]:
    """All steps in an order that works; a ring of orders is reported, and then there are no steps."""
    tasks = [_make_strip(strip) for strip in strips]
    inside = _edges_shut_in(seams)
    tasks += [_finish(finish, inside) for finish in finishes]
    tasks += [_sew(seam) for seam in seams]
    ranks = {task.name: task.rank for task in tasks}
    tasks += [_own(step, ranks) for step in own]
    names = {task.name: i for i, task in enumerate(tasks)}
    needs: list[set[int]] = [set() for _ in tasks]
    for seam in seams:
        needs[names[seam.name]] |= {names[insert.strip] for insert in seam.inserts if insert.strip in names}
    for step in own:
        if step.anchor is None or step.anchor.text not in names:
            continue
        here, anchor = names[step.name.text], names[step.anchor.text]
        if step.order == "before":
            needs[anchor].add(here)
        else:
            needs[here].add(anchor)
    order = _sorted(tasks, needs)
    if len(order) < len(tasks):
        _report_ring(tasks, needs, set(range(len(tasks))) - set(order), findings)
        return ()
    return tuple(
        PlannedStep(number, tasks[i].name, tasks[i].title, tasks[i].about, tasks[i].lines, tasks[i].thing)
        for number, i in enumerate(order, start=1)
    )


def _sorted(tasks: Sequence[Task], needs: Sequence[set[int]]) -> list[int]:
    """The tasks, each after those it needs; among those free to come next the lowest rank, then the spec's order.

    A step of the maker's own follows its anchor at once.
    """
    waiting = [set(need) for need in needs]
    ready: list[tuple[int, int]] = []
    order: list[int] = []
    last = -1

    def rank(i: int) -> int:
        return -1 if tasks[i].about == "own" and last in needs[i] else tasks[i].rank

    free = {i for i, need in enumerate(waiting) if not need}
    while free:
        ready.clear()
        for i in free:
            heappush(ready, (rank(i), i))
        last = heappop(ready)[1]
        order.append(last)
        free.discard(last)
        for i, need in enumerate(waiting):
            if last in need:
                need.discard(last)
                if not need:
                    free.add(i)
    return order


def _report_ring(tasks: Sequence[Task], needs: Sequence[set[int]], stuck: set[int], findings: Findings) -> None:
    at = min(stuck)
    walked: list[int] = []
    while at not in walked:
        walked.append(at)
        at = min(needs[at] & stuck)
    ring = walked[walked.index(at) :]
    words = " waits for ".join(f"`{tasks[i].name}`" for i in [*ring, ring[0]])
    findings.add(
        Finding(
            "order-ring",
            "these steps wait for each other",
            tasks[ring[0]].span,
            others=tuple(Label(tasks[i].span, "and this") for i in ring[1:]),
            notes=(words,),
            help="drop one of the orders",
        )
    )


def _edges_shut_in(seams: Iterable[JoinedSeam]) -> set[str]:
    """Pieces that an enclosed seam shuts inside the garment: their free edges are finished while still flat."""
    return {name.piece for seam in seams if seam.join.name == "enclosed" for name in seam.second}


def _own(step: nodes.Step, ranks: Mapping[str, int]) -> Task:
    """A step of the maker's own; one that comes before something comes as early as that."""
    rank = _OWN
    if step.order == "before" and step.anchor is not None:
        rank = ranks.get(step.anchor.text, _OWN)
    title = spoken(step.name.text)
    return Task(step.name.text, title[0].upper() + title[1:], "own", (step.text.text,), rank, step.span)


def _make_strip(strip: DraftedPiece) -> Task:
    making = strip.making
    assert making is not None
    if making.way == "tube":
        how: tuple[str, ...] = (
            f"Fold it lengthwise, right sides together, and stitch {length(making.stitched)} from the long edges.",
            "Trim the allowance to 3 mm where it is wider, so that it turns.",
            f"Turn it right side out and press with the seam along one side: it finishes "
            f"{length(making.finished_width)} wide.",
        )
    elif making.way == "quartered":
        how = (
            "Press both long edges to the middle, wrong sides together, then fold in half and press.",
            f"Stitch 2 mm from both long edges: it finishes {length(making.finished_width)} wide.",
        )
    else:
        how = ("It is used flat, as cut.",)
    title = f"Make {strip.copies} of the {strip.title}" if strip.copies > 1 else f"Make the {strip.title}"
    return Task(strip.name, title, "strip", how, _STRIPS, strip.span, strip)


def _finish(finish: FinishedEdge, inside: set[str]) -> Task:
    pieces = {name.piece for name in finish.edges}
    title = f"{finish.join.title}: {finish.words}"
    rank = _HEMS if finish.join.folds or not pieces <= inside else _FLAT
    lines = tuple(work.text for work in finish.join.work)
    name = "finish " + ", ".join(name.text for name in finish.edges)
    return Task(name, title, "finish", lines, rank, finish.span, finish)


def _sew(seam: JoinedSeam) -> Task:
    lines = [work.text for work in seam.join.work]
    pinned = next((i for i, work in enumerate(seam.join.work) if work.word == "pin"), 0)
    before = [f"Fold the {piece} along its {spoken(fold)} fold, right sides together." for piece, fold in seam.folded]
    after = [f"Ease in the {'first' if seam.ease > 0 else 'second'} side by {length(abs(seam.ease))}, evenly."]
    after = after if seam.ease else []
    caught: set[str] = set()
    for insert in seam.inserts:
        after.append(_catch(insert, insert.strip in caught))
        caught.add(insert.strip)
    lines[pinned + 1 : pinned + 1] = after
    lines[pinned:pinned] = before
    if seam.times > 1:
        lines.insert(0, f"Do this {seam.times} times, left and right alike.")
    title = f"{seam.join.title}: {spoken(seam.name)}"
    return Task(seam.name, title, "seam", tuple(lines), _SEAMS, seam.span, seam)


def _catch(insert: Inserted, again: bool) -> str:
    """How a strip is put between the layers before the seam is stitched."""
    where = f"at the {insert.point_name} of the {insert.piece_title}"
    if insert.folded:
        return (
            f"Fold each {insert.strip_title} in half and slip both its ends between the layers {where}, the ends level "
            "with the cut edges; pin them."
        )
    end = "the other end" if again else "one end"
    return f"Slip {end} of each {insert.strip_title} between the layers {where}, level with the cut edges; pin it."
