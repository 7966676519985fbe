"""Statements that speak of one instance of a piece: left or right, one of several copies."""

from __future__ import annotations

import pytest

from garmentc.assembly.model import Assembly
from garmentc.diagnostics.finding import Finding
from tests.language.small import assembled, found

# Two fronts and backs on the fold, 24 cm wide and 50 cm high; drawn to the right of the fold.
TOP = """garment knot "Knot"
edition 1
piece front "Front" {{
  cut {cut}
  grain straight
  outline {{
    hem    : (0 cm, 0 cm) -> (24 cm, 0 cm)
    side   : (24 cm, 0 cm) -> (24 cm, 50 cm)
    top    : (24 cm, 50 cm) -> (0 cm, 50 cm)
    centre : (0 cm, 50 cm) -> (0 cm, 0 cm)
  }}
}}
piece back "Back" from front {{ {more} }}
{seams}
finish front.hem, back.hem, front.top, back.top as turned_hem
"""
ZIPPED = (
    "seam left_side joins left front.side with left back.side as zip\n"
    "seam right_side joins right front.side with right back.side as plain {{ set allowance = 15 mm{inside} }}"
)


def top(seams: str, cut: str = "1 on fold centre", more: str = "") -> str:
    return TOP.format(seams=seams, cut=cut, more=more)


def told(text: str) -> list[Finding]:
    return [one for one in found(text) if one.slug not in ("kink", "pieces-apart")]


def side_of(assembly: Assembly, seam: str) -> list[tuple[str, int, bool]]:
    """The leaves that a seam joins: piece, copy, and whether it is the mirrored one."""
    leaves = assembly.surface.leaves
    return sorted(
        (leaves[part.disc].piece.name, leaves[part.disc].copy, leaves[part.disc].mirrored)
        for bond in assembly.surface.bonds
        if bond.by == seam
        for part in (bond.one, bond.other)
    )


def test_left_and_right_are_sewn_by_seams_of_their_own() -> None:
    """What a front shows on the right of its fold is worn left; there it meets the half of the back that is not drawn."""
    assembly = assembled(top(ZIPPED.format(inside="")))
    assert side_of(assembly, "left_side") == [("back", 0, True), ("front", 0, False)]
    assert side_of(assembly, "right_side") == [("back", 0, False), ("front", 0, True)]
    assert [(seam.name, seam.times) for seam in assembly.seams] == [("left_side", 1), ("right_side", 1)]
    assert {piece.drafted.name: piece.hand for piece in assembly.pieces} == {"front": "left", "back": "right"}
    assert assembly.surface.euler == 2 - 2  # a tube


def test_both_ways_of_naming_the_sides_sew_the_same_surface() -> None:
    one = assembled(top("seam side joins front.side with back.side as plain"))
    two = assembled(top("seam side joins front.side with back.side as plain".replace("side joins", "s joins")))
    split = assembled(top(ZIPPED.format(inside="").replace("zip", "plain { set allowance = 15 mm }")))
    assert {one.surface.euler, two.surface.euler, split.surface.euler} == {0}
    lengths = [[round(opening.length, 6) for opening in each.surface.openings] for each in (one, split)]
    assert lengths[0] == lengths[1]


def test_a_pattern_has_one_set_of_notches_for_both_seams() -> None:
    both = assembled(top(ZIPPED.format(inside="")))
    alike = assembled(top("seam side joins front.side with back.side as plain { set allowance = 15 mm }"))
    notches = [
        [(one.edge, round(one.along, 6), one.slits) for piece in each.pieces for one in piece.notches]
        for each in (both, alike)
    ]
    assert notches[0] == notches[1] != []


@pytest.mark.parametrize("cut", ["pair", "2 on fold centre"])
def test_other_cuts_have_left_and_right_too(cut: str) -> None:
    centre = "\nfinish front.centre, back.centre as pinked" if cut == "pair" else ""
    assembly = assembled(top(ZIPPED.format(inside="") + centre, cut=cut))
    assert [seam.times for seam in assembly.seams] == ([1, 1] if cut == "pair" else [2, 2])


def test_one_side_left_out_is_raw_there_only() -> None:
    (fault,) = told(top("seam left_side joins left front.side with left back.side as plain"))[:1]
    assert (fault.slug, fault.headline) == ("raw-edge", "edge `side` of the right `front` is left raw and would fray")
    assert fault.help == "sew it in a seam, or write `finish right front.side as …`"


@pytest.mark.parametrize(
    ("seams", "slug"),
    [
        ("seam s joins left front.side with right back.side as plain", "left-to-right"),
        ("seam s joins left front.side with back.side as plain", "unequal-copies"),
        (
            "seam s joins front.side with back.side as plain\nfinish left front.side as pinked",
            "edge-used-twice",
        ),
        (ZIPPED.format(inside="").replace("15 mm", "12 mm"), "allowances-differ"),
        ("seam s joins front.side of copy 2 with back.side as plain", "no-such-copy"),
        ("seam s joins front.side of copy 0 with back.side as plain", "no-such-copy"),
        ("seam s joins left front.side with left front.side as plain", "seam-to-itself"),
        ("seam s joins left front.side with its mirror as plain", "no-mirror"),
    ],
)
def test_wrong_instances_are_told(seams: str, slug: str) -> None:
    assert told(top(seams))[0].slug == slug


