"""Outlines, curves, arcs, pieces from pieces, grown facings and strips, against numbers worked out by hand."""

import math

import pytest

from garmentc.diagnostics.finding import Severity
from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.geometry.vector import angle_of
from garmentc.pipeline import compile_spec
from tests.language.small import CHART, PANEL, PINKED, assembled, compiled, found, panel
from tests.support import MemoryHost

OUTLINE = "outline { lower : a -> b; ending : b -> c; upper : c -> d; opening : d -> a }"
LINES = "flat_line = level(a); rising = line(a, (1 cm, 1 cm)); falling = line(a, (1 cm, -1 cm))"
CLOCKWISE = "outline { opening : a -> d; upper : d -> c; ending : c -> b; lower : b -> a }"


def drafted(text: str, name: str = "panel") -> DraftedPiece:
    return assembled(text).draft.piece(name)


def edge(piece: DraftedPiece, name: str) -> DraftedEdge:
    found_edge = piece.edge(name)
    assert found_edge is not None
    return found_edge


def shaped(shape: str, edge_name: str = "upper", clockwise: bool = False, more: str = "") -> DraftedEdge:
    """One edge of the panel with a shape."""
    text = panel(more)
    if clockwise:
        text = text.replace(OUTLINE, CLOCKWISE)
    for line in ("a -> b", "b -> c", "c -> d", "d -> a", "a -> d", "d -> c", "c -> b", "b -> a"):
        text = text.replace(f"{edge_name} : {line}", f"{edge_name} : {line} {shape}")
    return edge(drafted(text), edge_name)


def degrees_at(one: DraftedEdge, end: str) -> float:
    """The direction of an edge, as drawn, at its start or end."""
    path = one.own_path
    return math.degrees(angle_of(path.tangent_at(0.0 if end == "start" else path.length)))


def near(value: float, within: float = 1e-6) -> object:
    return pytest.approx(value, abs=within)


# ---- directions of curves


@pytest.mark.parametrize(
    ("way", "angle"),
    [
        ("up", 90.0),
        ("left", 180.0),
        ("down", -90.0),
        ("heading 150 deg", 150.0),
        ("heading 200 deg", -160.0),
        ("square to ending", 180.0),
        ("square to opening", 180.0),
        ("along ending", 90.0),
        ("square to flat_line", 90.0),
        ("along flat_line", 180.0),
        ("toward (0 cm, 50 cm)", 135.0),
        ("along falling", 135.0),
        ("square to rising", 135.0),
    ],
)
def test_a_curve_leaves_as_told(way: str, angle: float) -> None:
    """The upper edge goes from (20, 30) to the left; of two opposite ways it takes the one that leads on."""
    found_angle = degrees_at(shaped(f"curve leaving {way}", more=LINES), "start")
    if way in ("square to flat_line", "along ending"):
        assert abs(found_angle) == near(angle)  # straight across the way on: either way leads on as well
    else:
        assert math.cos(math.radians(found_angle - angle)) == near(1.0)


@pytest.mark.parametrize(
    ("way", "angle"),
    [
        ("up", 90.0),
        ("down", -90.0),
        ("left", 180.0),
        ("heading 210 deg", -150.0),
        ("square to opening", 180.0),
        ("along flat_line", 180.0),
        ("toward (-10 cm, 20 cm)", -135.0),
    ],
)
def test_a_curve_arrives_as_told(way: str, angle: float) -> None:
    found_angle = degrees_at(shaped(f"curve arriving {way}", more=LINES), "end")
    assert math.cos(math.radians(found_angle - angle)) == near(1.0)


def test_square_to_an_edge_is_square_to_it_where_it_begins() -> None:
    """A neckline square to a sloping shoulder: the angle between both is a right one."""
    text = (
        panel()
        .replace("upper : c -> d", "upper : c -> d curve arriving square to opening")
        .replace("d = (0 cm, 30 cm)", "d = (-4 cm, 26 cm)")
    )
    piece = drafted(text)
    upper, opening = edge(piece, "upper"), edge(piece, "opening")
    between = degrees_at(upper, "end") - degrees_at(opening, "start")
    assert math.cos(math.radians(between)) == near(0.0)


