"""One garment for each row of a table: made once, gone on with, and no bad body stops the rest."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from garmentc import batch as module
from garmentc.assembly.model import Assembly
from garmentc.cli.main import main
from garmentc.data.model import Body
from garmentc.design.model import Design
from garmentc.diagnostics.finding import Findings

TERN = "specs/tern.garment"
TABLE = "body,bust_girth cm,strap_path cm,note\nAda,88,40,\nBea,91.5,41,\nCleo,94,,\nDora,9x,40,\nEve,97,42,tall\n"


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "bodies.csv"
    path.write_text(TABLE, encoding="utf-8")
    return path


def build(table: Path, *options: str) -> int:
    return main(
        ["build", TERN, "--bodies", str(table), "--out", str(table.parent / "out"), "--patterns-only", *options]
    )


def stamps(folder: Path) -> dict[str, int]:
    return {str(path.relative_to(folder)): path.stat().st_mtime_ns for path in folder.rglob("*") if path.is_file()}


def test_a_bad_body_does_not_stop_the_rest(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert build(table) == 1
    told = capsys.readouterr().err
    assert "3 of 5 bodies made" in told
    assert "2 failed" in told
    assert f"  {table}:4: Cleo: the garment needs `strap_path`" in told
    assert f"  {table}:5: Dora: `bust_girth` is `9x`" in told
    made = sorted(path.name for path in (table.parent / "out").iterdir())
    assert made == ["Ada", "Bea", "Eve"]
    one = table.parent / "one"
    body = table.parent / "ada.yaml"
    body.write_text("body: Ada\nmeasures:\n  bust_girth: 88 cm\n  strap_path: 40 cm\n", encoding="utf-8")
    assert main(["build", TERN, "--body", str(body), "--out", str(one), "--patterns-only"]) == 0
    for svg in (one / "Ada").glob("*.svg"):
        assert svg.read_bytes() == (table.parent / "out" / "Ada" / svg.name).read_bytes()


def test_what_is_done_is_left_until_what_it_was_made_from_changes(
    table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = table.parent / "out"
    build(table)
    before = stamps(out)
    (out / "Bea" / "front.svg").write_text("spoilt")
    table.write_text(TABLE.replace("97,42", "98,42").replace("94,,", "94,41,"), encoding="utf-8")
    capsys.readouterr()
    build(table)
    assert "3 of 5 bodies made" in (told := capsys.readouterr().err)
    assert "1 were there already" in told
    after = stamps(out)
    changed = {name for name in after if before.get(name) != after[name]}
    assert {name.split("/")[0] for name in changed} == {"Bea", "Cleo", "Eve"}
    build(table, "--set", "side_length=20cm")
    assert "4 of 5 bodies made" in capsys.readouterr().err


def test_a_fault_of_the_spec_is_told_once_and_nothing_is_written(
    table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert build(table, "--set", "side_lenght=20cm") == 2
    assert "nothing written" in capsys.readouterr().err
    assert not (table.parent / "out").exists()


def test_all_outputs_of_a_body_lie_in_its_folder(table: Path) -> None:
    table.write_text("body,bust_girth cm,strap_path cm\nAda,88,40\n", encoding="utf-8")
    assert main(["build", TERN, "--bodies", str(table), "--out", str(table.parent / "out")]) == 0
    ada = table.parent / "out" / "Ada"
    assert (ada / "sheet.html").exists()
    assert json.loads((ada / "garment.json").read_text(encoding="utf-8"))["sizes"][0]["size"] == "Ada"


def test_machines_get_all_findings(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert build(table, "--format", "plain") == 1
    told = capsys.readouterr()
    assert told.err == ""
    assert [line.split(":")[1] for line in told.out.splitlines()] == ["4", "5"]


def test_wrong_use(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert build(table, "--only", "Ada") == 2
    assert build(table.parent / "none.csv") == 2
    assert build(Path("specs/bodies/ilse.yaml")) == 2
    assert "wrong-file" in capsys.readouterr().err


SETTING = "body,bust_girth cm,strap_path cm,set straps,set side_length\nAda,88,40,,20 cm\nBea,92,41,loops,\n"


def test_a_column_sets_what_not_all_have_alike(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table.write_text(SETTING + "Cleo,94,41,knots,\nDora,94,41,,200 cm\n", encoding="utf-8")
    assert build(table, "--format", "plain") == 1
    first, second, *rest = capsys.readouterr().out.splitlines()
    assert first.startswith(f"{table}:4:12: error[unknown-name]")
    assert second.startswith(f"{table}:5:13: error[out-of-range]")
    assert rest == []
    out = table.parent / "out"
    assert (out / "Bea" / "loop.svg").exists()
    assert not (out / "Ada" / "loop.svg").exists()
    assert "side_length" not in (label := (out / "Ada" / "front.svg").read_text(encoding="utf-8"))
    assert "side length" in label.replace("\u00a0", " ")
    table.write_text(SETTING.replace("loops", ""), encoding="utf-8")
    assert build(table) == 0
    told = capsys.readouterr().err
    assert "1 of 2 bodies made" in told
    assert not (out / "Bea" / "loop.svg").exists()


def test_a_column_that_sets_nothing_of_the_garment(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table.write_text(SETTING.replace("side_length", "side_lenght"), encoding="utf-8")
    assert build(table) == 1
    told = capsys.readouterr().err
    assert "did you mean `side_length`?" in told
    assert "nothing written" in told


def test_sheets_on_paper(table: Path) -> None:
    table.write_text("body,bust_girth cm,strap_path cm\nAda,88,40\n", encoding="utf-8")
    out = table.parent / "out"
    assert main(["build", TERN, "--bodies", str(table), "--out", str(out), "--sheet-pdf", "a4"]) == 0
    assert (out / "Ada" / "sheet.pdf").read_bytes().startswith(b"%PDF")
    assert build(table, "--sheet-pdf", "a4") == 2


def test_a_fault_of_the_compiler_with_one_body_stops_no_other(
    table: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    real = module.make

    def make(design: Design, body: Body, findings: Findings) -> Assembly | None:
        if body.name == "Bea":
            raise ZeroDivisionError("no way")
        return real(design, body, findings)

    monkeypatch.setattr(module, "make", make)
    assert build(table) == 1
    told = capsys.readouterr().err
    assert "2 of 5 bodies made" in told
    assert f"  {table}:3: Bea: fault of garmentc: ZeroDivisionError: no way" in told


def test_warnings_of_what_is_there_already_are_told_again(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    table.write_text("body,bust_girth cm,strap_path cm\nAda,88,40\nBea,31,41\n", encoding="utf-8")
    assert build(table, "--set", "ease.bust_girth=4cm") == 1
    told = capsys.readouterr().err
    assert "implausible-measure" in told
    assert "2 of 2 bodies made" in told
    before = stamps(table.parent / "out")
    assert build(table, "--set", "ease.bust_girth=4cm") == 1
    again = capsys.readouterr().err
    assert "implausible-measure" in again
    assert "0 of 2 bodies made" in again
    assert "2 were there already" in again
    assert stamps(table.parent / "out") == before


def test_a_measure_that_a_row_lacks_is_asked_for_as_a_cell(table: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert build(table, "--format", "plain") == 1
    (line,) = [line for line in capsys.readouterr().out.splitlines() if "missing-measures" in line]
    assert "which this row does not give" in line
    assert "fill in its cell" in line
