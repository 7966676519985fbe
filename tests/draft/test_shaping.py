"""Darts, tucks, pleats, pivoting, spreading: held against the geometry of scissors and paper."""

from __future__ import annotations

import cmath
import math

import pytest

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.draft.model import DraftedPiece, TakeUp
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path
from garmentc.geometry.vector import unit
from tests.language.small import PANEL, assembled, faults, found

# The panel is 200 by 300 mm: lower from (0,0), ending up the right side, upper back to the left, opening down.


def spec(shaping: str, rest: str = "finish panel.lower, panel.ending, panel.upper, panel.opening as pinked\n") -> str:
    return f"{PANEL}{shaping}\n}}\n{rest}"


def made(shaping: str) -> Assembly:
    return assembled(spec(shaping))


def panel(shaping: str) -> DraftedPiece:
    return made(shaping).draft.piece("panel")


def takeup(piece: DraftedPiece, name: str) -> TakeUp:
    return next(one for one in piece.takeups if one.name == name)


def path(piece: DraftedPiece, edge: str) -> Path:
    found = piece.edge(edge)
    assert found is not None
    return found.path


def angle(dart: TakeUp) -> float:
    return abs(cmath.phase((dart.first - dart.tip) / (dart.second - dart.tip)))


def sewn(piece: DraftedPiece, edge: str) -> float:
    found = piece.edge(edge)
    assert found is not None
    return found.sewn_length


def test_a_dart_square_to_a_straight_edge_takes_its_width_and_leaves_the_edge_straight() -> None:
    piece = panel("dart d on lower at 50 % to (10 cm, 8 cm) taking 4 cm")
    dart = takeup(piece, "d")
    assert (dart.first, dart.second) == (pytest.approx(80 + 0j), pytest.approx(120 + 0j))
    assert path(piece, "lower").is_straight(1e-6)
    assert path(piece, "lower").length == pytest.approx(200)
    assert sewn(piece, "lower") == pytest.approx(160)
    assert sewn(piece, "upper") == pytest.approx(200)


@pytest.mark.parametrize("edge, at, tip", [("lower", 60, "(10 cm, 8 cm)"), ("ending", 100, "(12 cm, 7 cm)")])
def test_legs_are_equal_wherever_the_tip_lies(edge: str, at: int, tip: str) -> None:
    piece = panel(f"dart d on {edge} at {at} mm to {tip} taking 3 cm")
    dart = takeup(piece, "d")
    assert abs(dart.first - dart.tip) == pytest.approx(abs(dart.second - dart.tip), abs=1e-9)
    assert abs(dart.first - dart.second) == pytest.approx(30, abs=1e-9)
    assert path(piece, edge).nearest(dart.second)[1] < 1e-6


@pytest.mark.parametrize("size", [1, 20, 42])
@pytest.mark.parametrize("edge, at, tip", [("lower", 50, "(10 cm, 8 cm)"), ("ending", 55, "(12 cm, 13 cm)")])
def test_a_dart_by_angle_has_this_angle_at_its_tip(edge: str, at: int, tip: str, size: int) -> None:
    dart = takeup(panel(f"dart d on {edge} at {at} % to {tip} taking {size} deg"), "d")
    assert math.degrees(angle(dart)) == pytest.approx(size, abs=1e-6)


def test_a_place_can_be_a_point_and_a_backward_edge_is_measured_from_its_own_start() -> None:
    by_point = takeup(panel("dart d on upper at (6 cm, 30 cm) to (6 cm, 20 cm) taking 2 cm"), "d")
    by_length = takeup(panel("dart d on upper at 14 cm to (6 cm, 20 cm) taking 2 cm"), "d")
    assert by_point.first == pytest.approx(by_length.first)
    clockwise = spec("dart d on lower at 5 cm to (5 cm, 10 cm) taking 2 cm").replace(
        "outline { lower : a -> b; ending : b -> c; upper : c -> d; opening : d -> a }",
        "outline { opening : a -> d; upper : d -> c; ending : c -> b; lower : b -> a }",
    )
    assert "lower : b -> a" in clockwise
    dart = takeup(assembled(clockwise.replace("to (5 cm", "to (15 cm")).draft.piece("panel"), "d")
    assert ((dart.first + dart.second) / 2).real == pytest.approx(150, abs=0.5)


