"""The length of cloth by the metre that each size needs, as text, CSV and JSON."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Sequence

from garmentc.cloth.metre import MetreNeed, Roll, Stretch
from garmentc.numbers import decimal, exact, fixed, length, percent
from garmentc.record import Record

COLUMNS = ("size", "cloth", "width_mm", "laid", "length_mm", "least_mm", "used", "why_not")
FORMAT = "garmentc-metre"


class MetreTable(Record):
    """What is told: of which garment, on what cloth, and what each size needs of each of its cloths."""

    garment: str
    title: str
    roll: Roll
    needs: tuple[MetreNeed, ...]


def metre_text(table: MetreTable) -> str:
    """A row for each size and cloth, without a line end at the end."""
    roll = table.roll
    laid = "folded lengthwise in half, right sides together" if roll.is_folded else "single, right side up"
    lines = [f"{table.title}: cloth by the metre", f"{roll.cloth.title}, {length(roll.cloth.width)} wide, {laid}."]
    washed = roll.flat.shrunk
    if min(washed) < 1.0:
        lines.append(
            f"Wash it first: it shrinks by {percent(1 - washed[0])} along and {percent(1 - washed[1])} across, which "
            "the lengths to buy allow for."
        )
    if roll.cloth.is_one_way:
        lines.append("It has an upper end: all pieces lie the same way up.")
    cloths = list(dict.fromkeys(need.cloth for need in table.needs))
    for cloth in cloths:
        needs = [need for need in table.needs if need.cloth == cloth]
        lines += ["", *([f"Cloth `{cloth}`"] if len(cloths) > 1 else []), *_rows(needs)]
    lines += [
        "",
        "At least: no plan can be shorter. Add what a picture that has to match, or a cut off the straight, takes.",
    ]
    return "\n".join(lines)


def _rows(needs: Sequence[MetreNeed]) -> Iterator[str]:
    wide = max(4, *(len(need.size) for need in needs))
    yield f"  {'size':{wide}}  {'to buy':>9}  {'cut out':>7}  {'at least':>9}"
    for need in needs:
        if need.obstacles:
            for i, words in enumerate(need.obstacles):
                yield f"  {need.size if i == 0 else '':{wide}}  {'no: ' if i == 0 else '    '}{words}"
            continue
        row = f"  {need.size:{wide}}  {_cm(need.length):>9}  {_share(need.used):>7}  {_cm(need.least):>9}"
        yield f"{row}  {told_stretches(need.stretches)}".rstrip()


def told_stretches(stretches: Sequence[Stretch]) -> str:
    """What of the length lies folded and what single, and what is cut through one layer of folded cloth."""
    words = []
    if len(stretches) > 1:
        parts = [f"{length(one.length)} {'folded' if one.is_folded else 'single'}" for one in stretches]
        words.append(" and ".join(parts))
    for stretch in stretches:
        titles = [shape.title for shape in stretch.plan.shapes if shape.key in stretch.upper_only]
        if titles:
            words.append(f"through the upper layer only: {', '.join(titles)}")
    return "; ".join(words)


def metre_csv(table: MetreTable) -> str:
    """Comma, CR LF, the names of the columns first; lengths in mm, as to be bought."""
    import csv
    import io

    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(COLUMNS)
    width, laid = decimal(table.roll.cloth.width), _laid(table)
    for need in table.needs:
        found = (_mm(need.length), _mm(need.least), decimal(need.used, 4)) if not need.obstacles else ("", "", "")
        writer.writerow((need.size, need.cloth, width, laid, *found, "; ".join(need.obstacles)))
    return text.getvalue()


def metre_json(table: MetreTable) -> str:
    """One object for each size and cloth, with the places of all shapes; lengths in mm, angles in degrees."""
    document = {
        "format": FORMAT,
        "version": 1,
        "garment": table.garment,
        "title": table.title,
        "cloth": table.roll.cloth.title,
        "width_mm": exact(table.roll.cloth.width),
        "laid": _laid(table),
        "needs": [_need(need) for need in table.needs],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _need(need: MetreNeed) -> dict[str, object]:
    told: dict[str, object] = {"size": need.size, "cloth": need.cloth}
    if need.obstacles:
        return told | {"why_not": list(need.obstacles)}
    told |= {"length_mm": exact(need.length), "least_mm": exact(need.least), "used": exact(need.used)}
    return told | {"stretches": [_stretch(one) for one in need.stretches]}


def _stretch(stretch: Stretch) -> dict[str, object]:
    places = []
    for shape in stretch.plan.shapes:
        spot = stretch.plan.spots[shape.key]
        place: dict[str, object] = {"piece": shape.piece, "title": shape.title}
        place |= {"x_mm": exact(spot.at.real), "y_mm": exact(spot.at.imag)}
        place |= {"turned_deg": exact(math.degrees(spot.turn.angle))}
        places.append(place | {"layers": 2 if stretch.is_folded and shape.key not in stretch.upper_only else 1})
    return {"length_mm": exact(stretch.length), "folded": stretch.is_folded, "places": places}


def _laid(table: MetreTable) -> str:
    return "folded" if table.roll.is_folded else "single"


def _mm(value: float) -> str:
    return decimal(value, 1)


def _cm(value: float) -> str:
    return f"{fixed(value / 10.0, 1)} cm"


def _share(value: float) -> str:
    return f"{fixed(value * 100.0, 0)} %"
