"""Hobby's curves: the properties the paper claims, and one printed curve."""

import cmath
import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.hobby import curve
from garmentc.geometry.path import Path
from garmentc.geometry.segments import Cubic
from garmentc.geometry.vector import cross, turning

coordinate = st.floats(-100, 100).map(lambda x: round(x, 1))
points = st.builds(complex, coordinate, coordinate)
chains = st.lists(points, min_size=2, max_size=7).filter(lambda chain: all(abs(b - a) > 5 for a, b in pairwise(chain)))
directions = st.one_of(st.none(), st.floats(-3.1, 3.1).map(lambda angle: cmath.rect(1, angle)))
tensions = st.floats(0.75, 3)

KNOTS = [0j, 60 + 40j, 40 + 90j, 10 + 70j, 30 + 50j]


def controls(path: Path) -> list[complex]:
    return [p for s in path.segments if isinstance(s, Cubic) for p in (s.start, s.c1, s.c2, s.end)]


def same(path: Path, other: Path) -> bool:
    return all(abs(a - b) < 1e-6 for a, b in zip(controls(path), controls(other), strict=True))


def bent_sharply(chain: list[complex], leaving: complex | None, arriving: complex | None) -> bool:
    """A turn near a half turn may go either way round, and rounding decides."""
    chords = [b - a for a, b in pairwise(chain)]
    ways = [leaving or chords[0], *chords, arriving or chords[-1]]
    return any(abs(turning(a, b)) > 3.0 for a, b in pairwise(ways))


def test_printed_curve():
    # z0..z1..z2..z3..z4 of "A User's Manual for MetaPost", as `show` of MetaPost 2.02 prints it.
    printed = [
        (26.76463 - 1.84543j, 51.4094 + 14.58441j),
        (67.09875 + 61.00188j, 59.76253 + 84.57518j),
        (25.35715 + 94.01947j, 10.48064 + 84.5022j),
        (9.62895 + 58.80421j, 18.80421 + 49.62895j),
    ]
    for segment, (c1, c2) in zip(curve(KNOTS).segments, printed, strict=True):
        assert isinstance(segment, Cubic)
        assert abs(segment.c1 - c1) < 2e-5
        assert abs(segment.c2 - c2) < 2e-5


@given(chains, directions, directions, tensions, tensions)
@settings(max_examples=100, deadline=None)
def test_passes_through_points_smoothly(chain, leaving, arriving, tension, other_tension):
    if bent_sharply(chain, leaving, arriving):
        return
    path = curve(chain, leaving, arriving, tension, other_tension)
    assert [path.start, *(segment.end for segment in path.segments)] == chain
    for one, other in pairwise(path.segments):
        assert abs(one.tangent(1.0) - other.tangent(0.0)) < 1e-6
    if leaving is not None:
        assert abs(path.start_direction() - leaving) < 1e-6
    if arriving is not None:
        assert abs(path.end_direction() - arriving) < 1e-6


@given(chains, directions, directions, tensions, tensions, st.floats(-3, 3), st.floats(0.1, 10), points)
@settings(max_examples=100, deadline=None)
def test_moves_with_its_points(chain, leaving, arriving, tension, other_tension, angle, scale, shift):
    if bent_sharply(chain, leaving, arriving):
        return
    turn = cmath.rect(scale, angle)
    path = curve(chain, leaving, arriving, tension, other_tension)
    image = curve(
        [turn * p + shift for p in chain],
        None if leaving is None else turn * leaving,
        None if arriving is None else turn * arriving,
        tension,
        other_tension,
    )
    for a, b in zip(controls(path), controls(image), strict=True):
        assert abs(turn * a + shift - b) < 1e-5


@given(chains, directions, directions, tensions, tensions, st.floats(0, 2))
@settings(max_examples=100, deadline=None)
def test_reversal_and_mirroring(chain, leaving, arriving, tension, other_tension, curl):
    if bent_sharply(chain, leaving, arriving):
        return
    path = curve(chain, leaving, arriving, tension, other_tension, curl)
    back = curve(
        chain[::-1],
        None if arriving is None else -arriving,
        None if leaving is None else -leaving,
        other_tension,
        tension,
        curl,
    )
    assert same(path, back.reversed())
    mirrored = curve(
        [p.conjugate() for p in chain],
        None if leaving is None else leaving.conjugate(),
        None if arriving is None else arriving.conjugate(),
        tension,
        other_tension,
        curl,
    )
    for a, b in zip(controls(path), controls(mirrored), strict=True):
        assert abs(a.conjugate() - b) < 1e-6


