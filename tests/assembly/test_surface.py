"""Euler characteristics and openings of garments, against what is counted on them by hand.

A closed surface has V - E + F = 2 where it is a sphere (Euler 1758); each opening takes one away, each strap that joins
two places of the border one more. So a garment in one part with b openings, like a sphere with b holes, has 2 - b.
"""

from __future__ import annotations

from typing import NamedTuple

import pytest

from garmentc.assembly.gluing import Bond, Part, glue
from garmentc.assembly.sewn import Surface
from garmentc.host import DiskHost
from garmentc.pipeline import compile_spec
from tests.assembly.wrong import BAG, TOP
from tests.language.small import CHART, assembled, compiled, panel

RECTANGLE = [40.0, 30.0, 40.0, 30.0]


def whole(disc: int, edge: int) -> Part:
    return Part(disc, edge, 0.0, RECTANGLE[edge])


class Counted(NamedTuple):
    euler: int
    openings: list[float]
    twisted: bool


@pytest.mark.parametrize(
    ("bonds", "counted"),
    [
        ([], Counted(1, [140.0], False)),  # a disc
        ([Bond(whole(0, 1), whole(0, 3), True)], Counted(0, [40.0, 40.0], False)),  # a tube
        ([Bond(whole(0, 1), whole(0, 3), False)], Counted(0, [80.0], True)),  # a Möbius band: one border, one side
        (  # a torus: nothing open
            [Bond(whole(0, 1), whole(0, 3), True), Bond(whole(0, 0), whole(0, 2), True)],
            Counted(0, [], False),
        ),
        (  # a Klein bottle
            [Bond(whole(0, 1), whole(0, 3), True), Bond(whole(0, 0), whole(0, 2), False)],
            Counted(0, [], True),
        ),
        (  # a tube whose seam is left open for 10 mm at one end: the slit belongs to that end
            [Bond(Part(0, 1, 0.0, 20.0), Part(0, 3, 10.0, 30.0), True)],
            Counted(0, [40.0, 60.0], False),
        ),
        (  # a tube whose seam is left open for 10 mm in the middle: a third opening
            [
                Bond(Part(0, 1, 0.0, 10.0), Part(0, 3, 20.0, 30.0), True),
                Bond(Part(0, 1, 20.0, 30.0), Part(0, 3, 0.0, 10.0), True),
            ],
            Counted(-1, [20.0, 40.0, 40.0], False),
        ),
    ],
)
def test_a_rectangle_glued_to_itself(bonds: list[Bond], counted: Counted) -> None:
    (sheet,) = glue([RECTANGLE], bonds)
    openings = sorted(sum(part.length for part in loop) for loop in sheet.loops)
    assert Counted(sheet.euler, openings, sheet.twisted is not None) == counted


def test_discs_that_nothing_glues_stay_apart() -> None:
    sheets = glue([RECTANGLE, RECTANGLE], [])
    assert [sheet.discs for sheet in sheets] == [(0,), (1,)]


def test_two_rectangles_glued_all_round_are_a_sphere() -> None:
    (sheet,) = glue([RECTANGLE, RECTANGLE], [Bond(whole(0, i), whole(1, i), False) for i in range(4)])
    assert (sheet.euler, sheet.loops, sheet.twisted) == (2, (), None)


def test_nothing_is_glued_twice_or_beyond_its_edge() -> None:
    for part in (whole(0, 3), Part(0, 3, 5.0, 20.0), Part(0, 2, 0.0, 41.0)):
        with pytest.raises(ValueError):
            glue([RECTANGLE], [Bond(whole(0, 1), whole(0, 3), True), Bond(whole(0, 0), part, True)])


# ---- garments


def lengths(surface: Surface) -> list[tuple[str, float, int]]:
    """The openings by the edge that each begins with, in cm."""
    return [(opening.parts[0].edge, round(opening.length / 10, 2), opening.times) for opening in surface.openings]


