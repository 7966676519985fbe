"""The compare command as a user meets it: two files, exit codes, sides with faults."""

from __future__ import annotations

import pytest

from garmentc.cli.main import main
from tests.comparison.small import CHART, DUNLIN, changed
from tests.support import MemoryHost

SIZES = ["--sizes", CHART, "--only", "84,88"]
FILES = {"old.garment": DUNLIN, "new.garment": changed(("deep = 30 cm", "deep = 31 cm"))}


def compare(*words: str, **files: str) -> int:
    named = {f"{name}.garment": text for name, text in files.items()}
    return main(["compare", *words], MemoryHost(FILES | named))


def test_exit_codes_tell_same_different_and_fault(capsys: pytest.CaptureFixture[str]) -> None:
    assert compare("old.garment", "old.garment", *SIZES) == 0
    assert compare("old.garment", "new.garment", *SIZES) == 1
    assert "bib.side: 300.0 to 310.0 mm (+10.0)" in capsys.readouterr().out
    assert compare("old.garment", "nowhere.garment", *SIZES) == 2
    assert compare("old.garment", "new.garment", "--only", "84") == 2


def test_without_bodies_the_statements_are_compared(capsys: pytest.CaptureFixture[str]) -> None:
    assert compare("old.garment", "new.garment") == 1
    out = capsys.readouterr().out
    assert 'from  param deep = 30 cm from 10 cm to 60 cm "top to bottom"' in out
    assert "to    param deep = 31 cm" in out
    assert compare("old.garment", "spaced.garment", spaced=DUNLIN.replace(" = ", "  =  ")) == 0


def test_a_side_with_errors_is_told_and_nothing_compared(capsys: pytest.CaptureFixture[str]) -> None:
    assert (
        compare("bad.garment", "worse.garment", *SIZES, bad="garment", worse=changed(("wide, 0 cm", "wid, 0 cm"))) == 2
    )
    shown = capsys.readouterr()
    assert shown.out == ""
    assert "bad.garment can't be compared: " in shown.err
    assert "worse.garment can't be compared: 1 error" in shown.err
    assert "did you mean `wide`" in shown.err


def test_settings_reach_both_sides(capsys: pytest.CaptureFixture[str]) -> None:
    assert compare("old.garment", "new.garment", *SIZES, "--set", "deep=25 cm") == 0
    capsys.readouterr()
