"""Known measures against the standards' names and clauses, and what is said of a body before drafting."""

from __future__ import annotations

import subprocess
import sys

import pytest

from garmentc.data.bodies import read_body
from garmentc.data.charts import read_chart
from garmentc.data.checks import check_complete, check_plausible
from garmentc.data.measures import known_measures
from garmentc.diagnostics.finding import Findings, Severity
from garmentc.diagnostics.suggest import closest, did_you_mean
from garmentc.source import Source


# Clauses of ISO 8559-1:2017 as quoted second-hand in Zakaria & Gupta (eds), Anthropometry, Apparel Sizing and
# Design, 2nd ed. 2020, and other retrieved documents.
@pytest.mark.parametrize(
    ("name", "clause"),
    [
        ("neck_girth", "5.3.2"),
        ("neck_base_girth", "5.3.3"),
        ("bust_girth", "5.3.4"),
        ("chest_girth", "5.3.6"),
        ("under_bust_girth", "5.3.8"),
        ("waist_girth", "5.3.10"),
        ("top_hip_girth", "5.3.12"),
        ("hip_girth", "5.3.13"),
        ("upper_arm_girth", "5.3.16"),
        ("wrist_girth", "5.3.19"),
        ("thigh_girth", "5.3.20"),
        ("mid_thigh_girth", "5.3.21"),
        ("across_back_shoulder_width", "5.4.3"),
        ("back_neck_point_to_waist", "5.4.5"),
        ("back_neck_point_to_wrist_length", "5.4.17"),
        ("outer_arm_length", "5.7.8"),
    ],
)
def test_published_clauses(name, clause):
    measure = known_measures()[name]
    assert (measure.standard, measure.trust) == (f"ISO 8559-1:2017 {clause}", "second-hand")


def test_a_clause_is_never_claimed_from_memory():
    for measure in known_measures().values():
        if measure.trust == "memory":
            assert measure.standard == "ISO 8559-1:2017", measure.name


# US women of 18 and more, smallest and largest of 4,221: NHANES 2017-March 2020, P_BMX.
@pytest.mark.parametrize(
    ("name", "least_cm", "most_cm"),
    [
        ("waist_girth", 56.4, 178.0),
        ("hip_girth", 74.0, 179.0),
        ("upper_arm_girth", 17.9, 57.2),
        ("height", 131.1, 189.3),
    ],
)
def test_published_extremes_are_plausible(name, least_cm, most_cm):
    measure = known_measures()[name]
    assert measure.least_mm < least_cm * 10 and most_cm * 10 < measure.most_mm
    assert "NHANES" in measure.limits_from


def test_limits_are_ordered_and_catch_the_usual_slips_of_unit():
    for measure in known_measures().values():
        assert 0 < measure.least_mm < measure.most_mm
        assert measure.most_mm / measure.least_mm < 10, f"{measure.name}: mm and cm can't be told apart"


def body_of(read, lines):
    body, findings = read(read_body, 'body: "Ilse"\nmeasures:\n' + "".join(f"  {line}\n" for line in lines))
    assert findings == []
    return body


@pytest.mark.parametrize(
    ("line", "hint"),
    [
        ("bust_girth: 88 mm", "88 cm"),
        ("bust_girth: 880 cm", "880 mm"),
        ("bust_girth: 34 cm", "34 in"),
        ("hip_girth: 96 in", "96 cm"),
        ("height: 1.68 cm", "1.68 m"),
    ],
)
def test_implausible_values_are_warned_of_with_the_unit_that_would_fit(read, places, line, hint):
    findings = Findings()
    check_plausible(body_of(read, ["waist_girth: 72 cm", line]), findings)
    (finding,) = findings
    name, value = line.split(": ")
    assert finding.severity is Severity.WARNING
    assert places([finding]) == [("implausible-measure", 4, len(name) + 5, value)]
    assert value in finding.headline and hint in finding.help


def test_values_no_unit_can_save_and_own_measures(read):
    findings = Findings()
    check_plausible(body_of(read, ["waist_girth: 5 cm", "strap_path: 1 mm"]), findings)
    assert [finding.help for finding in findings] == ["measure again, and look for a slip of the pen"]


