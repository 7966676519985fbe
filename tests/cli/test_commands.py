"""The command line as a user meets it: exit codes, what is written, what is left alone."""

import json
import os
import subprocess
import sys
from pathlib import Path

import jsonschema
import pytest

from garmentc.cli.main import main

ROOT = Path(__file__).parents[2]
CHART = "specs/sizes/women-en13402.yaml"
SIZES = ["76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128"]


@pytest.fixture(autouse=True)
def in_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}


def test_build_writes_every_size(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", "specs/tern.garment", "--sizes", CHART, "--out", str(tmp_path)]) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([".garmentc-tern.json", *SIZES, "garment.json"])
    for size in SIZES:
        names = {path.name for path in (tmp_path / size).iterdir()}
        pieces = {"front.svg", "back.svg", "back_facing.svg", "strap.svg", "all-pieces.svg"}
        assert names == pieces | {"sheet.html", "sheet.md"}
    assert "12 sizes" in capsys.readouterr().err


@pytest.mark.parametrize("spec", ["tern", "plover"])
def test_garment_json_follows_its_schema(spec: str, tmp_path: Path) -> None:
    assert main(["build", f"specs/{spec}.garment", "--sizes", CHART, "--out", str(tmp_path)]) == 0
    document = json.loads((tmp_path / "garment.json").read_text(encoding="utf-8"))
    schema = json.loads(Path("grammar/schemas/garment.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(document, schema)
    assert [size["size"] for size in document["sizes"]] == SIZES


def test_second_build_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ["build", "specs/tern.garment", "--sizes", CHART, "--only", "88,92", "--out", str(tmp_path)]
    assert main(arguments) == 0
    before = {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*") if path.is_file()}
    capsys.readouterr()
    assert main(arguments) == 0
    assert "0 of them new or changed" in capsys.readouterr().err
    assert before == {path: path.stat().st_mtime_ns for path in tmp_path.rglob("*") if path.is_file()}


def test_a_change_of_one_param_touches_only_what_it_moves(tmp_path: Path) -> None:
    spec, out = tmp_path / "tern.garment", tmp_path / "out"
    text = Path("specs/tern.garment").read_text(encoding="utf-8")
    arguments = ["build", str(spec), "--sizes", CHART, "--only", "88", "--out", str(out), "--patterns-only"]
    spec.write_text(text, encoding="utf-8")
    assert main(arguments) == 0
    before = files(out)
    spec.write_text(text.replace("side_length = 16 cm", "side_length = 20 cm"), encoding="utf-8")
    assert main(arguments) == 0
    after = files(out)
    changed = {name for name in before if before[name] != after[name]}
    assert "88/front.svg" in changed
    assert "88/strap.svg" not in changed


def test_body_and_set_and_only(tmp_path: Path) -> None:
    body = sorted(Path("specs/bodies").glob("*.yaml"))[0]
    assert main(["build", "specs/tern.garment", "--body", str(body), "--out", str(tmp_path)]) == 0
    out = tmp_path / "wide"
    wide = ["build", "specs/tern.garment", "--sizes", CHART, "--only", "88", "--set", "ease.bust_girth=10cm"]
    assert main([*wide, "--out", str(out)]) == 0
    size = json.loads((out / "garment.json").read_text(encoding="utf-8"))["sizes"][0]
    assert size["params"]["ease.bust_girth"] == 100.0
    bust = next(one for one in size["finished"] if one["name"] == "bust")
    assert bust["value"] == pytest.approx(980.0)
    assert "| bust girth | 10 cm (changed) |" in (out / "88" / "sheet.md").read_text(encoding="utf-8")


def test_nothing_is_written_when_there_is_an_error(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    code = main(["build", "specs/tern.garment", "--sizes", CHART, "--set", "side_length=90 cm", "--out", str(out)])
    assert code == 1
    assert not out.exists()
    assert "out-of-range" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (["check", "specs/tern.garment"], 0),
        (["check", "specs/plover.garment", "--sizes", CHART], 0),
        (["check", "specs/nowhere.garment"], 2),
        (["check", "specs/tern.garment", "--sizes", "specs/nowhere.yaml"], 2),
        (["check", "specs/tern.garment", "--only", "88"], 2),
        (["check", "specs/tern.garment", "--sizes", CHART, "--only", "87"], 2),
        (["check", "specs/tern.garment", "--set", "nonsense"], 2),
        (["check", CHART], 2),
        (["check", "specs/cloth/ebb.yaml"], 2),
        (["check", "specs/tern.garment", "--body", CHART], 2),
        (["check", "specs/tern.garment", "--sizes", "specs/bodies/ilse.yaml"], 2),
        (["explain", "raw-edge"], 0),
        (["explain", "raw-egde"], 2),
        (["explain"], 0),
    ],
)
def test_exit_codes(arguments: list[str], code: int, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(arguments) == code
    said = capsys.readouterr()
    assert "Traceback" not in said.err + said.out


def test_all_findings_are_listed_with_what_they_mean(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert any(line.startswith("raw-edge: ") for line in lines)
    assert all(len(line.partition(": ")[2]) > 10 for line in lines)


TWO_BODIES = ["check", "specs/tern.garment", "--body", "specs/bodies/ilse.yaml", "--body", "specs/bodies/tove.yaml"]


@pytest.mark.parametrize("arguments", [[], ["build", "specs/tern.garment"], ["sew"], ["check"], TWO_BODIES])
def test_wrong_use_ends_with_2(arguments: list[str]) -> None:
    with pytest.raises(SystemExit) as stop:
        main(arguments)
    assert stop.value.code == 2


def test_an_output_folder_that_can_not_be_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("not a folder", encoding="utf-8")
    code = main(["build", "specs/tern.garment", "--sizes", CHART, "--only", "88", "--out", str(blocked / "out")])
    assert code == 2
    assert "can't write" in capsys.readouterr().err
    assert blocked.read_text(encoding="utf-8") == "not a folder"


def test_findings_for_machines(capsys: pytest.CaptureFixture[str]) -> None:
    wrong = ["check", "specs/tern.garment", "--set", "side_lenght=9 cm"]
    assert main([*wrong, "--format", "json"]) == 2
    document = json.loads(capsys.readouterr().out)
    schema = json.loads(Path("grammar/schemas/finding.schema.json").read_text(encoding="utf-8"))
    jsonschema.validate(document, schema)
    assert main([*wrong, "--format", "plain"]) == 2
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == 1
    assert "unknown-name" in lines[0]
    assert main(["check", "specs/tern.garment", "--format", "json"]) == 0
    jsonschema.validate(json.loads(capsys.readouterr().out), schema)


@pytest.mark.parametrize("spec", ["tern", "plover"])
def test_same_bytes_under_any_hash_seed(spec: str, tmp_path: Path) -> None:
    written = []
    for seed in ("0", "1", "4711"):
        out = tmp_path / seed
        subprocess.run(
            [
                sys.executable,
                "-m",
                "garmentc",
                "build",
                f"specs/{spec}.garment",
                "--sizes",
                CHART,
                "--out",
                str(out),
            ],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": seed},
        )
        written.append(files(out))
    assert written[0] == written[1] == written[2]


def test_no_cache_folder_is_needed(tmp_path: Path) -> None:
    blocked = tmp_path / "cache"
    blocked.write_text("a file in its place", encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "garmentc", "check", "specs/tern.garment"],
        capture_output=True,
        check=False,
        env={**os.environ, "XDG_CACHE_HOME": str(blocked)},
    )
    assert done.returncode == 0, done.stderr


def test_names_of_bodies_become_safe_folders() -> None:
    from garmentc.output.write import folders

    assert folders(["88", "Ilse / tall", "../up", "Ilse-tall", "…"]) == [
        "88",
        "Ilse-tall",
        "up",
        "Ilse-tall-2",
        "body",
    ]