def test_a_tube_has_two_openings() -> None:
    ends = "finish panel.lower, panel.upper as pinked\n"
    made = assembled(panel(below="seam s joins panel.ending with panel.opening as plain\n", finish=ends)).surface
    assert (made.euler, lengths(made)) == (0, [("lower", 20.0, 1), ("upper", 20.0, 1)])


TUBES = """garment knot "Knot"
edition 1
piece front "Front" {
  cut 1 on fold centre
  grain straight
  outline {
    centre : (0 cm, 40 cm) -> (0 cm, 0 cm)
    hem    : (0 cm, 0 cm) -> (25 cm, 0 cm)
    side   : (25 cm, 0 cm) -> (25 cm, 40 cm)
    upper  : (25 cm, 40 cm) -> (0 cm, 40 cm)
  }
}
piece back "Back" from front { }
"""


def test_left_is_sewn_to_left_though_both_halves_are_drawn_on_one_side() -> None:
    made = assembled(
        TUBES
        + "seam side joins front.side with back.side as french\n"
        + "finish front.hem, back.hem, front.upper, back.upper as pinked\n"
    ).surface
    assert (made.euler, lengths(made)) == (0, [("hem", 100.0, 1), ("upper", 100.0, 1)])
    hem = [(part.piece, part.mirrored) for part in made.openings[0].parts]
    assert hem == [("front", False), ("back", True), ("back", False), ("front", True)]


def test_a_tee_has_four_openings() -> None:
    """Neck, hem and two cuffs, counted on a T-shirt; its facing lies inside and is no opening."""
    made = assembled(TOP).surface
    assert (made.euler, made.opening_count) == (-2, 4)
    assert {opening.parts[0].edge: opening.times for opening in made.openings} == {"neckline": 1, "hem": 1, "cuff": 2}
    assert [sheet.euler for sheet in made.hidden] == [0]


TROUSERS = """garment knot "Knot"
edition 1
piece front "Front leg" {
  cut pair
  grain straight
  outline {
    waist  : (2 cm, 100 cm) -> (20 cm, 100 cm)
    outer  : (20 cm, 100 cm) -> (20 cm, 0 cm)
    hem    : (20 cm, 0 cm) -> (2 cm, 0 cm)
    inside : (2 cm, 0 cm) -> (-4 cm, 70 cm)
    crotch : (-4 cm, 70 cm) -> (2 cm, 100 cm) curve arriving up
  }
}
piece back "Back leg" from front { }
seam outer joins front.outer with back.outer as plain
seam inside joins front.inside with back.inside as plain
seam crotch joins front.crotch then back.crotch with its mirror as plain
finish front.waist, back.waist, front.hem, back.hem as pinked
"""


def test_trousers_have_three_openings() -> None:
    """Waist and two hems; in topology a surface like this is called a pair of pants, with characteristic -1."""
    made = assembled(TROUSERS).surface
    assert (made.euler, lengths(made)) == (-1, [("hem", 36.0, 2), ("waist", 72.0, 1)])


def test_a_crotch_with_an_open_end_gives_a_slit_to_the_waist() -> None:
    slit = TROUSERS.replace("seam crotch joins front.crotch then back.crotch", "seam crotch joins back.crotch")
    made = assembled(slit + "finish front.crotch as bound\n").surface
    waist = next(opening for opening in made.openings if ("front", "waist") in opening.edges)
    assert (made.euler, made.opening_count) == (-1, 3)
    assert ("front", "crotch") in waist.edges


def test_a_lined_bag_has_one_opening_and_the_whole_is_a_sphere() -> None:
    """Outer bag and lining are a disc each (1); sewn together at the rim, and closed after turning, a sphere (2).

    The handle joins two places of the rim of the outer bag: one more opening, and a characteristic of 0.
    """
    made = assembled(BAG).surface
    assert [sheet.euler for sheet in made.whole] == [2]
    assert [sheet.euler for sheet in made.hidden] == [1]
    assert (made.euler, made.opening_count) == (0, 2)


