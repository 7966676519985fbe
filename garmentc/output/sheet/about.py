"""The first part of a sheet: what it is, for which body, with which ease, and how large it finishes."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import Assembly
from garmentc.data.measures import known_measures
from garmentc.design.texts import spoken
from garmentc.draft.model import Draft
from garmentc.draft.shown import shown_as
from garmentc.output.sheet.document import Block, Heading, Paragraph, Table
from garmentc.output.sheet.words import NONE, centimetres, listed, sentence

EASE = "ease."


def about(assembly: Assembly) -> Iterator[Block]:
    """Size, measures, ease, settings and finished measurements."""
    draft = assembly.draft
    design = draft.design
    yield Paragraph(
        f"Cutting and sewing sheet, {draft.body.shown}. Edition: {design.edition}. "
        "It goes with the pattern of the same name, size and edition; all lengths are for this size only."
    )
    yield Heading(2, "Size")
    yield Paragraph(
        "Drafted from the measures below. Compare them with the body the garment is for: "
        "where they differ by more than 2 cm, draft again from own measures."
    )
    if design.measures:
        yield Table("Body measures used", ("Measure", "Length", "How it is taken"), tuple(_measures(draft)))
    source = "From the size chart" if draft.body.is_size else "Measures of one person"
    yield Paragraph(f"{source}: {sentence(draft.body.origin)}")
    eases = [row for name, row in _params(draft) if name.startswith(EASE)]
    if eases:
        yield Table("Ease: what the garment is wider than the body", ("Added to", "Ease", "Note"), tuple(eases))
    settings = [row for name, row in _params(draft) if not name.startswith(EASE)] + list(_choices(draft))
    if settings:
        yield Table("Settings of this garment", ("Setting", "Value", "Note"), tuple(settings))
    if draft.finished:
        rows = tuple((sentence(one.title).rstrip("."), shown_as(one.value, one.kind)) for one in draft.finished)
        yield Table("Finished measurements", ("Where", "Measures"), rows)


def _measures(draft: Draft) -> Iterator[tuple[str, ...]]:
    known = known_measures()
    for name, plan in draft.design.measures.items():
        fact = known.get(name)
        shown = spoken(name) if fact is None else fact.term
        taken = plan.description if fact is None else fact.definition
        yield shown, centimetres(draft.body.measures[name].mm), taken or NONE


def _params(draft: Draft) -> Iterator[tuple[str, tuple[str, ...]]]:
    for name, plan in draft.design.params.items():
        note = plan.description + ("; set for this garment" if plan.from_outside else "")
        shown = spoken(name.removeprefix(EASE))
        yield name, (shown, shown_as(draft.params[name], plan.kind), note.removeprefix("; ") or NONE)


def _choices(draft: Draft) -> Iterator[tuple[str, ...]]:
    for choice in draft.design.choices.values():
        others = [spoken(option) for option in choice.options if option != choice.value]
        note = choice.description or (f"could also be {listed(others)}" if others else NONE)
        yield spoken(choice.name), spoken(choice.value), note
