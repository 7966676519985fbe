"""Seams that take in more than two layers."""

from __future__ import annotations

import pytest

from garmentc.diagnostics.finding import Finding
from garmentc.output.model_json import size_model
from tests.language.small import assembled, found

# A skirt front and back on the fold, 24 cm wide at the waist; a yoke cut twice for each, one outside and one inside.
SKIRT = """garment knot "Knot"
edition 1
piece front "Front" {{
  cut 1 on fold centre
  grain straight
  outline {{
    hem    : (0 cm, 0 cm) -> (24 cm, 0 cm)
    side   : (24 cm, 0 cm) -> (24 cm, 50 cm)
    top    : (24 cm, 50 cm) -> (0 cm, 50 cm)
    centre : (0 cm, 50 cm) -> (0 cm, 0 cm)
  }}
}}
piece back "Back" from front {{ }}
piece yoke "Yoke" {{
  cut {cut}
  grain straight
  outline {{
    lower  : (0 cm, 0 cm) -> ({wide} cm, 0 cm)
    side   : ({wide} cm, 0 cm) -> ({wide} cm, 8 cm)
    upper  : ({wide} cm, 8 cm) -> (0 cm, 8 cm)
    centre : (0 cm, 8 cm) -> (0 cm, 0 cm)
  }}
}}
piece back_yoke "Back yoke" from yoke {{ }}
seam side joins front.side with back.side as plain
seam front_yoke joins front.top with yoke.lower of copy 1 {inner} as plain_closed
seam back_yoke joins back.top with back_yoke.lower of copy 1 and back_yoke.lower of copy 2 as plain_closed
seam yoke_sides joins yoke.side with back_yoke.side as plain
seam rim
    joins yoke.upper of copy 1 then back_yoke.upper of copy 1
    with yoke.upper of copy 2 then back_yoke.upper of copy 2
    as enclosed
finish front.hem, back.hem as turned_hem
"""
INNER = "and yoke.lower of copy 2"


def skirt(inner: str = INNER, cut: str = "2 on fold centre", wide: int = 24) -> str:
    return SKIRT.format(inner=inner, cut=cut, wide=wide)


def told(text: str) -> list[Finding]:
    return [one for one in found(text) if one.slug not in ("kink", "no-way-to-turn")]


def test_an_inner_yoke_is_taken_in_by_the_seam_of_the_outer_one() -> None:
    """Every edge is used; what is worn is a tube with two openings, the inner yoke lies inside it."""
    assembly = assembled(skirt())
    seam = next(one for one in assembly.seams if one.name == "front_yoke")
    assert [(one.name.text, one.after) for one in seam.layers[0].side] == [("yoke.lower of copy 2", 240.0)]
    assert assembly.surface.euler == 0
    assert sorted(round(one.length) for one in assembly.surface.openings) == [960, 960]
    hidden = {assembly.surface.leaves[disc].piece.name for sheet in assembly.surface.hidden for disc in sheet.discs}
    assert hidden == {"yoke", "back_yoke"}


def test_it_is_told_in_the_step_and_in_the_model() -> None:
    assembly = assembled(skirt())
    lines = next(step for step in assembly.steps if step.name == "front_yoke").lines
    assert any(
        line.startswith("Lay the lower of copy 2 of the Yoke against the other side of the top of the Front")
        for line in lines
    )
    (seam,) = [one for one in size_model(assembly)["seams"] if one["name"] == "front_yoke"]
    assert seam["layers"] == [["yoke.lower of copy 2"]]


def test_without_it_the_inner_yoke_is_raw() -> None:
    assert [one.headline for one in told(skirt(""))] == ["edge `lower` of copy 2 of `yoke` is left raw and would fray"]


def test_layers_are_as_long_as_the_first_side_and_exist_as_often() -> None:
    assert "seam-lengths-differ" in {one.slug for one in told(skirt(wide=23))}
    assert told(skirt("and yoke.lower"))[0].slug in ("unequal-copies", "edge-used-twice")


def test_a_layer_is_no_edge_of_the_other_sides() -> None:
    assert told(skirt("and yoke.lower of copy 1"))[0].slug == "seam-to-itself"


def test_notches_lie_on_all_layers_alike() -> None:
    places = {
        piece.drafted.name: sorted(round(one.along) for one in piece.notches if one.seam == "front_yoke")
        for piece in assembled(skirt()).pieces
    }
    assert places["front"] and len(places["yoke"]) == len(places["front"])
    assert [240 - along for along in reversed(places["yoke"])] == pytest.approx(places["front"])
