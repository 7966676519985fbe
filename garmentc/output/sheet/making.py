"""What to do before cutting, and the numbered steps with what to measure after each."""

from __future__ import annotations

import re
from collections.abc import Iterator

from garmentc.assembly.inserts import free_ends
from garmentc.assembly.model import Assembly, FinishedEdge, JoinedSeam, PlannedStep
from garmentc.design.texts import spoken
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.output.pictures.steps import step_pictures
from garmentc.output.sheet.cutting import FOUND
from garmentc.output.sheet.document import Block, Checklist, Heading, Paragraph, Step, Steps
from garmentc.output.sheet.places import place_of_insert
from garmentc.output.sheet.words import (
    by_piece,
    capital,
    edge_length,
    edges_aloud,
    how_often,
    takeup_words,
    tape,
    tape_up,
)

_FINE = re.compile(r"\b(\d+\.\d\d+) cm\b")


def before_cutting(assembly: Assembly) -> Iterator[Block]:
    """Things to see to while nothing is cut yet."""
    yield Heading(2, "Before you cut")
    yield Checklist(tuple(_before(assembly)))
    yield Paragraph("Where no standard is named, this is common practice, without a source.")


_SQUARE = "5\N{NO-BREAK SPACE}cm"  # as it is drawn, whatever the unit of the sheet


def _before(assembly: Assembly) -> Iterator[str]:
    found = any(finish.join.name == FOUND for finish in assembly.finishes)
    yield "Wash and dry the cloth the way the garment will be washed, then press it: it may shrink."
    yield "Measure the cloth again, and check that its corners are square and its threads run true."
    yield "Hold it against the light: chalk round holes, thin places and stains, and lay the pieces clear of them."
    if found:
        yield "Look along the hems that become the edge of the garment: mend them now, and press them straight."
    yield (
        f"Check the pattern: the square marked {_SQUARE} must measure {_SQUARE}, along and across. "
        "If not, print again at 100 %, without fitting to the page."
    )
    if _is_bias(assembly):
        yield (
            "Bias: lay the cloth flat and single, let it rest, and smooth it without pulling. "
            "Pin closely, cut in long strokes, and handle the cut edges as little as you can."
        )
    yield "Lay out every piece before you cut the first one, and count them against the cutting list."
    yield "Sew a test seam on a scrap with the needle, thread and stitch length you are going to use."


def _is_bias(assembly: Assembly) -> bool:
    return any(piece.drafted.grain == "bias" for piece in assembly.pieces)


def steps(assembly: Assembly) -> Iterator[Block]:
    """The steps in their order."""
    yield Heading(2, "Sewing")
    shaped = takeup_words(assembly)
    line = f"the sewing line, with {shaped}" if shaped else "the sewing line"
    yield Paragraph(
        "Work in this order. Sew each seam from cut edge to cut edge, unless a step or a mark says where to stop; the "
        f"lengths given are those of {line}. Start and end each row with a few stitches back, unless the step "
        "says otherwise. After a step, lay the tape along the sewing line without pulling and compare."
    )
    yield Paragraph(
        "In the pictures cloth is white on its right side and hatched on its wrong side. A thick outline is a cut "
        "edge; thick broken lines are stitched in this step, with pins across them; fine broken lines lie below. "
        "Dashes and dots are a fold; dashes and two dots show where an edge lay before it was turned. Beside it is the "
        "work cut across: short ticks mark the wrong side, strokes through it the rows of stitching. "
        "Not to scale; the numbers are right.",
        of_pictures=True,
    )
    if _is_bias(assembly):
        yield Paragraph(
            "If a bias edge measures too long, it was stretched: let it lie, then press it back, with steam if "
            "the fibre allows. Bias pieces also grow longer by their own weight: before you settle the length of "
            "straps or level a cut hem, baste, let the garment hang for 24 hours, and try it on (common practice)."
        )
    yield Steps(tuple(_shown(assembly, step) for step in assembly.steps))


def _shown(assembly: Assembly, step: PlannedStep) -> Step:
    lines = step.lines if step.about == "own" else tuple(_to_tape(line) for line in step.lines)
    if isinstance(step.thing, JoinedSeam):
        lines = tuple(_with_places(assembly.draft, step.thing, line) for line in lines)
    title, after = _title(assembly.draft, step), tuple(_after(assembly, step))
    return Step(step.number, title, lines, after, step_pictures(assembly, step))


def _title(draft: Draft, step: PlannedStep) -> str:
    """What the step makes, then how."""
    thing = step.thing
    if isinstance(thing, DraftedPiece):
        return f"{thing.title}: make {thing.number}"
    if isinstance(thing, JoinedSeam):
        return f"{capital(spoken(thing.name))}: {thing.join.title}"
    if isinstance(thing, FinishedEdge):
        return f"{thing.join.title}: {edges_aloud(draft, thing.edges)}"
    return step.title


def _to_tape(line: str) -> str:
    """A line with its lengths as fine as a tape shows them."""
    return _FINE.sub(lambda found: tape(float(found[1]) * 10.0), line)


def _with_places(draft: Draft, seam: JoinedSeam, line: str) -> str:
    """A line that catches a strip, with the place on the edge after the name of the point."""
    for insert in seam.inserts:
        line = line.replace(
            insert.where, f"{insert.where} ({place_of_insert(draft.piece(insert.piece), seam, insert, closed=True)})", 1
        )
    return line


def _after(assembly: Assembly, step: PlannedStep) -> Iterator[str]:
    thing = step.thing
    if isinstance(thing, DraftedPiece):
        yield from _after_strip(thing, _turned_in(assembly, step, thing))
    elif isinstance(thing, JoinedSeam):
        yield from _after_seam(assembly.draft, thing)
    elif isinstance(thing, FinishedEdge):
        sewn = (name for name in thing.edges if assembly.draft.piece(name.piece).making is None)
        yield from (edge_length(assembly.draft, name) for name in sewn)
    elif step.about == "own":
        yield from (edge_length(assembly.draft, name) for name in assembly.draft.design.step_edges.get(step.name, ()))


def _after_strip(strip: DraftedPiece, turned_in: float) -> Iterator[str]:
    making = strip.making
    if making is not None:
        yield f"{strip.title} {tape_up(making.length - turned_in)} long and {tape(making.finished_width)} wide"


def _turned_in(assembly: Assembly, step: PlannedStep, strip: DraftedPiece) -> float:
    """What (mm) a strip has lost by then because its free ends were turned in before it was made."""
    free = free_ends(strip, assembly.seams) / strip.copies
    return sum(
        free * sum(one.thing.join.folds)
        for one in assembly.steps[: step.number - 1]
        if isinstance(one.thing, FinishedEdge)
        for name in one.thing.edges
        if (name.piece, name.edge) == (strip.name, "ends")
    )


def _after_seam(draft: Draft, seam: JoinedSeam) -> Iterator[str]:
    often = how_often(draft.piece(seam.first[0].piece), seam.times)
    sides = ((seam.first, tape(seam.first_length)), (seam.second, tape(seam.second_length)))
    if sides[0][1] != sides[1][1]:
        before = " and ".join(f"{shown} ({by_piece(draft, names)})" for names, shown in sides)
        yield f"Before it is sewn: {before}{often}"
    yield f"Seam line: {tape(seam.sewn_length)}{often}"
