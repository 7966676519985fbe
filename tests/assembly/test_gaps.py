"""What a seam leaves open to be turned through, and closes later."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from garmentc.assembly.model import Assembly
from garmentc.output.model_json import size_model
from tests.language.small import assembled, found

MAT = """garment knot "Knot"
edition 1
piece mat "Mat" {{
  cut 2
  grain straight
  outline {{
    lower     : (0 cm, 0 cm) -> (40 cm, 0 cm)
    right_end : (40 cm, 0 cm) -> (40 cm, 30 cm)
    upper     : (40 cm, 30 cm) -> (0 cm, 30 cm)
    left_end  : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
}}
seam round joins {first} with {second} as {kind} {{ {leave} }}
"""
ROUND = "mat.lower of copy {n} then mat.right_end of copy {n} then mat.upper of copy {n} then mat.left_end of copy {n}"


def mat(leave: str = "", kind: str = "enclosed") -> str:
    return MAT.format(first=ROUND.format(n=1), second=ROUND.format(n=2), kind=kind, leave=leave)


def notches(assembly: Assembly) -> list[tuple[str, float]]:
    return [(one.edge, round(one.along, 6)) for one in assembly.pieces[0].notches if one.edge == "lower"]


def test_two_layers_sewn_all_round_are_turned_through_what_is_left_open() -> None:
    assert [one.slug for one in found(mat())] == ["no-way-to-turn"]
    assembly = assembled(mat("leave 12 cm at 20 cm"))
    gap = assembly.seams[0].gap
    assert gap is not None
    assert (gap.low, gap.high, gap.join.name) == (140.0, 260.0, "hand_closed")
    assert {("lower", 140.0), ("lower", 260.0)} <= set(notches(assembly))


def test_it_is_closed_last_and_nothing_is_open_then() -> None:
    assembly = assembled(mat("leave 12 cm at 20 cm"))
    assert [(step.name, step.about) for step in assembly.steps][-1] == ("close round", "closing")
    assert any("Leave 12 cm open, between the notches at 14 cm and 26 cm" in line for line in assembly.steps[0].lines)
    (whole,) = assembly.surface.whole
    assert (whole.euler, whole.loops) == (2, ())  # a sphere
    assert [use.sewn for use in assembly.thread if use.stitch.code == "209"] == [120.0]
    assert "hand needle" in assembly.tools


def test_a_narrow_opening_is_told_with_its_width() -> None:
    (fault,) = found(mat("leave 5 cm at 20 cm"))
    assert (fault.slug, fault.headline) == (
        "opening-too-small",
        "the work that seam `round` encloses has to be turned through 5 cm",
    )


@pytest.mark.parametrize(
    "leave", ["leave 12 cm at 6 cm", "leave 12 cm at 98 %", "leave 2 m at 50 %", "leave 0 cm at 50 %"]
)
def test_an_opening_lies_within_its_seam(leave: str) -> None:
    (fault,) = found(mat(leave))
    assert (fault.slug, fault.span.text) == ("opening-beyond-seam", leave)


def test_only_a_type_that_closes_can_close_it() -> None:
    (fault,) = found(mat("leave 12 cm at 20 cm as french"))
    assert (fault.slug, fault.span.text) == ("wrong-kind", "french")
    assert [one.slug for one in found(mat("leave 12 cm at 20 cm; leave 12 cm at 50 cm"))] == ["said-twice"]
    assert [one.slug for one in found(mat("leave 12 at 20 cm"))] == ["wrong-kind"]


def test_the_place_is_measured_the_way_a_single_edge_is_drawn() -> None:
    """Each end of a pad is sewn on its own; drawn upward or downward, the opening lies 10 cm from where that begins."""
    for drawn, low in (("(20 cm, 0 cm) -> (20 cm, 30 cm)", 50.0), ("(20 cm, 30 cm) -> (20 cm, 0 cm)", 150.0)):
        up = drawn.startswith("(20 cm, 0 cm)")
        edges = [
            "lower : (0 cm, 0 cm) -> (20 cm, 0 cm)",
            f"ending : {drawn}",
            "upper : (20 cm, 30 cm) -> (0 cm, 30 cm)",
            "opening : (0 cm, 30 cm) -> (0 cm, 0 cm)",
        ]
        if not up:
            edges = [
                "upper : (0 cm, 30 cm) -> (20 cm, 30 cm)",
                f"ending : {drawn}",
                "lower : (20 cm, 0 cm) -> (0 cm, 0 cm)",
                "opening : (0 cm, 0 cm) -> (0 cm, 30 cm)",
            ]
        text = (
            'garment knot "Knot"\nedition 1\npiece panel "Panel" {\ncut 2\ngrain straight\noutline {\n'
            + "\n".join(edges)
            + "\n}\n}\nseam s joins panel.ending of copy 1 with panel.ending of copy 2 as plain { leave 10 cm at 10 cm }\n"
            "finish panel.lower, panel.upper, panel.opening as pinked\n"
        )
        lows = [one.along for one in assembled(text).pieces[0].notches]
        assert any(abs(one - low) < 1e-6 for one in lows), (drawn, lows)


def test_the_model_says_what_is_left_open() -> None:
    seam = size_model(assembled(mat("leave 12 cm at 20 cm")))["seams"][0]
    assert seam["left_open"] == {"from": 140.0, "to": 260.0, "type": "hand_closed"}
    schema = json.loads(Path("grammar/schemas/garment.schema.json").read_text(encoding="utf-8"))
    jsonschema.validate(seam, {**schema, **schema["$defs"]["seam"], "required": ["left_open"]})
