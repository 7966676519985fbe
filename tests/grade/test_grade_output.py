"""The table, the text and the pictures of a grade, read back as a user's tools would."""

from __future__ import annotations

import csv
import io
import re
import xml.etree.ElementTree as ET
from itertools import pairwise
from pathlib import Path

import pytest

from garmentc.grade.model import Grade
from garmentc.output.grade.files import grade_files
from garmentc.output.grade.lines import line_of
from garmentc.output.grade.text import grade_text
from garmentc.pipeline import Request, compile_grade
from tests.grade.small import BUST, CHART, SIZES, bib, graded
from tests.support import MemoryHost

STEPS = [b - a for a, b in pairwise(BUST)]
ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"


def rows(grade: Grade) -> list[dict[str, str]]:
    data = dict(grade_files(grade))["grade.csv"].decode()
    return list(csv.DictReader(io.StringIO(data)))


def values(found: list[dict[str, str]], name: str, quantity: str) -> list[float]:
    return [float(row["value_mm"]) for row in found if row["name"] == name and row["quantity"] == quantity]


def picture(grade: Grade, piece: str = "bib") -> ET.Element:
    return ET.fromstring(dict(grade_files(grade))[f"grade-{piece}.svg"])


def ends(path: ET.Element) -> tuple[complex, complex]:
    """The first and last point of a path, y up."""
    numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", path.attrib["d"])]
    return complex(numbers[0], -numbers[1]), complex(numbers[-2], -numbers[-1])


def drawn(root: ET.Element, size: str) -> dict[str, tuple[complex, complex]]:
    """The ends of the edges of one size, by name."""
    (group,) = (one for one in root.iter(f"{SVG}g") if one.get("data-size") == size)
    return {path.attrib["data-edge"]: ends(path) for path in group if path.get("data-use") == "stitch"}


def test_the_table_holds_every_movement() -> None:
    found = rows(graded(bib())[0])
    assert values(found, "far", "dx") == pytest.approx([step / 4 for step in STEPS])
    assert values(found, "far", "dy") == pytest.approx([step / 8 for step in STEPS])
    assert values(found, "far", "distance") == pytest.approx(
        [abs(complex(step / 4, step / 8)) for step in STEPS], abs=1e-3
    )
    assert values(found, "far", "x") == pytest.approx([bust / 4 for bust in BUST])
    assert values(found, "ending", "length") == pytest.approx([bust / 8 + 30 for bust in BUST])
    assert values(found, "ending", "step") == pytest.approx([step / 8 for step in STEPS])


def test_the_table_says_of_what_it_speaks() -> None:
    found = rows(graded(bib(), align=["bib.near"])[0])
    assert {row["aligned_at"] for row in found} == {"near"}
    steps = [
        (row["size_before"], row["size"]) for row in found if row["name"] == "ending" and row["quantity"] == "step"
    ]
    assert steps == list(pairwise(SIZES))
    assert {row["thing"] for row in found if row["quantity"] in ("dx", "x")} == {"corner"}
    assert {row["thing"] for row in found if row["quantity"] in ("length", "sewn_length")} == {"edge"}
    assert set(values(found, "near", "dx")) == {0.0}


def test_text_in_columns() -> None:
    lines = grade_text(graded(bib())[0]).splitlines()
    head = next(line for line in lines if line.startswith("  size"))
    assert head.split()[1:] == list(SIZES)
    up = lines[next(i for i, line in enumerate(lines) if line.split()[:2] == ["far", "right"]) + 1]
    assert up.split() == ["up", *(f"{step / 8:.1f}" for step in STEPS)]
    long = next(line for line in lines if line.split()[:2] == ["ending", "cm"])
    assert long.split()[2:] == [f"{(bust / 8 + 30) / 10:.1f}" for bust in BUST]
    for size, text in (("80", "10.0"), ("128", "15.0")):
        row = next(line for line in lines if line.split()[:2] == ["near", "right"])
        end = head.index(f" {size}") + 1 + len(size)
        assert row[:end].endswith(text)
    assert lines[-1] == "  in one place in all sizes: opening/lower"
    assert all(len(line) <= 120 for line in lines)


def test_many_sizes_go_into_blocks() -> None:
    names = [f"size-number-{i}" for i in range(11, 31)]
    chart = (
        'chart: "Wide"\nsource: "made up for this test"\nsizes: [' + ", ".join(f'"{name}"' for name in names) + "]\n"
    )
    chart += 'measures:\n  bust_girth:\n    unit: cm\n    origin: "made up"\n    values: ['
    chart += ", ".join(str(76 + 2 * i) for i in range(20)) + "]\n"
    lines = grade_text(graded(bib(), chart=chart)[0]).splitlines()
    heads = [line.split()[1:] for line in lines if line.startswith("  size ")]
    assert [size for head in heads for size in head] == names
    assert len({len(head) for head in heads[:-1]}) == 1
    assert all(len(line) <= 120 for line in lines)


