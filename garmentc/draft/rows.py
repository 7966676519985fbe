"""Rows of buttons and buttonholes at equal distances."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress

from garmentc.design.model import PiecePlan
from garmentc.design.texts import spoken
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import InnerLine, PlacedMark, PlacedRow
from garmentc.geometry.crossing import line_meetings
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import Point, dot, left, unit
from garmentc.numbers import decimal, length
from garmentc.syntax import nodes

_SHANK = (
    3.0  # mm that a buttonhole across the row reaches beyond its button, toward the edge; common practice, no source
)
_MOST = 200


def placed_rows(
    plan: PiecePlan, outline: Outline, moved: Callable[[Point], Point], values: Evaluator
) -> tuple[PlacedRow, ...]:
    """The rows of a piece with this outline; ``moved`` takes along what was moved after it was drawn."""
    found: list[PlacedRow] = []
    for node in plan.rows:
        with suppress(Poisoned):
            found.append(_placed(node, Scope(plan.name), outline, moved, values))
    return tuple(found)


def _placed(
    node: nodes.ButtonRow, scope: Scope, outline: Outline, moved: Callable[[Point], Point], values: Evaluator
) -> PlacedRow:
    first, last = (moved(values.value(expr, scope)) for expr in (node.first, node.last))
    count, size = float(values.value(node.number, scope)), float(values.value(node.size, scope))
    number = round(count)
    fault = ""
    if abs(count - number) > 1e-6 or not 1 <= number <= _MOST:
        fault = f"their number is {decimal(count)}: a whole number from 1 to {_MOST} is due"
    elif size <= 0:
        fault = f"their size is {length(size)}"
    elif number > 1 and abs(last - first) < 1e-6:
        fault = "the row begins where it ends"
    if not fault:
        step = (last - first) / (number - 1) if number > 1 else 0j
        places = tuple(first + i * step for i in range(number)) if number > 1 else ((first + last) / 2,)
        along = unit(last - first) if abs(last - first) > 1e-6 else 1j
        slits: tuple[Path, ...] = ()
        if node.kind == "buttonholes":
            out = _toward_edge((first + last) / 2, left(along), outline)
            slits = tuple(
                straight(at - along * size / 2, at + along * size / 2)
                if node.lengthwise
                else straight(at + out * _SHANK, at + out * (_SHANK - size))
                for at in places
            )
        ends = [*places, *(p for slit in slits for p in (slit.start, slit.end))]
        outside = next((p for p in ends if not outline.contains(p)), None)
        if outside is not None:
            at = f"({decimal(outside.real / 10, 1)} cm, {decimal(outside.imag / 10, 1)} cm)"
            fault = f"{at} lies outside the piece"
        elif number > 1 and abs(step) <= size and (not slits or node.lengthwise):
            fault = f"they are {length(size)} each, and {length(abs(step))} from one to the next"
    if fault:
        values.fault(
            "impossible-row",
            f"the row `{node.name.text}` of {node.kind} can't be made",
            node.span,
            notes=(fault,),
            help="a row begins and ends inside the piece, with room for each",
            subject=scope.piece or "",
        )
        raise Poisoned
    text = node.text.text if node.text else ""
    return PlacedRow(node.kind, node.name.text, size, places, slits, text, node.span)


def _toward_edge(at: Point, aside: complex, outline: Outline) -> complex:
    """Of the two ways across a row the one on which the edge of the piece is nearer."""
    ways = [dot(p - at, aside) for path in outline.edges for _, p in line_meetings(path, at, aside)]
    return aside if not ways or min(ways, key=abs) > 0 else -aside


def row_marks(rows: Iterable[PlacedRow]) -> tuple[PlacedMark, ...]:
    """A mark for each button; the first carries the words of its row."""
    return tuple(
        PlacedMark(f"{row.name}_{i}", at, _words(row), row.span, row.size, i > 1)
        for row in rows
        if row.kind == "buttons"
        for i, at in enumerate(row.places, start=1)
    )


def row_lines(rows: Iterable[PlacedRow]) -> tuple[InnerLine, ...]:
    """A line for each buttonhole; the first carries the words of its row."""
    return tuple(
        InnerLine("buttonhole", f"{row.name}_{i}", slit, _words(row), row.span, i > 1)
        for row in rows
        for i, slit in enumerate(row.slits, start=1)
    )


def _words(row: PlacedRow) -> str:
    return f"{row.text or spoken(row.name)}: {len(row.places)} × {length(row.size)}"