def test_a_lining_left_open_for_turning_is_one_hole_in_the_whole() -> None:
    open_bag = "\n".join(line for line in BAG.splitlines() if "as hand_closed" not in line)
    made = assembled(open_bag + "\nfinish inner_face.opening, inner_rear.opening as pinked\n").surface
    assert [(sheet.euler, len(sheet.loops)) for sheet in made.whole] == [(1, 1)]
    assert made.opening_count == 2


def test_two_of_each_piece_are_two_tubes() -> None:
    twice = TUBES.replace("cut 1 on", "cut 2 on")
    made = assembled(
        twice
        + "seam side joins front.side with back.side as french\n"
        + "finish front.hem, back.hem, front.upper, back.upper as pinked\n"
    ).surface
    assert [sheet.euler for sheet in made.shells] == [0, 0]
    assert lengths(made) == [("hem", 100.0, 2), ("upper", 100.0, 2)]


def test_a_seam_from_corner_to_corner_that_is_turned_over_is_refused() -> None:
    """The ends of a band meet the other way up: a Möbius band, which has one side."""
    band = panel().replace("ending : b -> c", "low : b -> c down 10 cm; high : c down 10 cm -> c")
    band = band.replace("opening : d -> a", "upmost : d -> d down 20 cm; last : d down 20 cm -> a")
    ends = "finish panel.lower, panel.upper as pinked\n"
    band = band.replace("finish panel.lower, panel.ending, panel.upper, panel.opening as pinked\n", ends)
    right = compiled(
        band
        + "seam s joins panel.low then panel.high with panel.last then panel.upmost as plain { ease 0 mm within 11 cm }\n"
    )
    wrong = compiled(band + "seam s joins panel.low then panel.high with panel.upmost then panel.last as plain\n")
    assert list(right.findings) == []
    assert [(one.slug, one.span.line) for one in wrong.findings] == [("one-sided", band.count("\n") + 1)]


def test_a_piece_sewn_to_nothing_is_told_unless_it_is_meant_to_stay_apart() -> None:
    seam = "seam side joins front.side with back.side as french\n"
    finish = "finish front.hem, back.hem, front.upper, back.upper, flap.hem, flap.side, flap.upper as pinked\n"
    flap = 'piece flap "Flap" from front { }\n'
    told = [(one.slug, one.span.text) for one in compiled(TUBES + flap + seam + finish).findings]
    assert told == [("pieces-apart", 'piece flap "Flap"')]
    meant = flap.replace("{ }", '{ apart "a pocket cloth, pinned on" }')
    assert list(compiled(TUBES + meant + seam + finish).findings) == []


@pytest.mark.parametrize(
    ("spec", "openings", "euler"),
    [
        ("tern", 4, -2),  # hem, round the neck between the straps, two arms
        ("tern_tunic", 4, -2),  # the same
        ("heron", 4, -2),  # the same
        ("plover", 4, -2),  # neck, two arms, hem
        ("curlew", 4, -2),  # neck, two arms, hem of the peplum
        ("avocet", 3, -1),  # two sleeves, and one round the neck, down both fronts and along the band: it wraps
        ("blocks/bodice", 4, -2),  # neck, two sleeves, waist
        ("blocks/camisole", 2, 0),  # hem and upper edge: the straps are only a step
        ("blocks/straight_skirt", 2, 0),  # waist and hem
        ("blocks/circle_skirt", 2, 0),  # waist and hem
        ("blocks/trousers", 3, -1),  # waist and two legs
    ],
)
def test_the_garments_of_the_studio(spec: str, openings: int, euler: int) -> None:
    made = compile_spec(DiskHost(), f"specs/{spec}.garment", sizes=CHART, only=["88"])
    assert [one.headline for one in made.findings] == []
    surface = made.made[0].surface
    assert (surface.opening_count, surface.euler, len(surface.whole)) == (openings, euler, 1)
    assert all(sheet.twisted is None for sheet in surface.whole)
