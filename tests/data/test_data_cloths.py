"""Cloth files: what is read, and every fault at its line and column."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from garmentc.data.cloths import read_cloth
from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost

STOCK = sorted(Path("specs/cloth").glob("*.yaml"))


def outline(text: str, rest: str = "") -> str:
    return f'cloth: "Ebb"\noutline: {{{text}}}\n{rest}'


@pytest.mark.parametrize("path", STOCK, ids=lambda path: path.stem)
def test_the_demo_stock_is_read_without_a_finding(path):
    findings = Findings()
    cloth = read_cloth(DiskHost(), str(path), findings)
    assert list(findings) == []
    assert cloth.key == path.stem


def test_the_demo_stock_has_what_a_cupboard_has():
    cloths = [read_cloth(DiskHost(), str(path), Findings()) for path in STOCK]
    assert len(cloths) >= 8
    assert any(cloth.by_metre for cloth in cloths)
    assert any(cloth.is_round for cloth in cloths)
    assert sum(bool(cloth.flaws) for cloth in cloths) >= 3
    assert any(cloth.holes for cloth in cloths)
    assert any(cloth.is_one_way for cloth in cloths)


def test_a_square_is_read_in_millimetres(read):
    cloth, findings = read(read_cloth, outline("square: 90 cm", "finished: [{edges: [top], kind: hem, width: 6 mm}]\n"))
    assert findings == []
    assert [side.name for side in cloth.sides] == ["bottom", "right", "top", "left"]
    assert [side.finish for side in cloth.sides] == ["", "", "hem", ""]
    assert cloth.outline.area == pytest.approx(810_000)
    assert cloth.outline.corners == (0, 900, 900 + 900j, 900j)
    assert (cloth.threads, cloth.is_alike, cloth.is_one_way) == ("up", False, False)


def test_a_round_cloth_lies_about_its_middle(read):
    cloth, _ = read(read_cloth, outline("round: 2 m"))
    assert cloth.is_round
    assert cloth.outline.area == pytest.approx(math.pi * 1e6)


def test_four_sides_and_a_diagonal_close(read):
    cloth, findings = read(
        read_cloth, outline("bottom: 90 cm, right: 89 cm, top: 90.5 cm, left: 88 cm, diagonal: 126 cm")
    )
    assert findings == []
    a, b, c, d = cloth.outline.corners
    assert [abs(b - a), abs(c - b), abs(d - c), abs(a - d), abs(c - a)] == pytest.approx([900, 890, 905, 880, 1260])
    assert b == pytest.approx(900)
    assert d.imag > 0


def test_corners_may_be_listed_either_way_and_sides_may_bow_out(read):
    for corners in ("[[0, 0], [40, 0], [40, 30], [0, 30]]", "[[0, 0], [0, 30], [40, 30], [40, 0]]"):
        cloth, findings = read(read_cloth, outline(f"corners: {corners}, bulges: [5, 5, 5, 5]"))
        assert findings == []
        assert cloth.outline.area > 120_000
        assert {side.name for side in cloth.sides} == {"side 1", "side 2", "side 3", "side 4"}


def test_cloth_by_the_metre_has_a_width_and_no_sides(read):
    cloth, findings = read(read_cloth, outline("width: 140 cm", "unit: in\n"))
    assert findings == []
    assert cloth.by_metre
    assert cloth.width == 1400
    assert cloth.threads == "across"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (outline("square: 90 cm, round: 90 cm"), ("cloth-shape", 2, 1, "outline")),
        (outline("length: 90 cm"), ("cloth-shape", 2, 1, "outline")),
        (
            outline("bottom: 9 cm, right: 9 cm, top: 9 cm, left: 9 cm, diagonal: 19 cm"),
            ("cloth-shape", 2, 1, "outline"),
        ),
        (outline("corners: [[0, 0], [9, 9], [9, 0], [0, 9]]"), ("cloth-shape", 2, 1, "outline")),
        (outline("corners: [[0, 0], [9, 0], [9, 9]], bulges: [1]"), ("cloth-shape", 2, 1, "outline")),
        (outline("square: 90"), ("bad-length", 2, 19, "90")),
        (outline("square: 90 cm", "colour: red\n"), ("unknown-field", 3, 1, "colour")),
        (outline("square: 90 cm", "threads: sideways\n"), ("bad-value", 3, 10, "sideways")),
        (outline("square: 90 cm", "finished: [{edges: [topp], kind: hem}]\n"), ("unknown-name", 3, 21, "topp")),
        (outline("square: 90 cm", "flaws: [{name: burn, at: [1, 2]}]\n"), ("cloth-shape", 3, 16, "burn")),
        (outline("square: 90 cm", "flaws: [{name: burn, at: [1], round: 1 cm}]\n"), ("bad-value", 3, 22, "at")),
        (outline("width: 90 cm", "flaws: [{name: burn, at: [1, 2], round: 1 cm}]\n"), ("cloth-shape", 3, 1, "flaws")),
        (
            outline(
                "square: 90 cm",
                "flaws: [{name: burn, at: [1, 2], round: 1 cm}, {name: burn, at: [1, 2], round: 1 cm}]\n",
            ),
            ("duplicate-name", 3, 55, "burn"),
        ),
    ],
)
def test_faults_are_told_at_their_place(read, places, text, fault):
    cloth, findings = read(read_cloth, text)
    assert cloth is None
    assert places(findings) == [fault]


def test_a_garment_or_a_chart_is_no_cloth(read, places):
    _, findings = read(read_cloth, 'chart: "Women"\n')
    assert places(findings) == [("wrong-file", 1, 1, "chart")]
