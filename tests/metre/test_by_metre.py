"""Cloth by the metre: lengths that can be worked out by hand, folds, threads, and the same numbers in every table."""

from __future__ import annotations

import csv
import io
import json

import pytest

from garmentc.assembly.model import Assembly
from garmentc.cli.main import main
from garmentc.cloth.metre import MetreNeed, Roll, metre_need, new_cloth
from garmentc.cloth.verify import verify
from garmentc.data.stock import Cloth, ThreadShares
from garmentc.host import DiskHost
from garmentc.output.metre.tables import MetreTable, metre_csv, metre_json, metre_text
from garmentc.pipeline import compile_spec
from tests.support import MemoryHost

BODY = "specs/bodies/maren.yaml"
PANELS = """
garment knot "Knot, panels and a band"
edition 1
piece panel "Panel" {
  cut {cut}
  grain {grain}
  low_left = (0 cm, 0 cm)
  low_right = (60 cm, 0 cm)
  high_right = (60 cm, 40 cm)
  high_left = (0 cm, 40 cm)
  outline {
    lower : low_left -> low_right
    right : low_right -> high_right
    upper : high_right -> high_left
    left : high_left -> low_left
  }
}
finish panel.lower, panel.right, panel.upper, panel.left as pinked
"""


def assembly(cut: str, grain: str = "straight", more: str = "") -> Assembly:
    text = PANELS.replace("{cut}", cut).replace("{grain}", grain) + more
    if "on fold" in cut:
        text = text.replace("panel.right, panel.upper, panel.left", "panel.right, panel.upper")
    host = MemoryHost({"knot.garment": text})
    compiled = compile_spec(host, "knot.garment", body=BODY)
    assert not list(compiled.findings)
    return compiled.made[0]


def cloth(width: float, *, is_one_way: bool = False, is_alike: bool = False) -> Cloth:
    return new_cloth(width, 10.0, is_one_way=is_one_way, is_alike=is_alike)


def need(made: Assembly, of: Cloth, *, is_folded: bool = False, limit: float = 0.4) -> MetreNeed:
    found = metre_need(made, "main", Roll(of, is_folded, limit, 1))
    assert all(verify(stretch.plan) == () for stretch in found.stretches)
    return found


def test_panels_lie_two_abreast() -> None:
    """The panel is 60 cm wide along the threads that run up it: 40 cm across the cloth once its grain is kept."""
    made = assembly("4")
    (piece,) = made.pieces
    left, low, right, high = piece.cut_line.bounds()
    wide, tall = right - left, high - low
    found = need(made, cloth(2 * wide + 30))  # selvages of 1 cm, and 1 cm to spare
    assert found.length == pytest.approx(2 * tall, abs=10)
    assert found.length >= found.least == pytest.approx(4 * wide * tall / (2 * wide + 10))
    assert found.used == pytest.approx(4 * wide * tall / (found.length * (2 * wide + 30)))


def test_what_is_wider_than_the_cloth_is_told_with_numbers() -> None:
    found = need(assembly("1"), cloth(520.0))
    (words,) = found.obstacles
    assert "Panel is 60" in words
    assert "the cloth only 50 cm" in words
    assert found.stretches == ()


def test_cloth_that_shrinks_is_bought_longer() -> None:
    made = assembly("1")
    bought = cloth(700.0)
    shrinking = bought._replace(shrinkage=ThreadShares(0.1, 0.0))
    assert need(made, shrinking).length == pytest.approx(need(made, bought).length / 0.9, abs=10)


def test_a_pair_is_cut_at_once_from_folded_cloth() -> None:
    made = assembly("pair")
    folded = need(made, cloth(1300.0), is_folded=True)
    (stretch,) = folded.stretches
    assert stretch.is_folded
    assert len(stretch.plan.shapes) == 1
    assert folded.length == pytest.approx(need(made, cloth(1300.0)).length, abs=10)  # two lie abreast on single cloth
    assert folded.used == pytest.approx(need(made, cloth(1300.0)).used, rel=0.03)


