"""Size charts: the shipped one against the published figures, and the faults of malformed ones."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest

from garmentc.data.bodies import read_body
from garmentc.data.charts import Chart, read_chart
from garmentc.data.checks import check_plausible
from garmentc.data.measures import known_measures
from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost

SPECS = Path(__file__).parents[2] / "specs"

# EN 13402-3:2004 as encoded in the R package Anthropometry, R/plotPrototypes.R and man/bustSizesStandard.Rd.
BUST_EDGES = [74, 78, 82, 86, 90, 94, 98, 102, 107, 113, 119, 125, 131]

SMALL = """\
chart: "Two sizes"
source: "invented"
sizes: ["S", "M tall"]
measures:
  bust_girth:
    unit: in
    values: [34, 36.5]
    origin: "invented"
"""


@pytest.fixture(scope="module")
def women() -> Chart:
    findings = Findings()
    chart = read_chart(DiskHost(), str(SPECS / "sizes" / "women-en13402.yaml"), findings)
    assert chart is not None and len(findings) == 0
    return chart


def cm(chart: Chart, name: str) -> list[float]:
    return [body.measures[name].mm / 10 for body in chart.bodies]


def test_published_bust_waist_and_hip_of_the_twelve_sizes(women):
    bust, waist, hip = (cm(women, name) for name in ("bust_girth", "waist_girth", "hip_girth"))
    assert bust == [76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128]
    assert [b - w for b, w in zip(bust, waist, strict=True)] == [16] * 12
    assert [h - b for h, b in zip(hip, bust, strict=True)] == [8] * 8 + [7, 6, 5, 4]
    assert [body.name for body in women.bodies] == [f"{size:.0f}" for size in bust]


def test_published_steps_change_between_the_eighth_and_ninth_size_in_all_three_columns(women):
    for name, late in (("bust_girth", 6), ("waist_girth", 6), ("hip_girth", 5)):
        assert [b - a for a, b in pairwise(cm(women, name))] == [4] * 7 + [late] * 4


def test_published_centres_lie_inside_their_intervals(women):
    intervals = pairwise(BUST_EDGES)
    assert all(low < bust < high for bust, (low, high) in zip(cm(women, "bust_girth"), intervals, strict=True))


def test_every_column_grows_and_demo_columns_grow_evenly_with_the_bust(women):
    bust = cm(women, "bust_girth")
    for name in women.bodies[0].measures:
        slopes = [
            (after - before) / (b - a)
            for (before, after), (a, b) in zip(pairwise(cm(women, name)), pairwise(bust), strict=True)
        ]
        assert min(slopes) > 0, name
        if name != "hip_girth":
            assert max(slopes) - min(slopes) < 1e-9, name


def test_every_measure_says_where_it_comes_from(women):
    standard = {name for name, origin in women.origins.items() if origin.startswith("EN 13402-3:2004")}
    assert standard == {"bust_girth", "waist_girth", "hip_girth"}
    rest = women.origins.keys() - standard
    assert {women.origins[name] for name in rest} == {"studio demo value, no source"}
    assert "second-hand" in women.source_note


def test_demo_bodies_have_the_measures_of_the_chart_and_are_plausible(women):
    findings = Findings()
    bodies = [read_body(DiskHost(), str(path), findings) for path in sorted(SPECS.glob("bodies/*.yaml"))]
    assert [body.name for body in bodies] == ["Ilse", "Maren", "Tove"]
    for body in (*bodies, *women.bodies):
        assert list(body.measures) == list(women.bodies[0].measures)
        check_plausible(body, findings)
    assert list(findings) == []
    assert {name for name in women.bodies[0].measures if name not in known_measures()} == {"strap_path"}


def test_a_chart_gives_one_body_per_size(read):
    chart, findings = read(read_chart, SMALL)
    assert findings == []
    assert [(body.name, body.origin, str(body.span)) for body in chart.bodies] == [
        ("S", "Two sizes", "given.yaml:3:9"),
        ("M tall", "Two sizes", "given.yaml:3:14"),
    ]
    measured = chart.bodies[1].measures["bust_girth"]
    assert (measured.mm, measured.unit, str(measured.span)) == (pytest.approx(927.1), "in", "given.yaml:7:18")


def test_only_keeps_the_order_of_the_chart_and_suggests_for_unknown_sizes(read):
    chart, _ = read(read_chart, SMALL)
    findings = Findings()
    assert [body.name for body in chart.only(["M tall", "S"], findings).bodies] == ["S", "M tall"]
    assert len(findings) == 0
    assert [body.name for body in chart.only(["S", "M tal", "XXL"], findings).bodies] == ["S"]
    (finding,) = findings
    assert finding.slug == "unknown-size"
    assert finding.headline == "`Two sizes` has no size `M tal`, `XXL`"
    assert "did you mean `M tall`?" in finding.help
    assert str(finding.span) == "given.yaml:3:1"


def test_all_faults_of_a_chart_in_one_run(read, places):
    text = """\
