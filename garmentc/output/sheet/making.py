"""What to do before cutting, and the numbered steps with what to measure after each."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import Assembly, FinishedEdge, JoinedSeam, PlannedStep
from garmentc.draft.model import DraftedPiece
from garmentc.numbers import length
from garmentc.output.sheet.cutting import FOUND
from garmentc.output.sheet.document import Block, Checklist, Heading, Paragraph, Step, Steps
from garmentc.output.sheet.words import edge_length, times


def before_cutting(assembly: Assembly) -> Iterator[Block]:
    """Things to see to while nothing is cut yet."""
    yield Heading(2, "Before you cut")
    yield Checklist(tuple(_before(assembly)))
    yield Paragraph("Where no standard is named, this is common practice, without a source.")


def _before(assembly: Assembly) -> Iterator[str]:
    found = any(finish.join.name == FOUND for finish in assembly.finishes)
    yield "Wash and dry the cloth the way the garment will be washed, then press it: it may shrink."
    yield "Measure the cloth again, and check that its corners are square and its threads run true."
    yield "Hold it against the light: chalk round holes, thin places and stains, and lay the pieces clear of them."
    if found:
        yield "Look along the hems that become the edge of the garment: mend them now, and press them straight."
    yield (
        "Check the pattern: the bar marked 5 cm must measure 5 cm, along and across. "
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
    yield Paragraph(
        "Work in this order. Start and end each row with a few stitches back, unless the step says otherwise. "
        "After a step, lay the tape along the sewing line without pulling and compare."
    )
    if _is_bias(assembly):
        yield Paragraph(
            "If a bias edge measures too long, it was stretched: let it lie, then press it back, with steam if "
            "the fibre allows. Bias pieces also grow longer by their own weight: let the garment hang for 24 hours "
            "before you settle the length of straps or level a hem (common practice)."
        )
    shown = tuple(Step(step.number, step.title, step.lines, tuple(_after(assembly, step))) for step in assembly.steps)
    yield Steps(shown)


def _after(assembly: Assembly, step: PlannedStep) -> Iterator[str]:
    thing = step.thing
    if isinstance(thing, DraftedPiece):
        yield from _after_strip(thing)
    elif isinstance(thing, JoinedSeam):
        yield from _after_seam(thing)
    elif isinstance(thing, FinishedEdge):
        yield from (edge_length(assembly.draft, name) for name in thing.edges)


def _after_strip(strip: DraftedPiece) -> Iterator[str]:
    making = strip.making
    if making is not None:
        yield f"{strip.title}: {length(making.length)} long and {length(making.finished_width)} wide"


def _after_seam(seam: JoinedSeam) -> Iterator[str]:
    often = f", {times(seam.times)}" if seam.times > 1 else ""
    if abs(seam.first_length - seam.second_length) < 0.05:
        yield f"Seam line: {length(seam.first_length)}{often}"
        return
    yield f"Seam line, first side: {length(seam.first_length)}{often}"
    yield f"Seam line, second side: {length(seam.second_length)}{often}"
