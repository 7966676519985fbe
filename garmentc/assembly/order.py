"""The order of work: strips, what shapes flat pieces, edges that a seam will shut in, seams as listed, hems last."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence

from garmentc.assembly.model import FinishedEdge, Inserted, JoinedSeam, PlannedStep
from garmentc.assembly.notches import notch_words
from garmentc.assembly.takeups import FlatWork
from garmentc.assembly.turning import ENCLOSES
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.draft.model import DraftedPiece
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes

_STRIPS, _SHAPING, _FLAT, _SEAMS, _HEMS, _ROWS, _OWN = range(7)


class Task(Record):
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
    flat: Sequence[FlatWork],
    seams: Sequence[JoinedSeam],
    finishes: Sequence[FinishedEdge],
    own: Sequence[nodes.Step],
    findings: Findings,
) -> tuple[PlannedStep, ...]:
    """All steps in an order that works; a ring of orders is reported, and then there are no steps."""
    tasks = [_make_strip(strip) for strip in strips]
    tasks += [
        Task(work.name, work.title, "row" if work.last else "shaping", work.lines, rank, work.span)
        for work in flat
        for rank in (_ROWS if work.last else _SHAPING,)
    ]
    inside = _edges_shut_in(seams)
    tasks += [_finish(finish, inside) for finish in finishes]
    caught = dict.fromkeys((strip.name for strip in strips), 0)
    copies = {strip.name: strip.copies for strip in strips}
    tasks += [_sew(seam, copies, caught) for seam in seams]
    rings = _rings(own)
    waiting = [ring for ring in rings if len({step.order for step in ring}) == 1]
    for ring in waiting:
        _report_ring(ring, findings)
    if waiting:
        return ()
    order = _with_own(sorted(tasks, key=lambda task: task.rank), own, {_loose(ring) for ring in rings})
    return tuple(
        PlannedStep(number, task.name, task.title, task.about, task.lines, task.thing)
        for number, task in enumerate(order, start=1)
    )


def _with_own(tasks: Sequence[Task], own: Sequence[nodes.Step], loose: Container[str]) -> list[Task]:
    """The tasks with the maker's own steps among them: each right before or after its anchor, else at the end.

    Steps at one anchor keep the order in which they are written. A loose step leans on nothing.
    """
    known = {task.name for task in tasks} | {step.name.text for step in own}
    before: dict[str, list[Task]] = {}
    after: dict[str, list[Task]] = {}
    last: list[Task] = []
    for step in own:
        if step.anchor is None or step.anchor.text not in known or step.name.text in loose:
            last.append(_own(step))
        else:
            (before if step.order == "before" else after).setdefault(step.anchor.text, []).append(_own(step))
    order: list[Task] = []
    waiting = [(task, False) for task in reversed([*tasks, *last])]
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


def _report_ring(ring: Sequence[nodes.Step], findings: Findings) -> None:
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


def _edges_shut_in(seams: Iterable[JoinedSeam]) -> set[str]:
    """Pieces that an enclosed seam shuts inside the garment: their free edges are finished while still flat."""
    return {name.piece for seam in seams if seam.join.turning == ENCLOSES for name in seam.second}


def _own(step: nodes.Step) -> Task:
    """A step of the maker's own."""
    title = spoken(step.name.text)
    return Task(step.name.text, title[0].upper() + title[1:], "own", (step.text.text,), _OWN, step.span)


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
            f"Stitch {length(making.stitched)} from both long edges: it finishes {length(making.finished_width)} wide.",
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


def _sew(seam: JoinedSeam, copies: Mapping[str, int], caught: dict[str, int]) -> Task:
    """The sewing of a seam; ``caught`` counts the strips that a seam before has caught by one end."""
    lines = [work.text for work in seam.join.work]
    pinned = next((i for i, work in enumerate(seam.join.work) if work.word == "pin"), 0)
    before = [f"Fold the {piece} along its {spoken(fold)} fold, right sides together." for piece, fold in seam.folded]
    before += [words for words in (notch_words(seam),) if words]
    after = _eased(seam)
    for insert in seam.inserts:
        after.append(_catch(insert, copies[insert.strip], caught[insert.strip]))
        caught[insert.strip] += insert.places
    lines[pinned + 1 : pinned + 1] = after
    lines[pinned:pinned] = before
    if seam.times > 1:
        lines.insert(0, f"Do this {seam.times} times, left and right alike.")
    title = f"{seam.join.title}: {spoken(seam.name)}"
    return Task(seam.name, title, "seam", tuple(lines), _SEAMS, seam.span, seam)


def _eased(seam: JoinedSeam) -> list[str]:
    """How the longer side is brought to the length of the other."""
    if seam.gathered:
        return [
            f"Gather the first side from {length(seam.first_length)} to {length(seam.second_length)}: sew two rows of "
            "long stitches inside the allowance, draw up both lower threads, and spread the fullness evenly."
        ]
    if seam.ease:
        return [f"Ease in the {'first' if seam.ease > 0 else 'second'} side by {length(abs(seam.ease))}, evenly."]
    return []


def _catch(insert: Inserted, copies: int, caught: int) -> str:
    """How strips are put between the layers before the seam is stitched, when some were caught before."""
    where = f"at the {insert.point_name} of the {insert.piece_title}"
    which = f"each {insert.strip_title}"
    if insert.places < copies:
        which = f"a {insert.strip_title}" if insert.places == 1 else f"{insert.places} of the {insert.strip_title}"
    if insert.folded:
        return (
            f"Fold {which} in half and slip both its ends between the layers {where}, the ends level "
            "with the cut edges; pin them."
        )
    end = "the other end" if caught >= copies else "one end"
    return f"Slip {end} of {which} between the layers {where}, level with the cut edges; pin it."