chart: "Women"
sizes: ["76", 80, "76"]
measures:
  bust_girth:
    unit: cm
    values: [76, 80]
    origin: "EN 13402-3"
  waist_girth:
    unit: ell
    values: [60, -64, "68", 1_0]
    origin: " "
  hip_girth:
    values: [84, 88, 0]
    sources: "x"
  neck_girth: [33, 34, 35]
"""
    chart, findings = read(read_chart, text)
    assert chart is None
    assert places(findings) == [
        ("missing-field", 1, 1, "chart"),
        ("wrong-kind", 2, 15, "80"),
        ("repeated-item", 2, 19, '"76"'),
        ("values-per-size", 6, 5, "values"),
        ("bad-value", 9, 11, "ell"),
        ("values-per-size", 10, 5, "values"),
        ("bad-length", 10, 18, "-64"),
        ("bad-length", 10, 23, '"68"'),
        ("yaml-ambiguous", 10, 29, "1_0"),
        ("bad-value", 11, 13, '" "'),
        ("missing-field", 12, 3, "hip_girth"),
        ("bad-length", 13, 22, "0"),
        ("unknown-field", 14, 5, "sources"),
        ("wrong-kind", 15, 3, "neck_girth"),
    ]
    heads = [finding.headline for finding in findings]
    assert heads[0] == "the file has no `source`"
    assert heads[1] == "value 2 of `sizes` is the number 80, not a size name"
    assert heads[3] == "`bust_girth` has 2 values for 3 sizes"
    assert findings[3].others[0].span.line == 2
    assert heads[6] == "value 2 of `waist_girth` is not a positive number: it is not above 0"
    assert heads[10] == "`hip_girth` has no `unit`, `origin`"


@pytest.mark.parametrize("value", ["0", "-1", "100001", "1" * 400, "~", "true", "[1]"])
def test_values_must_be_positive_and_finite(read, value):
    _, findings = read(read_chart, SMALL.replace("36.5", value))
    assert [finding.slug for finding in findings] == ["bad-length"]


@pytest.mark.parametrize("size", ["no", "1_0", "12:30"])
def test_sizes_with_two_readings_need_quotes(read, size):
    _, findings = read(read_chart, SMALL.replace('"S"', size))
    assert [finding.slug for finding in findings] == ["yaml-ambiguous"]
    chart, findings = read(read_chart, SMALL.replace('"S"', f'"{size}"'))
    assert (chart.bodies[0].name, findings) == (size, [])


def test_a_body_given_as_a_chart_is_named_as_such(read):
    _, findings = read(read_chart, 'body: "Ilse"\nmeasures:\n  bust_girth: 88 cm\n')
    assert [finding.headline for finding in findings] == ["this file holds a body, not a size chart"]


def test_a_decimal_comma_in_a_list_is_told(read):
    text = 'chart: "A"\nsource: "x"\nsizes: ["1", "2"]\nmeasures:\n'
    text += "  bust_girth: {unit: cm, origin: x, values: [76,5, 80]}\n"
    _, (finding,) = read(read_chart, text)
    assert finding.slug == "values-per-size"
    assert "decimals have a point" in finding.notes[0]
    _, (spaced,) = read(read_chart, text.replace("76,5, 80", "76, 5, 80"))
    assert spaced.notes == ()
    _, (listed,) = read(read_chart, text.replace("[76,5, 80]", '["76,5", 80]'))
    assert listed.help == "decimals have a point: write 76.5"


def test_a_garment_is_no_chart(read):
    _, (finding,) = read(read_chart, 'garment ruff "Ruff"\nedition 1\nmeasure bust_girth\n')
    assert (finding.slug, finding.headline) == ("wrong-file", "this file holds a garment, not a size chart")
    assert "`--sizes`" in finding.help
