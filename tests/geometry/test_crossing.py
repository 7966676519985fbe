"""Meetings of paths and lines, and crossings of rings, against shapely and by construction."""

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString

from garmentc.geometry.crossing import find_crossing, line_meetings, meet_lines, meetings
from garmentc.geometry.outline import ring
from garmentc.geometry.path import Path, straight
from garmentc.geometry.region import polyline
from garmentc.geometry.roots import roots_in_unit
from garmentc.geometry.segments import Arc, Cubic, Line, Segment
from garmentc.geometry.vector import cross

coordinate = st.floats(-50, 50).map(lambda x: round(x, 1))
points = st.builds(complex, coordinate, coordinate)
segments = st.one_of(
    st.builds(Line, points, points),
    st.builds(Arc, points, st.floats(5, 50), st.floats(-3, 3), st.sampled_from([-6.0, -2.0, 1.0, 5.0])),
    st.builds(Cubic, points, points, points, points),
).filter(lambda segment: segment.length() > 1)


def clearly_crossing(a: LineString, b: LineString) -> list[complex]:
    """The crossings of two polylines that are well away from each other and from all ends."""
    met = [
        complex(p.x, p.y)
        for p in getattr(a.intersection(b), "geoms", [a.intersection(b)])
        if p.geom_type == "Point" and not p.is_empty
    ]
    ends = [complex(*line.coords[i]) for line in (a, b) for i in (0, -1)]
    return [p for p in met if all(abs(p - q) > 1 for q in [*ends, *(m for m in met if m != p)])]


@given(segments, segments)
@settings(max_examples=300, deadline=None)
def test_meetings_are_those_of_the_polylines(one: Segment, other: Segment):
    a, b = Path((one,)), Path((other,))
    found = meetings(a, b)
    for sa, sb, at in found:
        assert abs(a.point_at(sa) - at) < 1e-5
        assert abs(b.point_at(sb) - at) < 1e-5
    for p in clearly_crossing(polyline(a, 1e-4), polyline(b, 1e-4)):
        turn = cross(a.tangent_at(a.nearest(p)[0]), b.tangent_at(b.nearest(p)[0]))
        if abs(turn) > 0.05:  # The chords of curves that run together cross at random.
            assert any(abs(at - p) < 0.3 for _, _, at in found)


@given(segments, segments)
@settings(max_examples=100, deadline=None)
def test_meetings_do_not_depend_on_order(one: Segment, other: Segment):
    a, b = Path((one,)), Path((other,))
    there, back = meetings(a, b), meetings(b, a)
    for sa, sb, _ in there:
        if abs(cross(a.tangent_at(sa), b.tangent_at(sb))) > 0.1:
            assert any(abs(sa - s) + abs(sb - r) < 1e-3 for r, s, _ in back)


def test_lines_and_arcs():
    circle = Path((Arc(0j, 5.0, 0.1, 2 * math.pi),))
    assert [at for _, _, at in meetings(straight(-9 + 3j, 9 + 3j), circle)] == pytest.approx([-4 + 3j, 4 + 3j])
    # Circles of radius 5 with centres 8 apart cross 3 above and below the middle.
    other = Path((Arc(8 + 0j, 5.0, 0.1, 2 * math.pi),))
    assert sorted(at.imag for _, _, at in meetings(circle, other)) == pytest.approx([-3, 3])
    touching = Path((Arc(8 + 0j, 3.0, 1.0, 6.0),))
    assert [at for _, _, at in meetings(circle, touching)] == pytest.approx([5 + 0j])
    assert meetings(circle, Path((Arc(0j, 4.0, 0.0, 6.0),))) == []


def test_shared_stretches_give_their_ends():
    met = meetings(straight(0j, 10 + 0j), straight(4 + 0j, 20 + 0j))
    assert [sa for sa, _, _ in met] == pytest.approx([4, 10])
    met = meetings(Path((Arc(0j, 5.0, 0.0, 2.0),)), Path((Arc(0j, 5.0, 1.0, 2.0),)))
    assert [sa for sa, _, _ in met] == pytest.approx([5, 10])


def test_ends_meet():
    cubic = Path((Cubic(0j, 10 + 0j, 20 + 10j, 20 + 20j),))
    met = meetings(cubic, straight(20 + 20j, 30 + 20j))
    assert [(sa, sb) for sa, sb, _ in met] == [pytest.approx((cubic.length, 0.0))]
    met = meetings(cubic, Path((Cubic(20 + 20j, 20 + 30j, 30 + 40j, 40 + 40j),)))
    assert [(sa, sb) for sa, sb, _ in met] == [pytest.approx((cubic.length, 0.0), abs=1e-6)]


def test_touching_cubics():
    # Two parabolas that touch at their vertices.
    up = Path((Cubic(-3 + 9j, -1 - 3j, 1 - 3j, 3 + 9j),))
    down = Path((Cubic(-3 - 9j, -1 + 3j, 1 + 3j, 3 - 9j),))
    assert any(abs(at) < 1e-2 for _, _, at in meetings(up, down))
    assert all(abs(at) < 1e-2 for _, _, at in meetings(up, down))


