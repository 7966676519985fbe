"""Laying a garment: plans are kept, judged again, and mended round what a person has pinned."""

from __future__ import annotations

import math

import pytest

from garmentc.cloth.finder import Limits
from garmentc.cloth.ground import ground
from garmentc.cloth.lay import lay
from garmentc.cloth.leftover import rests
from garmentc.cloth.model import Plan
from garmentc.cloth.saved import kept
from garmentc.cloth.verify import verify
from garmentc.data.cloths import read_cloth
from garmentc.data.plans import plan_text, read_plan
from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost
from garmentc.pipeline import Request, compile_here
from tests.cloth.laying import at, box, cloth_of
from tests.language.small import CHART, assembled, panel
from tests.support import MemoryHost

LIMITS = Limits(400)


def stock(name):
    return ground(read_cloth(DiskHost(), f"specs/cloth/{name}.yaml", Findings()))


def garment(name, *sizes):
    return compile_here(DiskHost(), Request(f"specs/{name}.garment", CHART, None, sizes)).made


def reread(plan):
    text = plan_text(kept(plan, "tern", "88"))
    findings = Findings()
    saved = read_plan(MemoryHost({"p.yaml": text}), "p.yaml", findings)
    assert list(findings) == []
    return text, saved


@pytest.fixture(scope="module")
def tern():
    (made,) = garment("tern", "88")
    return made


@pytest.fixture(scope="module")
def laid(tern):
    return lay(tern, "main", stock("ebb"), None, LIMITS)


def test_tern_lies_on_the_square_with_its_hem_points_on_corners(laid):
    assert laid.plan is not None
    assert verify(laid.plan) == ()
    for key in ("front", "back"):
        shape = next(one for one in laid.plan.shapes if one.key == key)
        ((_, corner),) = shape.corners
        p = laid.plan.spots[key].motion.apply(corner)
        assert min(abs(p.real), abs(p.real - 900)) < 0.1
        assert min(abs(p.imag), abs(p.imag - 900)) < 0.1


@pytest.mark.parametrize("size", ["76", "84", "96", "100", "104"])
def test_tern_lies_on_the_square_in_many_sizes(size):
    (made,) = garment("tern", size)
    plan = lay(made, "main", stock("ebb"), None, LIMITS).plan
    assert plan is not None
    assert verify(plan) == ()


def test_the_largest_tern_is_proved_too_large_for_the_square():
    (made,) = garment("tern", "128")
    found = lay(made, "main", stock("ebb"), None, LIMITS)
    assert found.plan is None
    assert [reason.kind for reason in found.reasons] == ["together"]


@pytest.mark.parametrize(
    ("name", "cloth"),
    [("heron", "slack_water"), ("plover", "causeway"), ("avocet", "spring_tide"), ("curlew", "slack_water")],
)
def test_each_demo_garment_lies_on_a_cloth_of_the_stock(name, cloth):
    (made,) = garment(name, "88")
    plan = lay(made, "main", stock(cloth), None, LIMITS).plan
    assert plan is not None
    assert verify(plan) == ()


def test_a_kept_plan_is_used_again(tern, laid):
    text, saved = reread(laid.plan)
    again = lay(tern, "main", stock("ebb"), saved, LIMITS)
    assert (again.held, again.steps) == (True, 0)
    assert reread(again.plan)[0] == text


def test_a_moved_piece_is_pinned_and_the_rest_found_anew(tern, laid):
    _, saved = reread(laid.plan)
    rest = rests(laid.plan)[0]
    assert rest.wide > 398
    place = complex(round(rest.x) + 1, round(rest.y) + 40)
    pieces = tuple(
        one._replace(at=place, turn=math.pi / 2, pinned=True) if one.piece == "strap 1" else one for one in saved.pieces
    )
    moved = lay(tern, "main", stock("ebb"), saved._replace(pieces=pieces), LIMITS)
    assert moved.plan is not None
    assert moved.plan.spots["strap 1"].pinned
    strap = next(shape for shape in moved.plan.shapes if shape.key == "strap 1")
    assert moved.plan.outline(strap).bounds() == pytest.approx(
        (place.real, place.imag, place.real + 398, place.imag + 30)
    )
    other = next(one for one in pieces if one.piece == "front")
    away = saved._replace(pieces=tuple(one._replace(at=place) if one is other else one for one in pieces))
    mended = lay(tern, "main", stock("ebb"), away, LIMITS)
    assert {fault.kind for fault in mended.faults} >= {"corner", "overlap"}
    assert mended.plan is not None
    assert mended.plan.spots["strap 1"] == moved.plan.spots["strap 1"]


def test_pinned_pieces_that_can_not_stay_are_told(tern, laid):
    _, saved = reread(laid.plan)
    pieces = tuple(one._replace(at=one.at + 5j, pinned=True) if one.piece == "front" else one for one in saved.pieces)
    wrong = lay(tern, "main", stock("ebb"), saved._replace(pieces=pieces), LIMITS)
    assert wrong.plan is None
    assert {fault.kind for fault in wrong.pinned_faults} >= {"edge", "corner"}
    assert wrong.entries["front"].pinned


def test_a_strip_is_joined_where_it_has_to_be():
    below = 'strip sash "Sash" { cut 1; length 60 cm; width 6 cm; make flat }\nfinish sash.ends, sash.sides as pinked\n'
    made = assembled(panel(below=below + "lay sash { joins 1 from 40 % to 60 % }\n"))
    cloth = cloth_of("{length: 34 cm, width: 32 cm}\n")
    found = lay(made, "main", cloth, None, LIMITS)
    assert found.plan is not None
    parts = [shape for shape in found.plan.shapes if shape.part]
    assert [shape.part for shape in parts] == [(0.0, 300.0), (300.0, 600.0)]
    assert [shape.outline.bounds()[3] for shape in parts] == pytest.approx([310, 310])
    _, saved = reread(found.plan)
    assert lay(made, "main", cloth, saved, LIMITS).held


def test_what_is_left_is_given_in_rectangles():
    cloth = cloth_of("{length: 60 cm, width: 40 cm}\nflaws: [{name: burn, from: [58, 38], to: [60, 40]}]\n")
    plan = Plan(cloth, (box("front", 350, 400),), {"front": at(0, 0)})
    (first, second) = rests(Plan(cloth, (box("front", 350, 250),), {"front": at(0, 0)}))
    assert (first.wide, first.high) == (pytest.approx(600, abs=2), pytest.approx(130, abs=2)) or first.area > 90_000
    assert second.area < first.area
    (only,) = rests(plan)
    assert only.area == pytest.approx(max(230 * 400, 250 * 380), rel=0.02)
