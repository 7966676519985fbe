"""Paths: continuity, arc length positions, parts."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.geometry.hobby import curve
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path, straight
from garmentc.geometry.segments import Arc, Cubic, Line

MIXED = Path(
    (
        Line(0j, 10 + 0j),
        Arc(10 + 5j, 5.0, -math.pi / 2, math.pi),
        Cubic(10 + 10j, 5 + 10j, 0 + 15j, -5 + 20j),
        Line(-5 + 20j, -5 + 30j),
    )
)


def test_continuity_is_checked():
    with pytest.raises(ValueError, match="broken"):
        Path((Line(0j, 1 + 0j), Line(1 + 1e-5j, 2 + 0j)))
    with pytest.raises(ValueError, match="at least one"):
        Path(())
    Path((Line(0j, 1 + 0j), Line(1 + 1e-7j, 2 + 0j)))


@given(st.floats(0.01, 0.99))
@settings(deadline=None)
def test_split_lengths_add_up(x: float):
    s = x * MIXED.length
    before, after = MIXED.split_at(s)
    assert before.length == pytest.approx(s, abs=1e-9)
    assert before.length + after.length == pytest.approx(MIXED.length, abs=1e-9)
    assert abs(before.end - MIXED.point_at(s)) < 1e-9
    assert abs(after.start - before.end) < 1e-9
    again = before.joined(after)
    assert again.length == pytest.approx(MIXED.length, abs=1e-9)


def test_split_at_a_joint_cuts_no_sliver():
    before, after = MIXED.split_at(10.0)
    assert before.segments == MIXED.segments[:1]
    assert after.segments == MIXED.segments[1:]
    before, after = MIXED.split_at(10.0 - 1e-10)
    assert len(before.segments), len(after.segments) == (1, 3)


@pytest.mark.parametrize(("s0", "s1"), [(-1.0, 0.0), (5.0, 5.0), (7.0, 6.0), (100.0, 200.0)])
def test_nothing_between(s0: float, s1: float):
    with pytest.raises(ValueError, match="no path"):
        MIXED.between(s0, s1)


def test_between_holds_to_the_ends():
    assert MIXED.between(-5.0, 1000.0) == MIXED


@given(st.floats(0, 1))
@settings(deadline=None)
def test_reversed_positions(x: float):
    back = MIXED.reversed()
    s = x * MIXED.length
    assert abs(back.point_at(MIXED.length - s) - MIXED.point_at(s)) < 1e-7


@given(st.floats(0, 1))
@settings(deadline=None)
def test_nearest_finds_points_of_the_path(x: float):
    s = x * MIXED.length
    place, distance = MIXED.nearest(MIXED.point_at(s))
    assert distance < 1e-7
    assert place == pytest.approx(s, abs=1e-4)


def test_directions():
    assert MIXED.start_direction() == 1
    assert MIXED.end_direction() == 1j
    assert MIXED.chord == -5 + 30j
    assert abs(MIXED.tangent_at(10 + 2.5 * math.pi) - 1j) < 1e-9
    assert MIXED.start == MIXED.point_at(0)
    assert MIXED.end == MIXED.point_at(MIXED.length)


def test_bounds_and_flatten():
    assert MIXED.bounds() == pytest.approx((-5, 0, 15, 30))
    chain = MIXED.flatten(0.01)
    assert chain[0] == MIXED.start
    assert chain[-1] == MIXED.end
    assert sum(abs(b - a) for a, b in pairwise(chain)) == pytest.approx(MIXED.length, abs=0.1)


def test_moved():
    image = MIXED.moved(Motion.mirror_in(0j, 1j))
    assert image.end == 5 + 30j
    assert image.length == pytest.approx(MIXED.length)


@pytest.mark.parametrize(
    ("path", "verdict"),
    [
        (straight(0j, 5 + 5j), True),
        (Path((Line(0j, 1 + 1j), Line(1 + 1j, 3 + 3j))), True),
        (Path((Line(0j, 4 + 4j), Line(4 + 4j, 3 + 3j))), False),
        (Path((Line(0j, 1 + 1.01j), Line(1 + 1.01j, 3 + 3j))), False),
        (Path((Cubic(0j, 1 + 0j, 2 + 0j, 3 + 0j),)), True),
        (Path((Cubic(0j, 1 + 0j, 2 + 0.1j, 3 + 0j),)), False),
        (Path((Arc(0j, 10.0, 0.0, 0.1),)), False),
        (curve([0j, 4 + 3j]), True),
    ],
)
def test_is_straight(path: Path, verdict: bool):
    assert path.is_straight() is verdict
    assert path.reversed().is_straight() is verdict
