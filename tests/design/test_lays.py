"""``lay`` statements: what they may name, what is known of them without a cloth."""

from __future__ import annotations

import math

import pytest

from tests.language.small import assembled, faults, found, panel

STRIP = 'strip tie "Tie" { cut 1; length 40 cm; width 4 cm; make flat }\nfinish tie.ends, tie.sides as pinked\n'


def laid(text: str) -> list[tuple[str, str]]:
    return [(one.slug, one.text) for one in faults(panel(below=STRIP + text)) if one.slug != "unused-name"]


def test_what_is_asked_reaches_the_draft() -> None:
    text = """lay panel {
  lower on finished edge
  a on cloth corner
  grain straight or cross within 2 deg
  motif "wreath" at c within 5 mm
  layers 1
}
lay tie { joins 2 from 20 % to 30 cm; cloth lining; mirrored with panel }
"""
    made = assembled(panel(below=STRIP.replace("finish tie.ends, tie.sides as pinked", "") + text + HELD))
    lays = made.draft.lays
    assert [edge.text for edge in lays["panel"].edges] == ["panel.lower"]
    assert [(name, at) for name, at, _ in lays["panel"].corners] == [("a", 0)]
    assert lays["panel"].grains == ("straight", "cross")
    assert lays["panel"].within == pytest.approx(math.radians(2))
    assert [(one.name, one.at, one.within) for one in lays["panel"].motifs] == [("wreath", 200 + 300j, 5.0)]
    assert (lays["panel"].layers, lays["panel"].cloth) == (1, "main")
    assert (lays["tie"].joins, lays["tie"].joined_between) == (2, (80.0, 300.0))
    assert (lays["tie"].cloth, lays["tie"].mirrored) == ("lining", ("panel",))


HELD = """piece hand "Hand" {
  cut 1
  grain straight
  mid = (5 cm, 0 cm)
  outline { low : (0 cm, 0 cm) -> (10 cm, 0 cm); r : (10 cm, 0 cm) -> (10 cm, 9 cm); u : (10 cm, 9 cm) -> (0 cm, 9 cm); l : (0 cm, 9 cm) -> (0 cm, 0 cm) }
}
piece palm "Palm" from hand { }
seam on joins hand.low with palm.low as plain { insert tie at mid }
finish hand.r, hand.u, hand.l, palm.r, palm.u, palm.l as pinked
finish tie.ends, tie.sides as pinked
"""


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("lay panle { layers 1 }", ("unknown-name", "panle")),
        ("lay panel { lwoer on finished edge }", ("unknown-name", "lwoer")),
        ("lay panel { layers 3 }", ("wrong-kind", "3")),
        ("lay panel { joins 1 }", ("wrong-kind", "joins 1")),
        ("lay tie { joins 0 }", ("wrong-kind", "joins 0")),
        ("lay tie { sides on finished edge }", ("wrong-kind", "sides on finished edge")),
        ("lay panel { mirrored with panel }", ("wrong-kind", "panel")),
        ("lay panel { grain bias within 2 cm }", ("wrong-kind", "2 cm")),
        ("lay panel { lower on cloth corner }", ("wrong-kind", "lower")),
        ("lay panel { match lower with tie.ends }", ("unknown-name", "tie")),
        ('lay panel { motif "wreath" at 3 cm }', ("wrong-kind", "3 cm")),
        ("lay panel { layers 1 }\nlay panel { layers 2 }", ("said-twice", "layers 2")),
    ],
)
def test_what_can_not_be_asked_is_told_at_its_place(text: str, fault: tuple[str, str]) -> None:
    assert laid(text) == [fault]


def test_an_edge_on_a_finished_edge_runs_along_a_thread_under_one_of_its_grains() -> None:
    askew = panel().replace("c = (20 cm, 30 cm)", "c = (17 cm, 30 cm)")
    assert [one.slug for one in faults(askew + "lay panel { ending on finished edge }\n")] == ["found-not-along-thread"]
    assert faults(panel() + "lay panel { lower on finished edge; grain bias or cross }\n") == []
    (told,) = found(panel() + "lay panel { lower on finished edge; grain bias }\n")
    assert told.slug == "found-not-along-thread"
    assert "45 deg" in told.notes[0]


def test_a_corner_on_the_fold_is_opened_out() -> None:
    half = panel().replace("cut 1", "cut 1 on fold opening").replace(", panel.opening", "")
    slope = half.replace("a = (0 cm, 0 cm)", "a = (0 cm, -20 cm)").replace("grain straight", "grain bias")
    assert faults(slope + "lay panel { a on cloth corner }\n") == []
    (told,) = found(half + "lay panel { a on cloth corner }\n")
    assert told.slug == "not-a-corner"
    assert "180 deg" in told.notes[0]


def test_a_point_inside_is_no_corner() -> None:
    (told,) = found(panel("mid = (10 cm, 10 cm)", "lay panel { mid on cloth corner }"))
    assert told.slug == "not-a-corner"
    assert told.span.text == "mid"
