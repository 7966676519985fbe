"""Hems find room: on the curve that they follow, and on the piece that they are turned onto."""

from __future__ import annotations

from math import pi

import pytest

from tests.language.small import found

MAT = """garment knot "Knot, a round mat"
edition 1
piece mat "Mat" {{
  cut 1 on fold middle
  grain straight
  outline {{
    rim : (0 cm, -{0} cm) -> (0 cm, {0} cm) arc bulge {0} cm
    middle : (0 cm, {0} cm) -> (0 cm, -{0} cm)
  }}
}}
finish mat.rim as turned_hem {{ set hem = {1} mm }}
"""
HOLLOW = """garment knot "Knot, a yoke"
edition 1
piece yoke "Yoke" {{
  cut 1
  grain straight
  outline {{
    lower : (-40 cm, 0 cm) -> (40 cm, 0 cm)
    right_end : (40 cm, 0 cm) -> (40 cm, 60 cm)
    right_top : (40 cm, 60 cm) -> ({0} cm, 60 cm)
    neck : ({0} cm, 60 cm) -> (-{0} cm, 60 cm) arc hollow {0} cm
    left_top : (-{0} cm, 60 cm) -> (-40 cm, 60 cm)
    left_end : (-40 cm, 60 cm) -> (-40 cm, 0 cm)
  }}
}}
finish yoke.lower, yoke.right_end, yoke.right_top, yoke.left_top, yoke.left_end as pinked
finish yoke.neck as turned_hem {{ set hem = {1} mm }}
"""


def slugs(text: str) -> list[str]:
    return [one.slug for one in found(text) if one.slug.startswith("hem-")]


@pytest.mark.parametrize("radius", [8, 20, 50])
def test_a_round_hem_is_told_where_its_edge_is_much_longer_than_the_line_it_lies_on(radius: int) -> None:
    """The cut edge of a circle has its radius and the hem, the line it lies on its radius less the hem: 1.35 at most."""
    fits = int(radius * 10 * 0.35 / 2.35) - 1
    assert (radius * 10 + fits) / (radius * 10 - fits) < 1.35
    assert slugs(MAT.format(radius, fits)) == []
    assert slugs(MAT.format(radius, round(fits * 1.25) + 2)) == ["hem-on-curve"]


@pytest.mark.parametrize("radius", [8, 15])
def test_a_hollow_hem_is_told_where_its_edge_would_have_to_be_stretched(radius: int) -> None:
    fits = int(radius * 10 * 0.25 / 1.75) - 1
    assert slugs(HOLLOW.format(radius, fits)) == []
    assert slugs(HOLLOW.format(radius, round(fits * 1.25) + 2)) == ["hem-on-curve"]


def test_the_numbers_are_those_of_the_curve() -> None:
    (told,) = (one for one in found(MAT.format(10, 40)) if one.slug == "hem-on-curve")
    cut, lies = (
        float(part.split()[0]) for part in told.notes[0].split("most, ")[1].split(" of cut edge come to lie on ")
    )
    assert cut / lies == pytest.approx((100 + 40) / (100 - 40), rel=0.05)
    assert cut < 2 * pi * 14


@pytest.mark.parametrize(("hem", "told"), [(20, []), (28, []), (45, ["hem-too-deep"]), (80, ["hem-too-deep"])])
def test_a_hem_deeper_than_its_piece_is_told(hem: int, told: list[str]) -> None:
    text = f"""garment knot "Knot, a ribbon"
edition 1
piece ribbon "Ribbon" {{ cut 1; grain straight
  outline {{ lower : (0 cm, 0 cm) -> (60 cm, 0 cm); one_end : (60 cm, 0 cm) -> (60 cm, 3 cm)
    upper : (60 cm, 3 cm) -> (0 cm, 3 cm); other_end : (0 cm, 3 cm) -> (0 cm, 0 cm) }} }}
finish ribbon.lower as blind_hem {{ set hem = {hem} mm }}
finish ribbon.upper, ribbon.one_end, ribbon.other_end as narrow_hem
"""
    assert slugs(text) == told


def test_a_hem_may_go_on_over_the_fold_of_its_piece() -> None:
    """The half that is drawn is narrower than the hem at its side; unfolded there is cloth enough."""
    text = """garment knot "Knot, a runner"
edition 1
piece runner "Runner" { cut 1 on fold middle; grain straight
  outline { middle : (0 cm, 0 cm) -> (0 cm, 60 cm); upper : (0 cm, 60 cm) -> (3 cm, 60 cm)
    side : (3 cm, 60 cm) -> (3 cm, 0 cm); lower : (3 cm, 0 cm) -> (0 cm, 0 cm) } }
finish runner.side as turned_hem { set hem = 50 mm }
finish runner.upper, runner.lower as pinked
"""
    assert "hem-too-deep" not in slugs(text)
