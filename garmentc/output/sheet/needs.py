"""What has to be at hand: cloth, strips, thread, binding and tools."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.assembly.bindings import JOIN, TAKEN, TURNED_IN
from garmentc.assembly.drawn import LAPPED
from garmentc.assembly.model import Assembly, BindingRun, CutPiece, Join
from garmentc.assembly.rows import made_of
from garmentc.assembly.turning import OPENS
from garmentc.design.texts import spoken
from garmentc.numbers import decimal, percent
from garmentc.output.sheet.document import Block, Checklist, Heading, Items, Paragraph, Table
from garmentc.output.sheet.extent import along_threads, as_drawn, cloth_area
from garmentc.output.sheet.words import centimetres, listed, metres_up, square, tape, tape_up

THREAD_WASTE = 0.15
_NEEDLE = "hand needle"  # in every list of tools
_ZIGZAG, _OVEREDGE, _BY_HAND = "304", "504", "209"
# Where the ratios of thread to seam in the library's stitches come from, by ISO 4915 number.
_RATIO_FROM = {
    **dict.fromkeys(("101", "103", "301", "304"), "Coats, Standard Stitch Type Classification, as published"),
    "401": "from memory; a measured sample in print gives 5.4",
}
_RATIO_UNKNOWN = "from memory, no source at hand; thread makers' tables differ"


def needs(assembly: Assembly) -> Iterator[Block]:
    """Cloth, notions and tools."""
    yield Heading(2, "What you need")
    yield Heading(3, "Cloth")
    yield from _cloth(assembly)
    interfacing = tuple(_interfacing(assembly))
    yield Heading(3, "Interfacing")
    if interfacing:
        yield Table("Interfacing", ("Piece", "What", "Cut", "Wide × high"), interfacing)
    else:
        yield Paragraph("None: no piece is interfaced.")
    yield Heading(3, "Thread")
    yield from _thread(assembly)
    if assembly.bindings:
        yield Heading(3, "Bias binding")
        yield from _binding(assembly)
    if any(piece.drafted.rows for piece in assembly.pieces):
        yield Heading(3, "Buttons")
        yield Items(tuple(_buttons(assembly)))
    closures = tuple(_closures(assembly))
    if closures:
        yield Heading(3, "Closures")
        yield Items(closures)
    bought = tuple(_bought(assembly))
    if bought:
        yield Heading(3, "Labels, tapes and elastic")
        yield Items(bought)
    drawn = tuple(_drawn(assembly))
    if drawn:
        yield Heading(3, "To draw through")
        yield Items(drawn)
    yield Heading(3, "Tools")
    yield Checklist(tuple(_tools(assembly)))
    yield Heading(3, "Time")
    yield Paragraph("Nobody else's hours are yours: write down how long each part takes you, and plan the next by it.")
    parts = ("Marking and cutting", "Sewing by machine, and pressing", "Work by hand", "All together")
    yield Table("Time it takes", ("Work", "Planned", "Taken"), tuple((part, "", "") for part in parts))


def _cloth(assembly: Assembly) -> Iterator[Block]:
    yield Paragraph(
        "Sizes are those of the cut piece with its allowances, opened out flat. The last column is the smallest "
        "upright rectangle round the piece when it lies with its lengthwise threads as the cloth has them: "
        "width across these threads, length along them. Cloth of that size is enough for one such piece."
    )
    rows = []
    for piece in assembly.pieces:
        drawn = as_drawn(piece.drafted, piece.cut_line)
        laid = along_threads(piece.drafted, piece.cut_line)
        rows.append(
            (
                piece.drafted.title,
                how_many(piece),
                f"{centimetres(drawn.width)} × {centimetres(drawn.height)}",
                f"{centimetres(laid.width)} × {centimetres(laid.height)}",
            )
        )
    yield Table(
        "Cloth pieces", ("Piece", "Cut", "Wide × high", "Needs on the cloth, across × along the threads"), tuple(rows)
    )
    strips = tuple(_strips(assembly))
    if strips:
        yield Table("Strips", ("Strip", "Cut", "Cut width × length", "Finished width"), strips)
    everything = (*assembly.pieces, *assembly.strips)
    total = sum(cloth_area(piece.drafted, piece.cut_line) for piece in everything)
    what = "pieces and strips" if assembly.strips else "pieces"
    less = "what falls between them and the bias strips of bindings" if assembly.bindings else "what falls between them"
    yield Paragraph(
        f"All {what} together: {square(total)}, without {less}. How much cloth is enough, only "
        "laying everything out will tell: garmentc lay finds a plan on a cloth you have, garmentc by-metre the length "
        "to buy."
    )


def _strips(assembly: Assembly) -> Iterator[tuple[str, ...]]:
    for strip in assembly.strips:
        making = strip.drafted.making
        if making is None:
            continue
        size = f"{tape(making.cut_width)} × {tape_up(making.length)}"
        yield strip.drafted.title, how_many(strip), size, tape(making.finished_width)


def how_many(piece: CutPiece) -> str:
    """How often a piece is cut, in few words."""
    if piece.drafted.on_fold:
        return f"{piece.drafted.number} {'unfolded' if piece.drafted.is_unfolded else 'on the fold'}"
    if piece.drafted.pair:
        pairs = "pair" if piece.drafted.number == 1 else "pairs"
        return f"{piece.drafted.number} {pairs}"
    return str(piece.drafted.number)


def _thread(assembly: Assembly) -> Iterator[Block]:
    if not assembly.thread:
        yield Paragraph("Nothing is stitched.")
        return
    rows = tuple(
        (
            f"{use.stitch.title} ({use.stitch.code})",
            metres(use.sewn),
            f"{decimal(use.stitch.ratio, 1)} m",
            metres_up(use.thread * (1 + THREAD_WASTE)),
        )
        for use in assembly.thread
    )
    head = ("Stitch (ISO 4915)", "Sewn", "Thread for 1 m sewn", "Thread to have")
    yield Table("Thread by stitch", head, rows)
    yield Paragraph(
        f"The last column holds {percent(THREAD_WASTE)} more than the seams take: Coats reckons with 10 to 15 % "
        "of waste, A&E with 15 to 20 %. Counted are the rows of stitching of strips, "
        "seams and finishes. Basting, thread ends and what a step of the garment's own sews come on top."
    )
    codes: dict[str, list[str]] = {}
    for use in assembly.thread:
        codes.setdefault(_RATIO_FROM.get(use.stitch.code, _RATIO_UNKNOWN), []).append(use.stitch.code)
    told = "; ".join(f"{listed(known)}: {source}" for source, known in codes.items())
    yield Paragraph(f"Where the thread for 1 m sewn comes from: {told}.")


def _interfacing(assembly: Assembly) -> Iterator[tuple[str, ...]]:
    for piece in assembly.pieces:
        one = piece.drafted.interfacing
        if one is not None:
            line = piece.cut_line if one.with_allowances else piece.drafted.outline
            size = as_drawn(piece.drafted, line)
            wide = f"{centimetres(size.width)} × {centimetres(size.height)}"
            yield piece.drafted.title, one.text, how_many(piece), wide


def _closures(assembly: Assembly) -> Iterator[str]:
    """The closures sewn in along seams that open, by their length."""
    for seam in assembly.seams:
        if seam.join.turning == OPENS:
            often = f"{seam.times} × " if seam.times > 1 else ""
            what = seam.join.title.partition(",")[0]
            yield f"{often}{what}, {tape(seam.first_length)} from end to end, for the {spoken(seam.name)} seam."


def metres(mm: float) -> str:
    """A length sewn, in metres to a tenth."""
    return f"{decimal(mm / 1000.0, 1)} m"


def _binding(assembly: Assembly) -> Iterator[Block]:
    rows = tuple(
        (use.of, tape(use.width), f"{run.times * run.parts} × {tape_up(run.part)}", _joined(run))
        for use in assembly.bindings
        for run in use.runs
    )
    yield Table("Bias strip to cut or buy", ("For", "Cut width", "Cut", "Makes"), rows)
    widths = dict.fromkeys(use.width for use in assembly.bindings)
    for width in widths:
        runs = [run for use in assembly.bindings if use.width == width for run in use.runs]
        yield Paragraph(f"{tape(width)} wide: {tape_up(sum(run.times * run.parts * run.part for run in runs))} in all.")
    yield Paragraph(
        f"Counted in are {tape(TURNED_IN)} to turn in at each open end, and {tape(TAKEN)} of length for each slanting "
        f"join, sewn {tape(JOIN)} from the edge (common practice)."
    )


def _joined(run: BindingRun) -> str:
    what = f"ring of {tape(run.along)}" if run.ring else f"strip along {tape(run.along)}"
    many = f"{run.times} {what.replace('ring', 'rings').replace('strip', 'strips')}" if run.times > 1 else f"1 {what}"
    return f"{many}, {'each ' if run.times > 1 else ''}of {run.parts} parts" if run.parts > 1 else many


def _drawn(assembly: Assembly) -> Iterator[str]:
    for finish in assembly.finishes:
        one = finish.drawn
        if one is not None and not one.strip:
            often = f"{one.times} × " if one.times > 1 else ""
            yield f"{one.title}, {tape(one.width)} wide: {often}{tape_up(one.length + LAPPED)}"


def _bought(assembly: Assembly) -> Iterator[str]:
    for strip in assembly.draft.strips:
        if strip.is_bought and strip.making is not None:
            often = f"{strip.number} × " if strip.number > 1 else ""
            yield f"{strip.title}, {tape(strip.making.finished_width)} wide: {often}{tape_up(strip.making.length)}"


def _buttons(assembly: Assembly) -> Iterator[str]:
    for piece in assembly.pieces:
        for row in piece.drafted.rows:
            if row.kind == "buttons":
                count = made_of(piece.drafted, row)
                yield f"{count} {'button' if count == 1 else 'buttons'}, {tape(row.size)} wide ({spoken(row.name)})"


def _tools(assembly: Assembly) -> Iterator[str]:
    joins = [*(seam.join for seam in assembly.seams), *(finish.join for finish in assembly.finishes)]
    stitches = {work.stitch.code for join in joins for work in join.work if work.stitch is not None}
    yield "Sharp shears for cloth only, and small scissors for threads"
    yield "Tape measure, and a ruler of at least 30\N{NO-BREAK SPACE}cm"
    yield "Fine pins, and something to keep them in"
    yield "Tailor's chalk or thread for marks, tried on a scrap first"
    yield "Sewing machine with a straight stitch and a new needle that suits the cloth"
    if stitches & {_ZIGZAG, _OVEREDGE} or _overedges(joins):
        yield "Zigzag stitch or overedge machine for raw edges"
    yield "Iron, ironing board and a pressing cloth"
    yield "Hand needle" + (" and thread for hand sewing" if _BY_HAND in stitches else " for basting and thread ends")
    if any(one.kind == "dart" for piece in assembly.pieces for one in piece.drafted.takeups):
        yield "Rounded pressing pad, or a rolled towel, for darts"
    tubes = [strip for strip in assembly.strips if strip.drafted.making and strip.drafted.making.way == "tube"]
    if tubes:
        widths = dict.fromkeys(tape(strip.drafted.making.finished_width) for strip in tubes if strip.drafted.making)
        yield f"Tube turner, or a blunt needle and strong thread, to turn the strips ({' and '.join(widths)} wide)"
    for tool in assembly.tools:
        if tool != _NEEDLE:
            yield tool[:1].upper() + tool[1:]
    yield "Seam ripper"


def _overedges(joins: Iterable[Join]) -> bool:
    """Whether a step overedges edges by the way, without a row of stitching of its own."""
    return any(work.word == "do" and "overedge" in work.text.lower() for join in joins for work in join.work)
