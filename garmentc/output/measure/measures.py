"""Gathers what there is to measure on an assembled garment."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from garmentc.assembly.model import Assembly, FinishedEdge
from garmentc.assembly.openings import opening_words
from garmentc.assembly.sewn import OpeningPart
from garmentc.data.measures import known_measures
from garmentc.design import kinds as k
from garmentc.design.texts import spoken
from garmentc.output.measure.how import how_to_measure
from garmentc.output.measure.model import (
    CLOTH,
    EASE,
    EDGE,
    FINISHED,
    OPENING,
    SEAM,
    Measured,
    SizeMeasures,
    tolerance_of,
)
from garmentc.output.sheet.words import capital, listed

_EASE = "ease."
_GIRTH = "_girth"


def size_measures(assembly: Assembly) -> SizeMeasures:
    """All measurements of one size, group by group."""
    parts = (_finished, _openings, _ease, _seams, _edges, _cloth)
    return SizeMeasures(assembly.draft.body.name, tuple(one for part in parts for one in part(assembly)))


def _finished(assembly: Assembly) -> Iterator[Measured]:
    draft = assembly.draft
    for plan, one in zip(draft.design.finished, draft.finished, strict=True):
        off = tolerance_of(one.value) if one.kind == k.LENGTH else None
        yield Measured(FINISHED, one.name, one.title, how_to_measure(plan, draft.design), one.value, one.kind, off)


def _ease(assembly: Assembly) -> Iterator[Measured]:
    """Each girth or length of the body that the garment asks for, and what it adds."""
    draft, known = assembly.draft, known_measures()
    for name, plan in draft.design.measures.items():
        fact = known.get(name)
        title = spoken(name) if fact is None else fact.term
        taken = plan.description if fact is None else fact.definition
        yield Measured(EASE, name, f"Body: {title}", taken, draft.body.measures[name].mm, plan.kind, None)
        ease = draft.design.params.get(_EASE + name)
        if ease is not None:
            value, how = draft.params[ease.name], ease.description or "what the garment is wider than the body"
            yield Measured(EASE, ease.name, f"Ease of {title}", how, value, ease.kind, None)
    for one in draft.finished:
        name = f"{one.name}{_GIRTH}"
        if name in draft.design.measures and one.kind == k.LENGTH:
            mm = one.value - draft.body.measures[name].mm
            title = known[name].term if name in known else spoken(name)
            how = f"The finished measurement ({one.title}) less the {title} of the body."
            yield Measured(EASE, f"{one.name}.ease", f"Finished ease: {one.title}", how, mm, one.kind, None)


def _openings(assembly: Assembly) -> Iterator[Measured]:
    strips = {strip.name: strip.title for strip in assembly.draft.strips}
    for opening in assembly.surface.openings:
        name = opening.names[0] if opening.names else ", ".join(f"{piece}.{edge}" for piece, edge in opening.edges)
        title = capital(opening_words(opening)) + (f", {opening.times} times" if opening.times > 1 else "")
        edges = listed(list(dict.fromkeys(_of_opening(part, strips) for part in opening.parts)))
        how = f"Lay the tape on its edge all round, along {edges}, without pulling."
        yield Measured(OPENING, name, title, how, opening.length, k.LENGTH, tolerance_of(opening.length))


def _of_opening(part: OpeningPart, strips: Mapping[str, str]) -> str:
    """An edge that an opening runs along: those of strips with their strip, which has no other name for them."""
    return f"the {spoken(part.edge)}" + (f" of the {strips[part.piece]}" if part.piece in strips else "")


def _seams(assembly: Assembly) -> Iterator[Measured]:
    for seam in assembly.seams:
        often = "" if seam.times == 1 else f", {seam.times} times"
        title = f"Seam {spoken(seam.name)}{often}"
        how = "Lay the tape on its edge along the seam, from end to end, without pulling."
        yield Measured(SEAM, seam.name, title, how, seam.sewn_length, k.LENGTH, tolerance_of(seam.sewn_length))


def _edges(assembly: Assembly) -> Iterator[Measured]:
    for finish in assembly.finishes:
        name = ", ".join(edge.text for edge in finish.edges)
        how = "Lay the tape on its edge along all of them, without pulling, and add up."
        title = f"{_edge_title(assembly, finish)}: {finish.join.title.lower()}"
        yield Measured(EDGE, name, title, how, finish.length, k.LENGTH, tolerance_of(finish.length))


def _edge_title(assembly: Assembly, finish: FinishedEdge) -> str:
    """The edges of a finish in few words: "Hem (Front, Back)"."""
    pieces: dict[str, list[str]] = {}
    for name in finish.edges:
        pieces.setdefault(spoken(name.edge), []).append(assembly.draft.piece(name.piece).title)
    text = ", ".join(f"{edge} ({', '.join(titles)})" for edge, titles in pieces.items())
    return text[:1].upper() + text[1:]


def _cloth(assembly: Assembly) -> Iterator[Measured]:
    total = 0.0
    for piece in (*assembly.pieces, *assembly.strips):
        drafted = piece.drafted
        area = abs(piece.cut_line.area) * drafted.copies
        total += area
        cut = drafted.number if drafted.on_fold else drafted.copies
        often = {1: "", 2: "both of them, "}.get(cut, f"all {cut} of them, ")
        how = capital(f"{often}{'unfolded, ' if drafted.on_fold else ''}as cut.")
        yield Measured(CLOTH, drafted.name, drafted.title, how, area, k.AREA, None)
    yield Measured(CLOTH, "all", "All together", "Without what falls between the pieces.", total, k.AREA, None)