def test_a_curve_goes_through_its_points_in_order() -> None:
    path = shaped("curve through (15 cm, 34 cm) then (5 cm, 33 cm)").own_path
    first, off = path.nearest(150 + 340j)
    second, off_too = path.nearest(50 + 330j)
    assert (off, off_too) == (near(0.0), near(0.0))
    assert 0 < first < second < path.length


def test_a_curve_without_directions_is_straight() -> None:
    assert shaped("curve").path.length == near(200.0)


# ---- arcs


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize("edge_name", ["lower", "ending", "upper", "opening"])
def test_bulge_goes_out_and_hollow_goes_in(edge_name: str, clockwise: bool) -> None:
    """Half the chord h and depth s give a radius of (h² + s²) / 2s, whichever way the outline is drawn."""
    half = 100.0 if edge_name in ("lower", "upper") else 150.0
    radius = (half * half + 20.0 * 20.0) / 40.0
    length = 2 * radius * math.asin(half / radius)
    middle = {"lower": 100 + 0j, "ending": 200 + 150j, "upper": 100 + 300j, "opening": 150j}[edge_name]
    outward = {"lower": -1j, "ending": 1 + 0j, "upper": 1j, "opening": -1 + 0j}[edge_name]
    for bow, way in (("bulge", outward), ("hollow", -outward)):
        path = shaped(f"arc {bow} 2 cm", edge_name, clockwise).path
        assert path.length == near(length)
        assert path.point_at(path.length / 2) == near(middle + 20 * way)


@pytest.mark.parametrize("clockwise", [False, True])
def test_the_depth_of_an_arc_as_a_share_of_its_chord(clockwise: bool) -> None:
    path = shaped("arc bulge 10 %", "upper", clockwise).path
    assert path.point_at(path.length / 2) == near(100 + 320j)


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize(("bow", "sign"), [("bulge", 1), ("hollow", -1)])
def test_an_arc_by_its_radius(bow: str, sign: int, clockwise: bool) -> None:
    """Chord 20 cm and radius 12.5 cm: the centre lies 7.5 cm off the chord, the arc is 5 cm deep."""
    path = shaped(f"arc {bow} radius 12.5 cm", "upper", clockwise).path
    assert path.point_at(path.length / 2) == near(100 + (300 + sign * 50) * 1j)
    assert path.length == near(2 * 125 * math.asin(100 / 125))


def test_an_arc_through_a_point() -> None:
    path = shaped("arc through (10 cm, 40 cm)").path
    assert path.length == near(math.pi * 100)
    assert path.nearest(complex(100, 400))[1] == near(0.0)


def test_an_arc_of_no_depth_is_straight_and_a_negative_depth_turns_it_over() -> None:
    assert shaped("arc bulge 0 cm").path.length == near(200.0)
    path = shaped("arc bulge -2 cm").path
    assert path.point_at(path.length / 2) == near(100 + 280j)


def test_a_radius_too_small_for_its_chord_is_told() -> None:
    text = panel().replace("upper : c -> d", "upper : c -> d arc bulge radius 9 cm")
    (fault,) = found(text)
    assert (fault.slug, fault.span.text) == ("impossible-construction", "c -> d arc bulge radius 9 cm")
    assert "radius" in fault.headline and "9 cm" in fault.notes[0]


# ---- outlines


@pytest.mark.parametrize("outline", [OUTLINE, CLOCKWISE])
def test_an_outline_may_go_round_either_way(outline: str) -> None:
    piece = drafted(panel("notch on ending at 5 cm").replace(OUTLINE, outline))
    assert piece.outline.area == near(60_000.0)
    assert [edge(piece, name).path.start for name in ("lower", "ending", "upper", "opening")] == [
        near(0j),
        near(200 + 0j),
        near(200 + 300j),
        near(300j),
    ]


