"""The sheet as a PDF file: its clumps on pages, with a line at the foot of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.output.paper import pdf
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.papers import Paper
from garmentc.output.sheet.document import Document
from garmentc.output.sheetpdf.draw import Pen
from garmentc.output.sheetpdf.lay import Clump, lay
from garmentc.output.sheetpdf.parts import Mark, Part, Rule, height, moved
from garmentc.output.sheetpdf.type import FINE, Type
from garmentc.record import Record

MARGIN = 15.0
"""White round the text (mm): room for a hole punch, and more than any printer leaves."""
_FOOT = 7.0


class Page(Record):
    """The marks of a page, and the parts of the sheet that begin on it."""

    marks: tuple[Mark, ...]
    parts: tuple[str, ...]


def sheet_pdf(document: Document, paper: Paper, fonts: Fonts) -> bytes:
    """The sheet on paper of a size; ``fonts`` has to be fresh, since the file holds what was set with it."""
    type = Type(fonts)
    wide, high = paper.width - 2 * MARGIN, paper.height - 2 * MARGIN - _FOOT
    pages = list(_pages(lay(document, type, wide, high), high))
    made = pdf.Document(fonts, document.title, document.title, document.language)
    pen = Pen(made, type, paper.height)
    for number, page in enumerate(pages, start=1):
        foot = _foot(f"{document.title} · page {number} of {len(pages)}", type, wide, high)
        marks = [moved(mark, MARGIN, MARGIN) for mark in (*page.marks, *foot)]
        made.page(paper.width, paper.height, list(pen.ops(marks)), page.parts)
    return made.finish()


def _foot(text: str, type: Type, wide: float, high: float) -> tuple[Mark, ...]:
    line = type.lines(text, FINE, wide)[-1:]
    return Rule(0.0, high + 2.5, wide, high + 2.5, 0.15), *type.marks(line, FINE, 0.0, high + 3.0)


def _pages(clumps: Iterable[Clump], high: float) -> Iterator[Page]:
    """The clumps on pages: each whole where it fits on one, else divided between its parts."""
    marks: list[Mark] = []
    parts: list[str] = []
    at = 0.0
    for part, due in _due(clumps, high):
        if marks and at + due > high:
            yield Page(tuple(marks), tuple(parts))
            marks, parts, at = [], [], 0.0
        at += part.above if marks else 0.0
        marks += (moved(mark, 0.0, at) for mark in part.marks)
        parts += [part.part_of] * bool(part.part_of)
        at += part.high
    yield Page(tuple(marks), tuple(parts))


def _due(clumps: Iterable[Clump], high: float) -> Iterator[tuple[Part, float]]:
    """Each part, and how much room has to be left for it and for what stays with it."""
    waiting: list[Part] = []
    for clump in clumps:
        whole = [*waiting, *clump]
        if clump[-1].holds and height(whole) <= high / 2:  # a heading stays with what follows
            waiting = whole
            continue
        waiting = []
        if height(whole) <= high:
            yield whole[0], height(whole)
            yield from ((part, 0.0) for part in whole[1:])
            continue
        for number, part in enumerate(whole):
            held = number
            while whole[held].holds and held + 1 < len(whole):
                held += 1
            yield part, height(whole[number : held + 1])
    yield from ((part, part.above + part.high) for part in waiting)
