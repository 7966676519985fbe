"""Gathers the files of a hand-out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from garmentc.assembly.model import Assembly
from garmentc.design.model import Design
from garmentc.output.measure.measures import size_measures
from garmentc.output.measure.model import SizeMeasures
from garmentc.output.measure.tables import measure_csv
from garmentc.output.measure.text import measure_text
from garmentc.output.paper.files import Wanted, garment_mark, print_pdf
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.papers import read_paper
from garmentc.output.paper.sizes import SizeDrawing, size_drawing
from garmentc.output.publish.chart import BodyMeasure, body_measures, chart_csv, chart_text
from garmentc.output.sheet.content import sheet_document
from garmentc.output.sheet.html import to_html
from garmentc.output.sheetpdf.file import sheet_pdf
from garmentc.output.texts.cut import size_text
from garmentc.output.texts.speech import Speech
from garmentc.record import Record

PAPERS = ("a4", "letter", "a0")
SHEET_PAPERS = ("a4", "letter")


class SizePart(Record):
    """What a hand-out holds of one size."""

    drawing: SizeDrawing
    measures: SizeMeasures
    body: tuple[BodyMeasure, ...]
    sheets: tuple[tuple[str, bytes], ...]


class Maker(Record):
    """Who made a garment, under which licence (the text of it) it may be used, and whom to thank, line by line.

    ``in_short`` is the licence in a few words, for the first page of the pattern.
    """

    name: str
    licence: bytes
    credits: tuple[str, ...] = ()
    in_short: str = ""


def size_part(assembly: Assembly, *, fonts: Callable[[], Fonts], inches: bool = False) -> SizePart:
    """The part of one size, with its sheets by how their names end. ``fonts`` gives fresh fonts for each PDF."""
    document = sheet_document(assembly, inches=inches)
    sheets = [(".html", to_html(document).encode())]
    sheets += ((f"-{paper}.pdf", sheet_pdf(document, read_paper(paper), fonts())) for paper in SHEET_PAPERS)
    return SizePart(size_drawing(assembly, None), size_measures(assembly), body_measures(assembly), tuple(sheets))


def handout(
    design: Design, parts: Sequence[SizePart], maker: Maker, speech: Speech, fonts: Callable[[], Fonts]
) -> Iterator[tuple[str, bytes]]:
    """All files with their names. ``fonts`` gives fresh fonts for each PDF, which then holds only what it needs."""
    drawings = [part.drawing for part in parts]
    for paper in PAPERS:
        printed = print_pdf(
            design, drawings, read_paper(paper), Wanted(speech, False, maker.name, maker.in_short), fonts()
        )
        yield f"pattern-{paper}.pdf", printed.data
    for part in parts:
        for ending, data in part.sheets:
            yield f"sheets/{design.name}-{_plain(part.drawing.name)}{ending}", data
    sizes = {part.drawing.name: part.body for part in parts}
    yield "size-chart.txt", chart_text(design.title, sizes, speech).encode()
    yield "size-chart.csv", chart_csv(sizes).encode()
    measures = [part.measures for part in parts]
    yield "measurements.txt", (measure_text(design.title, measures, inches=speech.first.inches) + "\n").encode()
    yield "measurements.csv", measure_csv(measures).encode()
    yield "LICENCE.txt", maker.licence
    yield "CREDITS.txt", _credits(design, drawings, maker, speech).encode()
    yield "FONT-LICENCE.txt", "\n".join(fonts().licences()).encode()


def _credits(design: Design, drawings: Sequence[SizeDrawing], maker: Maker, speech: Speech) -> str:
    say = speech.say
    size = size_text([one.name for one in drawings], drawings[0].is_size, speech)
    lines = [
        design.title,
        f"{design.name}, {say('edition', edition=design.edition)}, {size}",
        say("fingerprint", mark=garment_mark(design, drawings)),
        "",
        say("credits_maker", name=maker.name),
        say("credits_licence"),
        *maker.credits,
        "",
        say("credits_fonts"),
        say("credits_cautions"),
    ]
    return "\n".join(lines) + "\n"


def _plain(name: str) -> str:
    """A name as part of a file's name."""
    return "".join(char if char.isalnum() or char in "-_" else "-" for char in name)
