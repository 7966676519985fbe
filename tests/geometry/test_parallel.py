"""Parallel curves against dense samples of the true ones."""

import math
from collections.abc import Callable

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.hobby import curve
from garmentc.geometry.parallel import parallel
from garmentc.geometry.path import Path, straight
from garmentc.geometry.segments import Arc, Cubic, Line
from garmentc.geometry.vector import left

DEVIATION = 0.02


def deviations(base: Path, distance: float, result: Path) -> tuple[float, float]:
    """How far the true parallel strays from the result, and the result from its distance to the base."""
    there = back = 0.0
    for segment in base.segments:
        for i in range(61):
            true = segment.point(i / 60) + distance * left(segment.tangent(i / 60))
            there = max(there, result.nearest(true)[1])
    for segment in result.segments:
        for i in range(31):
            back = max(back, abs(base.nearest(segment.point(i / 30))[1] - abs(distance)))
    return there, back


def parabola(width: float, height: float) -> Path:
    """y = height (x / width)² for x from -width to width."""
    inner, low = width / 3, -height / 3
    return Path((Cubic(complex(-width, height), complex(-inner, low), complex(inner, low), complex(width, height)),))


def test_lines_and_arcs_are_exact():
    assert parallel(straight(0j, 10 + 0j), 2.0) == straight(2j, 10 + 2j)
    quarter = Path((Arc(0j, 10.0, 0.0, math.pi / 2),))
    assert parallel(quarter, 4.0).segments == (Arc(0j, 6.0, 0.0, math.pi / 2),)
    assert parallel(quarter, -4.0).segments == (Arc(0j, 14.0, 0.0, math.pi / 2),)
    assert parallel(quarter.reversed(), -4.0).length == pytest.approx(3 * math.pi)
    assert parallel(quarter, 0.0) is quarter


@pytest.mark.parametrize("distance", [-40.0, -10.0, 10.0, 40.0])
def test_circle_of_cubics(distance: float):
    base = curve([100 + 0j, 100j, -100 + 0j], 1j, -1j)
    result = parallel(base, distance)
    radii = [abs(s.point(i / 50)) for s in result.segments for i in range(51)]
    # The base itself strays from the circle by up to 0.0272 mm.
    assert max(abs(r - (100 - distance)) for r in radii) < 0.0273 + DEVIATION
    assert max(deviations(base, distance, result)) < DEVIATION


@pytest.mark.parametrize("distance", [-30.0, -10.0, 5.0, 15.0, 20.0])
def test_ellipse(distance: float):
    # Half axes 100 and 50; the least radius of curvature is 50² / 100 = 25, on the left.
    angles = [i * math.pi / 8 for i in range(9)]
    base = curve([complex(100 * math.cos(a), 50 * math.sin(a)) for a in angles], 1j, -1j)
    result = parallel(base, distance)
    assert max(deviations(base, distance, result)) < DEVIATION


@pytest.mark.parametrize("distance", [12.0, -12.0])
def test_parabola(distance: float):
    # y = x²/40 turns left with a radius of 20 at its vertex.
    base = parabola(40, 40)
    result = parallel(base, distance)
    assert max(deviations(base, distance, result)) < DEVIATION
    assert abs(result.point_at(result.length / 2) - distance * 1j) < DEVIATION
    assert len(result.segments) <= 8


@given(
    st.floats(-60, 60),
    st.floats(-60, 60),
    st.floats(0.6, 1.4),
    st.floats(0.6, 1.4),
    st.sampled_from([-15.0, -10.0, 6.0, 20.0]),
)
@example(-54.0, 49.0, 0.75, 0.625, -15.0)  # bends hard at both ends
@example(-56.0, 53.0, 0.656, 1.294, 20.0)
@settings(max_examples=60, deadline=None)
def test_bends_and_s_curves(rise: float, fall: float, a: float, b: float, distance: float):
    base = Path((Cubic(0j, complex(70 * a, rise), complex(200 - 70 * b, fall), 200 + 20j),))
    try:
        result = parallel(base, distance)
    except GeometryFault as fault:
        assert fault.reason == "too-tight"
        assert fault.numbers["radius"] <= abs(distance)
        return
    assert max(deviations(base, distance, result)) < DEVIATION
    assert len(result.segments) <= 10
    for one, other in zip(result.segments, result.segments[1:], strict=False):
        assert abs(one.tangent(1.0) - other.tangent(0.0)) < 1e-6
    assert abs(result.start - (base.start + distance * left(base.start_direction()))) < 1e-9
    assert abs(result.end - (base.end + distance * left(base.end_direction()))) < 1e-9


@pytest.mark.parametrize(
    ("path", "distance", "radius", "at"),
    [
        (Path((Arc(0j, 10.0, 0.0, 2.0),)), 12.0, 10.0, None),
        (Path((Arc(0j, 10.0, 0.0, -2.0),)), -10.0, 10.0, None),
        (parabola(40, 40), 25.0, 20.0, 0j),
        (parabola(40, 40).reversed(), -25.0, 20.0, 0j),
    ],
)
def test_too_tight(path: Path, distance: float, radius: float, at: complex | None):
    with pytest.raises(GeometryFault) as caught:
        parallel(path, distance)
    assert caught.value.reason == "too-tight"
    assert caught.value.numbers == {"radius": pytest.approx(radius), "distance": abs(distance)}
    if at is not None:
        assert abs(caught.value.at - at) < 0.1
    # The other side has room.
    assert max(deviations(path, -distance, parallel(path, -distance))) < DEVIATION


def test_corners_inside_a_path():
    bent = Path((Line(0j, 10 + 0j), Line(10 + 0j, 10 + 10j)))
    assert parallel(bent, 2.0) == Path((Line(2j, 8 + 2j), Line(8 + 2j, 8 + 10j)))
    assert parallel(bent, -2.0) == Path((Line(-2j, 12 - 2j), Line(12 - 2j, 12 + 10j)))
    spike = Path((Line(0j, 100 + 0j), Line(100 + 0j, 0 + 10j)))
    outside = parallel(spike, -2.0)
    assert len(outside.segments) == 3
    assert outside.nearest(100 + 0j)[1] == pytest.approx(2.0)
    assert outside.bounds()[2] < 100 + 6.1
    smooth = Path((Line(0j, 10 + 0j), Arc(10 + 5j, 5.0, -math.pi / 2, math.pi / 2)))
    assert len(parallel(smooth, 2.0).segments) == 2


@pytest.mark.parametrize("make", [lambda e: e, lambda e: e.reversed()], ids=["along", "against"])
def test_corner_between_curves(make: Callable[[Path], Path]):
    base = make(Path((Cubic(0j, 20 + 10j, 40 + 10j, 60 + 0j), Cubic(60 + 0j, 80 + 15j, 90 + 15j, 120 + 0j))))
    for distance in (-8.0, 8.0):
        result = parallel(base, distance)
        away = [base.nearest(s.point(i / 20))[1] for s in result.segments for i in range(21)]
        assert min(away) > 8 - DEVIATION
        # The sides turn by 63.43 degrees, so a mitred tip lies 8 / cos(31.72 degrees) away.
        assert max(away) < 9.405


def test_sides_that_do_not_meet():
    with pytest.raises(GeometryFault) as caught:
        parallel(Path((Line(0j, 100 + 0j), Line(100 + 0j, 100 + 3j), Line(100 + 3j, 3j))), 5.0)
    assert caught.value.reason in ("no-meeting", "too-tight")
