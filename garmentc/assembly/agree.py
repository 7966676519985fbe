"""Whether the two sides of a seam are as long as each other, as a whole and from joint to joint."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from garmentc.assembly.chains import Stretch
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
    """By how much (mm) the first side is longer, how far that may be off, and how many times as long it is gathered."""

    amount: float
    within: float
    gathered: float = 0.0


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
    for side, wanted in ((first, second[-1].after + ease.amount), (second, first[-1].after - ease.amount)):
        for stretch in side:
            due = wanted - (side[-1].after - stretch.edge.sewn_length)
            for edge in spare(stretch.piece.name):
                if abs(edge.sewn_length - due) <= ease.within + _NEAR:
                    meant = (
                        f"`{stretch.piece.name}.{edge.name}`, which nothing uses, is {length(edge.sewn_length)} long"
                    )
                    return f"is `{stretch.name.text}` the right edge? {meant}"
    return "one of the edges may be the wrong one; else draw both sides by the same rule"


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
