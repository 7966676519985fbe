"""Arc length of a curve whose derivative is a quadratic polynomial, by Gauss-Legendre rules."""

import cmath

from garmentc.geometry.vector import dot

NODES = (
    (0.09501250983763744, 0.1894506104550685),
    (0.2816035507792589, 0.1826034150449236),
    (0.45801677765722737, 0.16915651939500254),
    (0.6178762444026438, 0.14959598881657674),
    (0.755404408355003, 0.12462897125553388),
    (0.8656312023878318, 0.09515851168249277),
    (0.9445750230732326, 0.062253523938647894),
    (0.9894009349916499, 0.027152459411754096),
)
"""Positive nodes on [-1, 1] and weights of the 16-point Gauss-Legendre rule.

Source: Abramowitz and Stegun, Handbook of Mathematical Functions, table 25.4.
"""

CLEAR = 1.45
"""A root this many widths from the ends of a stretch, together, lets one rule reach full precision.

The foci of an ellipse at the ends, its half axes add up to 2.5 half widths; the error of an n-point
rule falls like 2.5 ** (-2 n). Source: L. N. Trefethen, Approximation Theory and Approximation
Practice, theorem 19.3.
"""
FINEST = 2.0**-30
"""Stretches this short hold a cusp to machine precision."""

REAL = 1e-12
"""A root this near the real axis is on it; beside it the integrand is a polynomial."""


def speed_integral(d0: complex, d1: complex, d2: complex, t0: float, t1: float) -> float:
    """Return the integral of |d0 + d1 t + d2 t²| from t0 to t1.

    The integrand is analytic but for the complex roots of the polynomial, so a stretch is halved until
    these lie clear of it.
    """
    roots = _roots(d0, d1, d2)
    total = 0.0
    waiting = [(t0, t1)]
    while waiting:
        low, high = waiting.pop()
        if high - low > FINEST and not all(_is_clear(root, low, high) for root in roots):
            middle = (low + high) / 2
            waiting.append((middle, high))
            waiting.append((low, middle))
        else:
            total += _rule(d0, d1, d2, low, high)
    return total


def _is_clear(root: complex, low: float, high: float) -> bool:
    if abs(root.imag) < REAL:
        return not low < root.real < high
    return abs(root - low) + abs(root - high) >= CLEAR * (high - low)


def _roots(d0: complex, d1: complex, d2: complex) -> list[complex]:
    root = cmath.sqrt(d1 * d1 - 4 * d0 * d2)
    q = -(d1 + root) / 2 if dot(d1, root) >= 0 else -(d1 - root) / 2
    found = [d0 / q] if q else []
    # A root so far away that it overflows lies clear of everything.
    if d2 and abs(q) < 1e9 * abs(d2):
        found.append(q / d2)
    return found


def _rule(d0: complex, d1: complex, d2: complex, t0: float, t1: float) -> float:
    middle, half = (t0 + t1) / 2, (t1 - t0) / 2
    e1, e2 = d1 + 2 * d2 * middle, d2
    e0 = d0 + middle * (d1 + middle * d2)
    total = 0.0
    for node, weight in NODES:
        x = node * half
        even, odd = e0 + e2 * (x * x), e1 * x
        total += weight * (abs(even + odd) + abs(even - odd))
    return total * half
