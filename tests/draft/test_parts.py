"""Parts of edges that are edges of their own: where they lie, what they take along, and what is refused."""

from __future__ import annotations

import pytest

from garmentc.assembly.model import Assembly
from tests.language.small import PANEL, assembled, found

# The panel is 200 by 300 mm: lower from (0,0), ending up the right side, upper back to the left, opening down.
REST = "panel.lower, panel.ending, panel.upper, panel.opening"


def spec(inside: str, names: str) -> str:
    return f"{PANEL}{inside}\n}}\nfinish {REST}, {names} as pinked\n"


def made(inside: str, names: str = "panel.slit") -> Assembly:
    return assembled(spec(inside, names))


def lengths(assembly: Assembly) -> dict[str, float]:
    return {edge.name: round(edge.sewn_length, 6) for edge in assembly.draft.piece("panel").edges}


@pytest.mark.parametrize(
    ("part", "start", "end"),
    [
        ("from 20 cm to 100 %", 200 + 200j, 200 + 300j),
        ("from c to 20 cm", 200 + 200j, 200 + 300j),
        ("from b to (20 cm, 10 cm)", 200 + 0j, 200 + 100j),
        ("from 0 % to 100 mm", 200 + 0j, 200 + 100j),
    ],
)
def test_a_part_lies_between_its_places(part: str, start: complex, end: complex) -> None:
    piece = made(f"part slit of ending {part}").draft.piece("panel")
    slit, rest = piece.edge("slit"), piece.edge("ending")
    assert slit is not None and rest is not None
    assert (slit.path.start, slit.path.end) == (pytest.approx(start), pytest.approx(end))
    assert slit.path.length + rest.path.length == pytest.approx(300)


def test_the_pattern_marks_where_a_part_begins() -> None:
    (mark,) = made("part slit of ending from 20 cm to 100 %").draft.piece("panel").marks
    assert (mark.at, mark.text) == (pytest.approx(200 + 200j), "slit begins")


def test_a_part_in_the_middle_needs_one_behind_it() -> None:
    (fault,) = found(spec("part gap of ending from 10 cm to 20 cm", "panel.gap"))
    assert fault.slug == "impossible-shaping"
    assert "10 cm before it, 10 cm behind it" in fault.notes[0]
    both = "part above of ending from 20 cm to 100 %\npart gap of ending from 10 cm to 20 cm"
    assert lengths(made(both, "panel.gap, panel.above")) == {
        "lower": 200,
        "ending": 100,
        "gap": 100,
        "above": 100,
        "upper": 200,
        "opening": 300,
    }


def test_darts_go_with_the_part_they_lie_in() -> None:
    darts = "dart low on ending at 5 cm to (10 cm, 5 cm) taking 2 cm\ndart high on ending at 25 cm to (10 cm, 25 cm) taking 3 cm\n"
    assembly = made(f"{darts}part slit of ending from 20 cm to 100 %")
    assert {one.name: one.edge for one in assembly.draft.piece("panel").takeups} == {"low": "ending", "high": "slit"}
    assert lengths(assembly)["slit"] == pytest.approx(70, abs=0.5)
    (fault,) = found(spec(f"{darts}part slit of ending from 25 cm to 100 %", "panel.slit"))
    assert (fault.slug, fault.headline) == ("impossible-shaping", "the high dart lies across the end of this part")


@pytest.mark.parametrize("places", ["from 10 cm to 10 cm", "from 0 cm to 30 cm"])
def test_a_part_is_some_of_an_edge_and_not_all(places: str) -> None:
    (fault,) = found(spec(f"part slit of ending {places}", "panel.slit"))
    assert (fault.slug, fault.headline) == ("impossible-shaping", "a part of an edge is some of it, and not all")


def test_a_part_left_raw_is_told_without_a_body() -> None:
    (fault,) = found(f"{PANEL}part slit of ending from 20 cm to 100 %\n}}\nfinish {REST} as pinked\n", size=None)
    assert (fault.slug, fault.span.text) == ("raw-edge", "part slit of ending from 20 cm to 100 %")


def test_parts_are_measured_and_named_like_other_edges() -> None:
    checks = 'check "rest" panel.ending.length == 20 cm\ncheck "part" panel.slit.length == 10 cm\n'
    assert found(spec("part slit of ending from 20 cm to 100 %", "panel.slit") + checks) == []
    (fault,) = found(spec("part slit of ending from 20 cm to 100 %", "panel.slot"))
    assert fault.slug == "unknown-name" and "`slit`" in fault.help
    (twice,) = found(spec("part upper of ending from 20 cm to 100 %", "panel.opening"))[:1]
    assert twice.slug == "duplicate-name"


def test_a_piece_taken_from_another_has_its_parts() -> None:
    text = spec("part slit of ending from 20 cm to 100 %", "panel.slit")
    other = 'piece other "Other" from panel { apart "a twin" }\n'
    twin = f"finish {REST}, panel.slit as pinked\n".replace("panel", "other")
    assembly = assembled(text + other + twin)
    assert [edge.name for edge in assembly.draft.piece("other").edges] == [
        edge.name for edge in assembly.draft.piece("panel").edges
    ]


def test_what_is_grown_on_has_the_parts_too() -> None:
    inside = "part slit of ending from 20 cm to 100 %\ngrow facing across upper keep above level(a up 15 cm) as low"
    names = "panel.slit, panel.facing.slit, panel.facing.ending, panel.facing.low, panel.facing.opening"
    rest = REST.replace(", panel.upper", "")
    assembly = assembled(f"{PANEL}{inside}\n}}\nfinish {rest}, {names} as pinked\n")
    facing = assembly.draft.piece("panel").edge("facing.slit")
    assert facing is not None and facing.sewn_length == pytest.approx(100)
