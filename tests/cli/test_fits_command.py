"""Cloths against sizes, and how large a cloth each size needs."""

from __future__ import annotations

import csv
import io
import json
import math
import re
import shutil
from pathlib import Path
from xml.etree import ElementTree

import pytest

from garmentc.cli.main import main

ROOT = Path(__file__).parents[2]
CHART = ("--sizes", "specs/sizes/women-en13402.yaml")


@pytest.fixture(autouse=True)
def studio(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """The specs of the studio, where plans may be kept; the stock is small, so that tests are quick."""
    shutil.copytree(ROOT / "specs", tmp_path / "specs")
    (tmp_path / "stock").mkdir()
    for name in ("ebb", "slack_water", "skerry", "offing"):
        shutil.copy(ROOT / f"specs/cloth/{name}.yaml", tmp_path / "stock")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def rows(text: str) -> dict[tuple[str, str], dict[str, str]]:
    return {(row["cloth"], row["size"]): row for row in csv.DictReader(io.StringIO(text))}


def test_cloths_against_sizes_as_csv_json_text_and_picture(capsys: pytest.CaptureFixture[str]) -> None:
    command = ["fits", "specs/tern.garment", *CHART, "--only", "88,128", "--cloth", "stock", "--limit", "20"]
    assert main([*command, "--as", "csv"]) == 0
    table = rows(capsys.readouterr().out)
    verdicts = {place: row["verdict"] for place, row in table.items()}
    assert verdicts == {
        ("ebb", "88"): "fits",
        ("ebb", "128"): "does not fit",
        ("skerry", "88"): "does not fit",
        ("skerry", "128"): "does not fit",
        ("slack_water", "88"): "fits",
        ("slack_water", "128"): "fits",
    }
    assert "no straight one" in table["skerry", "88"]["why_not"]
    # Each cell against the command that lays it.
    for (cloth, size), row in table.items():
        fits = main(["lay", "specs/tern.garment", *CHART, "--size", size, "--cloth", f"stock:{cloth}"]) == 0
        assert fits is (row["verdict"] == "fits")
    capsys.readouterr()
    assert main([*command, "--as", "json", "--limit", "1"]) == 0  # by now plans are kept
    cells = json.loads(capsys.readouterr().out)["cells"]
    assert {(one["cloth"], one["size"]): one["verdict"] for one in cells} == verdicts
    assert main(command) == 0
    told = capsys.readouterr().out
    assert re.search(r"^ +ebb +51% +no +88$", told, re.MULTILINE)
    assert re.search(r"^ +skerry +no +no +none$", told, re.MULTILINE)
    assert main([*command, "--as", "svg", "--out", "fits.svg"]) == 0
    texts = [
        one.text for one in ElementTree.fromstring(Path("fits.svg").read_bytes()).iter() if one.tag.endswith("text")
    ]
    assert texts.count("51%") == 1
    assert "ebb: Ebb" in texts


def test_what_is_short_is_told_with_its_amount(capsys: pytest.CaptureFixture[str]) -> None:
    # A square piece of 60 cm (with 1 cm of allowance 62 cm) on a cloth of 50 cm square: 6 cm are missing all round.
    Path("rag.yaml").write_text('cloth: "Rag"\noutline: {square: 50 cm}\n', encoding="utf-8")
    Path("specs/knot.garment").write_text(
        'garment knot "Knot"\nedition 1\npiece cloth "Cloth" {\n  cut 1\n  grain straight\n  outline {\n'
        "    a : (0 cm, 0 cm) -> (60 cm, 0 cm)\n    b : (60 cm, 0 cm) -> (60 cm, 60 cm)\n"
        "    c : (60 cm, 60 cm) -> (0 cm, 60 cm)\n    d : (0 cm, 60 cm) -> (0 cm, 0 cm)\n  }\n}\n"
        "finish cloth.a, cloth.b, cloth.c, cloth.d as overedged\n",
        encoding="utf-8",
    )
    command = ["fits", "specs/knot.garment", "--body", "specs/bodies/maren.yaml", "--as", "csv"]
    assert main([*command, "--cloth", "rag.yaml"]) == 0
    (row,) = rows(capsys.readouterr().out).values()
    assert row["verdict"] == "does not fit"
    short = re.search(r"([\d.]+) cm larger all round", row["why_not"])
    assert short
    assert float(short[1]) == pytest.approx(5.0, abs=1.1)


def test_the_smallest_square_of_a_square_piece_is_the_piece(capsys: pytest.CaptureFixture[str]) -> None:
    # Elementary geometry: on the straight grain its own size, on the bias w + h = s times the square root of 2.
    for grain, side in (("straight", 60.0), ("bias", 120.0 / math.sqrt(2.0))):
        Path("specs/knot.garment").write_text(
            f'garment knot "Knot"\nedition 1\npiece cloth "Cloth" {{\n  cut 1\n  grain {grain}\n  outline {{\n'
            "    a : (0 cm, 0 cm) -> (60 cm, 0 cm)\n    b : (60 cm, 0 cm) -> (60 cm, 60 cm)\n"
            "    c : (60 cm, 60 cm) -> (0 cm, 60 cm)\n    d : (0 cm, 60 cm) -> (0 cm, 0 cm)\n  }\n}\n"
            "finish cloth.a, cloth.b, cloth.c, cloth.d as bound\n"
            f"lay cloth {{ grain {grain} within 0 deg }}\n",
            encoding="utf-8",
        )
        command = ["fits", "specs/knot.garment", "--body", "specs/bodies/maren.yaml", "--square", "--as", "csv"]
        assert main(command) == 0
        (row,) = csv.DictReader(io.StringIO(capsys.readouterr().out))
        assert 0 <= float(row["wide_mm"]) - 10 * side <= 20
        assert float(row["ruled_out_mm"]) <= 10 * side


def test_the_square_of_tern_has_finished_edges(capsys: pytest.CaptureFixture[str]) -> None:
    command = ["fits", "specs/tern.garment", *CHART, "--only", "88", "--square", "--hem", "6 mm", "--limit", "5"]
    assert main([*command, "--as", "json"]) == 0
    (one,) = json.loads(capsys.readouterr().out)["needs"]
    assert one["ruled_out_mm"] < one["wide_mm"] <= 1000
    assert main(command) == 0
    assert "the smallest square" in capsys.readouterr().out


def test_the_length_of_a_cloth_of_some_width(capsys: pytest.CaptureFixture[str]) -> None:
    command = [
        "fits",
        "specs/plover.garment",
        *CHART,
        "--only",
        "88",
        "--width",
        "70 cm",
        "--hem",
        "8 mm",
        "--limit",
        "2",
    ]
    assert main([*command, "--as", "csv"]) == 0
    (row,) = csv.DictReader(io.StringIO(capsys.readouterr().out))
    assert float(row["high_mm"]) == 700
    assert 0 < float(row["ruled_out_mm"]) < float(row["wide_mm"]) < 2500


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--width", "wide"], "--width and --hem take lengths"),
        (["--square", "--as", "svg"], "--cloth"),
        (["--cloth", "lining=stock"], "where NAME is one of main"),
    ],
)
def test_wrong_use_is_told(options: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["fits", "specs/tern.garment", "--body", "specs/bodies/maren.yaml", *options]) == 2
    assert said in capsys.readouterr().err
