"""Params found so that equations hold."""

import math

import pytest

from garmentc.diagnostics.finding import Finding
from garmentc.draft.model import Draft
from garmentc.pipeline import Compiled, compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
FRAME = """garment knot "Knot"
edition 1
{head}
piece patch "Patch" {{
  cut 1
  grain straight
  corner = (wide, high)
  outline {{
    low  : (0 cm, 0 cm) -> (wide, 0 cm)
    side : (wide, 0 cm) -> corner
    top  : corner -> (0 cm, high)
    back : (0 cm, high) -> (0 cm, 0 cm)
  }}
}}
finish patch.low, patch.side, patch.top, patch.back as overedged
"""
BY_BUST = """measure bust_girth
param wide = 10 cm from 5 cm to 40 cm
high = 20 cm
solve wide so that area(patch) == bust_girth * 4 cm
"""


def compiled(head: str, only: str = "88", settings: tuple[str, ...] = ()) -> Compiled:
    host = MemoryHost({"knot.garment": FRAME.format(head=head)})
    return compile_spec(host, "knot.garment", sizes=CHART, only=only.split(","), settings=settings)


def drafted(head: str) -> Draft:
    found = compiled(head)
    assert not list(found.findings)
    return found.made[0].draft


def the_finding(head: str, settings: tuple[str, ...] = ()) -> Finding:
    findings = list(compiled(head, settings=settings).findings)
    assert len(findings) == 1, findings
    return findings[0]


def test_one_unknown() -> None:
    head = BY_BUST
    draft = drafted(head)
    assert draft.params["wide"] == pytest.approx(880 * 40 / 200, abs=1e-4)


def test_a_curved_relation() -> None:
    head = (
        "param wide = 10 cm from 1 cm to 40 cm\nhigh = 12 cm\n"
        "solve wide so that distance((0 cm, 0 cm), patch.corner) == 13 cm within 0.001 mm"
    )
    assert drafted(head).params["wide"] == pytest.approx(50.0, abs=1e-3)


def test_two_unknowns() -> None:
    head = (
        "param wide = 12 cm from 1 cm to 15 cm\nparam high = 25 cm from 15.5 cm to 40 cm\n"
        "solve wide, high so that area(patch) == 10 cm * 20 cm and 2 * (wide + high) == 60 cm"
    )
    draft = drafted(head)
    assert draft.params["wide"] == pytest.approx(100.0, abs=1e-3)
    assert draft.params["high"] == pytest.approx(200.0, abs=1e-3)


def test_each_size_is_solved_for_itself() -> None:
    head = BY_BUST
    found = compiled(head, only="76,128")
    assert [round(one.draft.params["wide"], 3) for one in found.made] == [152.0, 256.0]


def test_no_solution_names_the_nearest_and_shows_the_range() -> None:
    head = "param wide = 10 cm from 5 cm to 8 cm\nhigh = 20 cm\nsolve wide so that area(patch) == 200 cm * 1 cm"
    finding = the_finding(head)
    assert finding.slug == "no-solution"
    assert finding.notes[0] == "nearest at wide = 8 cm: 160 cm² against 200 cm²"
    assert len(finding.notes) == 10
    assert finding.span.text.startswith("solve wide")


def test_several_solutions_are_listed() -> None:
    head = (
        "param wide = 10 cm from 1 cm to 30 cm\nhigh = 20 cm\n"
        "solve wide so that (wide - 10 cm) * (wide - 20 cm) + 10 cm * 10 cm == 10 cm * 10 cm"
    )
    finding = the_finding(head)
    assert finding.slug == "several-solutions"
    assert finding.notes == ("wide = 10 cm", "wide = 20 cm")


def test_a_jump_over_the_target_is_no_solution() -> None:
    head = (
        "param wide = 10 cm from 5 cm to 40 cm\nhigh = 20 cm\n"
        "solve wide so that (if wide < 20 cm then 10 cm else 30 cm) == 20 cm"
    )
    assert the_finding(head).slug == "no-solution"


