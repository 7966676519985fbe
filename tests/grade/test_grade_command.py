"""``garmentc grade`` as a user meets it: exit codes, what goes where, what is written."""

import json
from pathlib import Path

import jsonschema
import pytest

from garmentc.cli.main import main
from tests.grade.small import CHART, bib
from tests.support import MemoryHost

ROOT = Path(__file__).parents[2]
UNEVEN = bib(wide="bust_girth / 4 + (if bust_girth > 98 cm then 3 cm else 0 cm)")
GRADE = ["grade", "knot.garment", "--sizes", CHART]


@pytest.fixture(autouse=True)
def in_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def test_the_table_goes_to_standard_output_and_findings_beside_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(GRADE, MemoryHost({"knot.garment": UNEVEN})) == 1
    said = capsys.readouterr()
    assert said.out.startswith("Knot, a bib: how it changes from size to size\n")
    assert "warning[uneven-step]" not in said.out
    assert "warning[uneven-step]" in said.err
    assert said.err.splitlines()[-1] == "12 sizes of knot compared: 1 warning"


def test_exit_codes(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(GRADE, MemoryHost({"knot.garment": bib()})) == 0
    assert main([*GRADE, "--only", "88"], MemoryHost({"knot.garment": bib()})) == 2
    assert "there is only one size" in capsys.readouterr().err
    assert main([*GRADE, "--only", "88,89"], MemoryHost({"knot.garment": bib()})) == 2
    assert main([*GRADE, "--align", "bib.corner"], MemoryHost({"knot.garment": bib()})) == 1
    assert main([*GRADE, "--align", "bib.far"], MemoryHost({"knot.garment": bib()})) == 0
    assert main(["grade", "nowhere.garment", "--sizes", CHART]) == 2
    assert main(["grade", "knot.garment"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_findings_for_machines_come_alone(capsys: pytest.CaptureFixture[str]) -> None:
    schema = json.loads(Path("grammar/schemas/finding.schema.json").read_text(encoding="utf-8"))
    assert main([*GRADE, "--format", "json"], MemoryHost({"knot.garment": UNEVEN})) == 1
    document = json.loads(capsys.readouterr().out)
    jsonschema.validate(document, schema)
    assert [(one["slug"], one["line"]) for one in document["findings"]] == [("uneven-step", 7)]
    assert main([*GRADE, "--format", "plain"], MemoryHost({"knot.garment": UNEVEN})) == 1
    assert len(capsys.readouterr().out.splitlines()) == 1
    assert main([*GRADE, "--format", "plain"], MemoryHost({"knot.garment": bib()})) == 0
    assert capsys.readouterr().out == ""


def test_files_are_written_with_warnings_and_not_with_errors(capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({"knot.garment": UNEVEN})
    assert main([*GRADE, "--out", "out"], host) == 1
    assert sorted(name for name in host.files if name.startswith("out/")) == ["out/grade-bib.svg", "out/grade.csv"]
    before = dict(host.files)
    assert main([*GRADE, "--out", "out"], host) == 1
    assert "2 files in out, 0 of them new or changed" in capsys.readouterr().err
    assert host.files == before
    broken = MemoryHost({"knot.garment": bib(wide="bust_girth - 80 cm")})
    assert main([*GRADE, "--out", "out"], broken) == 1
    assert list(broken.files) == ["knot.garment"]


def test_a_folder_that_can_not_be_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    assert main(["grade", "specs/tern.garment", "--sizes", CHART, "--only", "84,88", "--out", str(blocked)]) == 2
    assert "can't write" in capsys.readouterr().err


def test_settings_change_what_is_compared(capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ["grade", "specs/tern.garment", "--sizes", CHART, "--only", "84,88"]
    assert main(arguments) == 0
    plain = capsys.readouterr().out
    assert main([*arguments, "--set", "side_length=20 cm"]) == 0
    assert capsys.readouterr().out != plain