def test_notches_are_measured_from_where_an_edge_is_drawn_to_begin() -> None:
    """Going round, the ending is drawn upward in one outline and downward in the other."""
    lines = "notch on ending at 5 cm\nnotch on ending at 25 %"
    up = drafted(panel(lines))
    down = drafted(panel(lines).replace(OUTLINE, CLOCKWISE))
    assert [one.along for one in up.notches] == [near(50.0), near(75.0)]
    assert [one.along for one in down.notches] == [near(250.0), near(225.0)]
    assert edge(down, "ending").own_path.point_at(50.0) == near(200 + 250j)


def test_a_notch_beyond_its_edge_is_told() -> None:
    for at in ("31 cm", "-1 cm", "101 %"):
        (fault,) = found(panel(f"notch on ending at {at}"))
        assert (fault.slug, fault.span.text) == ("notch-off-edge", at)


def test_an_outline_with_a_gap_is_told_with_the_gap() -> None:
    (fault,) = found(panel().replace("upper : c -> d", "upper : c up 4 mm -> d"))
    assert (fault.slug, fault.span.text) == ("open-outline", "upper : c up 4 mm -> d")
    assert fault.notes == ("the gap is 4 mm",)
    assert fault.label == "begins at (20 cm, 30.4 cm)"
    assert fault.others[0].text == "ends at (20 cm, 30 cm)"


def test_the_smallest_gap_is_told_and_rounding_is_none() -> None:
    (fault,) = found(panel().replace("upper : c -> d", "upper : c up 0.0005 mm -> d"))
    assert fault.slug == "open-outline"
    assert found(panel().replace("upper : c -> d", "upper : c up 0.0000005 mm -> d")) == []


@pytest.mark.parametrize(
    ("right", "wrong", "at", "help"),
    [
        ("upper : c -> d", "upper : d -> c", "upper : d -> c", "the other way round: upper : c -> d"),
        ("lower : a -> b", "lower : b -> a", "lower : b -> a", "the other way round: lower : a -> b"),
        ("ending : b -> c; upper : c -> d", "upper : c -> d; ending : b -> c", "upper : c -> d", "behind `ending`"),
        ("upper : c -> d", "upper : b -> a", "upper : b -> a", "edge by edge"),
        ("lower : a -> b; ending : b -> c", "lower : b -> a; ending : c -> b", "lower : b -> a", "edge by edge"),
    ],
)
def test_one_slip_in_an_outline_is_one_finding(right: str, wrong: str, at: str, help: str) -> None:
    text = panel()
    assert right in text
    (fault,) = found(text.replace(right, wrong))
    assert (fault.slug, fault.span.text) == ("open-outline", at)
    assert help in fault.help


def test_two_gaps_apart_are_two_findings() -> None:
    text = (
        panel().replace("ending : b -> c", "ending : b right 1 cm -> c").replace("opening : d", "opening : d up 1 cm")
    )
    assert [one.slug for one in found(text)] == ["open-outline", "open-outline"]


def test_edges_that_cross_are_told() -> None:
    text = panel().replace("c = (20 cm, 30 cm)", "c = (0 cm, 30 cm)").replace("d = (0 cm, 30 cm)", "d = (20 cm, 30 cm)")
    (fault,) = found(text)
    assert fault.slug == "edges-cross"
    assert fault.label == "at (10 cm, 15 cm)"
    assert {fault.span.text.split()[0], fault.others[0].span.text.split()[0]} == {"ending", "opening"}


def test_an_edge_of_no_length_is_told() -> None:
    (fault,) = found(panel().replace("upper : c -> d", "upper : c -> c").replace("opening : d", "opening : c"))
    assert (fault.slug, fault.span.text) == ("impossible-construction", "c -> c")


def test_an_edge_can_be_copied_from_another_piece() -> None:
    below = """piece facing "Facing" { cut 1; grain straight
  outline { lower : panel.lower; ending : panel.b -> (10 cm, 12 cm); opening : (10 cm, 12 cm) -> panel.a } }
finish facing.lower, facing.ending, facing.opening as pinked"""
    text = panel(below=below).replace("lower : a -> b", "lower : a -> b arc hollow 1 cm")
    made = assembled(text).draft
    assert edge(made.piece("facing"), "lower").path.length == near(edge(made.piece("panel"), "lower").path.length)


