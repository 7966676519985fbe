"""The size chart of a hand-out: the measures that a garment is drafted from, size by size."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence

from garmentc.assembly.model import Assembly
from garmentc.data.measures import known_measures
from garmentc.design.texts import spoken
from garmentc.numbers import decimal
from garmentc.output.texts.speech import Speech, Voice
from garmentc.record import Record


class BodyMeasure(Record):
    """A measure with its term, how it is taken, and its length (mm)."""

    name: str
    term: str
    taken: str
    mm: float


def body_measures(assembly: Assembly) -> tuple[BodyMeasure, ...]:
    """The measures of one body that the design asks for."""
    draft, known = assembly.draft, known_measures()
    found = []
    for name, plan in draft.design.measures.items():
        fact = known.get(name)
        term, taken = (spoken(name), plan.description) if fact is None else (fact.term, fact.definition)
        found.append(BodyMeasure(name, term, taken, draft.body.measures[name].mm))
    return tuple(found)


def chart_csv(sizes: Mapping[str, Sequence[BodyMeasure]]) -> str:
    """For programs: a row for each size and measure, in mm."""
    import csv

    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(("size", "name", "term", "mm"))
    for size, measures in sizes.items():
        writer.writerows((size, one.name, one.term, decimal(one.mm)) for one in measures)
    return text.getvalue()


def chart_text(title: str, sizes: Mapping[str, Sequence[BodyMeasure]], speech: Speech) -> str:
    """For reading: a line for each size, then how each measure is taken."""
    first = next(iter(sizes.values()))
    names = [one.term for one in first]
    rows = [(speech.say("chart_size"), *names)]
    rows += [(size, *(_number(one.mm, speech.first) for one in measures)) for size, measures in sizes.items()]
    wide = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    lines = [title, speech.say("chart_inch" if speech.first.inches else "chart_cm"), ""]
    lines += ["  ".join(cell.rjust(width) for cell, width in zip(row, wide, strict=True)) for row in rows]
    lines += ["", speech.say("chart_taken"), *(f"  {one.term}: {one.taken}" for one in first)]
    return "\n".join(lines) + "\n"


def _number(mm: float, voice: Voice) -> str:
    return voice.length(mm).removesuffix(f" {voice.say('unit_inch')}") if voice.inches else voice.number(mm / 10.0, 1)