def test_symmetric_points_give_a_symmetric_curve():
    chain = [-50 + 0j, -20 + 30j, 20 + 30j, 50 + 0j]
    path = curve(chain)
    for a, b in zip(controls(path), controls(path)[::-1], strict=True):
        assert abs(a + b.conjugate()) < 1e-9


@pytest.mark.parametrize(
    ("count", "error"),
    [
        # Largest radial error on the unit circle with given end directions, rounded up: full circles
        # by 4 and by 8 cubics. The paper states that the velocity makes four nearly a circle.
        (4, 2.8e-4),
        (8, 4.3e-6),
    ],
)
def test_circle(count: int, error: float):
    path = curve([cmath.rect(1, 2 * math.pi * i / count) for i in range(count + 1)], 1j, 1j)
    radii = [abs(segment.point(i / 100)) for segment in path.segments for i in range(101)]
    assert max(abs(r - 1) for r in radii) < error


def mock_curvature_after(theta: float, phi: float, length: float) -> float:
    """The paper's mock curvature where a span of tension 1 is left: (2 phi - 4 theta) / length."""
    return (2 * phi - 4 * theta) / length


def test_mock_curvature_is_continuous():
    path = curve(KNOTS, 1j, None)
    for one, other in pairwise(path.segments):
        run, run2 = one.end - one.start, other.end - other.start
        theta, phi = turning(run, one.tangent(0.0)), turning(one.tangent(1.0), run)
        theta2, phi2 = turning(run2, other.tangent(0.0)), turning(other.tangent(1.0), run2)
        # Travelled backward the roles of the angles, and the sign of curvature, change.
        before = -mock_curvature_after(-phi, -theta, abs(run))
        assert before == pytest.approx(mock_curvature_after(theta2, phi2, abs(run2)), abs=1e-9)


def test_two_points():
    straight = curve([0j, 30 + 40j])
    assert straight.is_straight()
    assert straight.length == pytest.approx(50)
    # One direction and a curl of one give equal angles at both ends, as on a circle.
    for path in (curve([0j, 10 + 0j], leaving=1 + 1j), curve([0j, 10 + 0j], arriving=1 - 1j)):
        assert abs(path.start_direction() - cmath.rect(1, math.pi / 4)) < 1e-9
        assert abs(path.end_direction() - cmath.rect(1, -math.pi / 4)) < 1e-9
        radius = 5 * math.sqrt(2)
        assert all(abs(abs(path.point_at(s) - (5 - 5j)) - radius) < 0.002 for s in range(12))
    s_bend = curve([0j, 10 + 0j], 1 + 1j, 1 + 1j)
    assert abs(s_bend.point_at(s_bend.length / 2) - 5) < 1e-9


def test_tension_tautens():
    bows = [curve([0j, 10 + 0j], 1j, -1j, t, t).bounds()[3] for t in (0.75, 1.0, 1.5, 3.0)]
    assert bows == sorted(bows, reverse=True)
    # A half circle on two points; the velocity is good to a few percent there.
    assert bows[1] == pytest.approx(5, rel=0.03)


def test_direction_straight_back():
    path = curve([0j, 10 + 0j], -1 + 0j, -1 + 0j)
    assert path.length < 200
    assert cross(path.start_direction(), 1 + 0j) == pytest.approx(0, abs=1e-9)


def test_faults():
    with pytest.raises(GeometryFault) as caught:
        curve([0j, 5j, 5j, 9j])
    assert caught.value.reason == "coinciding-points"
    assert caught.value.at == 5j
    with pytest.raises(ValueError, match="two points"):
        curve([0j])
    with pytest.raises(ValueError, match="tension"):
        curve([0j, 1j], leaving_tension=0.0)
    with pytest.raises(ValueError, match="direction"):
        curve([0j, 1j], leaving=0j)