def test_a_fold_has_to_be_straight() -> None:
    text = panel(finish=PINKED.replace("panel.opening", "panel.lower").replace("panel.lower, ", "", 1))
    text = text.replace("cut 1", "cut 1 on fold opening")
    assert found(text) == []
    (fault,) = found(text.replace("opening : d -> a", "opening : d -> a arc hollow 1 mm"))
    assert fault.slug == "fold-not-straight"


def test_what_lies_on_a_fold_is_doubled() -> None:
    text = panel(
        below="finished w = width(panel, level((0 cm, 5 cm)))\nfinished a = area(panel)\nfinished e = panel.lower.length",
        finish="finish panel.lower, panel.ending, panel.upper as pinked\n",
    ).replace("cut 1", "cut 1 on fold opening")
    made = assembled(text)
    assert [one.value for one in made.draft.finished] == [near(400.0), near(120_000.0), near(200.0)]
    assert made.draft.piece("panel").copies == 2


@pytest.mark.parametrize(("cut", "copies"), [("1", 1), ("3", 3), ("pair", 2), ("2 on fold opening", 4)])
def test_how_often_an_edge_exists(cut: str, copies: int) -> None:
    finish = PINKED.replace(", panel.opening", "") if "fold" in cut else PINKED
    assert drafted(panel(finish=finish).replace("cut 1", f"cut {cut}")).copies == copies


@pytest.mark.parametrize(
    ("grain", "angle"),
    [
        ("straight", 90.0),
        ("cross", 0.0),
        ("bias", 45.0),
        ("straight along lower", 0.0),
        ("cross along lower", 90.0),
        ("straight along ending", 90.0),
        ("straight along line(a, c)", math.degrees(math.atan2(30, 20))),
    ],
)
def test_how_the_threads_run(grain: str, angle: float) -> None:
    thread = drafted(panel().replace("grain straight", f"grain {grain}")).thread
    found_angle = math.degrees(angle_of(thread))
    if grain == "bias":
        assert abs(math.sin(math.radians(2 * found_angle))) == near(1.0)
    else:
        assert math.sin(math.radians(found_angle - angle)) == near(0.0)


# ---- keep


KEEPS = {
    "above": ("level((0 cm, 10 cm))", 20 * 20.0, {"ending", "upper", "opening", "cut_edge"}, 200.0),
    "below": ("level((0 cm, 10 cm))", 20 * 10.0, {"lower", "ending", "opening", "cut_edge"}, 200.0),
    "left": ("plumb((5 cm, 0 cm))", 5 * 30.0, {"lower", "upper", "opening", "cut_edge"}, 300.0),
    "right": ("plumb((5 cm, 0 cm))", 15 * 30.0, {"lower", "ending", "upper", "cut_edge"}, 300.0),
}


@pytest.mark.parametrize("clockwise", [False, True])
@pytest.mark.parametrize("of", ["", "of "])
@pytest.mark.parametrize("side", KEEPS)
def test_what_is_kept(side: str, of: str, clockwise: bool) -> None:
    line, square_cm, names, cut = KEEPS[side]
    below = f'piece scrap "Scrap" from panel {{ keep {side} {of}{line} as cut_edge }}\n'
    below += "finish " + ", ".join(f"scrap.{name}" for name in sorted(names)) + " as pinked"
    text = panel(below=below)
    piece = drafted(text.replace(OUTLINE, CLOCKWISE) if clockwise else text, "scrap")
    assert piece.outline.area == near(100 * square_cm)
    assert {one.name for one in piece.edges} == names
    assert edge(piece, "cut_edge").path.length == near(cut)


def test_a_sloping_line_has_an_above_and_a_left() -> None:
    """The diagonal from (0, 0) to (20, 30): above and left of it is the same triangle."""
    for side in ("above", "left"):
        below = f'piece scrap "Scrap" from panel {{ keep {side} line(a, c) as slope }}\n'
        below += "finish scrap.upper, scrap.opening, scrap.slope as pinked"
        piece = drafted(panel(below=below), "scrap")
        assert piece.outline.area == near(30_000.0)
        assert edge(piece, "slope").path.length == near(10 * math.hypot(20, 30))


