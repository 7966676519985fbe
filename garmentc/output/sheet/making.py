"""What to do before cutting, and the numbered steps with what to measure after each."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import Assembly, FinishedEdge, JoinedSeam, PlannedStep
from garmentc.design.model import EdgeName
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.numbers import length
from garmentc.output.sheet.cutting import FOUND
from garmentc.output.sheet.document import Block, Checklist, Heading, Paragraph, Step, Steps
from garmentc.output.sheet.words import edge_length, meets_fold, times


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
            "If a bias edge measures too long, it was stretched: let it lie, then press it back, with steam if the "
            "fibre allows. Bias pieces also grow longer by their own weight: let the garment hang for 24 hours before "
            "you settle the length of straps or level a hem (common practice)."
        )
    shown = tuple(Step(step.number, step.title, step.lines, tuple(_after(assembly, step))) for step in assembly.steps)
    yield Steps(shown)


def _after(assembly: Assembly, step: PlannedStep) -> Iterator[str]:
    draft = assembly.draft
    if step.about == "strip":
        yield from _after_strip(draft.piece(step.name))
    for seam in assembly.seams:
        if step.about == "seam" and seam.name == step.name:
            yield from _after_seam(draft, seam)
    for finish in assembly.finishes:
        if step.about == "finish" and _step_name(finish) == step.name:
            yield from (edge_length(draft, name) for name in finish.edges)


def _step_name(finish: FinishedEdge) -> str:
    return "finish " + ", ".join(name.text for name in finish.edges)


def _after_strip(strip: DraftedPiece) -> Iterator[str]:
    making = strip.making
    if making is not None:
        yield f"{strip.title}: {length(making.length)} long and {length(making.finished_width)} wide"


def _after_seam(draft: Draft, seam: JoinedSeam) -> Iterator[str]:
    if abs(seam.first_length - seam.second_length) < 0.05:
        yield f"Seam line: {_seam_length(draft, seam, seam.first, seam.first_length)}"
        return
    yield f"Seam line, first side: {_seam_length(draft, seam, seam.first, seam.first_length)}"
    yield f"Seam line, second side: {_seam_length(draft, seam, seam.second, seam.second_length)}"


def _seam_length(draft: Draft, seam: JoinedSeam, chain: tuple[EdgeName, ...], long: float) -> str:
    if seam.times == 2 and any(meets_fold(draft.piece(name.piece), name.edge) for name in chain):
        return f"{length(2 * long)} in one, {length(long)} on each side of the middle"
    often = f", {times(seam.times)}" if seam.times > 1 else ""
    return f"{length(long)}{often}"
