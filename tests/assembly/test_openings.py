"""Named openings, girths of the sewn garment, and whether a body gets in."""

from __future__ import annotations

import math

import pytest

from garmentc.assembly.model import Assembly
from garmentc.host import DiskHost
from garmentc.output.measure.measures import size_measures
from garmentc.output.measure.tables import measure_csv, measure_json
from garmentc.output.measure.text import measure_text
from garmentc.output.model_json import size_model
from garmentc.pipeline import compile_spec
from tests.language.small import CHART, assembled, faults, found
from tests.support import MemoryHost

TOP = """garment knot "Knot, a top from two runners"
edition 1
measure bust_girth, head_girth
param wide = 14 cm from 5 cm to 16 cm
piece front "Front" {
  cut 1 on fold centre
  grain straight along centre
  underarm = (26 cm, 30 cm)
  outline {
    centre   : (0 cm, 0 cm) -> (0 cm, 54 cm)
    neckline : (0 cm, 54 cm) -> (wide, 54 cm)
    shoulder : (wide, 54 cm) -> (26 cm, 50 cm)
    armhole  : (26 cm, 50 cm) -> underarm
    side     : underarm -> (30 cm, 0 cm)
    hem      : (30 cm, 0 cm) -> (0 cm, 0 cm)
  }
}
piece back "Back" from front { }
seam shoulder joins front.shoulder with back.shoulder as french
seam side joins front.side with back.side as french
finish front.neckline, back.neckline as bound
finish front.armhole, back.armhole as bound
finish front.hem, back.hem as turned_hem
warn "large" bust_girth < 3 m
warn "head" head_girth < 3 m
"""
"""A neck of 4 times 14 cm, and a hem of 120 cm."""


def measured(text: str, name: str) -> float:
    return next(one.value for one in assembled(text).draft.finished if one.name == name)


def test_an_opening_has_a_name_and_a_length() -> None:
    text = TOP + 'opening neck "Neck" at back.neckline\nfinished neck_round "Neck, all round" = neck.length\n'
    assert measured(text, "neck_round") == pytest.approx(4 * 140)
    assert [one.names for one in assembled(text).surface.openings if one.title == "Neck"] == [("neck",)]


def test_a_check_of_an_opening_is_held_with_the_numbers() -> None:
    text = TOP + "opening hem at front.hem\n"
    assert found(text + 'check "wide" hem.length >= 120 cm\n') == []
    (told,) = found(text + 'check "wide" hem.length >= 121 cm\n')
    assert (told.slug, told.notes) == ("check-fails", ("120 cm against 121 cm: 10 mm apart",))


@pytest.mark.parametrize(
    ("more", "slugs"),
    [
        ("", []),
        ("set", ["no-way-in"]),  # 4 times 7 cm is less than any head
        ("set opening neck at front.neckline", ["no-way-in"]),
        ("set opening neck at front.neckline passes 20 cm", []),
        ("set opening neck at front.neckline stretches 120 %", []),  # 28 cm become 61.6 cm
        ("set opening neck at front.neckline stretches 20 %", ["no-way-in"]),
        ('set opening neck at front.neckline opened 15 cm by "a zip"', []),  # 28 cm and both edges of 15 cm
        ('set opening neck at front.neckline opened 10 cm by "a zip"', ["no-way-in"]),
        ("opening hem at front.hem passes bust_girth + 40 cm", ["no-way-in"]),  # 88 + 40 is more than 120
        ("opening neck at front.side", ["no-opening"]),
        ("x = neck.length; opening neck at front.neckline", ["not-sewn-yet"]),
        ("solve wide so that girth(front, front.underarm) == 1 m", ["not-sewn-yet"]),
        ("opening neck at front.neckline passes 30 deg", ["wrong-kind"]),
        ("opening front at front.neckline", ["duplicate-name"]),
        ("opening arm at sleeve.hem", ["unknown-name"]),
    ],
)
def test_what_is_said_of_openings(more: str, slugs: list[str]) -> None:
    text = TOP.replace("wide = 14 cm", "wide = 7 cm") if more.startswith("set") else TOP
    told = faults(text + more.removeprefix("set").strip().replace("; ", "\n") + "\n")
    assert [one.slug for one in told] == slugs


def test_joints_that_nearly_meet_leave_no_hole() -> None:
    """A band of three edges on two: one joint 0.5 mm beside the other, as a seam allows, and one where there is none."""
    band = (
        'piece band "Band" { cut 1 on fold centre; grain cross\n'
        "  outline { centre : (0 cm, 5 cm) -> (0 cm, 0 cm); a : (0 cm, 0 cm) -> (30.05 cm, 0 cm)\n"
        "    b : (30.05 cm, 0 cm) -> (45 cm, 0 cm); c : (45 cm, 0 cm) -> (60 cm, 0 cm)\n"
        "    last : (60 cm, 0 cm) -> (60 cm, 5 cm); top : (60 cm, 5 cm) -> (0 cm, 5 cm) } }\n"
        "seam band joins band.a then band.b then band.c with front.hem then back.hem as plain\n"
        "seam last joins band.last with its mirror as plain\n"
        "finish band.top as turned_hem\n"
    )
    made = assembled(TOP.replace("finish front.hem, back.hem as turned_hem\n", band)).surface
    assert (made.opening_count, made.euler) == (4, -2)
    assert sorted(len(one.edges) for one in made.openings) == [1, 2, 2]


