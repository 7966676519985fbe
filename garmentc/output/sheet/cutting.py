"""What to cut: each piece with its grain, its edges and allowances, and the marks to carry over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.bindings import JOIN, TAKEN
from garmentc.assembly.model import Assembly, BindingRun, BindingUse, CutPiece, EdgeUse
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedPiece
from garmentc.output.sheet.document import Block, Heading, Items, Paragraph, Table
from garmentc.output.sheet.extent import as_drawn
from garmentc.output.sheet.marks import marks
from garmentc.output.sheet.sketch import sketch_piece
from garmentc.output.sheet.words import NONE, capital, centimetres, listed, takeup_words, tape, tape_up

FOUND = "found"
_GRAIN = {
    "straight": "Grain: straight. The lengthwise threads, which run like the selvage, lie along the grain line.",
    "cross": "Grain: across. The lengthwise threads, which run like the selvage, lie across the piece.",
    "bias": "Grain: bias. The threads run at 45° to the middle of the piece, so it stretches and drapes there.",
}
_STRIP_GRAIN = {
    "straight": "Grain: straight, the lengthwise threads run along the strip.",
    "cross": "Grain: across, the lengthwise threads run from one long edge to the other.",
    "bias": "Grain: bias, the threads cross the strip at 45°.",
}


def cutting(assembly: Assembly) -> Iterator[Block]:
    """The cutting list."""
    yield Heading(2, "Cutting list")
    yield Paragraph(
        "The cut line of the pattern already holds the allowances: cut along the thick outer line, sew on the "
        "dashed one. Lengths of edges are those of the sewing line. A piece on the fold is drawn as its half, and "
        "its edges are measured on that half."
    )
    shaped = takeup_words(assembly)
    if shaped:
        yield Paragraph(
            f"In the tables, lengths are with {shaped}; where marks lie is measured on the flat piece, before that."
        )
    turned = any(piece.drafted.is_unfolded for piece in assembly.pieces)
    yield Paragraph(
        "The sketches are not to scale. In them the thick line is where you cut, the dashed line where you sew, and "
        f"a line of dashes and dots is a fold{', or where the pattern is turned over' if turned else ''}.",
        of_pictures=True,
    )
    if any(piece.drafted.on_fold and not piece.drafted.is_unfolded for piece in assembly.pieces):
        yield Paragraph(
            "On the fold: fold the cloth and lay that edge of the pattern on the fold. Where the picture matters, lay "
            "the cloth single instead: draw the half, turn the pattern over along its fold line, draw the other half."
        )
    yield from _lengthening(assembly)
    for piece in assembly.pieces:
        yield from _piece(piece, assembly)
    for strip in assembly.strips:
        yield from _strip(strip)
    if assembly.bindings:
        yield Heading(3, "Bias strips")
        yield from _bias_strips(assembly.bindings)


def _lengthening(assembly: Assembly) -> Iterator[Block]:
    """How the pattern is made longer or shorter, if it says where."""
    places: dict[str, list[str]] = {}
    for piece in assembly.pieces:
        for line in piece.drafted.lines:
            if line.kind == "lengthen":
                places.setdefault(line.name, []).append(piece.drafted.title)
    if places:
        where = "; ".join(f"{spoken(name)}: {listed(titles)}" for name, titles in places.items())
        yield Paragraph(
            "To lengthen or shorten, change the paper before you cut: part the pattern between the double lines, move "
            "the parts away from each other or over each other, square to the lines, and draw the edges over the "
            f"join smooth again. Do it by the same amount on all pieces of one line. {capital(where)}."
        )


def _piece(piece: CutPiece, assembly: Assembly) -> Iterator[Block]:
    drafted = piece.drafted
    yield Heading(3, drafted.title)
    yield Paragraph(f"{_count(drafted)} {_GRAIN.get(drafted.grain, '')}".strip())
    if piece.hand:
        what = "half" if drafted.on_fold else "piece"
        yield Paragraph(f"The {what} that is drawn is the {piece.hand} one, as it is worn: mark it on the wrong side.")
    if drafted.interfacing is not None:
        line = (
            "with the allowances" if drafted.interfacing.with_allowances else "on the sewing lines, without allowances"
        )
        yield Paragraph(f"Cut as many of interfacing ({drafted.interfacing.text}), {line}.")
    yield from (Paragraph(text) for text in _grown_on(piece, assembly))
    yield Paragraph(_size(piece))
    yield sketch_piece(piece)
    rows = tuple(
        (spoken(edge.name), tape(edge.sewn_length), _allowance(use), _becomes_all(drafted, use))
        for edge in drafted.edges
        for use in (piece.uses[edge.name],)
    )
    yield Table(f"Edges of the {drafted.title}", ("Edge", "Length", "Allowance", "Becomes"), rows)
    own = [spoken(edge.name) for edge in drafted.edges if _is_found(piece.uses[edge.name])]
    if own:
        yield Paragraph(f"Lay the {listed(own)} exactly on the cloth's own hem or selvage, and cut nothing off there.")
    carried = tuple(marks(piece, assembly.seams))
    if carried:
        yield Paragraph("Carry these over to the cloth:")
        yield Items(carried)


def _count(piece: DraftedPiece) -> str:
    number, pieces = piece.number, "piece" if piece.number == 1 else "pieces"
    folds = [spoken(edge.name) for edge in piece.edges if edge.on_fold]
    if folds:
        lie = "lies" if len(folds) == 1 else "lie"
        if piece.is_unfolded:
            return (
                f"Cut {number} {pieces}, the cloth single: draw the half, turn the pattern over along the "
                f"{listed(folds)}, which must not be cut, and draw the other half."
            )
        return f"Cut {number} {pieces} on the fold: the {listed(folds)} {lie} on the fold and must not be cut."
    if piece.pair:
        pairs = "one pair" if number == 1 else f"{number} pairs"
        return f"Cut {pairs}: in each pair one piece is the mirror image of the other."
    return f"Cut {number} {pieces}, pattern face up."


def _grown_on(piece: CutPiece, assembly: Assembly) -> Iterator[str]:
    """What is cut in one with the piece, and where it is folded."""
    drafted = piece.drafted
    for name, fold in assembly.folded_back(drafted.name):
        yield f"The {spoken(name)} is cut in one with the {drafted.title} and folded back along the {spoken(fold)}."


def _size(piece: CutPiece) -> str:
    cut, sewn = (as_drawn(piece.drafted, line) for line in (piece.cut_line, piece.drafted.outline))
    opened = ", opened out" if piece.drafted.on_fold else ""
    half = f" (half: {centimetres(sewn.width / 2)})" if piece.drafted.on_fold else ""
    return (
        f"Size{opened}: {centimetres(cut.width)} wide and {centimetres(cut.height)} high as cut; "
        f"{centimetres(sewn.width)} wide{half} and {centimetres(sewn.height)} high on the sewing line."
    )


def _is_found(use: EdgeUse) -> bool:
    return use.way == "finish" and use.join is not None and use.join.name == FOUND


def _allowance(use: EdgeUse) -> str:
    return tape(use.allowance) if use.allowance > 0 else NONE


def _becomes_all(piece: DraftedPiece, use: EdgeUse) -> str:
    """What becomes of an edge, of each instance of its piece where they differ."""
    if len({_becomes(piece, one) for one in use.all}) == 1:
        return _becomes(piece, use)
    return "; ".join(f"{one.of_one}: {_becomes(piece, one)}" for one in use.all)


def _becomes(piece: DraftedPiece, use: EdgeUse) -> str:
    if use.join is None:
        return "middle, not cut" if piece.is_unfolded else "lies on the fold"
    if _is_found(use):
        return "the cloth's own hem"
    if use.way == "seam":
        return f"{capital(spoken(use.by))}: {use.join.title}"
    if use.join.folds:
        turned = ", then by ".join(tape(depth) for depth in reversed(use.join.folds))
        return f"{use.join.title}: turned by {turned}"
    return use.join.title


def _strip(strip: CutPiece) -> Iterator[Block]:
    making = strip.drafted.making
    if making is None:
        return
    yield Heading(3, strip.drafted.title)
    number = strip.drafted.number
    cut = f"Cut {number} {'strip' if number == 1 else 'strips'}, {tape(making.cut_width)} wide and"
    ways = {"tube": "sewn to a tube and turned", "quartered": "folded in four and stitched", "flat": "used flat"}
    yield Paragraph(
        f"{cut} {tape_up(making.length)} long, allowances included. {_STRIP_GRAIN[strip.drafted.grain]} "
        f"{'It is' if number == 1 else 'Each is'} {ways[making.way]}, and then {tape(making.finished_width)} wide. "
        "Draw it straight on the cloth with a ruler; lengths of strips are rounded up to the next 5 mm."
    )


def _bias_strips(bindings: Sequence[BindingUse]) -> Iterator[Block]:
    yield Paragraph(
        "Cut them at 45° to the threads, where they stretch most, or buy them: draw the first line along a true "
        "diagonal, the others beside it. Where the cloth is too short for a strip, cut it in parts, their ends along a "
        f"thread, and join them by slanting seams {tape(JOIN)} from the edge; each join takes {tape(TAKEN)} of length "
        "(common practice, no source)."
    )
    yield Items(
        tuple(
            f"{run.times * run.parts} × {tape(use.width)} wide and {tape_up(run.part)} long{_joins(run)}, for {use.of}."
            for use in bindings
            for run in use.runs
        )
    )


def _joins(run: BindingRun) -> str:
    """How many parts make a strip, and with how many joins before it is sewn on."""
    if not run.joins:
        return ""
    joins = "join" if len(run.joins) == 1 else "joins"
    return f", {run.parts} to a strip with {len(run.joins)} {joins}"