def test_a_half_lies_on_the_fold() -> None:
    made = assembly("1 on fold left")
    found = need(made, cloth(1300.0), is_folded=True)
    (stretch,) = found.stretches
    (shape,) = stretch.plan.shapes
    outline = stretch.plan.outline(shape)
    (edge,) = [made.draft.pieces[0].edge("left")]
    assert edge is not None
    assert outline.bounds()[1] == pytest.approx(0.0, abs=1e-3)  # its fold on that of the cloth
    assert outline.bounds()[2] - outline.bounds()[0] == pytest.approx(edge.path.length + 20, abs=25)
    assert outline.area * 2 == pytest.approx(stretch.covered)


def test_an_odd_copy_is_cut_through_one_layer() -> None:
    found = need(assembly("3"), cloth(1300.0), is_folded=True, limit=0.6)
    assert not found.obstacles
    single = [stretch for stretch in found.stretches if not stretch.is_folded]
    upper = [key for stretch in found.stretches for key in stretch.upper_only]
    assert len(upper) + sum(len(stretch.plan.shapes) for stretch in single) in (1, 3)
    assert found.used <= 1.0


def test_what_must_be_single_gets_a_stretch_of_its_own() -> None:
    found = need(assembly("pair", more="lay panel { layers 1 }\n"), cloth(1300.0), is_folded=True)
    assert [stretch.is_folded for stretch in found.stretches] == [False]


def test_nap_turns_no_piece_round() -> None:
    made = assembly("4", "cross")
    free, napped = cloth(1300.0), cloth(1300.0, is_one_way=True)
    plans = [need(made, of).stretches[0].plan for of in (free, napped)]
    assert len({round(spot.turn.angle, 6) for spot in plans[1].spots.values()}) == 1
    assert all(verify(plan) == () for plan in plans)


def test_pairs_on_the_bias_lie_on_the_same_threads() -> None:
    found = need(assembly("pair", "bias"), cloth(1800.0))
    assert not found.obstacles  # and the verifier has looked at the threads


@pytest.fixture(scope="module")
def table() -> MetreTable:
    roll = Roll(cloth(1400.0, is_one_way=True), True, 0.4, 1)
    made = assembly("pair")
    narrow = Roll(cloth(400.0), False, 0.1, 1)
    return MetreTable("knot", "Knot", roll, (metre_need(made, "main", roll), metre_need(made, "main", narrow)))


def test_text_csv_and_json_hold_the_same_numbers(table: MetreTable) -> None:
    text, document = metre_text(table), json.loads(metre_json(table))
    rows = list(csv.DictReader(io.StringIO(metre_csv(table))))
    laid, not_laid = table.needs
    assert float(rows[0]["length_mm"]) == pytest.approx(laid.length) == document["needs"][0]["length_mm"]
    assert f"{laid.length / 10:.1f} cm" in text
    assert "folded" in text
    assert "upper end" in text
    assert document["needs"][1]["why_not"] == list(not_laid.obstacles)
    assert rows[1]["why_not"] == "; ".join(not_laid.obstacles)
    assert all(words in text for words in not_laid.obstacles)
    (stretch,) = document["needs"][0]["stretches"]
    assert [place["layers"] for place in stretch["places"]] == [2]


def test_the_command_says_what_each_size_needs(capsys: pytest.CaptureFixture[str], tmp_path: object) -> None:
    words = ["by-metre", "specs/plover.garment", "--body", BODY, "--limit", "0.3", "--as", "csv"]
    assert main([*words, "--width", "140cm", "--out", f"{tmp_path}/plover.csv"]) == 0
    assert "1 of 1 laid" in capsys.readouterr().err
    (row,) = csv.DictReader(io.StringIO(DiskHost().read(f"{tmp_path}/plover.csv").decode()))
    assert 500 < float(row["length_mm"]) < 1500
    assert main([*words, "--width", "20 cm"]) == 1
    assert "across, the cloth only 18 cm" in capsys.readouterr().out


@pytest.mark.parametrize("wrong", [["--width", "140"], ["--width", "1 cm"], ["--cloth", "specs/cloth/ebb.yaml"]])
def test_wrong_cloth_is_wrong_use(wrong: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["by-metre", "specs/plover.garment", "--body", BODY, *wrong]) == 2
    assert "garmentc: " in capsys.readouterr().err
