"""What all segments promise alike."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.geometry.arcs import arc_through, arc_with_bulge, arc_with_radius, circle_arc
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.motion import Motion
from garmentc.geometry.segments import Arc, Cubic, Line, Segment
from garmentc.geometry.vector import cross

coordinate = st.floats(-100, 100).map(lambda x: round(x, 2))
points = st.builds(complex, coordinate, coordinate)
lines = st.builds(Line, points, points).filter(lambda line: line.length() > 0.1)
arcs = st.builds(
    Arc, points, st.floats(1, 80), st.floats(-7, 7), st.floats(-6.28, 6.28).filter(lambda a: abs(a) > 0.01)
)
cubics = st.builds(Cubic, points, points, points, points).filter(lambda cubic: cubic.length() > 0.1)
segments = st.one_of(lines, arcs, cubics)
motions = st.builds(
    lambda v, p, angle, mirrored: (
        (Motion.mirror_in(p, 1 + 2j) if mirrored else Motion.identity())
        .then(Motion.turn_about(p, angle))
        .then(Motion.shift_by(v))
    ),
    points,
    points,
    st.floats(-4, 4),
    st.booleans(),
)
FRACTIONS = [i / 8 for i in range(9)]


@given(segments)
@settings(max_examples=150, deadline=None)
def test_reversed(segment: Segment):
    back = segment.reversed()
    assert back.length() == pytest.approx(segment.length(), abs=1e-8)
    assert back.area_under() == pytest.approx(-segment.area_under(), abs=1e-6)
    for t in FRACTIONS:
        assert abs(back.point(1 - t) - segment.point(t)) < 1e-9


@given(segments, motions)
@settings(max_examples=150, deadline=None)
def test_moved(segment: Segment, motion: Motion):
    image = segment.moved(motion)
    assert image.length() == pytest.approx(segment.length(), abs=1e-8)
    for t in FRACTIONS:
        assert abs(image.point(t) - motion.apply(segment.point(t))) < 1e-8
        there_and_back = motion.then(motion.inverse()).apply(segment.point(t))
        assert abs(there_and_back - segment.point(t)) < 1e-8
    sign = -1 if motion.mirrored else 1
    assert image.curvature(0.3) == pytest.approx(sign * segment.curvature(0.3), rel=1e-4, abs=1e-6)


@given(segments, st.floats(0, 1), st.floats(0, 1))
@settings(max_examples=150, deadline=None)
def test_between(segment: Segment, t0: float, t1: float):
    t0, t1 = sorted((t0, t1))
    part = segment.between(t0, t1)
    for x in FRACTIONS:
        assert abs(part.point(x) - segment.point(t0 + x * (t1 - t0))) < 1e-8


@given(segments)
@settings(max_examples=150, deadline=None)
def test_bounds_and_flatten(segment: Segment):
    xmin, ymin, xmax, ymax = segment.bounds()
    samples = [segment.point(i / 500) for i in range(501)]
    assert min(p.real for p in samples) == pytest.approx(xmin, abs=0.01)
    assert min(p.imag for p in samples) == pytest.approx(ymin, abs=0.01)
    assert max(p.real for p in samples) == pytest.approx(xmax, abs=0.01)
    assert max(p.imag for p in samples) == pytest.approx(ymax, abs=0.01)
    assert all(xmin - 1e-9 <= p.real <= xmax + 1e-9 for p in samples)
    assert all(ymin - 1e-9 <= p.imag <= ymax + 1e-9 for p in samples)
    chain = [segment.start, *segment.flatten(0.05)]
    chords = [Line(a, b) for a, b in pairwise(chain)]
    assert chain[-1] == segment.end
    for p in samples[::25]:
        assert min(chord.nearest(p)[1] for chord in chords if chord.start != chord.end) <= 0.05 + 1e-9


@given(segments, points)
@settings(max_examples=150, deadline=None)
def test_nearest(segment: Segment, p: complex):
    t, distance = segment.nearest(p)
    assert abs(segment.point(t) - p) == pytest.approx(distance, abs=1e-6)
    assert distance <= min(abs(segment.point(i / 400) - p) for i in range(401)) + 1e-6


@given(st.one_of(arcs, cubics), st.floats(0.01, 0.99))
@settings(max_examples=150, deadline=None)
def test_tangent_and_curvature(segment: Segment, t: float):
    first, second = segment.derivatives(t)
    if abs(first) < 1.0:
        return
    assert abs(segment.tangent(t) - first / abs(first)) < 1e-9
    assert segment.curvature(t) == pytest.approx(cross(first, second) / abs(first) ** 3, abs=1e-9)


@pytest.mark.parametrize(
    ("cubic", "at_start", "at_end"),
    [
        (Cubic(0j, 0j, 3 + 4j, 10 + 0j), (3 + 4j) / 5, (7 - 4j) / abs(7 - 4j)),
        (Cubic(0j, 3 + 4j, 10 + 0j, 10 + 0j), (3 + 4j) / 5, (7 - 4j) / abs(7 - 4j)),
        (Cubic(0j, 0j, 10 + 0j, 10 + 0j), 1 + 0j, 1 + 0j),
        (Cubic(0j, 0j, 0j, 3 + 4j), (3 + 4j) / 5, (3 + 4j) / 5),
        (Cubic(0j, 3 + 4j, 3 + 4j, 3 + 4j), (3 + 4j) / 5, (3 + 4j) / 5),
    ],
)
def test_tangent_where_control_points_coincide(cubic: Cubic, at_start: complex, at_end: complex):
    assert abs(cubic.tangent(0.0) - at_start) < 1e-9
    assert abs(cubic.tangent(1.0) - at_end) < 1e-9
    assert abs(cubic.reversed().tangent(0.0) + at_end) < 1e-9


def test_a_point_has_no_tangent():
    with pytest.raises(ValueError, match="direction"):
        Line(1j, 1j).tangent(0.5)
    with pytest.raises(ValueError, match="direction"):
        Cubic(1j, 1j, 1j, 1j).tangent(0.5)


def test_arc_numbers_are_checked():
    with pytest.raises(ValueError, match="positive"):
        Arc(0j, 0.0, 0.0, 1.0)
    with pytest.raises(ValueError, match="full turn"):
        Arc(0j, 1.0, 0.0, 7.0)


@given(points, points, points)
@settings(max_examples=150, deadline=None)
def test_arc_through(a: complex, p: complex, b: complex):
    if min(abs(a - p), abs(p - b), abs(a - b)) < 1 or abs(cross(p - a, b - a)) < 1:
        return
    arc = arc_through(a, p, b)
    assert abs(arc.start - a) < 1e-6
    assert abs(arc.end - b) < 1e-6
    assert arc.nearest(p)[1] < 1e-6


@pytest.mark.parametrize("sagitta", [-30.0, -5.0, -1.0, 0.01, 2.0, 5.0, 12.0])
def test_arc_with_bulge(sagitta: float):
    arc = arc_with_bulge(1 + 1j, 1 + 11j, sagitta)
    assert abs(arc.start - (1 + 1j)) < 1e-9
    assert abs(arc.end - (1 + 11j)) < 1e-9
    # Left of the upward chord is toward smaller x.
    assert abs(arc.point(0.5) - complex(1 - sagitta, 6)) < 1e-9


@pytest.mark.parametrize("to_left", [True, False])
def test_arc_with_radius(to_left: bool):
    arc = arc_with_radius(0j, 8 + 0j, 5.0, to_left)
    assert arc.radius == pytest.approx(5)
    assert abs(arc.start) < 1e-9
    assert abs(arc.end - 8) < 1e-9
    # 3-4-5: the centre lies 3 from the chord, so the arc rises 2.
    assert arc.point(0.5).imag == pytest.approx(2 if to_left else -2)
    assert arc_with_radius(0j, 8 + 0j, 4.0, to_left).length() == pytest.approx(4 * math.pi)


def test_arc_faults():
    with pytest.raises(GeometryFault) as caught:
        arc_with_radius(0j, 10 + 0j, 4.0, True)
    assert caught.value.reason == "too-small-radius"
    assert caught.value.numbers == {"radius": 4.0, "half-chord": 5.0}
    for make in (
        lambda: arc_through(0j, 0j, 1j),
        lambda: arc_with_bulge(1j, 1j, 2.0),
        lambda: arc_with_radius(1j, 1j, 2.0, True),
        lambda: circle_arc(1j, 1j, 2.0),
    ):
        with pytest.raises(GeometryFault) as caught:
            make()
        assert caught.value.reason == "coinciding-points"
    for make in (lambda: arc_through(0j, 1j, 2j), lambda: arc_with_bulge(0j, 1j, 0.0)):
        with pytest.raises(GeometryFault) as caught:
            make()
        assert caught.value.reason == "straight"


def test_circle_arc():
    arc = circle_arc(1 + 1j, 3 + 1j, -math.pi / 2)
    assert abs(arc.end - (1 - 1j)) < 1e-12


def test_fault_says_what_is_wrong():
    fault = GeometryFault("too-tight", 1 + 2j, {"radius": 3.0}).on(4, 5)
    assert str(fault) == "too-tight at (1.000, 2.000), radius 3, edges 4, 5"
