"""Lines at which a piece is made longer or shorter: each runs from edge to edge, square to what lies on the fold."""

from __future__ import annotations

from math import asin

from garmentc.design.model import PiecePlan
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.functions import InfiniteLine, as_line
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import DraftedEdge, InnerLine
from garmentc.geometry.crossing import line_meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.path import straight
from garmentc.geometry.vector import Point, dot
from garmentc.numbers import degrees
from garmentc.syntax import nodes

_SAME = 0.01  # mm; meetings nearer than this are one, at a corner
_SQUARE = 0.0009  # cosine; a twentieth of a degree


def lengthen_lines(plan: PiecePlan, edges: tuple[DraftedEdge, ...], values: Evaluator) -> tuple[InnerLine, ...]:
    """The lines of a piece whose outline these are; what can't be one is reported."""
    found: list[InnerLine] = []
    for one in plan.lengthens:
        try:
            line = as_line(values.value(one.at, Scope(plan.name)))
        except Poisoned:
            continue
        except GeometryFault as fault:
            values.impossible(fault, one.at.span)
            continue
        ends = _ends(edges, line)
        if _is_clear(plan, one, edges, line, ends, values):
            text = one.text.text if one.text else ""
            found.append(InnerLine("lengthen", one.name.text, straight(ends[0], ends[1]), text, one.span))
    return tuple(found)


def _ends(edges: tuple[DraftedEdge, ...], line: InfiniteLine) -> list[Point]:
    """Where a line meets the outline, from its beginning on."""
    met = [point for edge in edges for _, point in line_meetings(edge.path, line.at, line.direction)]
    found: list[Point] = []
    for point in sorted(met, key=lambda p: dot(p - line.at, line.direction)):
        if not found or abs(point - found[-1]) > _SAME:
            found.append(point)
    return found


def _is_clear(
    plan: PiecePlan,
    one: nodes.Lengthen,
    edges: tuple[DraftedEdge, ...],
    line: InfiniteLine,
    ends: list[Point],
    values: Evaluator,
) -> bool:
    if len(ends) != 2:
        values.fault(
            "unclear-lengthening",
            f"`{one.name.text}` does not part the piece `{plan.name}` in two",
            one.at.span,
            notes=(f"places where the line meets the outline: {len(ends)}; two are due",),
            help="lay it where it crosses the whole piece once, clear of hollow edges",
        )
        return False
    for edge in edges:
        aside = abs(dot(line.direction, edge.path.start_direction()))
        if edge.on_fold and aside > _SQUARE and any(edge.path.nearest(end)[1] < _SAME for end in ends):
            values.fault(
                "unclear-lengthening",
                f"`{one.name.text}` is not square to the fold",
                one.at.span,
                others=(Label(edge.span, "lies on the fold"),),
                notes=(f"it is {degrees(asin(min(aside, 1.0)))} off",),
                help="the parts of the pattern are moved along the fold: let the line cross it at a right angle",
            )
            return False
    return True
