"""Sheets in inches. An inch is 25.4 mm exactly (international yard and pound agreement, 1959)."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from garmentc.output.sheet.files import sheet_files
from garmentc.output.sheet.inches import said_in_inches
from tests.output.test_patterns import assemblies


@pytest.mark.parametrize(
    ("metric", "inches"),
    [
        ("Stitch 10 mm from the cut edge, over 91.9 cm.", "Stitch 3/8 in from the cut edge, over 36 3/16 in."),
        ("51 cm × 69.6 cm", "20 1/16 in × 27 3/8 in"),
        ("every 1 to 1.5 cm; take", "every 3/8 to 9/16 in; take"),
        ("4144 cm² in all", "642 sq in in all"),
        ("one dot means at most 110 °C, smooth cloth of 88 g/m², 3.4 m of thread", None),
        ("the square marked 5\N{NO-BREAK SPACE}cm", None),
        ("ISO 4915, 16 CFR 1610, 301 and 304: as published, 2T to 12", None),
    ],
)
def test_lengths_and_areas_are_said_in_inches_and_nothing_else_is_touched(metric: str, inches: str | None) -> None:
    assert said_in_inches(metric) == (metric if inches is None else inches)


@pytest.fixture(scope="module", params=["tern", "avocet"])
def sheets(request: pytest.FixtureRequest) -> dict[bool, str]:
    made = assemblies(request.param)["88"]
    return {inches: dict(sheet_files(made, inches=inches))["sheet.md"].decode() for inches in (False, True)}


def test_no_metric_length_is_left_but_what_the_pattern_shows(sheets: dict[bool, str]) -> None:
    left = {found[0] for found in re.finditer(r"[\d.]+ (?:mm|cm)\b", sheets[True])}
    assert left == {"5 cm", "30 cm", "134 cm", "176 cm", "182 cm"}
    assert len(sheets[True].splitlines()) == len(sheets[False].splitlines())


def test_each_length_is_the_same_to_a_thirty_second_of_an_inch(sheets: dict[bool, str]) -> None:
    rows = [[row for row in sheets[inches].splitlines() if row.startswith("| ")] for inches in (False, True)]
    compared = 0
    for metric, inches in zip(*rows, strict=True):
        if " in " in metric:  # the maker's own words
            continue
        ours = [float(a) * (10 if b == "cm" else 1) for a, b in re.findall(r"([\d.]+) (mm|cm)(?!²)\b", metric)]
        theirs = [sum(map(Fraction, said.split())) for said in re.findall(r"((?:\d+ )?\d+(?:/\d+)?) in\b", inches)]
        assert len(ours) == len(theirs), metric
        compared += len(ours)
        for mm, inch in zip(ours, theirs, strict=True):
            assert abs(float(inch) * 25.4 - mm) <= 25.4 / 32 + 1e-9
    assert compared > 20