def test_where_the_draft_has_no_answer_its_fault_is_told_instead() -> None:
    head = (
        "param wide = 10 cm from 5 cm to 40 cm\nhigh = 20 cm\n"
        "solve wide so that distance(patch.corner, (wide, 0 cm) toward (wide, 0 cm) by 1 cm) == 8 cm"
    )
    finding = the_finding(head)
    assert finding.slug == "impossible-construction"
    assert finding.span.text.startswith("(wide, 0 cm)")
    assert finding.notes[-1] == "found at wide = 10 cm, before `solve` could try others"


def test_a_given_param_beyond_its_range_is_told_rather_than_that_it_can_not_be_solved() -> None:
    head = (
        "param wide = 10 cm from 5 cm to 8 cm\nparam high = 90 cm from 10 cm to 20 cm\n"
        "solve wide so that area(patch) == 150 cm * 1 cm"
    )
    finding = the_finding(head)
    assert finding.slug == "out-of-range"
    assert finding.span.text == "90 cm"


@pytest.mark.parametrize(
    ("head", "settings", "slug"),
    [
        ("param wide = 10 cm\nhigh = 20 cm\nsolve wide so that wide == 12 cm", (), "solve-needs-range"),
        ("param wide = 10 cm from 5 cm to 20 cm\nhigh = 20 cm\nsolve wide so that wide <= 12 cm", (), "wrong-kind"),
        (
            "param wide = 10 cm from 5 cm to 20 cm\nhigh = 20 cm\nsolve wide so that wide == 12 cm and high == 20 cm",
            (),
            "unequal-equations",
        ),
        ("wide = 10 cm\nhigh = 20 cm\nsolve wides so that wide == 12 cm", (), "unknown-name"),
        (
            "param wide = 10 cm from 5 cm to 20 cm\nhigh = 20 cm\nsolve wide so that wide == 12 cm",
            ("wide=11cm",),
            "solved-and-set",
        ),
        ("param wide = 10 cm from 5 cm to 20 cm\nhigh = 20 cm\nsolve wide so that wide == 12 deg", (), "unit-mismatch"),
    ],
)
def test_what_can_not_be_solved_is_said_without_a_body(head: str, settings: tuple[str, ...], slug: str) -> None:
    slugs = [finding.slug for finding in compiled(head, settings=settings).findings if finding.slug != "unused-name"]
    assert slug in slugs
    assert len(set(slugs)) <= 2  # "wrong-kind" leaves no equation, which is said as well


def test_sleeve_cap_solved_to_an_armhole_plus_ease() -> None:
    """Of armhole lines, bicep width and cap height only two may be given; the third follows (triangle)."""
    text = """garment sanderling "Sanderling"
edition 1
param cap_height = 12 cm from 6 cm to 20 cm "underarm line to crown"
bicep_half = 16 cm
armhole    = 44 cm
cap_ease   = 2.5 cm
piece sleeve "Sleeve" {
  cut pair
  grain straight
  crown = (0 cm, cap_height)
  outline {
    back_cap   : (-bicep_half, 0 cm) -> crown
    front_cap  : crown -> (bicep_half, 0 cm)
    front_seam : (bicep_half, 0 cm) -> (bicep_half, -20 cm)
    hem        : (bicep_half, -20 cm) -> (-bicep_half, -20 cm)
    back_seam  : (-bicep_half, -20 cm) -> (-bicep_half, 0 cm)
  }
}
solve cap_height so that sleeve.front_cap.length + sleeve.back_cap.length == armhole + cap_ease
seam underarm joins sleeve.front_seam with sleeve.back_seam as plain { corner at sleeve.front_cap "slant lines for a cap" }
finish sleeve.front_cap, sleeve.back_cap as overedged
finish sleeve.hem as double_turned_hem
"""
    found = compile_spec(MemoryHost({"s.garment": text}), "s.garment", sizes=CHART, only=["88"])
    assert not list(found.findings)
    height = found.made[0].draft.params["cap_height"]
    assert height == pytest.approx(math.sqrt(232.5**2 - 160.0**2), abs=1e-3)