def test_keep_can_stand_more_than_once() -> None:
    below = 'piece scrap "Scrap" from panel { keep above level((0 cm, 10 cm)) as low; keep left plumb((5 cm, 0 cm)) as far }\n'
    below += "finish scrap.low, scrap.far, scrap.upper, scrap.opening as pinked"
    assert drafted(panel(below=below), "scrap").outline.area == near(100 * 5 * 20.0)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("above level((0 cm, 40 cm))", "does not cut"),
        ("above plumb((5 cm, 0 cm))", "no such side"),
        ("left level((0 cm, 5 cm))", "no such side"),
        ("above (a -> c curve leaving up)", None),
    ],
)
def test_what_can_not_be_kept(line: str, words: str | None) -> None:
    faults_found = found(panel(f"keep {line} as cut_edge"))
    if words is None:
        assert [one.slug for one in faults_found] == ["unexpected-word"]
    else:
        (fault,) = faults_found
        assert fault.slug == "impossible-keep" and words in fault.headline


def test_a_cut_that_leaves_two_parts_is_told() -> None:
    text = panel("keep below level((0 cm, 27 cm)) as cut_edge")
    assert [one.slug for one in found(text) if one.slug != "raw-edge"] != ["impossible-keep"]
    hollow = panel("keep above level((0 cm, 27 cm)) as cut_edge").replace("c -> d", "c -> d arc hollow 5 cm")
    (fault,) = found(hollow)
    assert fault.slug == "impossible-keep" and "more than one part" in fault.headline


def test_an_edge_that_is_cut_away_is_told_where_it_is_named() -> None:
    below = 'piece scrap "Scrap" from panel { keep above level((0 cm, 10 cm)) as low }\n'
    below += "finish scrap.low, scrap.lower, scrap.ending, scrap.upper, scrap.opening as pinked"
    (fault,) = found(panel(below=below))
    assert (fault.slug, fault.span.text) == ("edge-cut-away", "scrap.lower")
    assert fault.notes == ("what is left: ending, upper, opening, low",)


def test_a_piece_from_a_piece_takes_over_cut_and_grain_unless_it_says_its_own() -> None:
    below = """piece one "One" from panel { }
piece two "Two" from panel { cut pair; grain bias }
finish one.lower, one.ending, one.upper, one.opening as pinked
finish two.lower, two.ending, two.upper, two.opening as pinked"""
    made = assembled(panel("mark m at a\nnotch on lower at 1 cm", below).replace("cut 1", "cut 3")).draft
    one, two = made.piece("one"), made.piece("two")
    assert (one.number, one.pair, one.grain) == (3, False, "straight")
    assert (two.number, two.pair, two.grain) == (1, True, "bias")
    assert one.marks == () and one.notches == ()


# ---- grow


GROWN = "grow facing across upper keep above level((0 cm, 22 cm)) as low"
GROWN_FINISH = (
    "finish panel.lower, panel.ending, panel.opening, panel.facing.ending, panel.facing.opening, "
    "panel.facing.low as pinked\n"
)


@pytest.mark.parametrize("clockwise", [False, True])
def test_a_grown_facing_is_the_mirror_image_of_what_is_kept(clockwise: bool) -> None:
    text = panel(GROWN, finish=GROWN_FINISH)
    piece = drafted(text.replace(OUTLINE, CLOCKWISE) if clockwise else text)
    assert piece.outline.area == near(100 * 20 * (30 + 8.0))
    assert edge(piece, "facing.low").path.point_at(100.0) == near(100 + 380j)
    assert {edge(piece, "facing.ending").path.start, edge(piece, "facing.ending").path.end} == {
        200 + 300j,
        200 + 380j,
    }
    assert piece.edge("upper") is None
    (fold,) = [line for line in piece.lines if line.kind == "fold"]
    assert (fold.name, fold.path.length) == ("upper", near(200.0))