def test_moving_a_dart_keeps_its_angle_and_every_other_edge() -> None:
    """Whichever edge a dart is moved to, its angle at the tip stays the same (the principle of dart manipulation)."""
    dart = "dart d on ending at 50 % to (10 cm, 15 cm) taking 4 cm\n"
    before, after = panel(dart), panel(dart + "pivot d to upper at 50 %")
    old, new = takeup(before, "d"), takeup(after, "d")
    assert new.edge == "upper" and new.tip == pytest.approx(old.tip)
    assert angle(new) == pytest.approx(angle(old), abs=1e-9)
    assert sewn(after, "ending") == pytest.approx(sewn(before, "ending"), abs=1e-6)
    assert path(after, "ending").length == pytest.approx(sewn(before, "ending"), abs=1e-6)
    assert sewn(after, "upper") == pytest.approx(200, abs=1e-6)
    for edge in ("lower", "opening"):
        assert path(after, edge).length == pytest.approx(path(before, edge).length, abs=1e-6)
    # No cloth comes or goes: the area without the two open triangles is the same.
    bare = [
        piece.outline.area - abs(one.first - one.tip) ** 2 / 2 * math.sin(angle(one))
        for piece, one in ((before, old), (after, new))
    ]
    assert bare[0] == pytest.approx(bare[1], rel=1e-9)


def test_the_part_that_does_not_hold_the_first_edge_is_turned_and_its_marks_with_it() -> None:
    lines = (
        "dart d on ending at 50 % to (10 cm, 15 cm) taking 4 cm\n"
        "mark still at (2 cm, 2 cm)\nmark goes at (18 cm, 28 cm)\n"
    )
    before, after = panel(lines), panel(lines + "pivot d to upper at 50 %")
    still, goes = ((one.marks[0].at, one.marks[1].at) for one in (before, after))
    assert still[0] == goes[0]
    tip, turned = 100 + 150j, takeup(before, "d")
    motion = Motion.turn_about(tip, -angle(turned))
    assert goes[1] == pytest.approx(motion.apply(still[1]))


def test_a_share_of_a_dart_moved_leaves_two_darts_of_the_same_angle_together() -> None:
    dart = "dart d on ending at 50 % to (10 cm, 15 cm) taking 4 cm\n"
    whole = angle(takeup(panel(dart), "d"))
    piece = panel(dart + "pivot d to upper at 50 % taking 25 % as e")
    assert angle(takeup(piece, "e")) == pytest.approx(whole / 4, abs=1e-9)
    assert angle(takeup(piece, "d")) == pytest.approx(whole * 3 / 4, abs=1e-9)


def test_a_dart_moved_there_and_back_leaves_the_piece_as_it_was() -> None:
    dart = "dart d on ending at 50 % to (10 cm, 15 cm) taking 4 cm\n"
    before = panel(dart)
    middle = "pivot d to upper at 50 %\npivot d to ending at 13 cm"
    after = panel(dart + middle)
    assert after.outline.area == pytest.approx(before.outline.area, rel=1e-9)
    for one, other in zip(before.edges, after.edges, strict=True):
        assert one.name == other.name
        assert one.path.length == pytest.approx(other.path.length, abs=1e-6)


def test_an_edge_trued_over_a_closed_dart_is_one_straight_line_once_the_dart_is_sewn() -> None:
    dart = "dart d on lower at 40 % to (9 cm, 12 cm) taking 4 cm\n"
    old, piece = takeup(panel(dart), "d"), panel(dart + "redraw lower closed")
    new = takeup(piece, "d")
    assert new.tip == old.tip and angle(new) == pytest.approx(angle(old), abs=1e-9)
    assert abs(new.first - new.tip) == pytest.approx(abs(new.second - new.tip), abs=1e-9)
    # Sewn, the far corner lies turned about the tip; the mouth then lies on the straight line to it.
    corner = Motion.turn_about(new.tip, -angle(new)).apply(200 + 0j)
    assert sewn(piece, "lower") == pytest.approx(abs(corner), abs=1e-6)
    assert (new.first / corner).imag == pytest.approx(0, abs=1e-9)


def test_an_edge_trued_over_two_darts_and_a_tuck_runs_on_smoothly_over_each() -> None:
    piece = panel(
        "dart w on lower at 30 % to (6 cm, 12 cm) taking 3 cm\ndart v on lower at 75 % to (13 cm, 11 cm) taking 2 cm\n"
        "tuck t on lower at 52 % deep 5 mm long 4 cm\n"
        "redraw lower closed curve leaving square to opening, arriving square to ending"
    )
    edge = path(piece, "lower")
    assert edge.start_direction() == pytest.approx(1) and edge.end_direction() == pytest.approx(1)
    for one in piece.takeups:
        low, high = edge.nearest(one.first)[0], edge.nearest(one.second)[0]
        turned = (one.second - one.tip) / (one.first - one.tip) if one.kind == "dart" else 1
        before, after = edge.tangent_at(low - 1e-3), edge.tangent_at(high + 1e-3)
        assert after / unit(turned) == pytest.approx(before, abs=1e-4)


