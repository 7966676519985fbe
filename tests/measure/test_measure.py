"""The technical sheet: its numbers are those of the draft, in text, CSV and JSON alike."""

from __future__ import annotations

import csv
import io
import json
import re

import pytest

from garmentc.assembly.model import Assembly
from garmentc.cli.main import main
from garmentc.design import kinds as k
from garmentc.host import DiskHost
from garmentc.numbers import fixed
from garmentc.output.measure.how import how_to_measure
from garmentc.output.measure.measures import size_measures
from garmentc.output.measure.model import GROUPS, Measured, SizeMeasures, rows_of, tolerance_of
from garmentc.output.measure.tables import COLUMNS, measure_csv, measure_json
from garmentc.output.measure.text import measure_text
from garmentc.pipeline import compile_spec

CHART = "specs/sizes/women-en13402.yaml"


@pytest.fixture(scope="module")
def made() -> tuple[Assembly, ...]:
    return compile_spec(DiskHost(), "specs/plover.garment", sizes=CHART, only=["84", "88"]).made


@pytest.fixture(scope="module")
def sizes(made: tuple[Assembly, ...]) -> list[SizeMeasures]:
    return [size_measures(assembly) for assembly in made]


def test_a_boxy_top_for_bust_88_measures_what_its_draft_says(sizes: list[SizeMeasures]) -> None:
    """The bust girth of the chart and 20 cm of ease; the neck as long as both necklines of the draft."""
    found = {one.name: one.value for one in sizes[1].measured if one.group in ("finished", "ease")}
    assert found["bust"] == pytest.approx(880 + 200)
    assert (found["bust_girth"], found["ease.bust_girth"]) == (880, 200)
    neck = next(one for one in sizes[1].measured if one.group == "seam" and one.name == "neck")
    assert neck.value == pytest.approx(found["neck_edge"])


def test_cloth_is_all_that_is_cut(made: tuple[Assembly, ...], sizes: list[SizeMeasures]) -> None:
    areas = {one.name: one.value for one in sizes[0].measured if one.group == "cloth"}
    cut = sum(abs(piece.cut_line.area) * 2 for piece in made[0].pieces)  # each of the four is unfolded once
    assert areas.pop("all") == pytest.approx(sum(areas.values())) == pytest.approx(cut)


def test_each_finished_measurement_says_where_the_tape_goes(made: tuple[Assembly, ...]) -> None:
    design = made[0].draft.design
    how = {plan.name: how_to_measure(plan, design) for plan in design.finished}
    assert "straight across the Front and the Back" in how["bust"]
    assert "along the centre of the Back" in how["length"]
    assert "the neckline of the Front and the neckline of the Back" in how["neck_edge"]  # through a value with a name


def test_longer_measurements_may_be_further_off() -> None:
    offs = [tolerance_of(mm) for mm in (8, 100, 101, 300, 301, 2000)]
    assert offs == sorted(offs)
    assert all(0 < off < 0.3 * mm for off, mm in zip(offs, (8, 100, 101, 300, 301, 2000), strict=True))


def test_text_csv_and_json_hold_the_same_numbers(sizes: list[SizeMeasures]) -> None:
    text = measure_text("Plover", sizes)
    rows = list(csv.DictReader(io.StringIO(measure_csv(sizes))))
    document = json.loads(measure_json("plover", "Plover", sizes))
    assert tuple(rows[0]) == COLUMNS
    assert len(rows) == 2 * len(document["measures"]) == 2 * len(sizes[0].measured)
    for row in rows:
        (thing,) = (one for one in document["measures"] if (one["group"], one["name"]) == (row["group"], row["name"]))
        assert thing["values"][row["size"]] == pytest.approx(float(row["value"]), abs=1e-3)
        assert thing["unit"] == row["unit"]
        assert thing.get("tolerances_mm", {}).get(row["size"], "") == (
            float(row["tolerance_mm"]) if row["tolerance_mm"] else ""
        )
        if row["unit"] == "mm":
            assert fixed(float(row["value"]) / 10, 1) in text
    assert all(heading in text for heading in GROUPS.values())
    assert all(one.title[:40] in text for one in sizes[0].measured)


def test_columns_that_do_not_fit_go_below(sizes: list[SizeMeasures]) -> None:
    many = [sizes[0]._replace(size=f"size {number}") for number in range(30)]
    text = measure_text("Plover", many)
    tables = text.split("\nHow it is measured\n")[0]
    assert all(len(line) <= 130 for line in tables.splitlines())
    assert all(f"size {number}" in tables for number in range(30))


def test_the_command_writes_what_it_would_show(capsys: pytest.CaptureFixture[str], tmp_path: object) -> None:
    words = ["measure", "specs/tern.garment", "--body", "specs/bodies/maren.yaml", "--as", "json"]
    assert main(words) == 0
    shown = capsys.readouterr().out
    assert main([*words, "--out", f"{tmp_path}/tern.json"]) == 0
    assert capsys.readouterr().out == ""
    assert DiskHost().read(f"{tmp_path}/tern.json").decode() == shown
    assert json.loads(shown)["garment"] == "tern"


def test_nothing_is_measured_when_there_is_an_error(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["measure", "specs/tern.garment", "--body", "specs/bodies/maren.yaml", "--set", "side_length=9m"]) == 1
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize("garment", ["avocet", "curlew", "heron", "plover", "tern", "tern_tunic"])
def test_all_sizes_have_the_same_rows(garment: str) -> None:
    made = compile_spec(DiskHost(), f"specs/{garment}.garment", sizes="specs/sizes/women-en13402.yaml").made
    sizes = [size_measures(one) for one in made]
    assert all(None not in row for row in rows_of(sizes))
    assert len(measure_text(garment, sizes).splitlines()) > 40


def test_what_only_some_sizes_have_is_left_blank_in_the_others() -> None:
    one, other = (Measured("seam", name, name, "along it", 100.0, k.LENGTH, 2.0) for name in ("one", "other"))
    sizes = [SizeMeasures("88", (one,)), SizeMeasures("92", (one, other))]
    assert rows_of(sizes) == [(one, one), (None, other)]
    assert re.search(r"other +– +10\.0", measure_text("Knot", sizes))
    assert measure_csv(sizes).count("\r\n") == 4
    assert '"values": {\n    "92": 100.0\n' in measure_json("knot", "Knot", sizes)


def test_a_seam_with_ease_is_measured_once_as_it_is_sewn() -> None:
    made = compile_spec(DiskHost(), "specs/avocet.garment", sizes="specs/sizes/women-en13402.yaml", only=["88"]).made
    (armhole,) = (one for one in size_measures(made[0]).measured if one.name == "armhole")
    (seam,) = (one for one in made[0].seams if one.name == "armhole")
    assert armhole.value == seam.second_length < seam.first_length
