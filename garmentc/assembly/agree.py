"""Whether the two sides of a seam are as long as each other, as a whole and from joint to joint."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.model import JoinedSeam
from garmentc.design.model import SeamPlan
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedEdge
from garmentc.numbers import decimal, length
from garmentc.record import Record

_NEAR = 1e-6
_SMALL = 0.05
"""A gap below this share of a side is one to ease in; a larger one hints at a wrong edge (no source)."""

Side = Sequence[Stretch]
Spare = Callable[[str], Sequence[DraftedEdge]]
"""The edges of a piece that nothing uses."""


class Ease(Record):
    """By how much (mm) the first side is longer, and how far that may be off.

    ``gathered`` is how many times as long it is when it is gathered, ``stretched`` how many times its length it gets
    when it is stretched; else they are 0.
    """

    amount: float
    within: float
    gathered: float = 0.0
    stretched: float = 0.0


def agree(plan: SeamPlan, first: Side, second: Side, ease: Ease, spare: Spare, values: Evaluator) -> None:
    """Report sides that differ by more than the ease; sides that agree are held against each other at their joints."""
    off = first[-1].after - second[-1].after - ease.amount
    if abs(off) <= ease.within + _NEAR:
        _agree_at_joints(plan, first, second, ease, values)
        return
    declared = f", the declared ease is {length(ease.amount)}" if ease.amount else ""
    if ease.gathered:
        declared = (
            f"; gathered {decimal(ease.gathered, 2)} times, the first side is due to be longer by {length(ease.amount)}"
        )
    if ease.stretched:
        by = length(-ease.amount)
        declared = f"; stretched {decimal(ease.stretched, 2)} times, the first side is due to be shorter by {by}"
    chains = [_sum(side) for side in (first, second) if len(side) > 1]
    values.fault(
        "seam-lengths-differ",
        f"the two sides of seam `{plan.name}` differ by {length(abs(first[-1].after - second[-1].after))}",
        plan.span,
        others=tuple(
            Label(stretch.edge.span, f"`{stretch.name.text}` is {length(stretch.edge.sewn_length)} long")
            for stretch in (*first, *second)
        ),
        notes=(*chains, f"they may differ by {length(ease.within)}{declared}"),
        help=_help(first, second, ease, spare),
    )


def _sum(side: Side) -> str:
    parts = " + ".join(f"`{stretch.name.text}` {length(stretch.edge.sewn_length)}" for stretch in side)
    return f"{parts} = {length(side[-1].after)}"


def _help(first: Side, second: Side, ease: Ease, spare: Spare) -> str:
    gap = first[-1].after - second[-1].after
    if abs(gap) <= _SMALL * max(first[-1].after, second[-1].after):
        return f"draw both sides by the same rule, or declare the difference: {{ ease {decimal(gap, 1)} mm }}"
    for stretch, due in dues(first, second, ease.amount):
        for piece in _pieces(stretch, first, second):
            for edge in spare(piece):
                if abs(edge.sewn_length - due) <= ease.within + _NEAR:
                    return right_edge(stretch.name.text, piece, edge)
    for side, missing in ((second, gap - ease.amount), (first, ease.amount - gap)):
        for piece in dict.fromkeys(stretch.piece.name for stretch in side):
            for edge in spare(piece):
                if abs(edge.sewn_length - missing) <= ease.within + _NEAR:
                    return f"does the shorter side go on with `{piece}.{edge.name}`, which nothing uses?"
    return "one of the edges may be the wrong one; else draw both sides by the same rule"


def _pieces(stretch: Stretch, *sides: Side) -> list[str]:
    """The pieces of a seam by name, that of the stretch first."""
    return list(dict.fromkeys([stretch.piece.name, *(one.piece.name for side in sides for one in side)]))


def dues(first: Side, second: Side, ease: float) -> Iterator[tuple[Stretch, float]]:
    """Each edge of a seam, and how long (mm) it would be if the others were right."""
    for side, wanted in ((first, second[-1].after + ease), (second, first[-1].after - ease)):
        for stretch in side:
            yield stretch, wanted - (side[-1].after - stretch.edge.sewn_length)


def right_edge(named: str, piece: str, edge: DraftedEdge) -> str:
    """Asks whether another edge is meant, which nothing uses and which is as long as the one named has to be."""
    meant = f"`{piece}.{edge.name}`, which nothing uses, is {length(edge.sewn_length)} long"
    return f"is `{named}` the right edge? {meant}"


def explained(seam: JoinedSeam, spare: Spare) -> Iterator[tuple[str, str]]:
    """The unused edges, as piece and edge, that a seam whose sides differ would make agree: it leaves them raw."""
    first, second = seam.sides
    off = first[-1].after - second[-1].after - seam.ease
    if abs(off) <= seam.within + _NEAR:
        return
    due = [
        (piece, long) for stretch, long in dues(first, second, seam.ease) for piece in _pieces(stretch, first, second)
    ]
    due += [(stretch.piece.name, abs(off)) for stretch in (second if off > 0 else first)]
    for piece, long in due:
        for edge in spare(piece):
            if abs(edge.sewn_length - long) <= seam.within + _NEAR:
                yield piece, edge.name


def _agree_at_joints(plan: SeamPlan, first: Side, second: Side, ease: Ease, values: Evaluator) -> None:
    """Where as many edges follow each other on both sides, each joint meets its partner; ease may lie anywhere."""
    if len(first) != len(second):
        return
    least, most = min(0.0, ease.amount) - ease.within, max(0.0, ease.amount) + ease.within
    for one, other, next_one, next_other in zip(first, second, first[1:], second[1:], strict=False):
        if least - _NEAR <= one.after - other.after <= most + _NEAR:
            continue
        values.fault(
            "joints-apart",
            f"the joints of seam `{plan.name}` miss each other by {length(abs(one.after - other.after))}",
            next_one.name.span,
            label=f"begins after {length(one.after)}",
            others=(Label(next_other.name.span, f"begins after {length(other.after)}"),),
            notes=(
                f"`{one.name.text}` ends after {length(one.after)}, `{other.name.text}` after {length(other.after)}; "
                f"they may differ by {length(ease.within)} beside the ease",
            ),
            help=_other_order(first, second, least, most)
            or "draw the edges before the joint by the same rule, or join them by seams of their own",
        )
        return


def _other_order(first: Side, second: Side, least: float, most: float) -> str:
    run, aside = 0.0, 0.0
    for one, other in zip(first, reversed(second), strict=True):
        run, aside = run + one.edge.sewn_length, aside + other.edge.sewn_length
        if not least - _NEAR <= run - aside <= most + _NEAR:
            return ""
    return f"name the second side from its other end: {' then '.join(other.name.text for other in reversed(second))}"