def test_mirrored_curves_are_as_long_as_their_originals() -> None:
    text = panel(
        GROWN.replace("22 cm", "5 cm"), finish=GROWN_FINISH, below="finished f = panel.facing.ending.length"
    ).replace("b -> c", "b -> c arc bulge 1 cm")
    made = assembled(text).draft
    ending = edge(made.piece("panel"), "ending").path
    kept = ending.between(next(s for s in range(400) if ending.point_at(s).imag >= 50), ending.length)
    assert made.finished[0].value == pytest.approx(kept.length, abs=1.0)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("grow facing across upper keep below level((0 cm, 22 cm)) as low", "does not hold the whole edge"),
        ("grow facing across upper keep above level((0 cm, 40 cm)) as low", "does not cut"),
        ("grow facing across upper keep right plumb((5 cm, 0 cm)) as low", "does not hold the whole edge"),
    ],
)
def test_a_facing_that_can_not_grow(line: str, words: str) -> None:
    (fault,) = found(panel(line))
    assert fault.slug == "impossible-keep" and words in fault.headline


def test_a_facing_does_not_grow_over_a_curve() -> None:
    (fault,) = found(panel(GROWN).replace("c -> d", "c -> d arc bulge 1 cm"))
    assert fault.slug == "impossible-keep" and "curve" in fault.headline


def test_a_facing_that_runs_into_its_piece_is_told() -> None:
    """Mirrored over an edge that leans in, the facing lies across the piece beside it."""
    inside = "grow facing across ending keep above line(a, d) as low"
    faults_found = found(panel(inside))
    assert faults_found != [] and faults_found[0].slug in ("impossible-keep", "edges-cross")


# ---- strips


@pytest.mark.parametrize(
    ("width", "make", "finished"),
    [
        ("3 cm", "tube stitched 5 mm from edge", 10.0),
        ("2.5 cm", "tube stitched 5 mm from edge", 7.5),
        ("1 1/2 in", "tube stitched 1/4 in from edge", 12.7),
        ("4 cm", "quartered", 10.0),
        ("4 cm", "flat", 40.0),
    ],
)
def test_how_wide_a_strip_finishes(width: str, make: str, finished: float) -> None:
    """Cut 3 cm wide, folded and stitched 5 mm from the edge, a strap finishes 1 cm wide: common practice, no source."""
    below = f'strip s "S" {{ cut 2; length 30 cm; width {width}; make {make} }}\n'
    below += "finished f = s.finished_width\nfinished l = s.length\nfinished c = s.cut_width"
    made = assembled(panel(below=below)).draft
    strip = made.piece("s")
    assert strip.making is not None
    assert [one.value for one in made.finished] == [near(finished), near(300.0), near(strip.making.cut_width)]
    assert strip.copies == 2
    assert strip.outline.area == near(300.0 * strip.making.cut_width)


@pytest.mark.parametrize(
    ("length", "width", "make"),
    [
        ("30 cm", "1 cm", "tube stitched 5 mm from edge"),
        ("30 cm", "1 cm", "tube stitched 6 mm from edge"),
        ("0 cm", "3 cm", "flat"),
        ("-1 cm", "3 cm", "flat"),
        ("30 cm", "0 cm", "quartered"),
    ],
)
def test_a_strip_of_which_nothing_is_left(length: str, width: str, make: str) -> None:
    below = f'strip s "S" {{ cut 2; length {length}; width {width}; make {make} }}'
    assert [one.slug for one in found(panel(below=below)) if one.slug != "unused-name"] == ["strip-too-small"]


def test_stitching_lies_inside_the_strip() -> None:
    below = 'strip s "S" { cut 2; length 30 cm; width 3 cm; make tube stitched -5 mm from edge }'
    assert [one.slug for one in found(panel(below=below)) if one.slug != "unused-name"] != []


# ---- checks, ranges


def test_checks_hold_within_their_tolerance() -> None:
    for text, slugs in {
        'check "c" panel.lower.length == 20 cm': [],
        'check "c" panel.lower.length == 20.1 cm within 1 mm': [],
        'check "c" panel.lower.length == 20.1 cm within 0.9 mm': ["check-fails"],
        'check "c" panel.lower.length == 20.01 cm': ["check-fails"],
        'check "c" panel.lower.length > 20 cm': ["check-fails"],
        'check "c" panel.lower.length >= 20 cm': [],
        'check "c" panel.lower.length != 20 cm': ["check-fails"],
        'check "c" 1 cm < 2 cm and not (2 cm < 1 cm)': [],
        'check "c" 1 cm < 2 cm and 2 cm < 1 cm': ["check-fails"],
        'warn "c" panel.lower.length > 20 cm': ["check-fails"],
    }.items():
        assert [one.slug for one in found(panel(below=text))] == slugs, text


