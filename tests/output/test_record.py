"""Old files in an output folder: what garmentc wrote itself goes when it is stale, and nothing else."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from garmentc.cli.main import main
from garmentc.output.record import record_name

ROOT = Path(__file__).parents[2]
CHART = "specs/sizes/women-en13402.yaml"
RECORD = record_name("tern")
Build = Callable[..., str]


@pytest.fixture
def build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Build:
    """Builds a garment into one folder and gives the last line of what was said."""
    monkeypatch.chdir(ROOT)

    def run(*arguments: str, garment: str = "tern") -> str:
        assert main(["build", f"specs/{garment}.garment", "--out", str(tmp_path), *arguments]) == 0
        return capsys.readouterr().err.splitlines()[-1]

    return run


@pytest.fixture
def short_chart(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A chart that has only the sizes 88 and 92 of the bust, and what tern asks for."""
    path = tmp_path_factory.mktemp("chart") / "short.yaml"
    path.write_text(
        'chart: "Two sizes"\nsource: "invented"\nsizes: ["88", "92"]\nmeasures:\n'
        '  bust_girth: {unit: cm, values: [88, 92], origin: "invented"}\n'
        '  strap_path: {unit: cm, values: [37.8, 38.4], origin: "invented"}\n',
        encoding="utf-8",
    )
    return str(path)


def folders(out: Path) -> set[str]:
    return {path.name for path in out.iterdir() if path.is_dir()}


def test_a_whole_chart_removes_the_sizes_it_no_longer_has(build: Build, tmp_path: Path, short_chart: str) -> None:
    build("--sizes", CHART, "--only", "84,88")
    said = build("--sizes", short_chart)
    assert folders(tmp_path) == {"88", "92"}
    assert "7 old ones removed" in said
    assert "left there" not in said


def test_only_leaves_the_other_sizes_and_names_them(build: Build, tmp_path: Path) -> None:
    build("--sizes", CHART, "--only", "84,88")
    said = build("--sizes", CHART, "--only", "92")
    assert folders(tmp_path) == {"84", "88", "92"}
    assert "left there from earlier builds: 84, 88" in said
    assert "removed" not in said
    assert "left there from earlier builds: 84, 92" in build("--sizes", CHART, "--only", "88")


def test_a_piece_that_is_no_longer_made_goes_from_its_own_folder(build: Build, tmp_path: Path) -> None:
    build("--sizes", CHART, "--only", "84,88", "--set", "straps=loops")
    assert "1 old one removed" in build("--sizes", CHART, "--only", "88")
    assert not (tmp_path / "88" / "loop.svg").exists()
    assert (tmp_path / "84" / "loop.svg").exists()


def test_sheets_do_not_stay_beside_newer_patterns(build: Build, tmp_path: Path) -> None:
    build("--sizes", CHART, "--only", "88")
    build("--sizes", CHART, "--only", "88", "--patterns-only")
    assert not list(tmp_path.glob("88/sheet.*"))
    assert not (tmp_path / "garment.json").exists()


def test_persons_are_not_removed_by_a_chart_or_another_person(build: Build, tmp_path: Path, short_chart: str) -> None:
    build("--body", "specs/bodies/ilse.yaml")
    said = build("--body", "specs/bodies/maren.yaml")
    assert folders(tmp_path) == {"Ilse", "Maren"}
    assert "earlier builds: Ilse:" in said
    build("--sizes", short_chart)
    assert folders(tmp_path) == {"Ilse", "Maren", "88", "92"}


def test_what_someone_changed_or_added_stays(build: Build, tmp_path: Path, short_chart: str) -> None:
    build("--sizes", CHART, "--only", "84")
    (tmp_path / "84" / "front.svg").write_text("drawn over", encoding="utf-8")
    (tmp_path / "84" / "notes.txt").write_text("mine", encoding="utf-8")
    build("--sizes", short_chart)
    assert {path.name for path in (tmp_path / "84").iterdir()} == {"front.svg", "notes.txt"}


def test_another_garment_in_the_same_folder_is_left_alone(build: Build, tmp_path: Path) -> None:
    build("--sizes", CHART, "--only", "84")
    build("--sizes", CHART, garment="plover")
    assert (tmp_path / "84" / "strap.svg").exists()


@pytest.mark.parametrize(
    "record",
    [
        "",
        "[]",
        '{"format": "garmentc-files", "folders": []}',
        '{"format": "else", "folders": {"84": {"chart": true, "files": {"front.svg": "0"}}}}',
    ],
)
def test_a_list_that_is_no_list_removes_nothing(record: str, build: Build, tmp_path: Path, short_chart: str) -> None:
    build("--sizes", CHART, "--only", "84")
    (tmp_path / RECORD).write_text(record, encoding="utf-8")
    build("--sizes", short_chart)
    assert folders(tmp_path) == {"84", "88", "92"}


@pytest.mark.parametrize(("folder", "name"), [("..", "kept.txt"), ("84", "../../kept.txt"), ("/", "kept.txt")])
def test_a_list_reaches_no_file_outside_its_folders(
    folder: str, name: str, build: Build, tmp_path: Path, short_chart: str
) -> None:
    outside = tmp_path.parent / "kept.txt"
    outside.write_bytes(b"")
    build("--sizes", CHART, "--only", "84")
    record = json.loads((tmp_path / RECORD).read_text(encoding="utf-8"))
    empty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    record["folders"][folder] = {"chart": True, "files": {name: empty}}
    (tmp_path / RECORD).write_text(json.dumps(record), encoding="utf-8")
    build("--sizes", short_chart)
    assert outside.exists()
