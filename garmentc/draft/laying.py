"""What is asked of how pieces lie on the cloth, with the numbers of one body."""

from __future__ import annotations

import math
from contextlib import suppress

from garmentc.design.model import Design, LayPlan
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import OFF_GRAIN, DraftedPiece, Laid, Motif
from garmentc.draft.pieces import Drafter
from garmentc.geometry.vector import Point, cross, dot, unit
from garmentc.numbers import degrees, length
from garmentc.syntax import nodes

_MOTIF_WITHIN = 10.0  # mm; common practice, no source
_NEAR = 0.05  # mm between a point and the corner it is taken for
_SQUARE = math.radians(0.5)  # how far from a right angle a corner may be that lies on the corner of a cloth


def laid(design: Design, drafter: Drafter) -> dict[str, Laid]:
    """The demands by piece or strip; a point that is no corner of its piece is reported (``not-a-corner``)."""
    found: dict[str, Laid] = {}
    for name, plan in design.lays.items():
        with suppress(Poisoned):
            found[name] = _laid(plan, drafter.piece(name), drafter.values)
    return found


def _laid(plan: LayPlan, piece: DraftedPiece, values: Evaluator) -> Laid:
    words = plan.grain.words if plan.grain else (piece.grain,)
    within = OFF_GRAIN
    if plan.grain is not None and plan.grain.within is not None:
        within = float(values.value(plan.grain.within))
    scope = Scope(None if piece.making else piece.name)
    joins, between = (0, (0.0, 0.0)) if plan.joins is None else _joins(plan.joins, piece, values)
    return Laid(
        tuple(dict.fromkeys(words)),
        within,
        plan.edges,
        tuple((ref.span.text, _corner(ref, piece, scope, values), ref.span) for ref in plan.corners),
        joins,
        between,
        tuple(
            Motif(
                motif.name.text,
                piece.placed(values.value(motif.at, scope)),
                _MOTIF_WITHIN if motif.within is None else float(values.value(motif.within, scope)),
                motif.span,
            )
            for motif in plan.motifs
        ),
        plan.matches,
        plan.mirrored,
        plan.layers,
        plan.cloth,
    )


def _joins(joins: nodes.LayJoins, piece: DraftedPiece, values: Evaluator) -> tuple[int, tuple[float, float]]:
    long = piece.making.length if piece.making else 0.0
    first = 0.0 if joins.first is None else values.amount(joins.first, long, Scope())
    last = long if joins.last is None else values.amount(joins.last, long, Scope())
    return joins.number, (first, last)


def _corner(ref: nodes.Ref, piece: DraftedPiece, scope: Scope, values: Evaluator) -> Point:
    """A point that is to lie on a corner of the cloth: a corner of the piece as it is cut, and a square one."""
    at = piece.placed(values.value(ref, scope))
    edges = piece.edges
    near = min(range(len(edges)), key=lambda i: abs(edges[i].path.start - at))
    before, after = edges[near - 1], edges[near]
    apart = abs(after.path.start - at)
    if apart > _NEAR:
        values.fault(
            "not-a-corner",
            f"`{ref.span.text}` is no corner of `{piece.name}`, so it can't lie on the corner of a cloth",
            ref.span,
            notes=(f"the nearest corner, between `{before.name}` and `{after.name}`, is {length(apart)} away",),
            help="name the point in which two edges of the outline meet",
            subject=piece.name,
        )
        raise Poisoned
    coming, going = unit(before.path.end_direction()), unit(after.path.start_direction())
    inside = math.pi - math.atan2(cross(coming, going), dot(coming, going))
    if before.on_fold or after.on_fold:
        inside *= 2  # what lies on the fold is opened out
    if abs(inside - math.pi / 2) > _SQUARE:
        values.fault(
            "not-a-corner",
            f"the corner of `{piece.name}` at `{ref.span.text}` is not square, as those of a cloth are",
            ref.span,
            others=(Label(after.span, "it begins here"),),
            notes=(f"it opens by {degrees(inside)}",),
            help="draw its two edges square to each other, or let only one edge lie on a finished edge",
            subject=piece.name,
        )
        raise Poisoned
    return at
