"""Notches that the compiler lays: they meet, they tell front from back, and no two seams are notched alike."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest

from garmentc.assembly.model import Assembly
from garmentc.assembly.notches import CLEAR, LONG_ENOUGH, notch_words, patterns_of
from garmentc.assembly.runs import place_at, run_of
from garmentc.pipeline import compile_spec
from tests.language.small import CHART, assembled, found
from tests.support import MemoryHost

NEAR = 1e-6


def rail(name: str, long: float, more: str = "") -> str:
    """A rail of 10 cm height whose lower edge is `near`."""
    return f"""piece {name} "{name.replace("_", " ").capitalize()}" {{ cut 1; grain straight
  outline {{ near : (0 cm, 0 cm) -> ({long} cm, 0 cm); up : ({long} cm, 0 cm) -> ({long} cm, 10 cm)
    far : ({long} cm, 10 cm) -> (0 cm, 10 cm); down : (0 cm, 10 cm) -> (0 cm, 0 cm) }}
{more} }}
finish {name}.up, {name}.far, {name}.down as pinked
"""


def two(one: str, other: str, item: str = "", names: str = "left_half right_half") -> str:
    first, second = names.split()
    return f'garment knot "Knot"\nedition 1\n{one}{other}seam s joins {first}.near with {second}.near as plain {item}\n'


def shipped(spec: str) -> Assembly:
    compiled = compile_spec(MemoryHost({}), f"specs/{spec}.garment", sizes=CHART, only=["88"])
    (assembly,) = compiled.made
    return assembly


# ---- how many, and where


@pytest.mark.parametrize(
    ("names", "slits"),
    [("left_half right_half", 1), ("front rail", 1), ("back rail", 2), ("back back_facing", 2), ("front back", 1)],
)
def test_a_seam_of_the_back_has_double_notches(names: str, slits: int) -> None:
    """Single in front, double behind: common practice, no source."""
    one, other = names.split()
    (seam,) = assembled(two(rail(one, 20), rail(other, 20), names=names)).seams
    assert [(one.slits, one.runs) for one in seam.matched] == [(slits, (pytest.approx(80.0), pytest.approx(80.0)))]


@pytest.mark.parametrize(("long", "number"), [(7.9, 0), (8.0, 1), (39, 1), (41, 2), (81, 3)])
def test_longer_seams_have_more_notches(long: float, number: int) -> None:
    (seam,) = assembled(two(rail("left_half", long), rail("right_half", long))).seams
    assert len(seam.matched) == number
    assert (long * 10 >= LONG_ENOUGH) == (number > 0)
    runs = [0.0, *(one.runs[0] for one in seam.matched), long * 10]
    assert all(b - a >= CLEAR for a, b in pairwise(runs))
    assert [round(long * 10 - run, 3) for run in runs] != [round(run, 3) for run in runs[::-1]] or not number


@pytest.mark.parametrize("item", ["{ gathered 1.5 }", "{ ease 10 cm }"])
def test_what_is_eased_or_gathered_is_spread(item: str) -> None:
    (seam,) = assembled(two(rail("left_half", 30), rail("right_half", 20), item)).seams
    assert [one.runs for one in seam.matched] == [(pytest.approx(120.0), pytest.approx(80.0))]


@pytest.mark.parametrize(
    ("shaped", "long", "along"),
    [
        ("dart d on near at 3 cm to (3 cm, 6 cm) taking 2 cm", 22.0, 100.0),
        ("pleats p on near from 2 cm to 5 cm as 1 knife deep 1 cm", 22.0, 100.0),
        ("pleats p on near from 13 cm to 19 cm as 1 box deep 1 cm", 24.0, 80.0),
    ],
)
def test_darts_and_pleats_are_measured_closed(shaped: str, long: float, along: float) -> None:
    """A dart takes its width, a knife pleat twice its depth, a box pleat four times: what lies before moves a notch."""
    (seam,) = assembled(two(rail("left_half", long, shaped), rail("right_half", 20))).seams
    (group,) = seam.matched
    assert group.runs == (pytest.approx(80.0), pytest.approx(80.0))
    stretch, at = place_at(seam.sides[0], group.runs[0])
    assert at == pytest.approx(along)
    assert run_of(stretch, at) == pytest.approx(80.0)


# ---- which ends meet


def test_sides_are_turned_so_that_ends_meet_that_another_seam_crosses() -> None:
    """Both panels drawn the same way round: the second is walked against its drawing, from where `top` ends."""
    text = two(rail("left_half", 20), rail("right_half", 20)).replace("finish left_half.up, ", "finish ")
    text = text.replace("finish right_half.up, right_half.far, right_half.down", "finish right_half.up, right_half.far")
    text += "seam side joins left_half.up with right_half.down as plain\n"
    seam = next(one for one in assembled(text).seams if one.name == "s")
    assert [one.backward for side in seam.sides for one in side] == [False, True]
    (group,) = seam.matched
    ends = [place_at(side, run) for side, run in zip(seam.sides, group.runs, strict=True)]
    assert [along for _, along in ends] == [pytest.approx(80.0), pytest.approx(120.0)]


def test_edges_that_nothing_tells_apart_meet_as_they_are_drawn() -> None:
    (seam,) = assembled(two(rail("left_half", 20), rail("right_half", 20))).seams
    assert [one.backward for side in seam.sides for one in side] == [False, False]


# ---- corners of chains


def test_a_corner_of_a_chain_is_notched_on_the_other_side() -> None:
    """An armhole of two pieces; where they meet, the single edge sewn in gets a notch, the crossing seam needs none."""
    made = shipped("blocks/bodice")
    seam = next(one for one in made.seams if one.name == "armhole")
    crown = next(one for one in seam.matched if one.laid == (True, False))
    front = next(piece for piece in made.pieces if piece.drafted.name == "front").drafted
    armhole = front.edge("armhole")
    assert armhole is not None
    assert crown.runs[1] == pytest.approx(armhole.sewn_length)
    assert [one.slits for one in seam.matched] == [1, 1, 2]


def test_corners_of_both_sides_are_notched_where_they_meet() -> None:
    made = shipped("tern")
    seam = next(one for one in made.seams if one.name == "top")
    assert [one.slits for one in seam.matched] == [1, 1, 2]
    assert seam.matched[0].laid == (True, True)
    notches = next(piece for piece in made.pieces if piece.drafted.name == "front").notches
    edges = [one.edge for one in notches if one.seam == "top"]
    assert sorted(edges) == ["armhole", "armhole", "facing.armhole", "facing.armhole"]


# ---- the maker's own


def test_own_notches_stay_and_get_partners() -> None:
    text = two(rail("left_half", 20, "notch on near at 5 cm"), rail("right_half", 20))
    made = assembled(text)
    left, right = ([(one.along, one.slits, one.seam) for one in piece.notches] for piece in made.pieces)
    assert left == right == [(pytest.approx(50.0), 1, "s")]
    assert [one.laid for one in made.seams[0].matched] == [(False, True)]


def test_own_notches_on_both_sides_hold_the_ease_between_them() -> None:
    """3 cm of ease between ends and a pair of notches 6 and 4 cm from the start: 2 cm lie before, 1 cm after."""
    left = rail("left_half", 23, "notch on near at 6 cm")
    right = rail("right_half", 20, "notch on near at 4 cm")
    (seam,) = assembled(two(left, right, "{ ease 3 cm }")).seams
    assert [one.runs for one in seam.matched] == [(pytest.approx(60.0), pytest.approx(40.0))]


def test_own_notches_that_miss_each_other_are_told() -> None:
    left = rail("left_half", 20, "notch on near at 8 cm")
    right = rail("right_half", 20, "notch on near at 9.2 cm")
    (fault,) = found(two(left, right))
    assert (fault.slug, fault.severity.name) == ("notches-miss", "WARNING")
    assert "12 mm" in fault.headline
    assert fault.span.text == "notch on near at 8 cm"
    assert [label.span.text for label in fault.others] == ["notch on near at 9.2 cm"]


def test_own_notches_of_sides_unlike_in_length_are_not_told_beside_the_lengths() -> None:
    left = rail("left_half", 23, "notch on near at 50 %")
    right = rail("right_half", 20, "notch on near at 50 %")
    assert [fault.slug for fault in found(two(left, right))] == ["seam-lengths-differ"]


# ---- no two alike


def ladder(count: int) -> str:
    """Many rails as long as each other, sewn in twos."""
    text = 'garment knot "Knot"\nedition 1\n'
    for i in range(count):
        text += rail(f"left_{i}", 20) + rail(f"right_{i}", 20)
        text += f"seam s{i} joins left_{i}.near with right_{i}.near as plain\n"
    return text


@pytest.mark.parametrize("made", ["tern", "plover", "curlew", "blocks/bodice", "blocks/trousers", 12])
def test_no_two_seams_are_notched_alike(made: str | int) -> None:
    assembly = shipped(made) if isinstance(made, str) else assembled(ladder(made))
    for one, other in combinations([patterns_of(seam, seam.matched) for seam in assembly.seams], 2):
        assert not any(a.is_like(b) for a in one for b in other)
    if isinstance(made, int):
        assert all(seam.matched for seam in assembly.seams)


@pytest.mark.parametrize("spec", ["tern", "curlew", "blocks/bodice", "blocks/trousers"])
def test_every_notch_laid_lies_at_the_place_where_its_seam_asks_for_it(spec: str) -> None:
    """Each notch of a piece, measured back along its edge with darts closed, is one of its seam's places."""
    made = shipped(spec)
    seams = {seam.name: seam for seam in made.seams}
    for piece in made.pieces:
        for notch in piece.notches:
            seam = seams[notch.seam]
            runs = [
                (which, run_of(one, notch.along))
                for which, side in enumerate(seam.sides)
                for one in side
                if one.piece.name == piece.drafted.name and one.edge.name == notch.edge
            ]
            assert any(abs(group.runs[which] - run) < NEAR for group in seam.matched for which, run in runs)


def test_the_notches_are_named_where_a_seam_is_pinned() -> None:
    made = shipped("plover")
    neck = next(one for one in made.seams if one.name == "neck")
    words = notch_words(neck)
    assert (
        words == "Notches meet: single at 6.4 cm, double at 21.1 cm, along the sewing line from the fold of the Front."
    )
    assert any(words in step.lines for step in made.steps if step.name == "neck")


def test_a_seam_that_begins_at_a_fold_is_measured_from_the_fold() -> None:
    top = next(one for one in shipped("tern").seams if one.name == "top")
    assert notch_words(top).endswith("along the sewing line from the neckline fold of the Front.")
