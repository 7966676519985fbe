"""Strips caught in seams: whether each lies on its seam, has room there, and is cut as often as it is caught."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import radians, sin

from garmentc.assembly.chains import Crossings, Stretch, is_corner
from garmentc.assembly.copies import Hands, Run
from garmentc.assembly.model import FinishedEdge, Inserted, JoinedSeam
from garmentc.assembly.runs import run_of
from garmentc.design.model import InsertPlan, SeamPlan
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.geometry.vector import CLOSE, dot, unit
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span

ON_SEAM = 1.0
"""How far the place of a strip may be from the seam (mm); common practice, no source."""
_NEAR = 0.05
"""A mark nearer than this (mm) to the place of a strip is its mark."""

Side = Sequence[Stretch]


class _Bound(Record):
    """A place that a strip must not reach across: how far along the side it lies, and what it is."""

    at: float
    what: str


def insert_strips(
    plan: SeamPlan,
    sides: tuple[Side, Side],
    sewn: Sequence[tuple[Run, Run]],
    draft: Draft,
    crossings: Crossings,
    hands: Hands,
    values: Evaluator,
    *,
    runs_on: bool,
) -> tuple[Inserted, ...]:
    """What a seam catches in which of its runs; a strip beside it, without room, or on top of another is reported.

    ``runs_on``: the seam goes on over the folds at its ends.
    """
    found: list[Inserted] = []
    for insert in plan.inserts:
        at = draft.piece(insert.piece).placed(values.value(insert.point, Scope(insert.piece)))
        near = [
            (off, along, stretch, which)
            for which, side in enumerate(sides)
            for stretch in side
            if stretch.piece.name == insert.piece
            for along, off in [stretch.edge.path.nearest(at)]
        ]
        if not near or min(off for off, *_ in near) > ON_SEAM:
            _report_beside(plan, insert, [off for off, *_ in near], values)
            continue
        _, along, stretch, which = min(near, key=lambda one: one[0])
        run = run_of(stretch, along)
        strip = draft.piece(insert.strip)
        bounds = _bounds(sides[which], crossings, plan.name, runs_on=runs_on)
        on_fold = any(abs(run - bound.at) <= CLOSE and bound.what == _FOLD for bound in bounds)
        caught = tuple(
            number
            for number, runs in enumerate(sewn)
            if on_fold or hands.is_meant(stretch.piece, insert.at, runs[which].leaf(stretch))
        )
        made = Inserted(
            insert.strip,
            strip.title,
            insert.folded,
            insert.inside,
            insert.piece,
            stretch.piece.title,
            spoken(insert.point.words[-1].text),
            next((mark.text for mark in stretch.piece.marks if abs(mark.at - at) < _NEAR), ""),
            insert.at,
            at,
            run,
            caught,
            on_fold,
            insert.span,
        )
        if _has_room(made, strip, bounds, values) and _is_clear(made, strip, found, draft, values):
            found.append(made)
    return tuple(found)


_FOLD = "the fold"


def _bounds(side: Side, crossings: Crossings, seam: str, *, runs_on: bool) -> list[_Bound]:
    """The ends of a side, where it does not close into a ring, the folds it runs on over, and its sharp corners."""
    bounds = [
        _Bound(one.after, f"the corner between `{one.name.text}` and `{other.name.text}`")
        for one, other in pairwise(side)
        if one.piece.name == other.piece.name and is_corner(one.direction(at_end=True), other.direction(at_end=False))
    ]
    start, end = side[0].corner(at_end=False), side[-1].corner(at_end=True)
    if crossings.together(end, start, seam):
        if start.piece.name == end.piece.name and is_corner(
            side[-1].direction(at_end=True), side[0].direction(at_end=False)
        ):
            what = f"the corner between `{side[-1].name.text}` and `{side[0].name.text}`"
            bounds += [_Bound(0.0, what), _Bound(side[-1].after, what)]
        return bounds
    for corner, stretch, at, at_end in ((start, side[0], 0.0, False), (end, side[-1], side[-1].after, True)):
        fold = next((edge for edge in corner.edges if edge.on_fold and runs_on), None)
        direction = stretch.direction(at_end=at_end)
        if fold is not None and abs(dot(direction, unit(fold.path.chord))) <= sin(radians(10)):
            bounds.append(_Bound(at, _FOLD))
        else:
            bounds.append(_Bound(at, "a corner on the fold" if fold is not None else "the end of the seam"))
    return bounds


def _has_room(insert: Inserted, strip: DraftedPiece, bounds: Sequence[_Bound], values: Evaluator) -> bool:
    width = _width(strip)
    for bound in bounds:
        gap = abs(insert.run - bound.at)
        if gap >= width / 2 - 1e-6 or (bound.what == _FOLD and gap <= CLOSE):
            continue
        values.fault(
            "insert-no-room",
            f"strip `{insert.strip}` has no room at the {insert.point_name} of the {insert.piece_title}",
            insert.span,
            notes=(
                f"the place is {length(gap)} from {bound.what}; half the finished width of the strip, "
                f"{length(width / 2)}, has to lie on either side",
            ),
            help=f"move the place along the edge by {length(width / 2 - gap)} or more, or make the strip narrower",
        )
        return False
    return True


def _is_clear(
    insert: Inserted, strip: DraftedPiece, before: Iterable[Inserted], draft: Draft, values: Evaluator
) -> bool:
    for other in before:
        needed = (_width(strip) + _width(draft.piece(other.strip))) / 2
        gap = abs(insert.run - other.run)
        if gap >= needed - 1e-6 or not set(insert.sewn) & set(other.sewn):
            continue
        values.fault(
            "inserts-overlap",
            f"strips `{other.strip}` and `{insert.strip}` lie on top of each other in the seam",
            insert.span,
            others=(Label(other.span, "one is caught here"),),
            notes=(f"their places are {length(gap)} apart; side by side they take {length(needed)}",),
            help="move one of them along the edge",
        )
        return False
    return True


def _report_beside(plan: SeamPlan, insert: InsertPlan, offs: Sequence[float], values: Evaluator) -> None:
    values.fault(
        "insert-off-seam",
        f"strip `{insert.strip}` is inserted where seam `{plan.name}` does not run",
        insert.span,
        notes=(f"it is {length(min(offs))} away" if offs else f"`{insert.piece}` is not in this seam",),
        help="name a point on one of the edges that the seam joins",
    )


def _width(strip: DraftedPiece) -> float:
    assert strip.making is not None
    return strip.making.finished_width


# ---- how many, and what becomes of their ends


def check_strips(
    draft: Draft, seams: Sequence[JoinedSeam], finishes: Iterable[FinishedEdge], values: Evaluator
) -> None:
    """Report strips that are cut more or less often than they are caught, and raw ends and sides of theirs."""
    finishes = tuple(finishes)
    for strip in draft.strips:
        plans = [one for seam in draft.design.seams.values() for one in seam.inserts if one.strip == strip.name]
        caught = [one for seam in seams for one in seam.inserts if one.strip == strip.name]
        finished = _finished(strip, finishes, values)
        if len(caught) < len(plans) or (caught and not _is_cut_as_caught(strip, caught, values)):
            continue
        if not caught and not finished and all(one.draw_of != strip.name for one in finishes):
            continue  # that nothing uses it is reported before
        _check_ends(strip, caught, finished.get("ends"), values)
        _check_sides(strip, finished.get("sides"), values)


def free_ends(strip: DraftedPiece, seams: Iterable[JoinedSeam]) -> int:
    """How many ends of all copies of a strip no seam catches."""
    caught = [one for seam in seams for one in seam.inserts if one.strip == strip.name]
    return 2 * strip.copies - sum(one.places * (2 if one.folded else 1) for one in caught)


def _finished(strip: DraftedPiece, finishes: Iterable[FinishedEdge], values: Evaluator) -> dict[str, Span]:
    """The parts of a strip that a finish names, and where."""
    found: dict[str, Span] = {}
    for name in (name for finish in finishes for name in finish.edges if name.piece == strip.name):
        if name.edge in found:
            _report_twice(f"`{name.text}` is finished twice", name.span, found[name.edge], "keep one", values)
        found.setdefault(name.edge, name.span)
    return found


def _is_cut_as_caught(strip: DraftedPiece, caught: Sequence[Inserted], values: Evaluator) -> bool:
    """Each place takes an end of a strip of its own, or strips are caught by both ends; a loop takes both at once."""
    loops = sum(one.places for one in caught if one.folded)
    ends = sum(one.places for one in caught if not one.folded)
    due = [loops + ends]
    if len([one for one in caught if not one.folded]) > 1 and ends % 2 == 0:
        due.append(loops + ends // 2)
    if strip.copies in due:
        return True
    needed = "1 is needed" if due[0] == 1 else f"{due[0]} are needed"
    both = f", or {due[1]} when each is caught by both ends" if len(due) > 1 else ""
    values.fault(
        "strips-unlike-places",
        f"strip `{strip.name}` is cut {_times(strip.copies)}, but {needed}{both}",
        strip.span,
        others=tuple(Label(one.span, f"caught {_times(one.places)}, at {_whose(one)}") for one in caught),
        help=_cut_as_caught(strip, caught, due),
    )
    return False


def _whose(insert: Inserted) -> str:
    is_one = insert.named.hand or insert.named.copy
    return insert.of_piece if is_one else f"each copy of the {insert.piece_title}"


def _cut_as_caught(strip: DraftedPiece, caught: Sequence[Inserted], due: Sequence[int]) -> str:
    if len(due) > 1:
        return f"write `cut {due[1]}` or `cut {due[0]}`"
    help = f"write `cut {due[0]}`"
    if due == [2] and strip.copies == 1 and len(caught) == 1 and not caught[0].folded:
        where = f"insert {strip.name} at {{}} {caught[0].piece}.{caught[0].point_name.replace(' ', '_')}"
        help += f"; one that reaches from side to side: {where.format('left')} and {where.format('right')}"
    return help


def _check_ends(strip: DraftedPiece, caught: Sequence[Inserted], finished: Span | None, values: Evaluator) -> None:
    free = 2 * strip.copies - sum(one.places * (2 if one.folded else 1) for one in caught)
    if free and finished is None and not strip.is_bought:
        raw = f"an end of strip `{strip.name}` is" if free == 1 else f"{free} ends of strip `{strip.name}` are"
        values.fault(
            "raw-strip",
            f"{raw} left raw",
            strip.span,
            help=f"say what becomes of them: finish {strip.name}.ends as tucked_in",
            severity=Severity.WARNING,
            subject="ends",
        )
    if not free and finished is not None:
        _report_twice(f"no end of strip `{strip.name}` is free", finished, caught[0].span, "drop the finish", values)


def _check_sides(strip: DraftedPiece, finished: Span | None, values: Evaluator) -> None:
    assert strip.making is not None
    is_flat = strip.making.way == "flat"
    if is_flat and finished is None:
        values.fault(
            "raw-strip",
            f"the sides of strip `{strip.name}` are left raw",
            strip.span,
            help=f"say what becomes of them: finish {strip.name}.sides as overedged; or make it a tube",
            severity=Severity.WARNING,
            subject="sides",
        )
    if not is_flat and finished is not None:
        headline = (
            f"the sides of strip `{strip.name}` are finished as it is bought"
            if strip.is_bought
            else f"the sides of strip `{strip.name}` lie inside it once it is made up"
        )
        _report_twice(headline, finished, strip.span, "drop the finish, or write `make flat`", values)


def _report_twice(headline: str, span: Span, other: Span, help: str, values: Evaluator) -> None:
    values.fault("edge-used-twice", headline, span, others=(Label(other, "used here"),), help=help)


def _times(number: int) -> str:
    return "once" if number == 1 else f"{number} times"
