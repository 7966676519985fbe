"""Arc lengths and areas against published values and against plain sums."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.geometry.hobby import curve
from garmentc.geometry.path import Path
from garmentc.geometry.quadrature import NODES
from garmentc.geometry.segments import Arc, Cubic, Line

# Length of y = x² over 0..1: sqrt(5)/2 + asinh(2)/4, any calculus text.
PARABOLA = math.sqrt(5) / 2 + math.log(2 + math.sqrt(5)) / 4
# OEIS A103710: latus rectum arc of a parabola over its semi latus rectum.
UNIVERSAL_PARABOLIC = 2.2955871494
# Quarter of the ellipse with half axes 2 and 1: 2 E(sqrt(3)/2), DLMF 19.30.1.
QUARTER_ELLIPSE = 2.4221120551
# spencermortensen.com/articles/bezier-circle, and the length and area of that arc.
KAPPA = 0.5522847498
KAPPA_LENGTH, KAPPA_AREA, KAPPA_ERROR = 1.5710166981, 0.7856180832, 0.00027253

coordinate = st.floats(-200, 200).map(lambda x: round(x, 3))
points = st.builds(complex, coordinate, coordinate)


def quadratic(a: complex, b: complex, c: complex) -> Cubic:
    """A quadratic Bézier curve raised to a cubic."""
    return Cubic(a, a + 2 / 3 * (b - a), c + 2 / 3 * (b - c), c)


def summed_length(cubic: Cubic) -> float:
    """Sum Gauss rules over stretches that crowd toward the slowest places, where a cusp may be."""
    a, b, c, d = cubic.start, cubic.c1, cubic.c2, cubic.end
    poly = np.polynomial.Polynomial([3 * (b - a), 6 * (a - 2 * b + c), 3 * (d - a + 3 * (b - c))])
    knots = {0.0, 1.0}
    for root in poly.roots():
        middle = min(max(root.real, 0.0), 1.0)
        knots.add(middle)
        for k in range(60):
            knots |= {middle - 2.0**-k, middle + 2.0**-k}
    ends = np.array(sorted(t for t in knots if 0 <= t <= 1))
    x, w = np.polynomial.legendre.leggauss(30)
    middle, half = (ends[1:] + ends[:-1]) / 2, np.diff(ends) / 2
    return float(np.sum(half * (np.abs(poly(middle + np.outer(x, half))).T @ w)))


def test_gauss_legendre_constants():
    nodes, weights = np.polynomial.legendre.leggauss(16)
    assert [node for node, _ in NODES] == pytest.approx(nodes[8:], abs=1e-15)
    assert [weight for _, weight in NODES] == pytest.approx(weights[8:], abs=1e-15)


def test_parabola_length():
    assert pytest.approx(1.4789428575, abs=1e-10) == PARABOLA
    assert quadratic(0j, 0.5 + 0j, 1 + 1j).length() == pytest.approx(PARABOLA, abs=1e-9)
    assert quadratic(0j, 500 + 0j, 1000 + 1000j).length() == pytest.approx(1000 * PARABOLA, abs=1e-6)


def test_universal_parabolic_constant():
    # y = x²/4 has the semi latus rectum 2; its latus rectum runs from (-2, 1) to (2, 1).
    assert quadratic(-2 + 1j, -1j, 2 + 1j).length() / 2 == pytest.approx(UNIVERSAL_PARABOLIC, abs=1e-9)


def test_quarter_ellipse_length():
    # Cubic Hermite spans at 48 equal parameters deviate by about h⁴; the length by less than 1e-8.
    count = 48
    step = math.pi / 2 / count
    at = [complex(2 * math.cos(i * step), math.sin(i * step)) for i in range(count + 1)]
    by = [complex(-2 * math.sin(i * step), math.cos(i * step)) for i in range(count + 1)]
    spans = [Cubic(at[i], at[i] + by[i] * step / 3, at[i + 1] - by[i + 1] * step / 3, at[i + 1]) for i in range(count)]
    assert Path(tuple(spans)).length == pytest.approx(QUARTER_ELLIPSE, abs=1e-8)


def test_ellipse_through_points():
    # Hobby's curve is only close to an ellipse: through 9 points of the quarter to 1e-5 of its length.
    angles = [i * math.pi / 16 for i in range(9)]
    path = curve([complex(2 * math.cos(a), math.sin(a)) for a in angles], 1j, -1 + 0j)
    assert path.length == pytest.approx(QUARTER_ELLIPSE, rel=1e-4)


def test_kappa_arc():
    cubic = Cubic(1 + 0j, complex(1, KAPPA), complex(KAPPA, 1), 1j)
    assert cubic.length() == pytest.approx(KAPPA_LENGTH, abs=1e-9)
    assert cubic.area_under() == pytest.approx(KAPPA_AREA, abs=1e-9)
    radii = [abs(cubic.point(i / 2000)) for i in range(2001)]
    assert max(radii) - 1 == pytest.approx(KAPPA_ERROR, abs=1e-7)
    assert min(radii) > 1 - 1e-9


def test_circle():
    circle = Arc(3 + 4j, 10.0, 0.3, 2 * math.pi)
    assert circle.length() == pytest.approx(20 * math.pi)
    assert circle.area_under() == pytest.approx(100 * math.pi)
    assert Arc(3 + 4j, 10.0, 0.3, -2 * math.pi).area_under() == pytest.approx(-100 * math.pi)


def test_cusp_length():
    # The semicubical x = (2t-1)², y = (2t-1)³ has a cusp at t = 1/2;
    # each half is (13 sqrt(13) - 8) / 27 long, the length of Neile's parabola.
    cusp = Cubic(1 - 1j, complex(-1 / 3, 1), complex(-1 / 3, -1), 1 + 1j)
    assert cusp.point(0.5) == pytest.approx(0)
    assert cusp.length() == pytest.approx(2 * (13 * math.sqrt(13) - 8) / 27, abs=1e-9)


def test_there_and_back():
    # On the x axis from 0 to 3/4 and back: x = 3t - 3t².
    assert Cubic(0j, 1 + 0j, 1 + 0j, 0j).length() == pytest.approx(1.5, abs=1e-9)


@given(points, points, points, points)
@settings(max_examples=150, deadline=None)
def test_any_cubic_length(a: complex, b: complex, c: complex, d: complex):
    cubic = Cubic(a, b, c, d)
    assert cubic.length() == pytest.approx(summed_length(cubic), abs=1e-6)


@given(st.floats(-1e-3, 1e-3), st.floats(-1e-3, 1e-3), st.floats(1, 300))
@settings(max_examples=100, deadline=None)
def test_near_cusp_length(dx: float, dy: float, size: float):
    # Crossed control points at the height of a cusp, moved a little off it.
    cubic = Cubic(0j, complex(1 + dx, 1) * size, complex(0, 1 + dy) * size, complex(size, 0))
    assert cubic.length() == pytest.approx(summed_length(cubic), abs=1e-6)


@given(points, points, points, points, st.floats(0, 1))
@settings(max_examples=100, deadline=None)
def test_lengths_add_up(a: complex, b: complex, c: complex, d: complex, t: float):
    cubic = Cubic(a, b, c, d)
    before, after = cubic.split(t)
    assert before.length() + after.length() == pytest.approx(cubic.length(), abs=2e-9)
    assert cubic.length_to(t) == pytest.approx(before.length(), abs=2e-9)
    s = cubic.length_to(t)
    assert cubic.length_to(cubic.t_at_length(s)) == pytest.approx(s, abs=1e-8)


@given(points, points, points, points)
@settings(max_examples=50, deadline=None)
def test_area_is_that_of_the_polyline(a: complex, b: complex, c: complex, d: complex):
    cubic = Cubic(a, b, c, d)
    chain = [cubic.point(i / 2000) for i in range(2001)]
    summed = sum(Line(p, q).area_under() for p, q in pairwise(chain))
    assert cubic.area_under() == pytest.approx(summed, abs=0.2)
