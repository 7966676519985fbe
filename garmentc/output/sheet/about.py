"""The first part of a sheet: what it is, for which body, with which ease, and how large it finishes."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import Assembly
from garmentc.assembly.openings import opening_words
from garmentc.data.measures import known_measures
from garmentc.design.texts import spoken
from garmentc.draft.model import Draft
from garmentc.draft.shown import shown_as
from garmentc.output.sheet.document import Block, Heading, Paragraph, Table
from garmentc.output.sheet.words import capital, centimetres, listed, measured, sentence, tape
from garmentc.record import Record

EASE = "ease."


class _Setting(Record):
    """A param, ease or choice with the value used; ``is_changed`` when that was set from outside."""

    name: str
    value: str
    note: str
    is_ease: bool
    is_changed: bool

    @property
    def row(self) -> tuple[str, str, str]:
        return self.name, self.value + (" (changed)" if self.is_changed else ""), self.note


def about(assembly: Assembly) -> Iterator[Block]:
    """What the sheet is for, its measures, ease, settings and finished measurements."""
    draft = assembly.draft
    design = draft.design
    yield Heading(2, "About this sheet")
    yield Paragraph(
        f"How to cut and sew the garment {design.name}, edition {design.edition}, {draft.body.shown}. "
        "Use it only with the pattern that carries the same three: all lengths are for this one alone."
    )
    settings = [*_params(draft), *_choices(draft)]
    told = [f"{'ease of ' if one.is_ease else ''}{one.name}: {one.value}" for one in settings if one.is_changed]
    if told:
        yield Paragraph(f"Changed for this build, so not as the design is written: {'; '.join(told)}.")
    yield Heading(2, "Size")
    advice = "have the pattern drafted from that body's own measures" if draft.body.is_size else "have it drafted again"
    yield Paragraph(
        "Drafted from the measures below. Compare them with the body the garment is for: "
        f"where one differs by more than 2 cm, {advice} (common practice, no source)."
    )
    if design.measures:
        yield Table("Body measures used", ("Measure", "Length", "How it is taken"), tuple(_measures(draft)))
    source = "From the size chart" if draft.body.is_size else "Measures of one person"
    yield Paragraph(f"{source}: {sentence(draft.body.origin)}" if draft.body.origin else f"{source}.")
    eases = tuple(one.row for one in settings if one.is_ease)
    if eases:
        yield Table("Ease: what the garment is wider than the body", ("Added to", "Ease", "Note"), eases)
    others = tuple(one.row for one in settings if not one.is_ease)
    if others:
        yield Table("Settings of this garment", ("Setting", "Value", "Note"), others)
    if draft.finished:
        lengths = tuple((sentence(one.title).rstrip("."), measured(one.value, one.kind)) for one in draft.finished)
        yield Table("Finished measurements", ("Where", "Measures"), lengths)
    yield from _openings(assembly)


def _openings(assembly: Assembly) -> Iterator[Block]:
    """Where the garment ends, and how far that is all round: what has to pass there, and what opens it."""
    rows = []
    for opening in assembly.surface.openings:
        plans = [assembly.draft.design.openings[name] for name in opening.names]
        some = "" if opening.open_times == opening.times else f"{opening.open_times} of them by "
        by = [f"{some}{spoken(name)} ({tape(opening.opened)} all round when open)" for name in opening.closures]
        closed = "; ".join(dict.fromkeys((*by, *(plan.by for plan in plans if plan.by))))
        rows.append((capital(opening_words(opening)), str(opening.times), tape(opening.length), closed))
    head = ("Where", "How many", "All round", "Opened by")
    if rows:
        wide = 4 if any(row[3] for row in rows) else 3
        yield Table("Openings, once it is sewn", head[:wide], tuple(row[:wide] for row in rows))


def _measures(draft: Draft) -> Iterator[tuple[str, ...]]:
    known = known_measures()
    for name, plan in draft.design.measures.items():
        fact = known.get(name)
        shown = spoken(name) if fact is None else fact.term
        taken = plan.description if fact is None else fact.definition
        yield shown, centimetres(draft.body.measures[name].mm), taken


def _params(draft: Draft) -> Iterator[_Setting]:
    for name, plan in draft.design.params.items():
        shown, is_ease = spoken(name.removeprefix(EASE)), name.startswith(EASE)
        yield _Setting(shown, shown_as(draft.params[name], plan.kind), plan.description, is_ease, plan.from_outside)


def _choices(draft: Draft) -> Iterator[_Setting]:
    for choice in draft.design.choices.values():
        others = [spoken(option) for option in choice.options if option != choice.value]
        note = choice.description or (f"could also be {listed(others)}" if others else "")
        yield _Setting(spoken(choice.name), spoken(choice.value), note, False, choice.from_outside)
