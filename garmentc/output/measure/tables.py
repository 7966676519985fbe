"""The technical sheet for programs: as CSV, one number in each row, and as JSON."""

from __future__ import annotations

import json
from collections.abc import Sequence

from garmentc.numbers import decimal, exact
from garmentc.output.measure.model import Measured, SizeMeasures, rows_of, unit_of

COLUMNS = ("group", "name", "title", "size", "value", "unit", "tolerance_mm", "how")
FORMAT = "garmentc-measures"


def measure_csv(sizes: Sequence[SizeMeasures]) -> str:
    """Comma, CR LF, the names of the columns first; ``value`` is in mm or mm², as ``unit`` says."""
    import csv
    import io

    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    for row in rows_of(sizes):
        for size, one in zip(sizes, row, strict=True):
            if one is not None:
                writer.writerow(_row(size.size, one))
    return text.getvalue()


def _row(size: str, one: Measured) -> tuple[str, ...]:
    off = "" if one.tolerance is None else decimal(one.tolerance)
    return one.group, one.name, one.title, size, decimal(one.value), unit_of(one.kind), off, one.how


def measure_json(name: str, title: str, sizes: Sequence[SizeMeasures]) -> str:
    """One object for each thing that is measured, with its values and tolerances by size; lengths in mm."""
    things = []
    for measured in rows_of(sizes):
        row = [(size.size, one) for size, one in zip(sizes, measured, strict=True) if one is not None]
        first = row[0][1]
        thing: dict[str, object] = {
            "group": first.group,
            "name": first.name,
            "title": first.title,
            "how": first.how,
            "kind": first.kind.name,
            "unit": unit_of(first.kind),
            "values": {size: exact(one.value) for size, one in row},
        }
        if first.tolerance is not None:
            thing["tolerances_mm"] = {size: one.tolerance for size, one in row}
        things.append(thing)
    document = {"format": FORMAT, "version": 1, "garment": name, "title": title, "measures": things}
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"