# ---- girths


@pytest.mark.parametrize(
    ("level", "girth"),
    [
        ("front.underarm", 4 * 260),
        ("front.underarm down 15 cm", 4 * 280),  # the sides slope from 26 to 30 cm over 30 cm
        ("level(front.underarm down 15 cm)", 4 * 280),
        ("(0 cm, 1 mm)", 4 * (300 - 40 / 300)),
    ],
)
def test_a_girth_goes_round_front_and_back(level: str, girth: float) -> None:
    assert measured(TOP + f'finished g "Round" = girth(front, {level})\n', "g") == pytest.approx(girth, abs=1e-3)


@pytest.mark.parametrize(
    ("level", "note"),
    [
        ("front.underarm up 5 cm", "it is open there at the armhole of the Front"),
        ("front.underarm up 60 cm", "the line does not cross the Front"),
        ("line((0 cm, 10 cm), (10 cm, 25 cm))", "it is open there at the hem of the Front"),
    ],
)
def test_a_girth_where_the_garment_is_open_is_told(level: str, note: str) -> None:
    (told,) = found(TOP + f'finished g "Round" = girth(front, {level})\n')
    assert told.slug == "no-girth"
    assert note in told.notes[0] or "hem" in note


def test_darts_are_closed_where_the_tape_lies() -> None:
    """Half-way between edge and tip a straight dart takes half of what it takes at the edge (similar triangles)."""
    text = TOP.replace("  }\n}", "  }\n  dart d on hem at 50 % to (15 cm, 20 cm) taking 6 cm\n}", 1)
    round_hem = 'finished g "Round" = girth(front, (0 cm, 10 cm))\n'
    plain, darted = (measured(one + round_hem, "g") for one in (TOP, text))
    assert plain - darted == pytest.approx(4 * 30, abs=0.5)
    hem = next(one for one in assembled(text).surface.openings if ("front", "hem") in one.edges)
    assert hem.length == pytest.approx(4 * 240, abs=2.0)


def test_a_sleeve_is_measured_round_one_arm() -> None:
    text = TOP + (
        'piece sleeve "Sleeve" { cut pair; grain straight\n'
        "  outline { hem : (0 cm, 0 cm) -> (40 cm, 0 cm); fore : (40 cm, 0 cm) -> (40 cm, 25 cm)\n"
        "    cap : (40 cm, 25 cm) -> (0 cm, 25 cm); rear : (0 cm, 25 cm) -> (0 cm, 0 cm) } }\n"
        "seam under joins sleeve.fore with sleeve.rear as plain\n"
        "seam arm joins front.armhole then back.armhole with sleeve.cap as plain\n"
        "finish sleeve.hem as turned_hem\n"
        'finished arm "Arm" = girth(sleeve, (20 cm, 10 cm))\n'
    )
    text = text.replace("finish front.armhole, back.armhole as bound\n", "")
    assert measured(text, "arm") == pytest.approx(400)
    assert assembled(text).surface.opening_count == 4  # neck, hem, two sleeves


QUARTERS = """garment knot "Knot, a half circle of two panels"
edition 1
piece front "Front" {
  cut 1 on fold centre
  grain straight along centre
  middle = (0 cm, 0 cm)
  above = middle down 20 cm
  below = middle down 80 cm
  outline {
    centre : above -> below
    hem    : below -> turn(below, middle, 45 deg) arc bulge radius 80 cm
    side   : turn(below, middle, 45 deg) -> turn(above, middle, 45 deg)
    waist  : turn(above, middle, 45 deg) -> above arc hollow radius 20 cm
  }
}
piece back "Back" from front { }
seam side joins front.side with back.side as plain { set allowance = 10 mm }
finish front.waist, back.waist as pinked
finish front.hem, back.hem as turned_hem { set hem = 10 mm }
"""


@pytest.mark.parametrize("edge", ["waist", "hem"])
def test_a_tape_beside_an_edge_goes_round_a_circle(edge: str) -> None:
    """Half the circumference of a circle of 45 cm radius, pi r, from either side."""
    text = QUARTERS + f'finished g "Round" = girth(front, front.above down 25 cm, front.{edge})\n'
    assert measured(text, "g") == pytest.approx(math.pi * 450, abs=0.1)


