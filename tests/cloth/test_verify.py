"""The verifier: what can be cut passes, each fault is told with its measure. Distances are worked out by hand."""

from __future__ import annotations

import math

import pytest

from garmentc.cloth.model import Plan
from garmentc.cloth.turns import turns
from garmentc.cloth.verify import verify
from garmentc.draft.model import Motif
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.segments import Arc
from garmentc.geometry.vector import heading
from garmentc.source import Source
from tests.cloth.laying import at, box, cloth_of, shape

SPAN = Source("none", "").whole()
PLAIN = "{length: 60 cm, width: 40 cm}\n"
HEMMED = PLAIN + "finished: [{edges: [bottom, right], kind: hem, width: 1 cm}]\n"


def told(cloth, shapes, spots):
    plan = Plan(cloth_of(cloth) if isinstance(cloth, str) else cloth, tuple(shapes), spots)
    return [(fault.kind, fault.keys, round(fault.amount, 3)) for fault in verify(plan)]


def test_two_pieces_edge_to_edge_can_be_cut():
    shapes = [box("front", 300, 400), box("back", 300, 400)]
    assert told(PLAIN, shapes, {"front": at(0, 0), "back": at(300, 0)}) == []
    assert told(PLAIN, shapes, {"front": at(0, 0), "back": at(600, 400, 180)}) == []


@pytest.mark.parametrize(("by", "fault"), [(0.05, []), (2.0, [("overlap", ("front", "back"), 2.0)])])
def test_an_overlap_is_told_by_its_breadth(by, fault):
    shapes = [box("front", 300, 300), box("back", 290, 300)]
    assert told(PLAIN, shapes, {"front": at(0, 0), "back": at(300 - by, 0)}) == fault


def test_a_shape_inside_another_overlaps_all_over():
    shapes = [box("front", 300, 300), box("back", 40, 50)]
    ((kind, _, amount),) = told(PLAIN, shapes, {"front": at(0, 0), "back": at(100, 100)})
    assert (kind, amount) == ("overlap", pytest.approx(40, abs=0.05))


def test_off_the_cloth_into_a_hole_and_onto_a_flaw():
    assert told(PLAIN, [box("front", 300, 300)], {"front": at(304, 0)}) == [("off-cloth", ("front",), 4.0)]
    holed = "{corners: [[0, 0], [60, 0], [60, 40], [0, 40]], holes: [[[20, 10], [25, 10], [25, 15], [20, 15]]]}\n"
    assert told(holed, [box("front", 203, 300)], {"front": at(0, 0)}) == [("off-cloth", ("front",), 3.0)]
    burnt = PLAIN + "flaws: [{name: burn, at: [30, 20], round: 10 cm}]\n"
    ((kind, _, amount),) = told(burnt, [box("front", 260, 300)], {"front": at(0, 0)})
    assert (kind, amount) == ("flaw", pytest.approx(10, abs=0.05))


def test_only_a_piece_with_an_edge_on_it_may_lie_in_a_hem():
    ((kind, keys, amount),) = told(HEMMED, [box("front", 300, 300)], {"front": at(0, 7)})
    assert (kind, keys, amount) == ("hem", ("front",), 3.0)
    assert told(HEMMED, [box("front", 300, 300, hems=[0])], {"front": at(0, 0)}) == []
    ((kind, _, amount),) = told(HEMMED, [box("front", 300, 300, hems=[0])], {"front": at(0, 0.3)})
    assert (kind, amount) == ("edge", 0.3)
    # with its lower edge on the lower hem it still keeps off the one at the right
    kinds = [kind for kind, _, _ in told(HEMMED, [box("front", 300, 300, hems=[0])], {"front": at(295, 0)})]
    assert kinds == ["hem"]
    assert told(HEMMED, [box("front", 300, 300, hems=[0, 1])], {"front": at(300, 0)}) == []


def test_a_raw_edge_of_the_cloth_is_no_hem():
    # its own upper side on the upper side of the cloth, which is raw
    ((kind, _, _),) = told(HEMMED, [box("front", 300, 300, hems=[2])], {"front": at(0, 100)})
    assert kind == "edge"


def test_an_edge_lies_on_a_hem_with_the_piece_on_the_cloths_side():
    # flipped by a half turn, the lower edge is above; nothing of it lies on a finished edge
    kinds = {kind for kind, _, _ in told(HEMMED, [box("front", 300, 300, hems=[0])], {"front": at(300, 300, 180)})}
    assert "edge" in kinds


def test_a_corner_lies_on_a_corner():
    front = box("front", 300, 300)._replace(corners=(("tip", 0j),))
    assert told(PLAIN, [front], {"front": at(0, 0)}) == []
    assert told(PLAIN, [front], {"front": at(3, 4)}) == [("corner", ("front",), 5.0)]


def test_grain_counts_from_the_threads_and_has_a_tolerance():
    front = box("front", 100, 100)
    assert told(PLAIN, [front], {"front": at(100, 100, 0.9)}) == []
    assert told(PLAIN, [front], {"front": at(200, 200, 181)}) == []
    assert told(PLAIN, [front], {"front": at(100, 100, 3)}) == [("grain", ("front",), round(math.radians(2), 3))]
    assert told(PLAIN, [front], {"front": at(200, 200, 90)})[0][0] == "grain"
    assert told(PLAIN + "threads: either\n", [front], {"front": at(200, 200, 90)}) == []
    bias = box("front", 100, 100, thread=heading(math.pi / 4))
    assert told(PLAIN, [bias], {"front": at(200, 100, 45)}) == []


def test_face_down_only_where_both_sides_are_alike():
    front = box("front", 100, 100)
    assert told(PLAIN, [front], {"front": at(200, 100, 0, True)}) == [("over", ("front",), 0)]
    assert told(PLAIN + "sides: alike\n", [front], {"front": at(200, 100, 0, True)}) == []


