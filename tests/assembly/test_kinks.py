"""Lines that run over a seam: kinks by their angle, corners that are meant, slits and turned layers left alone."""

from __future__ import annotations

from math import radians, tan

import pytest

from garmentc.diagnostics.finding import Finding
from tests.language.small import compiled

FINISH = "finish left_half.upper, right_half.upper, left_half.tip, right_half.tip, left_half.lower, right_half.lower as pinked\n"


def found(text: str) -> list[Finding]:
    """All findings but that the scarf is sewn to nothing else."""
    return [one for one in compiled(text).findings if one.slug != "pieces-apart"]


def scarf(rise: float, drop: float = 0.0, item: str = "", seam: str = "plain", finish: str = FINISH) -> str:
    """Two halves joined at `join`; the upper edge leaves it `rise` degrees, the lower one `drop` degrees above level."""
    up, low = 200 * tan(radians(rise)), 200 * tan(radians(drop))
    left, right = (
        f"""{{ cut 1; grain straight
  outline {{ join : (0 mm, 0 mm) -> (0 mm, 240 mm); upper : (0 mm, 240 mm) -> ({tip} mm, {240 + up} mm)
    tip : ({tip} mm, {240 + up} mm) -> ({tip} mm, {low} mm); lower : ({tip} mm, {low} mm) -> (0 mm, 0 mm) }} }}
"""
        for tip in (-200, 200)
    )
    return (
        'garment knot "Knot"\nedition 1\n'
        f'piece left_half "Left" {left}piece right_half "Right" {right}'
        f"seam middle joins left_half.join with right_half.join as {seam} {item}\n{finish}"
    )


def kinks_at_middle(text: str) -> int:
    return sum(one.slug == "kink" and "seam `middle`" in one.headline for one in found(text))


@pytest.mark.parametrize(
    ("rise", "kink"), [(0.0, 0.0), (4.99, 0.0), (5.01, 10.0), (12.0, 24.0), (-12.0, 24.0), (-4.99, 0.0)]
)
def test_kinks_are_told_by_the_angle_that_is_missing(rise: float, kink: float) -> None:
    """Both edges leave the seam at 90 degrees and the rise: together 180 and twice as much."""
    faults = found(scarf(rise))
    assert [one.slug for one in faults] == ["kink"] * (kink > 0)
    if kink:
        assert f"a kink of {kink:.0f} deg at seam `middle`" in faults[0].headline
        assert f"{90 + rise:g} deg at (0 cm, 24 cm)" in faults[0].notes[0].replace("95 deg", "95.01 deg")
        assert ("dips in" if rise > 0 else "sticks out") in faults[0].notes[0]
        assert faults[0].span.text.startswith("seam middle")
        assert [label.span.text[:5] for label in faults[0].others] == ["upper", "upper"]


def test_both_ends_of_a_seam_are_looked_at() -> None:
    headlines = [one.headline for one in found(scarf(10, 20))]
    assert [("upper" in one, "20 deg" in one, "40 deg" in one) for one in headlines] == [
        (False, False, True),
        (True, True, False),
    ] or [("upper" in one, "20 deg" in one, "40 deg" in one) for one in headlines] == [
        (True, True, False),
        (False, False, True),
    ]


@pytest.mark.parametrize(
    "item",
    ['{ corner at left_half.upper "why" }', "{ corner at right_half.upper }", "{ smooth within 24 deg }"],
)
def test_a_corner_may_be_meant(item: str) -> None:
    assert found(scarf(12, item=item)) == []


def test_a_declared_tolerance_may_be_tighter() -> None:
    (fault,) = found(scarf(2, item="{ smooth within 3 deg }"))
    assert (fault.slug, fault.severity.name) == ("kink", "WARNING")
    assert "up to 3 deg" in fault.notes[0]


def test_a_corner_is_allowed_only_where_the_seam_ends() -> None:
    (fault, *_) = [one for one in found(scarf(12, item="{ corner at left_half.tip }")) if one.slug != "kink"]
    assert (fault.slug, fault.span.text) == ("corner-beside-seam", "left_half.tip")
    assert "`left_half.upper`" in fault.notes[0] and "`right_half.lower`" in fault.notes[0]


@pytest.mark.parametrize(
    ("item", "slug"),
    [
        ("{ smooth within 3 cm }", "wrong-kind"),
        ("{ smooth within 3 deg; smooth within 4 deg }", "said-twice"),
        ("{ corner at left_half.uper }", "unknown-name"),
    ],
)
def test_wrong_words_are_told(item: str, slug: str) -> None:
    assert slug in [one.slug for one in found(scarf(0, item=item))]


def test_layers_that_are_turned_lie_on_each_other() -> None:
    assert found(scarf(12, seam="enclosed")) == []


def test_edges_with_different_fates_make_no_line() -> None:
    """One upper edge sewn to a strip of cloth, the other hemmed: nothing runs on there."""
    rail = """piece rail "Rail" { cut 1; grain straight
  outline { near : (0 mm, 0 mm) -> (%s mm, 0 mm); up : (%s mm, 0 mm) -> (%s mm, 90 mm)
    far : (%s mm, 90 mm) -> (0 mm, 90 mm); down : (0 mm, 90 mm) -> (0 mm, 0 mm) } }
seam rail joins rail.near with left_half.upper as plain
finish rail.up, rail.far, rail.down as pinked
""".replace("%s", str(200 / (1 / (1 + tan(radians(12)) ** 2) ** 0.5)))
    assert kinks_at_middle(scarf(12, finish=FINISH.replace("left_half.upper, ", "") + rail)) == 0


def test_a_line_that_another_seam_takes_up_runs_on_too() -> None:
    rail = """piece rail "Rail" { cut 1; grain straight
  outline { near : (0 mm, 0 mm) -> (%s mm, 0 mm); up : (%s mm, 0 mm) -> (%s mm, 90 mm)
    far : (%s mm, 90 mm) -> (0 mm, 90 mm); down : (0 mm, 90 mm) -> (0 mm, 0 mm) } }
seam rail joins rail.near with left_half.upper then right_half.upper as plain
finish rail.up, rail.far, rail.down as pinked
""".replace("%s", str(400 * (1 + tan(radians(12)) ** 2) ** 0.5))
    text = scarf(12, finish=FINISH.replace("left_half.upper, right_half.upper, ", "") + rail)
    assert kinks_at_middle(text) == 1


def test_the_end_of_a_slit_is_no_kink() -> None:
    """The seam ends half-way: beyond it both edges go on straight, hemmed for themselves."""
    half = """{ cut 1; grain straight
  outline { join : (0 cm, 0 cm) -> (0 cm, 24 cm); slit : (0 cm, 24 cm) -> (0 cm, 40 cm)
    upper : (0 cm, 40 cm) -> (-20 cm, 40 cm); tip : (-20 cm, 40 cm) -> (-20 cm, 0 cm)
    lower : (-20 cm, 0 cm) -> (0 cm, 0 cm) } }
"""
    text = f'garment knot "Knot"\nedition 1\npiece left_half "Left" {half}piece right_half "Right" {half}'
    text += "seam middle joins left_half.join with right_half.join as plain\n"
    assert found(text + FINISH + "finish left_half.slit, right_half.slit as pinked\n") == []
