"""The technical sheet as text in columns: a table of numbers by size, then how each is measured."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from garmentc.design import kinds as k
from garmentc.draft.shown import shown_as
from garmentc.numbers import decimal, fixed
from garmentc.output.measure.model import GROUPS, Measured, SizeMeasures, rows_of
from garmentc.output.texts.speech import INCH, fraction

_WIDEST = 118  # characters; sizes that don't fit go below
_MISSING = "–"
_LONGEST = 60  # characters of a title beside its numbers


def measure_text(title: str, sizes: Sequence[SizeMeasures], *, inches: bool = False) -> str:
    """All groups that hold something, without a line end at the end; lengths in cm, areas in cm², or in inches."""
    units = "Lengths in inches, areas in square inches" if inches else "Lengths in cm, areas in cm²"
    lines = [
        f"{title}: what it measures when it is finished",
        f"{units}; ± is how far the finished garment may be off.",
    ]
    things = [(next(filter(None, row)), row) for row in rows_of(sizes)]
    for group, heading in GROUPS.items():
        rows = [row for first, row in things if first.group == group]
        if rows:
            lines += ["", heading, *_table(sizes, rows, inches)]
    lines += ["", "How it is measured"]
    for group, heading in GROUPS.items():
        lines += _how(heading, [first for first, _ in things if first.group == group])
    lines += ["", "How far it may be off is common practice, without a source: lay it down with whoever sews."]
    return "\n".join(lines)


def _how(heading: str, things: Sequence[Measured]) -> Iterator[str]:
    """How the things of a group are measured: in one line when all are alike."""
    if len(things) > 1 and len({one.how for one in things}) == 1:
        yield f"  {heading}: {things[0].how}"
    else:
        yield from (f"  {one.title}: {one.how}" for one in things)


def _table(sizes: Sequence[SizeMeasures], rows: Sequence[tuple[Measured | None, ...]], inches: bool) -> Iterator[str]:
    titles = [_short(next(filter(None, row)).title) for row in rows]
    texts = [[_MISSING if one is None else _shown(one, inches) for one in row] for row in rows]
    offs = [_off(row, inches) for row in rows]
    wide = max(len(title) for title in titles)
    cell = 2 + max(len(text) for text in (*(size.size for size in sizes), *(text for row in texts for text in row)))
    fit = max(1, (_WIDEST - wide - 10) // cell)
    blocks = math.ceil(len(sizes) / fit)
    fit = math.ceil(len(sizes) / blocks)
    for start in range(0, len(sizes), fit):
        shown = slice(start, start + fit)
        head = "".join(size.size.rjust(cell) for size in sizes[shown])
        yield f"  {'':{wide}}{head}{'±':>8}".rstrip()
        for title, row, off in zip(titles, texts, offs, strict=True):
            yield f"  {title:{wide}}{''.join(text.rjust(cell) for text in row[shown])}{off:>8}".rstrip()


def _short(title: str) -> str:
    return title if len(title) <= _LONGEST else title[: _LONGEST - 1].rstrip() + "…"


def _shown(one: Measured, inches: bool) -> str:
    if one.kind == k.LENGTH:
        return _length(one.value, inches)
    if one.kind == k.AREA:
        return decimal(one.value / (INCH * INCH if inches else 100.0), 0)
    return shown_as(one.value, one.kind)


def _off(row: Sequence[Measured | None], inches: bool) -> str:
    """The tolerance: that of the largest size."""
    offs = [one.tolerance for one in row if one is not None and one.tolerance is not None]
    return _length(max(offs), inches) if offs else ""


def _length(mm: float, inches: bool) -> str:
    return fraction(mm / INCH, 16) if inches else fixed(mm / 10.0, 1)
