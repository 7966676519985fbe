"""The compiler as another program uses it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import garmentc
from garmentc.cli.main import main

TERN, CHART = Path("specs/tern.garment"), Path("specs/sizes/women-en13402.yaml")
BIB = """garment dunlin "Dunlin, a bib"
edition 1
measure bust_girth
param deep = 30 cm from 10 cm to 60 cm "top to bottom"
piece bib "Bib" {
  cut 1
  grain straight
  outline {
    lower : (0 cm, 0 cm) -> (bust_girth / 4, 0 cm)
    side  : (bust_girth / 4, 0 cm) -> (bust_girth / 4, deep)
    top   : (bust_girth / 4, deep) -> (0 cm, deep)
    other : (0 cm, deep) -> (0 cm, 0 cm)
  }
}
finish bib.lower, bib.side, bib.top, bib.other as turned_hem
finished depth "Depth" = bib.side.length
"""
LIU = garmentc.Person("Liu", {"bust_girth": 880, "strap_path": "15 3/4 in"})


@pytest.fixture(scope="module")
def tern() -> garmentc.Built:
    return garmentc.build(TERN, sizes=CHART, only=["84", "88"])


def test_a_loaded_garment_says_what_it_needs_and_what_may_be_set() -> None:
    garment = garmentc.load(TERN)
    assert garment.ok
    assert garment.name == "tern"
    assert list(garment.measures) == ["bust_girth", "strap_path"]
    assert "ease.bust_girth" in garment.params
    assert garment.choices["straps"].options == ("sewn", "loops")
    assert "front" in garment.pieces


def test_a_build_gives_the_files_of_the_command(tern: garmentc.Built, tmp_path: Path) -> None:
    written = tern.write(tmp_path / "api")
    assert written == len(tern.files)
    assert tern.write(tmp_path / "api") == 0
    main(["build", str(TERN), "--sizes", str(CHART), "--only", "84,88", "--out", str(tmp_path / "cli")])
    for name, data in tern.files.items():
        assert (tmp_path / "cli" / name).read_bytes() == data == (tmp_path / "api" / name).read_bytes()


def test_a_build_gives_numbers(tern: garmentc.Built) -> None:
    size = tern.sizes["88"]
    # A front a quarter of the bust and half the ease, a back a quarter, each twice: bust 88 cm and 4 cm.
    assert size.finished["bust"].value == pytest.approx(920.0)
    assert size.edges["front.side"] == pytest.approx(size.edges["back.side"])
    assert size.params["side_length"] == pytest.approx(160.0)
    assert "front.svg" in size.files


def test_a_person_is_drafted_from_numbers_and_texts() -> None:
    built = garmentc.build(TERN, body=LIU, settings={"ease.bust_girth": "10 cm"}, patterns_only=True)
    assert built.ok
    assert built.sizes["Liu"].finished["bust"].value == pytest.approx(980.0)
    assert all(name.endswith(".svg") for name in built.files)


def test_texts_are_enough_and_the_disk_is_not_read() -> None:
    garment = garmentc.load("dunlin.garment", files={"dunlin.garment": BIB})
    built = garmentc.build(garment, body=garmentc.Person("Liu", {"bust_girth": 900.0}))
    assert built.sizes["Liu"].edges["bib.lower"] == pytest.approx(225.0)
    outside = garmentc.load(str(TERN.resolve()), files={"dunlin.garment": BIB})
    assert [finding.slug for finding in outside.findings] == ["file-unreadable"]


def test_settings_of_a_loaded_garment_hold_for_what_follows() -> None:
    longer = garmentc.load("dunlin.garment", files={"dunlin.garment": BIB}, settings={"deep": "40 cm"})
    person = garmentc.Person("Liu", {"bust_girth": 900.0})
    assert garmentc.build(longer, body=person).sizes["Liu"].finished["depth"].value == pytest.approx(400.0)
    again = garmentc.build(longer, body=person, settings={"deep": "50 cm"})
    assert again.sizes["Liu"].finished["depth"].value == pytest.approx(500.0)


def test_faults_come_back_as_findings_and_nothing_can_be_written(tmp_path: Path) -> None:
    built = garmentc.build(TERN, body=garmentc.Person("Liu", {"bust_girth": "88"}))
    assert not built.ok
    assert [finding.slug for finding in built.findings] == ["bad-length"]
    assert "measures of Liu:" in built.told("plain")
    with pytest.raises(ValueError, match="nothing to write"):
        built.write(tmp_path)
    assert list(tmp_path.iterdir()) == []
    checked = garmentc.check(TERN, body=garmentc.Person("Liu", {"bust_girth": 880}))
    assert [finding.slug for finding in checked.findings] == ["missing-measures"]


def test_a_wrong_call_is_an_exception() -> None:
    with pytest.raises(ValueError, match="either"):
        garmentc.build(TERN)
    with pytest.raises(ValueError, match="not both"):
        garmentc.check(TERN, sizes=CHART, body=LIU)
    with pytest.raises(ValueError, match="only picks"):
        garmentc.check(TERN, only=["88"])
    with pytest.raises(AttributeError, match="biuld"):
        _ = garmentc.biuld


def test_two_states_are_compared() -> None:
    old = garmentc.load("dunlin.garment", files={"dunlin.garment": BIB})
    new = garmentc.load("dunlin.garment", files={"dunlin.garment": BIB.replace("30 cm from", "32 cm from")})
    person = garmentc.Person("Liu", {"bust_girth": 900.0})
    found = garmentc.compare(old, new, body=person)
    assert found.ok
    assert not found.same
    assert "deep" in found.text("short")
    assert garmentc.compare(old, old, body=person).same
    broken = garmentc.load("dunlin.garment", files={"dunlin.garment": "garment"})
    with pytest.raises(ValueError, match="can't be compared"):
        garmentc.compare(old, broken).text()


def test_a_name_is_there_after_its_room_was_loaded() -> None:
    program = "import garmentc.comparison.model, garmentc; print(callable(garmentc.compare), garmentc.__all__)"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.startswith("True")


def test_the_command_does_not_load_it() -> None:
    program = (
        "import sys; from garmentc.cli.main import main; main(['check', 'specs/tern.garment']);"
        "print('garmentc.api' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_the_documented_use_works(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    text = Path("DEVELOPERS.md").read_text(encoding="utf-8").partition("```python\n")[2].partition("```")[0]
    program = text.replace('"out"', repr(str(tmp_path))).replace("HEAD~1", "specs/tern_tunic.garment")
    exec(compile(program, "DEVELOPERS.md", "exec"), {})
    assert (tmp_path / "Ada" / "sheet.html").exists()