def test_a_strip_is_caught_on_one_side() -> None:
    loop = '\nstrip loop "Loop" { cut 1; length 6 cm; width 2 cm; make tube stitched 5 mm from edge }'
    inside = "; insert loop folded at right front.middle"
    text = top(ZIPPED.format(inside=inside) + loop).replace("  outline {", "  middle = (24 cm, 25 cm)\n  outline {")
    (insert,) = assembled(text).seams[1].inserts
    assert insert.places == 1
    twice = text.replace("insert loop folded at right front.middle", "insert loop folded at left front.middle")
    assert told(twice)[0].slug == "strips-unlike-places"


def test_finishes_of_one_side_are_as_long_as_that_side() -> None:
    text = top(ZIPPED.format(inside="")).replace(
        "finish front.hem, back.hem,", "finish left front.hem, right front.hem as turned_hem\nfinish back.hem,"
    )
    assert assembled(text).finishes[0].length == pytest.approx(480)
    narrow = text.replace(
        "finish left front.hem, right front.hem as turned_hem",
        "finish left front.hem as turned_hem\nfinish right front.hem as overedged",
    )
    assert told(narrow)[0].slug == "allowances-differ"


PAD = """garment knot "Knot"
edition 1
piece pad "Pad" {{
  cut 2
  grain straight
  outline {{
    lower     : (0 cm, 0 cm) -> (20 cm, 0 cm)
    right_end : (20 cm, 0 cm) -> (20 cm, 20 cm)
    upper     : (20 cm, 20 cm) -> (0 cm, 20 cm)
    left_end  : (0 cm, 20 cm) -> (0 cm, 0 cm)
  }}
}}
{seams}
finish pad.lower as overedged
"""
ROUND = "pad.right_end of copy {n} then pad.upper of copy {n} then pad.left_end of copy {n}"


def test_two_copies_are_sewn_to_each_other() -> None:
    """A bag of two squares: one opening of 40 cm, both copies of its edge."""
    seam = f"seam round joins {ROUND.format(n=1)} with {ROUND.format(n=2)} as plain"
    assembly = assembled(PAD.format(seams=seam))
    (opening,) = assembly.surface.openings
    assert (assembly.surface.euler, opening.length, assembly.seams[0].times) == (1, 400.0, 1)
    assert side_of(assembly, "round") == [("pad", 0, False)] * 3 + [("pad", 1, False)] * 3


def test_the_sheet_says_which_one_is_meant() -> None:
    assembly = assembled(top(ZIPPED.format(inside="")))
    lines = [line for step in assembly.steps for line in step.lines]
    assert any("the side of the left Front on the side of the left Back" in line for line in lines)
    (title,) = [step.title for step in assembly.steps if step.name == "left_side"]
    assert title == "Zip, centred: left side"


SLANTED = """garment knot "Knot, two slanting panels"
edition 1
piece one "One" {{ cut {cut}; grain straight
  outline {{ lower : (0 cm, 0 cm) -> (40 cm, 0 cm); near : (40 cm, 0 cm) -> (40 cm, 30 cm)
    upper : (40 cm, 30 cm) -> (0 cm, {far}); far : (0 cm, {far}) -> (0 cm, 0 cm) }} }}
{more}seam near joins {first} with {second} as plain
finish one.lower, one.upper, one.far{finish} as pinked
"""


@pytest.mark.parametrize(
    ("cut", "far", "more", "first", "second", "finish", "slugs"),
    [
        # Two copies of one slanting shape, right edge on right edge: one of them lies face down.
        ("2", "36 cm", "", "one.near of copy 1", "one.near of copy 2", "", ["wrong-side-out"]),
        ("pair", "36 cm", "", "one.near", "its mirror", "", []),
        ("2", "30 cm", "", "one.near of copy 1", "one.near of copy 2", "", []),  # its own mirror image
        (
            "1",
            "36 cm",
            'piece two "Two" from one { }\n',
            "one.near",
            "two.near",
            ", two.lower, two.upper, two.far",
            ["x"],
        ),
    ],
)
def test_a_piece_is_not_sewn_on_wrong_side_out(
    cut: str, far: str, more: str, first: str, second: str, finish: str, slugs: list[str]
) -> None:
    text = SLANTED.format(cut=cut, far=far, more=more, first=first, second=second, finish=finish)
    told = [one for one in found(text) if one.slug == "wrong-side-out"]
    assert len(told) == len(slugs)
    if told:
        assert "one of them wrong side out" in told[0].headline
        assert "`cut pair`" in told[0].help
