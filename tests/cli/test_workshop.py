"""The defaults of a project's workshop.yaml hold in all commands, and what a command is told counts more."""

from __future__ import annotations

import shutil
import zipfile
from pathlib import Path

import pypdfium2
import pytest

from garmentc.cli.main import main

WORKSHOP = """workshop: "Estuary studio"
maker: "Wren Saltmarsh"
licence: "for your own use"
licence_file: licence.txt
chart: sizes/women.yaml
unit: inch
paper: letter
language: de
"""


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "tops").mkdir()
    (tmp_path / "sizes").mkdir()
    shutil.copy("specs/tern.garment", tmp_path / "tops")
    chart = Path("specs/sizes/women-en13402.yaml").read_text(encoding="utf-8")
    (tmp_path / "sizes" / "women.yaml").write_text(chart, encoding="utf-8")
    shutil.copy("specs/bodies/ilse.yaml", tmp_path)
    (tmp_path / "licence.txt").write_text("For your own use.\n", encoding="utf-8")
    (tmp_path / "workshop.yaml").write_text(WORKSHOP, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def first_page(path: Path) -> tuple[str, tuple[float, float]]:
    document = pypdfium2.PdfDocument(path)
    page = document[0]
    return page.get_textpage().get_text_bounded(), page.get_size()


def test_a_print_follows_the_workshop(project: Path) -> None:
    assert main(["print", "tops/tern.garment", "--only", "88", "--out", "tern.pdf"]) == 0
    text, size = first_page(project / "tern.pdf")
    assert size == pytest.approx((612, 792))  # Letter in points: ANSI/ASME Y14.1
    assert "von Wren Saltmarsh" in text
    assert "for your own use" in text
    assert "Seite 1 von" in text


def test_what_the_command_says_counts_more(project: Path) -> None:
    options = ["--body", "ilse.yaml", "--paper", "a4", "--language", "en"]
    assert main(["print", "tops/tern.garment", *options, "--out", "tern.pdf"]) == 0
    text, size = first_page(project / "tern.pdf")
    assert size == pytest.approx((595.3, 841.9), abs=0.1)  # A4, 210 mm by 297 mm: ISO 216
    assert "page 1 of" in text
    assert "for Ilse" in text


def test_the_workshop_is_found_from_below_and_from_elsewhere(
    project: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(project / "tops")
    assert main(["check", "tern.garment"]) == 0
    assert capsys.readouterr().err.startswith("tern.garment checked: ")
    assert main(["build", "tern.garment", "--only", "88", "--out", "../out", "--patterns-only"]) == 0
    monkeypatch.chdir("/")
    assert main(["measure", str(project / "tops" / "tern.garment"), "--only", "88"]) == 0
    assert "1 size of tern" in capsys.readouterr().err


def test_the_nearest_workshop_counts(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (project / "tops" / "workshop.yaml").write_text('workshop: "Tops"\n', encoding="utf-8")
    assert main(["build", "tops/tern.garment", "--out", "out"]) == 2
    assert "say for which bodies" in capsys.readouterr().err


def test_a_hand_out_takes_maker_and_licence(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["publish", "tops/tern.garment", "--only", "88", "--out", "tern.zip"]) == 0
    with zipfile.ZipFile("tern.zip") as zipped:
        assert zipped.read("tern/LICENCE.txt") == b"For your own use.\n"
        (project / "a4.pdf").write_bytes(zipped.read("tern/pattern-a4.pdf"))
    assert "von Wren Saltmarsh · for your own use" in first_page(project / "a4.pdf")[0]
    (project / "workshop.yaml").write_text('workshop: "Estuary studio"\nchart: sizes/women.yaml\n', encoding="utf-8")
    assert main(["publish", "tops/tern.garment", "--only", "88", "--out", "tern.zip"]) == 2
    assert "--maker NAME and --licence FILE" in capsys.readouterr().err


def test_a_fault_in_the_workshop_is_told_at_its_line(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (project / "workshop.yaml").write_text('workshop: "Estuary studio"\nunit: ell\n', encoding="utf-8")
    assert main(["check", "tops/tern.garment"]) == 2
    told = capsys.readouterr().err
    assert "tops/../workshop.yaml" not in told
    assert "workshop.yaml:2:7" in told
    assert "cm or inch" in told


def test_a_maker_whose_name_no_font_can_show_is_told(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = WORKSHOP.replace("Wren Saltmarsh", "𓅱 Saltmarsh")  # a bird among the hieroglyphs
    (project / "workshop.yaml").write_text(text, encoding="utf-8")
    assert main(["print", "tops/tern.garment", "--only", "88", "--out", "tern.pdf", "--format", "plain"]) == 1
    assert "workshop.yaml:2:8: warning[missing-characters]" in capsys.readouterr().out


def test_drawing_by_hand_needs_a_size_of_the_chart_or_a_body(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw-by-hand", "tops/tern.garment"]) == 2
    assert "--size SIZE" in capsys.readouterr().err
    assert main(["draw-by-hand", "tops/tern.garment", "--size", "88"]) == 0
    assert main(["draw-by-hand", "tops/tern.garment", "--body", "ilse.yaml"]) == 0


def test_several_garments_are_checked_at_once(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (project / "tops" / "wrong.garment").write_text('garment wrong "Wrong"\nedition 1\n', encoding="utf-8")
    assert main(["check", "tops/tern.garment", "tops/wrong.garment", "--body", "ilse.yaml"]) == 1
    told = capsys.readouterr().err
    assert "tops/tern.garment checked: no errors" in told
    assert "tops/wrong.garment checked: 1 error" in told