def test_an_edge_is_not_drawn_anew_over_an_open_dart_or_trued_without_one() -> None:
    dart = "dart d on lower at 40 % to (9 cm, 12 cm) taking 4 cm\n"
    for shaping in (dart + "redraw lower", "redraw lower closed"):
        assert [fault.slug for fault in faults(spec(shaping))] == ["impossible-shaping"]


def test_an_even_spread_adds_its_width_all_the_way() -> None:
    piece = panel("spread s from lower at 5 cm to upper at 15 cm by 3 cm")
    assert path(piece, "lower").length == pytest.approx(230, abs=1e-6)
    assert path(piece, "upper").length == pytest.approx(230, abs=1e-6)
    assert path(piece, "ending").length == pytest.approx(300, abs=1e-6)
    assert piece.outline.area == pytest.approx(200 * 300 + 30 * 300, rel=1e-9)


@pytest.mark.parametrize("by, wide", [("4 cm hinged", 40.0), ("6 deg", 2 * 300 * math.sin(math.radians(3)))])
def test_a_hinged_spread_opens_at_the_first_place_only(by: str, wide: float) -> None:
    piece = panel(f"spread s from lower at 10 cm to upper at 10 cm by {by}")
    assert path(piece, "lower").length == pytest.approx(200 + wide, abs=1e-6)
    assert path(piece, "upper").length == pytest.approx(200, abs=1e-6)
    assert path(piece, "ending").length == pytest.approx(300, abs=1e-6)
    turn = 2 * math.asin(wide / 2 / 300)
    assert piece.outline.area == pytest.approx(200 * 300 + 300**2 / 2 * math.sin(turn), rel=1e-9)


def test_an_edge_drawn_anew_runs_between_the_ends_it_had() -> None:
    piece = panel("spread s from lower at 10 cm to upper at 10 cm by 4 cm hinged\nredraw lower")
    lower = path(piece, "lower")
    assert lower.is_straight(1e-9)
    assert lower.start == pytest.approx(0j)


@pytest.mark.parametrize("pressed", ["left", "right"])
def test_the_cut_line_over_a_dart_lies_on_itself_when_the_dart_is_pressed(pressed: str) -> None:
    """Folding as paper does: mirrored in the leg it is pressed to, the near half lies on the piece's own cut line."""
    shaping = f"dart d on lower at 7 cm to (12 cm, 14 cm) taking 4 cm pressed {pressed}"
    hemmed = "finish panel.lower as turned_hem\nfinish panel.ending, panel.upper, panel.opening as pinked\n"
    piece: CutPiece = assembled(spec(shaping, hemmed)).pieces[0]
    dart = takeup(piece.drafted, "d")
    cut = piece.edges[0].path
    assert min(p.imag for p in cut.flatten(0.1)) < -10  # the allowance of the hem, and the peak beyond it
    leg = dart.first if pressed == "left" else dart.second
    fold = (dart.first - dart.tip) / abs(dart.first - dart.tip) + (dart.second - dart.tip) / abs(dart.second - dart.tip)
    near, far = Motion.mirror_in(dart.tip, leg - dart.tip), Motion.mirror_in(dart.tip, fold)
    ways = [unit(dart.first - dart.tip), unit(fold), unit(dart.second - dart.tip)]
    inside = [
        p
        for i in range(2001)
        if (p := cut.point_at(cut.length * i / 2000))
        and cmath.phase((p - dart.tip) / ways[0]) > 0.001
        and cmath.phase((p - dart.tip) / ways[2]) < -0.001
    ]
    assert len(inside) > 100
    for p in inside:
        to_first = cmath.phase((p - dart.tip) / ways[1]) < 0
        folded = p if to_first == (pressed == "left") else far.apply(p)
        assert cut.nearest(near.apply(folded))[1] < 0.02


@pytest.mark.parametrize("way, takes", [("knife", 2), ("box", 4), ("inverted", 4)])
def test_pleats_take_their_depth_twice_or_four_times(way: str, takes: int) -> None:
    piece = panel(f"pleats p on lower from 2 cm to 18 cm as 4 {way} deep 8 mm")
    assert [one.name for one in piece.takeups] == ["p_1", "p_2", "p_3", "p_4"]
    assert sewn(piece, "lower") == pytest.approx(200 - 4 * takes * 8)
    middles = [(one.first + one.second).real / 2 for one in piece.takeups]
    assert middles == pytest.approx([40, 80, 120, 160])


