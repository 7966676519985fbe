"""One garment for each row of a table: made once, gone on with, and no bad body stops the rest."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from garmentc.cli.main import main

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