def test_the_picture_is_true_to_scale() -> None:
    root = picture(graded(bib())[0])
    wide, high = (float(root.attrib[name].removesuffix("mm")) for name in ("width", "height"))
    assert [float(number) for number in root.attrib["viewBox"].split()] == [0, 0, wide, high]
    for size, bust in zip(SIZES, BUST, strict=True):
        lines = drawn(root, size)
        start, end = lines["ending"]
        assert end - start == pytest.approx(complex(0, bust / 8 + 30), abs=1e-3)
        start, end = lines["lower"]
        assert end - start == pytest.approx(complex(bust / 4, 0), abs=1e-3)


@pytest.mark.parametrize(
    ("align", "edge", "end"), [([], "lower", 0), (["bib.far"], "upper", 0), (["bib.near"], "lower", 1)]
)
def test_the_sizes_are_laid_over_each_other_where_they_are_aligned(align: list[str], edge: str, end: int) -> None:
    root = picture(graded(bib(), align=align)[0])
    places = [drawn(root, size)[edge][end] for size in SIZES]
    assert places == pytest.approx([places[0]] * len(SIZES), abs=1e-3)


def test_sizes_stay_apart_in_black_and_white() -> None:
    root = picture(graded(bib())[0])
    looks = {
        (group.get("stroke-width"), group.get("stroke-dasharray"))
        for group in root.iter(f"{SVG}g")
        if group.get("data-size")
    }
    assert len(looks) == len(SIZES)
    assert line_of(0) == line_of(12)
    colours = {value for one in root.iter() for name, value in one.attrib.items() if name in ("stroke", "fill")}
    assert colours <= {"black", "white", "none"}


def test_every_size_is_labelled_on_its_line_and_in_the_key() -> None:
    root = picture(graded(bib())[0])
    for size in SIZES:
        uses = {text.get("data-use") for text in root.iter(f"{SVG}text") if text.text == size}
        assert uses == {"size", "key"}


def test_lines_that_lie_close_are_labelled_by_leaders() -> None:
    grade = graded(bib(wide="20 cm + bust_girth / 40", deep="20 cm + bust_girth / 40"))[0]
    root = picture(grade)
    leaders = [
        path for path in root.iter(f"{SVG}path") if path.get("data-use") == "leader" and path.get("fill") != "black"
    ]
    assert len(leaders) == len(SIZES)
    begun = sorted(ends(path)[0].real for path in leaders), sorted(ends(path)[0].imag for path in leaders)
    assert max(min(b - a for a, b in pairwise(one)) for one in begun) > 3.0
    for size in SIZES:
        assert "size" in {text.get("data-use") for text in root.iter(f"{SVG}text") if text.text == size}


def test_a_piece_that_is_alike_in_all_sizes_says_so() -> None:
    grade = graded(bib(wide="bust_girth / 4 - bust_girth / 4 + 20 cm", deep="20 cm"))[0]
    said = " ".join(text.text or "" for text in picture(grade).iter(f"{SVG}text"))
    assert "all sizes are alike" in said
    assert not [path for path in picture(grade).iter(f"{SVG}path") if path.get("data-use") == "leader"]


def test_a_line_leads_through_each_corner_in_all_sizes() -> None:
    root = picture(graded(bib())[0])
    ways = {
        path.attrib["data-corner"]: ends(path)
        for path in root.iter(f"{SVG}path")
        if path.get("data-use") == "move" and path.get("fill") == "none"
    }
    assert set(ways) == {"near", "far", "upper/opening"}
    start, end = ways["far"]
    assert end - start == pytest.approx(complex((BUST[-1] - BUST[0]) / 4, (BUST[-1] - BUST[0]) / 8), abs=1e-3)
    assert start == pytest.approx(drawn(root, "76")["ending"][1], abs=1e-3)


def test_words_cover_no_line_and_no_other_word() -> None:
    text = bib(deep="bust_girth / 8 + 3 cm")
    root = picture(graded(text)[0])
    names = [
        (float(one.attrib["x"]), float(one.attrib["y"]))
        for one in root.iter(f"{SVG}text")
        if one.get("data-use") == "name"
    ]
    assert len(names) == 4
    assert min(abs(complex(*a) - complex(*b)) for i, a in enumerate(names) for b in names[:i]) > 5.0


def test_sizes_with_signs_of_xml_in_their_names() -> None:
    chart = 'chart: "Odd"\nsource: "made up for this test"\nsizes: ["<s> & \\"m\\"", "b"]\n'
    chart += 'measures:\n  bust_girth: { unit: cm, origin: "made up", values: [80, 90] }\n'
    grade = graded(bib(), chart=chart)[0]
    assert drawn(picture(grade), '<s> & "m"')["lower"]
    assert {row["size"] for row in rows(grade)} == {'<s> & "m"', "b"}


def test_the_picture_of_a_spec_of_the_studio_has_all_its_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    grade, _ = compile_grade(MemoryHost({}), Request("specs/tern.garment", CHART))
    assert grade is not None
    for piece in grade.pieces:
        root = picture(grade, piece.name)
        for number, size in enumerate(grade.sizes):
            lines = drawn(root, size)
            assert set(lines) == {edge.name for edge in piece.edges}
            for edge in piece.edges:
                start, end = lines[edge.name]
                assert end - start == pytest.approx(edge.paths[number].chord, abs=2e-3)