def test_a_tuck_takes_twice_its_depth() -> None:
    piece = panel("tuck t on lower at 50 % deep 5 mm long 4 cm")
    assert sewn(piece, "lower") == pytest.approx(190)
    assert takeup(piece, "t").tip == pytest.approx(100 + 40j)


SEAM = """piece belt "Belt" {{
  cut 1
  grain straight
  a = (0 cm, 0 cm)
  b = ({wide} cm, 0 cm)
  outline {{ lower : a -> b; ending : b -> b up 5 cm; upper : b up 5 cm -> a up 5 cm; opening : a up 5 cm -> a }}
}}
seam waist joins panel.lower with belt.upper as plain
finish panel.ending, panel.upper, panel.opening, belt.lower, belt.ending, belt.opening as pinked
"""


def test_a_seam_is_measured_with_its_darts_closed() -> None:
    dart = "dart d on lower at 50 % to (10 cm, 8 cm) taking 4 cm"
    assert found(spec(dart, SEAM.format(wide=16))) == []
    assert [one.slug for one in faults(spec(dart, SEAM.format(wide=20)))] == ["seam-lengths-differ"]


def test_darts_are_sewn_before_the_seam_that_crosses_them() -> None:
    assembly = assembled(spec("dart d on lower at 50 % to (10 cm, 8 cm) taking 4 cm", SEAM.format(wide=16)))
    abouts = [step.about for step in assembly.steps]
    assert abouts.index("shaping") < abouts.index("seam")
    dart = next(step for step in assembly.steps if step.about == "shaping")
    assert dart.title == "Panel: d dart"
    assert "4 cm apart" in dart.lines[0]


def test_a_measure_of_the_sewn_edge() -> None:
    dart = "dart d on lower at 50 % to (10 cm, 8 cm) taking 4 cm"
    pinked = "finish panel.lower, panel.ending, panel.upper, panel.opening as pinked\n"
    rule = 'check "as sewn" panel.lower.sewn_length == 16 cm within 0.01 mm\n'
    assert found(spec(dart, pinked + rule)) == []


@pytest.mark.parametrize(
    "shaping, slug, at",
    [
        ("dart d on lowr at 5 cm to (5 cm, 9 cm) taking 2 cm", "unknown-name", "lowr"),
        ("dart d on lower at 5 deg to (5 cm, 9 cm) taking 2 cm", "wrong-kind", "5 deg"),
        ("dart d on lower at 5 cm to 9 cm taking 2 cm", "wrong-kind", "9 cm"),
        ("dart d on lower at 5 cm to (5 cm, 9 cm) taking 2", "wrong-kind", "2"),
        ("dart d on lower at 25 cm to (5 cm, 9 cm) taking 2 cm", "impossible-shaping", "25 cm"),
        ("dart d on lower at 5 cm to (5 cm, 9 cm) taking -2 cm", "impossible-shaping", "-2 cm"),
        ("pivot d to lower at 5 cm", "unknown-name", "d"),
        ("spread s from lower at 5 cm to upper at 5 cm by 0 cm", "impossible-shaping", "0 cm"),
        ("redraw lowr curve", "unknown-name", "lowr"),
    ],
)
def test_faults_point_at_their_words(shaping: str, slug: str, at: str) -> None:
    assert [(one.slug, one.text) for one in faults(spec(shaping))] == [(slug, at)]


def test_a_dart_beyond_its_edge_or_with_its_tip_outside_is_refused() -> None:
    for shaping in (
        "dart d on lower at 1 cm to (1 cm, 9 cm) taking 4 cm",
        "dart d on lower at 5 cm to (5 cm, -9 cm) taking 2 cm",
    ):
        assert [(one.slug, one.text) for one in faults(spec(shaping))] == [("impossible-construction", shaping)]


def test_without_a_fold_a_dart_is_pressed_toward_the_seam_in_the_middle() -> None:
    """Never toward its own edge, even where the outline begins with that; a centre sewn to its mirror image comes first."""
    shaping = "dart d on lower at 50 % to (10 cm, 8 cm) taking 2 cm"
    text = spec(shaping, "seam middle joins panel.opening with its mirror as plain\n").replace("cut 1", "cut pair")
    made = assembled(text + "finish panel.lower, panel.ending, panel.upper as pinked\n")
    assert takeup(made.draft.piece("panel"), "d").pressed == "toward the opening"
    assert takeup(panel(shaping), "d").pressed == "toward the ending"
