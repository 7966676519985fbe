"""``garmentc format`` as a user meets it."""

import io
from pathlib import Path

import pytest

from garmentc.cli.main import main

UNTIDY = 'garment knot   "Knot"\nedition 1\nx=1 cm # why\n'
TIDY = 'garment knot "Knot"\nedition 1\nx = 1 cm  # why\n'


@pytest.fixture
def spec(tmp_path: Path) -> Path:
    path = tmp_path / "knot.garment"
    path.write_text(UNTIDY, encoding="utf-8")
    return path


def test_files_are_laid_out_in_place_once(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["format", str(spec)]) == 0
    assert spec.read_text(encoding="utf-8") == TIDY
    assert capsys.readouterr().err == f"{spec} formatted\n"
    assert main(["format", str(spec)]) == 0
    assert capsys.readouterr().err == ""


def test_check_and_diff_write_nothing(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["format", "--check", str(spec)]) == 1
    assert capsys.readouterr().err == f"{spec} would change\n"
    assert main(["format", "--diff", str(spec)]) == 1
    shown = capsys.readouterr().out
    assert "-x=1 cm # why\n+x = 1 cm  # why\n" in shown
    assert spec.read_text(encoding="utf-8") == UNTIDY
    main(["format", str(spec)])
    assert main(["format", "--check", "--diff", str(spec)]) == 0


def test_standard_input(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(UNTIDY.encode())))
    assert main(["format", "-"]) == 0
    assert capsys.readouterr().out == TIDY


def test_faults_leave_a_file_and_not_the_others(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    broken = spec.with_name("broken.garment")
    broken.write_text("x  = = 1\n", encoding="utf-8")
    assert main(["format", str(broken), str(spec)]) == 1
    assert broken.read_text(encoding="utf-8") == "x  = = 1\n"
    assert spec.read_text(encoding="utf-8") == TIDY
    told = capsys.readouterr().err
    assert "broken.garment:1:6" in told and f"{broken} left as it is" in told


def test_wrong_use(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["format", "--width", "0", str(spec)]) == 2
    assert main(["format", str(spec.with_name("missing.garment"))]) == 2
    assert "missing.garment" in capsys.readouterr().err
