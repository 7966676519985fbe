"""Cuts a piece down to what is kept of it, and grows on what is mirrored over an edge."""

from __future__ import annotations

from collections.abc import Callable
from typing import NoReturn

from garmentc.design.model import PiecePlan
from garmentc.diagnostics.finding import Label
from garmentc.draft.clip import grow_over, keep_side, keep_within
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import TakeUp
from garmentc.draft.reshape import Ring
from garmentc.draft.shaping import Shaped
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.outline import Outline
from garmentc.geometry.vector import Point
from garmentc.numbers import decimal, length
from garmentc.source import Span
from garmentc.syntax import nodes

_ON = 0.01  # mm; a tip nearer than this to an edge lies on it
_WORDS = {
    "side-unclear": "the line runs the way that is kept, so it has no such side",
    "cuts-nothing": "the line does not cut the piece",
    "falls-apart": "this leaves the piece in more than one part",
    "loses-the-fold": "the part does not hold the whole edge it is mirrored over",
    "not-straight": "a straight edge or line is due here, and this is a curve",
    "edges-apart": "these edges do not follow each other, or are all that the piece has",
    "too-tight": "the edge is too tight for a band of this width",
    "no-meeting": "the edges turn too sharply for a band of this width",
}


def cut_down(plan: PiecePlan, shaped: Shaped, values: Evaluator) -> Shaped:
    """What is left of a piece after its `keep` lines; raises Poisoned after a fault."""
    for keep in plan.keeps:
        whole, shaped = shaped, shaped.with_ring(_kept(shaped.ring, keep, values, Scope(plan.name)))
        outline = Outline(tuple(edge.path for edge in shaped.ring))
        for dart in whole.takeups:
            if dart.kind != "dart" or dart in shaped.takeups:
                continue
            mouth = [min(edge.nearest(end)[1] for edge in outline.edges) < _ON for end in (dart.first, dart.second)]
            if mouth[0] != mouth[1]:
                _cut_through(plan, dart, keep, "the cut runs through its mouth", values)
            elif not any(mouth) and _holds(outline, dart.tip):
                _cut_through(plan, dart, keep, "its mouth is cut away, and its tip is left", values)
    return shaped


def _cut_through(plan: PiecePlan, dart: TakeUp, keep: nodes.Keep, note: str, values: Evaluator) -> NoReturn:
    values.fault(
        "dart-cut-through",
        f"the {dart.title} of `{plan.name}` can't be cut here",
        keep.span,
        others=(Label(dart.span, "the dart"),),
        notes=(note,),
        help="cut clear of it or at its tip, or move it away before: pivot, in the piece this one is taken from",
        subject=plan.name,
    )
    raise Poisoned


def _kept(ring: Ring, keep: nodes.Keep, values: Evaluator, scope: Scope) -> Ring:
    """What `keep` leaves of a ring; raises Poisoned after a fault."""
    value = values.value(keep.line, scope)
    if not keep.edges:
        return _tried(lambda: keep_side(ring, value, keep.side, keep.name.text), keep.span, values)
    names = [ref.words[-1].text for ref in keep.edges]
    for name, ref in zip(names, keep.edges, strict=True):
        if all(edge.name != name for edge in ring):
            values.fault(
                "edge-cut-away",
                f"edge `{name}` of `{scope.piece}` is cut away",
                ref.span,
                notes=(f"what is left: {', '.join(edge.name for edge in ring)}",),
            )
            raise Poisoned
    if value <= 0:
        values.fault("impossible-keep", "a band has some width", keep.line.span, notes=(f"it is {length(value)}",))
        raise Poisoned
    return _tried(lambda: keep_within(ring, names, value, keep.name.text), keep.span, values)


def grown(ring: Ring, part: nodes.Grow, values: Evaluator, scope: Scope) -> Ring:
    """A ring with a part of it mirrored over one of its edges; raises Poisoned after a fault."""
    keep = part.keep
    line = values.value(keep.line, scope)
    return _tried(
        lambda: grow_over(ring, part.across.text, line, keep.side, part.name.text, keep.name.text), part.span, values
    )


def check_darts(plan: PiecePlan, shaped: Shaped, values: Evaluator) -> None:
    """Report darts whose tips were cut away and that were not closed."""
    outline = Outline(tuple(edge.path for edge in shaped.ring))
    for dart in shaped.takeups:
        if dart.kind != "dart" or _holds(outline, dart.tip):
            continue
        values.fault(
            "dart-cut-through",
            f"the cut takes the tip of the {dart.title} off `{plan.name}`",
            plan.keeps[-1].span,
            notes=("what is left of the dart runs from edge to edge, and would be sewn up to nothing",),
            help=f"lay it together in the paper: close {dart.name}",
            subject=plan.name,
        )
        raise Poisoned


def _holds(outline: Outline, p: Point) -> bool:
    return outline.contains(p) and all(edge.nearest(p)[1] > _ON for edge in outline.edges)


def _tried(cut: Callable[[], Ring], span: Span, values: Evaluator) -> Ring:
    try:
        return cut()
    except GeometryFault as fault:
        _refuse(fault, span, values)


def _refuse(fault: GeometryFault, span: Span, values: Evaluator) -> NoReturn:
    at = f"({decimal(fault.at.real / 10, 1)} cm, {decimal(fault.at.imag / 10, 1)} cm)"
    numbers = [f"{name} {length(value)}" for name, value in fault.numbers.items()]
    words = _WORDS.get(fault.reason, "this can't be cut so")
    values.fault("impossible-keep", words, span, notes=(", ".join([*numbers, f"at {at}"]),))
    raise Poisoned