def test_on_a_one_way_cloth_pieces_stand_upright_and_strips_need_not():
    napped = PLAIN + "direction: one way\n"
    front = box("front", 100, 100)
    assert told(napped, [front], {"front": at(200, 200)}) == []
    assert told(napped, [front], {"front": at(200, 200, 180)}) == [("upside-down", ("front",), 0)]
    assert told(napped, [front._replace(is_strip=True)], {"front": at(200, 200, 180)}) == []
    cross = box("front", 100, 100, thread=1 + 0j)
    ways = [round(math.degrees(turn.angle)) for turn in turns(cross, cloth_of(napped))]
    assert ways == [90]  # one way round for all pieces that lie across


def test_ways_to_hold_a_shape():
    ways = [(round(math.degrees(turn.angle)), turn.over) for turn in turns(box("a", 9, 9), cloth_of(PLAIN))]
    assert ways == [(0, False), (180, False)]
    free = cloth_of(PLAIN + "threads: either\nsides: alike\n")
    assert len(turns(box("a", 9, 9), free)) == 8
    bias = box("a", 9, 9)._replace(lengthwise=(heading(math.pi / 4), heading(-math.pi / 4)))
    ways = [round(math.degrees(turn.angle)) for turn in turns(bias, cloth_of(PLAIN))]
    assert sorted(ways) == [45, 135, 225, 315]


def test_the_second_of_a_pair_lies_on_the_mirrored_threads():
    thread = (heading(math.pi / 4), heading(-math.pi / 4))
    one = box("one", 100, 60)._replace(lengthwise=thread)
    other = one._replace(key="other", title="Other", mirrored=True, beside="one")
    cloth = "{square: 80 cm}\n"
    # a quarter turn of one needs the contrary quarter turn of its mirror image, or that and a half turn
    assert told(cloth, [one, other], {"one": at(200, 100, 45), "other": at(400, 200, -45)}) == []
    assert told(cloth, [one, other], {"one": at(200, 100, 45), "other": at(600, 400, 135)}) == []
    assert told(cloth, [one, other], {"one": at(200, 100, 45), "other": at(600, 400, 45)})[0][0] == "threads"


def test_the_picture_stays_whole_and_comes_where_it_is_wanted():
    printed = PLAIN + "places: [{name: wreath, from: [20, 10], to: [30, 20]}]\n"
    front = box("front", 300, 300)
    assert told(printed, [front], {"front": at(150, 50)}) == []
    assert told(printed, [front], {"front": at(0, 210)}) == [("off-cloth", ("front",), 110.0)]
    assert told(printed, [front], {"front": at(240, 0)}) == [("picture", ("front",), 40.0)]
    wanting = front._replace(motifs=(Motif("wreath", 100 + 100j, 10.0, SPAN),))
    assert told(printed, [wanting], {"front": at(150, 50)}) == []
    ((kind, _, amount),) = told(printed, [wanting], {"front": at(150, 30)})
    assert (kind, amount) == ("motif", 10.0)
    missing = front._replace(motifs=(Motif("ship", 100 + 100j, 10.0, SPAN),))
    assert told(printed, [missing], {"front": at(150, 50)})[0][0] == "motif"


def test_a_match_counts_from_repeat_to_repeat():
    from garmentc.cloth.model import Match

    striped = PLAIN + "repeat: {up: 8 cm}\n"
    front, back = box("front", 200, 200), box("back", 200, 200)._replace(matches=(Match(0j, "front", 200 + 0j),))
    assert told(striped, [front, back], {"front": at(0, 20), "back": at(250, 100)}) == []
    assert told(striped, [front, back], {"front": at(0, 20), "back": at(250, 103)}) == [
        ("match", ("back", "front"), 3.0)
    ]
    assert told(PLAIN, [front, back], {"front": at(0, 20), "back": at(250, 103)}) == []


def test_curves_are_judged_as_curves():
    def disc(key):
        edges = tuple(Path((Arc(0j, 150, i * math.pi / 2, math.pi / 2),)) for i in range(4))
        return shape(key, Outline(edges))

    shapes = [disc("one"), disc("two")]
    assert told(PLAIN, shapes, {"one": at(150, 150), "two": at(450, 150)}) == []
    slope = 300 * heading(math.radians(10))
    spots = {"one": at(150, 150), "two": at(150 + slope.real, 150 + slope.imag)}
    assert told(PLAIN, shapes, spots) == []
    nearer = 297 * heading(math.radians(10))
    ((kind, _, amount),) = told(PLAIN, shapes, {"one": at(150, 150), "two": at(150 + nearer.real, 150 + nearer.imag)})
    assert (kind, amount) == ("overlap", pytest.approx(3, abs=0.05))


def test_what_lies_nowhere_is_told_first():
    assert told(PLAIN, [box("front", 300, 300)], {}) == [("unplaced", ("front",), 0)]


def test_washing_shrinks_the_ground_along_and_across_its_threads():
    washed = cloth_of("{length: 60 cm, width: 40 cm}\nthreads: across\nshrinkage: {along: 5, across: 10}\n")
    assert washed.box == pytest.approx((0, 0, 570, 360))
    metre = cloth_of(
        "{width: 140 cm}\nshrinkage: {along: 5}\nfinished: [{edges: [top, bottom], kind: selvage, width: 1 cm}]\n",
        length=1000,
    )
    assert metre.box == pytest.approx((0, 0, 950, 1400))
    assert [side.finish for side in metre.sides] == ["selvage", "", "selvage", ""]
    assert told(metre, [box("a", 50, 50, thread=1 + 0j)], {"a": at(0, 6)}) == [("hem", ("a",), 4.0)]
