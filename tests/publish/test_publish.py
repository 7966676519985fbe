"""The hand-out of a garment."""

from __future__ import annotations

import io
import zipfile

import pypdfium2 as pdfium
import pytest

from garmentc.cli.main import main
from tests.support import MemoryHost

LICENCE = "You may sew it and sell what you sewed; share it unchanged.\n"
WORDS = [
    *("publish", "specs/tern.garment", "--sizes", "specs/sizes/women-en13402.yaml", "--only", "88,92"),
    *("--maker", "Estuary studio", "--licence", "licence.txt", "--credit", "Thanks to Ilse, who tried it on."),
]


def published(words: list[str]) -> bytes:
    host = MemoryHost({"licence.txt": LICENCE})
    assert main([*words, "--out", "tern.zip"], host) == 0
    return host.files["tern.zip"]


@pytest.fixture(scope="module")
def handout() -> zipfile.ZipFile:
    return zipfile.ZipFile(io.BytesIO(published(WORDS)))


def test_it_holds_all_that_others_need(handout: zipfile.ZipFile) -> None:
    assert set(handout.namelist()) == {
        f"tern/{name}"
        for name in (
            *("pattern-a4.pdf", "pattern-letter.pdf", "pattern-a0.pdf"),
            *(f"sheets/tern-{size}{end}" for size in (88, 92) for end in (".html", "-a4.pdf", "-letter.pdf")),
            *("size-chart.txt", "size-chart.csv", "measurements.txt", "measurements.csv"),
            *("LICENCE.txt", "CREDITS.txt", "FONT-LICENCE.txt"),
        )
    }
    assert handout.testzip() is None


@pytest.mark.parametrize(
    ("name", "wide", "high"), [("a4", 210.0, 297.0), ("letter", 215.9, 279.4), ("a0", 841.0, 1189.0)]
)
def test_papers_have_their_sizes(handout: zipfile.ZipFile, name: str, wide: float, high: float) -> None:
    """ISO 216 and ANSI Y14.1 give the sizes in mm and inches."""
    page = pdfium.PdfDocument(handout.read(f"tern/pattern-{name}.pdf"))[0]
    assert sorted(side / 72.0 * 25.4 for side in page.get_size()) == pytest.approx([wide, high], abs=0.05)


def test_licence_credits_and_the_licence_of_the_font(handout: zipfile.ZipFile) -> None:
    assert handout.read("tern/LICENCE.txt").decode() == LICENCE
    credits = handout.read("tern/CREDITS.txt").decode()
    assert "Made by Estuary studio." in credits
    assert "Thanks to Ilse, who tried it on." in credits
    assert "Bitstream Vera" in handout.read("tern/FONT-LICENCE.txt").decode()


def test_the_size_chart_is_that_of_the_file(handout: zipfile.ZipFile) -> None:
    rows = handout.read("tern/size-chart.csv").decode().splitlines()
    assert "88,bust_girth,bust girth,880" in rows
    assert "92,bust_girth,bust girth,920" in rows


def test_two_runs_give_the_same_bytes() -> None:
    words = [word if word != "88,92" else "88" for word in WORDS]
    assert published(words) == published(words)


def test_without_its_licence_nothing_is_written(capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({})
    assert main([*WORDS, "--out", "tern.zip"], host) == 2
    assert "can't read 'licence.txt'" in capsys.readouterr().err
    assert not host.files