def test_missing_measures_are_one_finding_with_all_names_and_their_declarations(read):
    garment = Source("tern.garment", "measure bust_girth, waist_girth\nmeasure strap_path : length\n")
    needed = {
        name: garment.span(at := garment.text.index(name), at + len(name))
        for name in ("bust_girth", "waist_girth", "strap_path")
    }
    findings = Findings()
    check_complete(body_of(read, ["bust_girth: 88 cm", "back_length: 72 cm"]), needed, findings)
    (finding,) = findings
    assert finding.slug == "missing-measures"
    assert str(finding.span) == "given.yaml:2:1"
    assert finding.headline == "the garment needs `waist_girth`, `strap_path`, which this file does not give"
    assert [str(label.span) for label in finding.others] == ["tern.garment:1:21", "tern.garment:2:9"]
    assert finding.notes[0].startswith("`waist_girth`: horizontal, half-way")


@pytest.mark.parametrize("written", ["wiast_girth", "waist", "waists"])
def test_a_misspelt_measure_is_told_where_it_stands(read, written):
    garment = Source("tern.garment", "measure bust_girth, waist_girth\n")
    needed = {"bust_girth": garment.span(8, 18), "waist_girth": garment.span(20, 31)}
    findings = Findings()
    check_complete(body_of(read, ["bust_girth: 88 cm", "hip_girth: 96 cm", f"{written}: 72 cm"]), needed, findings)
    (finding,) = findings
    assert finding.slug == "missing-measures"
    assert (finding.span.line, finding.span.text) == (5, written)
    assert finding.label == "did you mean `waist_girth`?"
    assert [label.span.text for label in finding.others] == ["waist_girth"]


def test_a_known_measure_is_not_taken_for_another(read):
    """The wrist is no misspelt waist, though the words are alike."""
    garment = Source("tern.garment", "measure waist_girth\n")
    findings = Findings()
    check_complete(body_of(read, ["wrist_girth: 16 cm"]), {"waist_girth": garment.span(8, 19)}, findings)
    assert [finding.span.text for finding in findings] == ["measures"]


def test_missing_measures_of_a_chart_are_reported_once(read):
    text = 'chart: "A"\nsource: "x"\nsizes: ["1", "2"]\nmeasures:\n'
    chart, _ = read(read_chart, text + '  hip_girth: {unit: cm, values: [90, 95], origin: "x"}\n')
    findings = Findings()
    for body in chart.bodies:
        check_complete(body, {"bust_girth": Source("a.garment", "bust_girth").span(0, 10)}, findings)
    (finding,) = findings
    assert finding.sizes == ("1", "2")


def test_nothing_is_said_of_a_complete_body(read):
    findings = Findings()
    check_complete(body_of(read, ["bust_girth: 88 cm"]), {}, findings)
    assert len(findings) == 0


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("bust_grith", ("bust_girth",)),
        ("BUST_GIRTH", ("bust_girth",)),
        ("bust", ()),
        ("hip_girt", ("hip_girth",)),
        ("waist_hip", ("waist_to_hip",)),
        ("x" * 100_000, ()),
        ("", ()),
    ],
)
def test_closest_names(name, expected):
    assert closest(name, ["bust_girth", "hip_girth", "waist_to_hip"]) == expected


def test_closest_gives_three_by_distance_then_name():
    assert closest("abcdef", ["abcdeg", "abcdxx", "abcdez", "abcdea", "abcdef"]) == ("abcdef", "abcdea", "abcdeg")
    assert closest("ab", ["ba", "cd"]) == ("ba",)
    assert did_you_mean("cat", ["bat", "car"]) == "did you mean `bat` or `car`?"


def test_well_formed_files_never_load_the_schema_validator():
    code = (
        "import sys; from garmentc.data.bodies import read_body; from garmentc.host import DiskHost;"
        "from garmentc.diagnostics.finding import Findings;"
        "assert read_body(DiskHost(), 'specs/bodies/ilse.yaml', Findings());"
        "assert 'jsonschema' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
