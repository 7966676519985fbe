"""The sheet on paper, read back: all of its words in order, on pages of the right size, with nothing in the margins."""

from __future__ import annotations

import itertools
from functools import cache

import pypdfium2 as pdfium
import pytest

from garmentc.cli.main import main
from garmentc.host import DiskHost
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.papers import read_paper
from garmentc.output.sheet.content import sheet_document
from garmentc.output.sheet.document import Checklist, Document, Heading, Items, Paragraph, Steps, Table
from garmentc.output.sheetpdf.file import MARGIN, sheet_pdf
from garmentc.output.sheetpdf.type import BODY, Type
from garmentc.pipeline import compile_spec
from tests.support import MemoryHost

WORDS = ["specs/tern.garment", "--sizes", "specs/sizes/women-en13402.yaml", "--only", "88"]


@cache
def document(garment: str = "tern") -> Document:
    made = compile_spec(DiskHost(), f"specs/{garment}.garment", body="specs/bodies/maren.yaml").made
    return sheet_document(made[0])


@cache
def pages(paper: str) -> tuple[str, ...]:
    read = pdfium.PdfDocument(sheet_pdf(document(), read_paper(paper), Fonts(DiskHost())))
    return tuple(squeezed(page.get_textpage().get_text_range()) for page in read)


def squeezed(text: str) -> str:
    """A text without its blanks: where lines are broken is left to the page."""
    return "".join(text.split()).replace("\u00ad", "")


def told(shown: Document) -> list[str]:
    """The texts of a sheet in their order, as far as they run over the whole width."""
    found = [shown.title]
    for block in shown.blocks:
        match block:
            case Heading(_, text) | Paragraph(text):
                found.append(text)
            case Items(lines) | Checklist(lines):
                found += lines
            case Table():
                found += [block.caption, *block.head, *(row[0] for row in block.rows)]
            case Steps(steps):
                for step in steps:
                    found += [step.title, *step.lines]
    return found


@pytest.mark.parametrize(("paper", "wide", "high"), [("a4", 210.0, 297.0), ("letter", 215.9, 279.4)])
def test_every_word_of_the_sheet_is_on_paper_in_its_order(paper: str, wide: float, high: float) -> None:
    """ISO 216 and ANSI Y14.1 give the sizes in mm and inches."""
    data = sheet_pdf(document(), read_paper(paper), Fonts(DiskHost()))
    read = pdfium.PdfDocument(data)
    for page in read:
        assert [side / 72 * 25.4 for side in page.get_size()] == pytest.approx([wide, high], abs=0.05)
    text, at = "".join(pages(paper)), 0
    for one in told(document()):
        foot = text.find(squeezed(one), at)
        assert foot >= 0, one
        at = foot
    assert f"page{len(read)}of{len(read)}" in pages(paper)[-1]


def test_the_margins_stay_white() -> None:
    read = pdfium.PdfDocument(sheet_pdf(document("plover"), read_paper("a4"), Fonts(DiskHost())))
    for page in read:
        grey = page.render(scale=1.0, grayscale=True).to_numpy()
        grey = grey.reshape(grey.shape[:2])
        edge = int((MARGIN - 3.0) / 25.4 * 72)
        assert grey[:, :edge].min() == 255 and grey[:, -edge:].min() == 255
        assert grey[:edge, :].min() == 255 and grey[-edge // 2 :, :].min() == 255


def test_a_step_that_fits_on_a_page_is_never_divided() -> None:
    (steps,) = (block.steps for block in document().blocks if isinstance(block, Steps))
    for step in steps:
        title, last = squeezed(f"{step.number}. {step.title}"), squeezed(step.lines[-1])
        assert any(title in page and last in page[page.find(title) :] for page in pages("a4")), step.title


def test_parts_are_bookmarks_on_their_pages() -> None:
    read = pdfium.PdfDocument(sheet_pdf(document(), read_paper("a4"), Fonts(DiskHost())))
    marks = [(one.get_title(), one.get_dest().get_index()) for one in read.get_toc()]
    assert [title for title, _ in marks] == [
        block.text for block in document().blocks if isinstance(block, Heading) and block.level == 2
    ]
    for title, page in marks:
        assert squeezed(title) in pages("a4")[page]


def test_two_runs_give_the_same_bytes() -> None:
    one, other = (sheet_pdf(document(), read_paper("a4"), Fonts(DiskHost())) for _ in range(2))
    assert one == other


@pytest.mark.parametrize("room", [8.0, 20.0, 60.0, 180.0])
def test_lines_are_as_wide_as_the_room_at_most(room: float) -> None:
    """Units stay with their numbers, and a word wider than the room is broken inside."""
    type = Type(Fonts(DiskHost()))
    text = "Print again at 100 %, without fitting to the page; abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyz"
    lines = type.lines(text, BODY, room)
    assert all(type.width(line, BODY) <= room + 1e-6 for line in lines)
    assert squeezed("".join(lines)) == squeezed(text)
    if room > 10:
        assert not any(one.endswith("100") for one in lines)
        spare = [type.width(f"{one} {other.split(' ')[0]}", BODY) for one, other in itertools.pairwise(lines)]
        assert all(wide > room for wide in spare)


def test_build_writes_it_when_asked() -> None:
    host = MemoryHost({})
    assert main(["build", *WORDS, "--out", "out", "--sheet-pdf", "letter"], host) == 0
    assert host.files["out/88/sheet.pdf"].startswith(b"%PDF-1.7")
    host = MemoryHost({})
    assert main(["build", *WORDS, "--out", "out"], host) == 0
    assert "out/88/sheet.pdf" not in host.files


@pytest.mark.parametrize("more", [["--patterns-only"], ["--sheet-pdf", "a0"]])
def test_what_does_not_go_together_is_refused(more: list[str]) -> None:
    try:
        code = main(["build", *WORDS, "--out", "out", "--sheet-pdf", "a4", *more], MemoryHost({}))
    except SystemExit as left:
        code = int(str(left.code))
    assert code == 2
