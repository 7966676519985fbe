"""Cloths against sizes, and needs by size, as text, CSV and JSON."""

from __future__ import annotations

import csv
import io
import json
import math
from collections.abc import Iterator, Sequence

from garmentc.cloth.fit import FITS, JOINED, NOT, Fit, Need
from garmentc.numbers import decimal, exact, fixed
from garmentc.output.fits.model import FitTable, NeedTable
from garmentc.output.texts.speech import Voice

FIT_COLUMNS = ("cloth", "title", "part", "size", "verdict", "used", "joins", "why_not")
NEED_COLUMNS = ("size", "part", "wide_mm", "high_mm", "used", "ruled_out_mm")


def fits_text(tables: Sequence[FitTable]) -> str:
    """A grid of cloths against sizes, the largest size of each cloth, and what is short where."""
    return "\n\n".join("\n".join(_grid(table)) for table in tables)


def _grid(table: FitTable) -> Iterator[str]:
    part = f", its {table.part}" if table.is_named else ""
    yield f"{table.title}{part}: which cloth gives which size"
    wide = max(5, *(len(key) for key in table.cloths))
    cell = max(5, *(len(size) for size in table.sizes))
    yield f"  {'cloth':{wide}}  {'  '.join(f'{size:>{cell}}' for size in table.sizes)}   largest"
    for key in table.cloths:
        row = "  ".join(f"{shown(table.cells.get((key, size))):>{cell}}" for size in table.sizes)
        yield f"  {key:{wide}}  {row}   {table.largest(key) or 'none'}"
    yield ""
    yield "A share: it fits, and so much of the cloth is used; +1: with one join in a strip; no: it can't be, which is"
    yield f"proved; ?: no way was found in {decimal(table.limit, 1)} s; a dot: not looked at."
    for key, title in table.cloths.items():
        lines = list(_short(table, key))
        if lines:
            yield ""
            yield f"{title}:"
            yield from lines


def shown(cell: Fit | None) -> str:
    """A cell in a few signs."""
    if cell is None:
        return "."
    if cell.verdict == NOT:
        return "no"
    if cell.verdict in (FITS, JOINED):
        return f"{fixed(100 * cell.used, 0)}%" + (f"+{cell.joins}" if cell.joins else "")
    return "?"


def _short(table: FitTable, cloth: str) -> Iterator[str]:
    """What is short on a cloth, for the first and the last size that it does not give; the tables have all."""
    cells = [cell for size in table.sizes if (cell := table.cells.get((cloth, size))) is not None and cell.words]
    by_words: dict[str, list[str]] = {}
    for cell in cells[:: max(len(cells) - 1, 1)]:
        for words in cell.words:
            by_words.setdefault(words, []).append(cell.size)
    for words, sizes in by_words.items():
        yield f"  {' to '.join(sizes)}: {words}"


def fits_csv(tables: Sequence[FitTable]) -> str:
    """A row for each cloth and size; comma, CR LF, the names of the columns first."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(FIT_COLUMNS)
    for table in tables:
        for (key, size), cell in _cells(table):
            share = decimal(cell.used, 4) if cell.used else ""
            row = (key, table.cloths[key], table.part, size, cell.verdict, share, str(cell.joins))
            writer.writerow((*row, "; ".join(cell.words)))
    return text.getvalue()


def fits_json(tables: Sequence[FitTable]) -> str:
    """All cells as one document."""
    cells = [
        {
            "cloth": key,
            "title": table.cloths[key],
            "part": table.part,
            "size": size,
            "verdict": cell.verdict,
            "used": exact(cell.used),
            "joins": cell.joins,
            "why_not": list(cell.words),
        }
        for table in tables
        for (key, size), cell in _cells(table)
    ]
    document = {"format": "garmentc-fits", "version": 1, "garment": tables[0].name, "title": tables[0].title}
    return json.dumps(document | {"cells": cells}, ensure_ascii=False, indent=1) + "\n"


def _cells(table: FitTable) -> list[tuple[tuple[str, str], Fit]]:
    order = [(key, size) for key in table.cloths for size in table.sizes]
    return [(place, table.cells[place]) for place in order if place in table.cells]


def needs_text(table: NeedTable, voice: Voice) -> str:
    """A row for each size."""
    wide = max(4, *(len(one.size) for one in table.needs))
    edges = "raw edges" if table.hem is None else f"finished edges {voice.length(table.hem)} wide all round"
    what = "the smallest square" if table.width is None else f"the length of a cloth {voice.length(table.width)} wide"
    lines = [
        f"{table.title}: {what} from which each size was found to come, washed, single, with {edges}",
        f"  {'size':{wide}}  {'cloth':>16}  {'used':>5}  proved too small",
    ]
    for one in table.needs:
        size = f"{one.size:{wide}}" + (f"  {one.part}" if len({need.part for need in table.needs}) > 1 else "")
        if one.found == math.inf:
            lines.append(f"  {size}  {'none found':>16}  {'':>5}  {voice.length(one.ruled_out)}")
            continue
        shape = " by ".join(voice.length(side) for side in _sides(table, one.found))
        lines.append(f"  {size}  {shape:>16}  {fixed(100 * one.used, 0):>4}%  {voice.length(one.ruled_out)}")
    lines.append("Between the two a longer search (`--limit`) may still find a way.")
    return "\n".join(lines)


def _sides(table: NeedTable, found: float) -> tuple[float, float]:
    return (found, found) if table.width is None else (found, table.width)


def needs_csv(table: NeedTable) -> str:
    """A row for each size; lengths in mm."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(NEED_COLUMNS)
    for one in table.needs:
        writer.writerow((one.size, one.part, *_told(table, one), decimal(one.used, 4), decimal(one.ruled_out)))
    return text.getvalue()


def _told(table: NeedTable, one: Need) -> tuple[str, str]:
    if one.found == math.inf:
        return "", ""
    wide, high = _sides(table, one.found)
    return decimal(wide), decimal(high)


def needs_json(table: NeedTable) -> str:
    """All needs as one document; lengths in mm, null where no plan was found."""
    needs = [
        {
            "size": one.size,
            "part": one.part,
            "wide_mm": None if one.found == math.inf else exact(_sides(table, one.found)[0]),
            "high_mm": None if one.found == math.inf else exact(_sides(table, one.found)[1]),
            "used": exact(one.used),
            "ruled_out_mm": exact(one.ruled_out),
        }
        for one in table.needs
    ]
    document = {"format": "garmentc-needs", "version": 1, "garment": table.name, "title": table.title}
    return json.dumps(document | {"needs": needs}, ensure_ascii=False, indent=1) + "\n"
