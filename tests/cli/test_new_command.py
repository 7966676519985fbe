"""A new project: from nothing to a first printed page, as its own README says."""

from __future__ import annotations

import json
import re
import shlex
from pathlib import Path

import pypdfium2
import pytest
import yaml
from jsonschema import Draft202012Validator

from garmentc.cli.main import main

SCHEMA = re.compile(r"\A# yaml-language-server: \$schema=(\S+)\n")


@pytest.fixture
def inside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.fixture
def project(inside: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    assert main(["new", "estuary-top", "--maker", 'Wren "W." Saltmarsh', "--title", "Estuary, a first top"]) == 0
    monkeypatch.chdir(inside / "estuary-top")
    return inside / "estuary-top"


def test_the_first_five_minutes_of_the_readme_work(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    readme = (project / "README.md").read_text(encoding="utf-8")
    commands = re.findall(r"^(garmentc (?:check|print|build) .*?)(?:\s+#.*)?$", readme, re.MULTILINE)
    assert len(commands) == 4
    for command in commands:
        assert main(shlex.split(command)[1:]) == 0, command
        assert "no errors, no warnings" in capsys.readouterr().err
    page = pypdfium2.PdfDocument(project / "estuary_top.pdf")[0].get_textpage().get_text_bounded()
    assert 'made by Wren "W." Saltmarsh' in page
    assert "Estuary, a first top" in page
    assert (project / "out" / "me" / "sheet.html").exists()


def test_its_garment_is_laid_out_and_warns_of_nothing(project: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["format", "--check", "estuary_top.garment"]) == 0
    assert main(["check", "estuary_top.garment"]) == 0
    assert main(["grade", "estuary_top.garment"]) == 0


def test_its_data_files_follow_the_schemas_beside_them(project: Path) -> None:
    files = [project / "workshop.yaml", project / "bodies" / "me.yaml", project / "sizes" / "women.yaml"]
    for file in files:
        text = file.read_text(encoding="utf-8")
        named = SCHEMA.match(text)
        assert named is not None
        schema = json.loads((file.parent / named[1]).read_text(encoding="utf-8"))
        Draft202012Validator(schema).validate(yaml.safe_load(text))


def test_its_body_says_how_to_take_each_measure_and_begins_as_the_size_of_the_chart(project: Path) -> None:
    body = (project / "bodies" / "me.yaml").read_text(encoding="utf-8")
    assert "# bust girth: horizontal, at the level of the bust points" in body
    measures = yaml.safe_load(body)["measures"]
    assert measures == {"bust_girth": "88 cm", "head_girth": "55.2 cm", "back_neck_point_to_waist": "41 cm"}


def test_its_hooks_pass_on_its_garment(project: Path) -> None:
    hooks = yaml.safe_load((project / ".pre-commit-config.yaml").read_text(encoding="utf-8"))["repos"][0]["hooks"]
    assert len(hooks) == 2
    for hook in hooks:
        found = [path.name for path in project.iterdir() if re.search(hook["files"], path.name)]
        assert main([*shlex.split(hook["entry"])[1:], *found]) == 0


def test_nothing_is_overwritten(project: Path, inside: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for path in [*project.glob("*"), *project.glob(".schemas/*")]:
        if path.is_file() and path.name != "licence.txt":
            path.unlink()
    (project / "licence.txt").write_text("mine", encoding="utf-8")
    before = sorted(path for path in project.rglob("*"))
    assert main(["new", str(project)]) == 2
    assert "licence.txt" in capsys.readouterr().err
    assert sorted(path for path in project.rglob("*")) == before
    assert (project / "licence.txt").read_text(encoding="utf-8") == "mine"


def test_inches_letter_and_german(inside: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert main(["new", "ebb", "--unit", "inch", "--language", "de"]) == 0
    monkeypatch.chdir(inside / "ebb")
    assert "paper: letter" in Path("workshop.yaml").read_text(encoding="utf-8")
    assert "34 5/8 in" in Path("bodies/me.yaml").read_text(encoding="utf-8")  # 88 cm, to 1/8 in
    assert main(["print", "ebb.garment", "--body", "bodies/me.yaml", "--out", "ebb.pdf"]) == 0
    page = pypdfium2.PdfDocument("ebb.pdf")[0]
    assert page.get_size() == pytest.approx((612, 792))
    assert "Seite 1 von" in page.get_textpage().get_text_bounded()


@pytest.mark.parametrize("name", ["9", "", "..", "é", "a" * 50])
def test_names_that_no_garment_can_have(name: str, inside: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", name]) == 2
    assert "can't be the name of a garment" in capsys.readouterr().err
    assert list(inside.iterdir()) == []


@pytest.mark.parametrize("title", ['a "b"', "a\nb", ""])
def test_a_title_is_never_taken_for_more_than_a_title(title: str, inside: Path) -> None:
    code = main(["new", "ebb", "--title", title])
    assert code == (0 if title == "" else 2)
    assert (inside / "ebb").exists() == (code == 0)


def test_words_of_the_language_can_be_names(inside: Path) -> None:
    assert main(["new", "piece"]) == 0


def test_the_wheel_carries_the_chart() -> None:
    assert '"specs/sizes" = "garmentc/specs/sizes"' in Path("pyproject.toml").read_text(encoding="utf-8")
