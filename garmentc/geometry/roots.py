"""Real roots of polynomials up to degree three on the unit interval."""

import math

Cubic4 = tuple[float, float, float, float]
"""Coefficients of 1, t, t² and t³."""


def quadratic_roots(c: float, b: float, a: float) -> list[float]:
    """Return the real roots of c + b t + a t², without cancellation, in no order.

    Source: W. H. Press et al., Numerical Recipes, section 5.6.
    """
    if a == 0.0:
        return [-c / b] if b else []
    square = b * b - 4 * a * c
    if square < 0:
        return []
    q = -(b + math.copysign(math.sqrt(square), b)) / 2
    return [q / a, c / q] if q else [0.0]


def roots_in_unit(poly: Cubic4, tolerance: float) -> list[float]:
    """Return where a cubic polynomial is zero on [0, 1], ascending.

    Ends of the interval and turning values count as zeros where the polynomial is within the
    tolerance of zero there, so a touch is one root. A polynomial that is zero throughout gives
    its ends only.
    """
    c0, c1, c2, c3 = poly
    turns = sorted(t for t in quadratic_roots(c1, 2 * c2, 3 * c3) if 0 < t < 1)
    knots = [0.0, *turns, 1.0]
    values = [c0 + t * (c1 + t * (c2 + t * c3)) for t in knots]
    found = [0.0] if abs(values[0]) <= tolerance else []
    for t0, t1, v0, v1 in zip(knots, knots[1:], values, values[1:], strict=False):
        if abs(v1) <= tolerance:
            found.append(t1)
        elif abs(v0) > tolerance and (v0 < 0) != (v1 < 0):
            found.append(_closed_in(poly, t0, t1, v0 < 0))
    return found


def _closed_in(poly: Cubic4, low: float, high: float, rising: bool) -> float:
    """Newton's method kept inside a bracket in which the polynomial is monotone."""
    c0, c1, c2, c3 = poly
    t = (low + high) / 2
    for _ in range(80):
        value = c0 + t * (c1 + t * (c2 + t * c3))
        if (value < 0) == rising:
            low = t
        else:
            high = t
        slope = c1 + t * (2 * c2 + 3 * t * c3)
        new = t - value / slope if slope else low
        if not low < new < high:
            new = (low + high) / 2
        if abs(new - t) <= 1e-15:
            return new
        t = new
    return t