def test_a_check_that_fails_tells_both_sides() -> None:
    (fault,) = found(panel(below='check "the cloth is wide enough" panel.lower.length >= 25 cm'))
    assert fault.headline == "check fails: the cloth is wide enough"
    assert fault.notes == ("20 cm against 25 cm: 5 cm apart",)
    assert (fault.severity, fault.sizes) == (Severity.ERROR, ("88",))


def test_a_warning_does_not_stop_the_work() -> None:
    made = compiled(panel(below='warn "wide" panel.lower.length >= 25 cm'))
    assert [one.severity for one in made.findings] == [Severity.WARNING]
    assert len(made.made) == 1


@pytest.mark.parametrize(
    "below", ['check "wide" panel.lower.length >= 25 cm', "param p = 1 cm from 2 cm to 3 cm\nx = p"]
)
def test_a_body_with_an_error_is_not_among_those_that_came_out(below: str) -> None:
    assert compiled(panel(below=below)).made == ()


@pytest.mark.parametrize(
    ("given", "slugs"), [("2 cm", []), ("3 cm", []), ("19.9 mm", ["out-of-range"]), ("3.01 cm", ["out-of-range"])]
)
def test_params_stay_in_their_range(given: str, slugs: list[str]) -> None:
    below = f"param p = {given} from 2 cm to 1 1/2 in - 8.1 mm\nx = p"
    assert [one.slug for one in found(panel(below=below))] == slugs


def test_a_range_that_depends_on_the_body() -> None:
    below = "measure bust_girth\nparam p = 23 cm from 0 cm to bust_girth / 4\nx = p"
    assert [one.slug for one in found(panel(below=below))] == ["out-of-range"]
    assert [one.slug for one in found(panel(below=below), size="92")] == []


def test_one_fault_in_many_sizes_is_one_finding() -> None:
    below = 'measure bust_girth\ncheck "c" bust_girth <= 90 cm'
    made = compile_spec(MemoryHost({"knot.garment": panel(below=below)}), "knot.garment", sizes=CHART)
    (fault,) = made.findings
    assert fault.sizes[:3] == ("92", "96", "100") and len(fault.sizes) == 8


def test_the_same_fault_in_two_pieces_is_two_findings() -> None:
    """Two pieces from a third leave the same edges raw."""
    below = 'piece one "One" from panel { }\npiece two "Two" from panel { }'
    headlines = [one.headline for one in found(panel(below=below)) if one.slug == "raw-edge"]
    assert len(headlines) == 8


def test_a_spec_of_a_panel_is_what_these_tests_take_it_for() -> None:
    assert PANEL.count("outline") == 1 and found(panel()) == []


@pytest.mark.parametrize(
    ("edges", "names"),
    [
        ("lower : a -> b; ending : b -> a", "lower ending"),
        ("lower : a -> b; ending : b -> a right 10 cm; upper : a right 10 cm -> a", "lower ending upper"),
        ("lower : a -> b curve leaving up; ending : b -> a curve arriving down", "lower ending"),
    ],
)
def test_an_outline_holds_some_cloth(edges: str, names: str) -> None:
    """There and back along one line."""
    text = panel(finish="".join(f"finish panel.{name} as pinked\n" for name in names.split()))
    (fault,) = found(text.replace(OUTLINE, f"outline {{ {edges} }}"))
    assert (fault.slug, fault.headline) == ("edges-cross", "edges `lower` and `ending` cross")


def test_a_param_is_solved_for_once() -> None:
    below = "param p = 1 cm from 0 cm to 2 cm\nsolve p so that p == 1 cm\nsolve p so that p == 1.5 cm"
    assert [one.slug for one in found(panel(below=below))] != []