@pytest.mark.parametrize(
    ("more", "note"),
    [
        ("front.above down 25 cm", "turn by 90 deg from the Front to the Back"),
        ("front.above up 5 cm, front.hem", "it does not lie on the Front 65 cm from its hem"),
        ("front.above, front.side", "it comes onto the Front 13.66 cm beside where it would lie 15.31 cm"),
    ],
)
def test_a_tape_that_is_not_level_is_told(more: str, note: str) -> None:
    (told,) = found(QUARTERS + f'finished g "Round" = girth(front, {more})\n')
    assert (told.slug, note in told.notes[0]) == ("no-girth", True), told.notes


SLEEVES = """garment knot "Knot, a tube of two parts, the under one drawn on its side"
edition 1
piece over "Over arm" {
  cut pair
  grain straight
  outline { hem : (0 cm, 0 cm) -> (20 cm, 0 cm); fore : (20 cm, 0 cm) -> (23 cm, 40 cm)
    top : (23 cm, 40 cm) -> (-3 cm, 40 cm); rear : (-3 cm, 40 cm) -> (0 cm, 0 cm) }
}
piece under "Under arm" {
  cut pair
  grain cross
  outline { hem : (0 cm, 0 cm) -> (0 cm, -12 cm); rear : (0 cm, -12 cm) -> (40 cm, -15 cm)
    top : (40 cm, -15 cm) -> (40 cm, 3 cm); fore : (40 cm, 3 cm) -> (0 cm, 0 cm) }
}
seam fore joins over.fore with under.fore as plain
seam rear joins over.rear with under.rear as plain
finish over.hem, under.hem, over.top, under.top as pinked
"""


def test_a_tape_beside_an_edge_follows_pieces_that_are_drawn_turned() -> None:
    """Half-way up, tapers of 20 to 26 cm and of 12 to 18 cm measure 23 and 15 cm (similar triangles)."""
    level = 'finished g "Round" = girth(over, (10 cm, 20 cm){})\n'
    (told,) = found(SLEEVES + level.format(""))
    assert (told.slug, "which are not drawn the same way up" in told.notes[0]) == ("no-girth", True), told.notes
    (told,) = found(SLEEVES + level.format(", under.hem"))
    assert told.notes == ("the edge is none of the Over arm",)
    assert measured(SLEEVES + level.format(", over.hem"), "g") == pytest.approx(230 + 150, abs=1e-3)


def test_a_circle_skirt_has_the_waist_and_hem_of_its_circles() -> None:
    """Circumferences of a full circle (2 pi r); the block adds its length to the radius of the waist."""
    made = compile_spec(DiskHost(), "specs/blocks/circle_skirt.garment", sizes=CHART, only=["88"]).made[0]
    hip = next(one.value for one in made.draft.finished if one.name == "hip")
    hem, waist = sorted((one.length for one in made.surface.openings), reverse=True)
    length = next(one.value for one in made.draft.finished if one.name == "length")
    assert hem - waist == pytest.approx(2 * math.pi * length, abs=1e-3)
    assert hip - waist == pytest.approx(2 * math.pi * 200, abs=1e-3)


# ---- what is told of them


@pytest.fixture(scope="module")
def plover() -> Assembly:
    text = DiskHost().read("specs/plover.garment").decode()
    text = text.replace('"Arm" at front.armhole', '"Arm" at front.armhole opened 3 cm by "a slit"')
    text += 'finished hip "Hips, all round" = girth(front, level(front.hem_side up 5 cm))\nmeasure hip_girth\n'
    text += 'warn "hips" hip_girth < 3 m\n'
    host = MemoryHost({"specs/plover.garment": text})
    return compile_spec(host, "specs/plover.garment", sizes=CHART, only=["88"]).made[0]


def test_the_model_holds_every_opening(plover: Assembly) -> None:
    surface = size_model(plover)["surface"]
    assert (surface["parts"], surface["euler"]) == (1, -2)
    arm = next(one for one in surface["openings"] if one["names"] == ["arm"])
    assert (arm["title"], arm["times"], arm["length"]) == ("Arm", 2, pytest.approx(420))
    assert [(part["piece"], part["edge"], part["mirrored"]) for part in arm["parts"]] == [
        ("front", "armhole", False),
        ("back", "armhole", True),
    ]


def test_the_technical_sheet_holds_openings_and_the_ease_of_each_girth(plover: Assembly) -> None:
    sizes = [size_measures(plover)]
    openings = {one.title: one.value for one in sizes[0].measured if one.group == "opening"}
    assert openings["Arm, 2 times"] == pytest.approx(420)
    ease = {one.name: one.value for one in sizes[0].measured if one.group == "ease"}
    assert ease["bust.ease"] == pytest.approx(1080 - 880)
    assert ease["hip.ease"] == pytest.approx(1080 - ease["hip_girth"])
    for text in (measure_text("Plover", sizes), measure_csv(sizes), measure_json("plover", "Plover", sizes)):
        assert "Finished ease: Hips, all round" in text
        assert "Arm, 2 times" in text
        assert "at the level of front.hem_side up 5 cm (Front)" in text