def test_line_meetings():
    wave = Path((Cubic(0j, 10 + 30j, 20 - 30j, 30 + 0j), Line(30 + 0j, 40 + 0j), Line(40 + 0j, 40 + 10j)))
    met = line_meetings(wave, 0j, 1 + 0j)
    # The wave, by symmetry also in its middle; the straight stretch by its ends, each joint once.
    assert [at for _, at in met] == pytest.approx([0j, 15 + 0j, 30 + 0j, 40 + 0j])
    assert [wave.point_at(s) for s, _ in met] == pytest.approx([at for _, at in met])
    assert line_meetings(wave, 0 + 10.001j, 1 + 0j) == []
    assert len(line_meetings(wave, 0 + 10j, 1 + 0j)) == 1


def test_line_touches_curves():
    arch = Path((Cubic(0j, 0 + 40j, 40 + 40j, 40 + 0j),))
    assert line_meetings(arch, 30j, 2 + 0j) == [(pytest.approx(arch.length / 2), pytest.approx(20 + 30j))]
    assert line_meetings(arch, 30.001j, 2 + 0j) == []
    assert len(line_meetings(arch, 29.999j, 2 + 0j)) == 2
    arc = Path((Arc(0j, 10.0, 0.0, math.pi),))
    assert [at for _, at in line_meetings(arc, 10j, 1 + 0j)] == [pytest.approx(10j)]
    assert [at for _, at in line_meetings(arc, 0j, 1 + 0j)] == pytest.approx([10 + 0j, -10 + 0j])


@given(st.lists(st.floats(0.02, 0.98), min_size=1, max_size=3, unique=True), st.floats(0.1, 50))
def test_roots(roots: list[float], scale: float):
    roots = sorted(roots)
    if any(b - a < 1e-3 for a, b in pairwise(roots)):
        return
    coefficients = [scale]
    for root in roots:
        shifted = [0.0, *coefficients]
        coefficients = [s - root * c for s, c in zip(shifted, [*coefficients, 0.0], strict=True)]
    padded = (*coefficients, 0.0, 0.0)[:4]
    assert roots_in_unit(padded, 1e-12) == pytest.approx(roots, abs=1e-6)


def test_meet_lines():
    assert meet_lines(0j, 1 + 1j, 10 + 0j, -1 + 1j) == pytest.approx(5 + 5j)
    assert meet_lines(0j, 1 + 1j, 10 + 0j, 2 + 2j) is None


def test_bow_tie():
    crossing = find_crossing(ring([0j, 10 + 10j, 10 + 0j, 10j]).edges)
    assert crossing is not None
    assert crossing.edges == (0, 2)
    assert crossing.at == pytest.approx(5 + 5j)
    assert crossing.positions == pytest.approx((math.hypot(5, 5), math.hypot(5, 5)))


def test_loop_in_one_edge():
    loop = Path((Cubic(0j, 30 + 30j, -20 + 30j, 10 + 0j),))
    crossing = find_crossing([loop, straight(10 + 0j, 5 - 20j), straight(5 - 20j, 0j)])
    assert crossing is not None
    assert crossing.edges == (0, 0)
    assert crossing.at.real == pytest.approx(5)
    one, other = crossing.positions
    assert abs(loop.point_at(one) - loop.point_at(other)) < 1e-6


def test_touch_counts():
    crossing = find_crossing(ring([0j, 20 + 0j, 20 + 20j, 10 + 0j, 20j]).edges)
    assert crossing is not None
    assert crossing.at == pytest.approx(10 + 0j)


def test_simple_rings():
    assert find_crossing(ring([0j, 10 + 0j, 10 + 10j, 10j]).edges) is None
    circle = Arc(0j, 10.0, 0.0, 2 * math.pi)
    assert find_crossing([Path((circle,))]) is None
    lens = [Path((Arc(0j, 10.0, 0.0, math.pi),)), Path((Arc(0j, 10.0, math.pi, math.pi),))]
    assert find_crossing(lens) is None
    # Tangent at both corners: a crescent with edges that part slowly.
    crescent = [
        Path((Cubic(0j, 30 + 20j, 70 + 20j, 100 + 0j),)),
        Path((Cubic(100 + 0j, 70 + 20.1j, 30 + 20.1j, 0j),)),
    ]
    assert find_crossing(crescent) is None


@given(st.lists(points, min_size=4, max_size=9, unique=True))
@settings(max_examples=200, deadline=None)
def test_polygons_against_shapely(corners: list[complex]):
    hull = shapely.MultiPoint([(p.real, p.imag) for p in corners])
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        # Corners near other edges are a matter of rounding.
        line = LineString([(a.real, a.imag), (b.real, b.imag)])
        near = [p for p in hull.geoms if line.distance(p) < 1e-6]
        if len(near) > 2:
            return
    crossing = find_crossing(ring(corners).edges)
    simple = shapely.LinearRing([(p.real, p.imag) for p in corners]).is_simple
    assert (crossing is None) == simple


@pytest.mark.parametrize("back", [20, 10, 30])
def test_a_line_that_runs_back_along_the_one_before_is_a_crossing(back: float):
    """Two and three edges are all neighbours of each other, so only their joints can tell."""
    there = straight(0j, 20 + 0j)
    rest = [] if back == 20 else [straight(20 - back + 0j, 0j)]
    found = find_crossing([there, straight(20 + 0j, 20 - back + 0j), *rest])
    assert found is not None
    assert (found.edges, found.at, found.positions) == ((0, 1), 20 + 0j, (20.0, 0.0))


def test_lines_that_only_turn_sharply_do_not_cross():
    assert find_crossing([straight(0j, 20 + 0j), straight(20 + 0j, 0.1j), straight(0.1j, 0j)]) is None
