"""Smooth curves through points.

Source: J. D. Hobby, "Smooth, easy to compute interpolating splines", Discrete & Computational
Geometry 1 (1986) 123-140; the equations in the form of D. E. Knuth, METAFONT: The Program, §275-277.
"""

import cmath
import math
from collections.abc import Sequence
from itertools import pairwise

from garmentc.geometry.cubic import Cubic
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.path import Path
from garmentc.geometry.vector import CLOSE, Point, turning

GREATEST_VELOCITY = 4.0
"""The bound METAFONT puts on the velocity, which grows without limit for turns near a half turn."""


def curve(
    points: Sequence[Point],
    leaving: complex | None = None,
    arriving: complex | None = None,
    leaving_tension: float = 1.0,
    arriving_tension: float = 1.0,
    curl: float = 1.0,
) -> Path:
    """Return the tangent-continuous path of cubics through two or more points.

    `leaving` and `arriving` are the directions at the two ends (any length but zero); an end without
    one gets the mock curvature `curl` times that at the other end of its cubic, 1 being about
    circular. The tensions (above 3/4 in the paper) belong to the first and the last point; larger is
    tauter, and the tension at the points between is 1. GeometryFault "coinciding-points" when
    neighbours among the points coincide; ValueError for fewer than two points, a tension that is not
    positive, or a zero direction.
    """
    if len(points) < 2:
        raise ValueError("a curve goes through at least two points")
    if not (leaving_tension > 0 and arriving_tension > 0):
        raise ValueError("a tension is positive")
    if leaving == 0 or arriving == 0:
        raise ValueError("a zero vector has no direction")
    chords = [b - a for a, b in pairwise(points)]
    for point, chord in zip(points, chords, strict=False):
        if abs(chord) <= CLOSE:
            raise GeometryFault("coinciding-points", point)
    spans = len(chords)
    # Reciprocal tensions where each span is left and reached.
    alpha = [1 / leaving_tension] + [1.0] * (spans - 1)
    beta = [1.0] * (spans - 1) + [1 / arriving_tension]
    turns = [0.0, *(turning(a, b) for a, b in pairwise(chords)), 0.0]
    first = None if leaving is None else turning(chords[0], leaving)
    last = None if arriving is None else turning(chords[-1], arriving)
    if spans == 1 and first is None and last is None:
        thetas = [0.0, 0.0]
    else:
        thetas = _leaving_angles([abs(c) for c in chords], turns, alpha, beta, first, last, curl)
    cubics = []
    for k, chord in enumerate(chords):
        theta, phi = thetas[k], -turns[k + 1] - thetas[k + 1]
        out = chord * cmath.rect(alpha[k] * _velocity(theta, phi) / 3, theta)
        back = chord * cmath.rect(beta[k] * _velocity(phi, theta) / 3, -phi)
        cubics.append(Cubic(points[k], points[k] + out, points[k + 1] - back, points[k + 1]))
    return Path(tuple(cubics))


def _velocity(theta: float, phi: float) -> float:
    """The paper's rho(theta, phi), by which a handle is longer than a third of the chord."""
    st, ct, sf, cf = math.sin(theta), math.cos(theta), math.sin(phi), math.cos(phi)
    above = 2 + math.sqrt(2) * (st - sf / 16) * (sf - st / 16) * (ct - cf)
    root = math.sqrt(5)
    below = 1 + (root - 1) / 2 * ct + (3 - root) / 2 * cf
    limit = 3 * GREATEST_VELOCITY
    return above / below if above < limit * below else limit


def _leaving_angles(
    lengths: list[float],
    turns: list[float],
    alpha: list[float],
    beta: list[float],
    first: float | None,
    last: float | None,
    curl: float,
) -> list[float]:
    """Solve for the angle from each chord to the direction at its first point.

    At the points between, mock curvatures before and after are equal:
    A θ[k-1] + (B + C) θ[k] + D θ[k+1] = -B ψ[k] - D ψ[k+1], with the turn ψ of the chords. The last
    unknown is the angle from the last chord to the direction of arrival.
    """
    spans = len(lengths)
    # Each row says: left θ[k-1] + middle θ[k] + right θ[k+1] = value.
    rows: list[tuple[float, float, float, float]] = []
    if first is not None:
        rows.append((0.0, 1.0, 0.0, first))
    else:
        near, far = _curl_weights(alpha[0], beta[0], curl)
        rows.append((0.0, near, far, -far * turns[1]))
    for k in range(1, spans):
        before, after = beta[k - 1] ** 2 * lengths[k - 1], alpha[k] ** 2 * lengths[k]
        a, b = alpha[k - 1] / before, (3 - alpha[k - 1]) / before
        c, d = (3 - beta[k]) / after, beta[k] / after
        rows.append((a, b + c, d, -b * turns[k] - d * turns[k + 1]))
    if last is not None:
        rows.append((0.0, 1.0, 0.0, last))
    else:
        near, far = _curl_weights(beta[-1], alpha[-1], curl)
        rows.append((far, near, 0.0, 0.0))
    return _solved(rows)


def _curl_weights(own: float, other: float, curl: float) -> tuple[float, float]:
    """The weights of the angle at a curled end and of the angle at the far end of its span."""
    near = other**2 * (3 - other) + curl * own**3
    far = other**3 + curl * (3 - own) * own**2
    return near, far


def _solved(rows: list[tuple[float, float, float, float]]) -> list[float]:
    """Solve a tridiagonal system by elimination without pivoting (the system is diagonally dominant)."""
    carried: list[tuple[float, float]] = []
    ratio, known = 0.0, 0.0
    for left, middle, right, value in rows:
        pivot = middle - left * ratio
        ratio, known = right / pivot, (value - left * known) / pivot
        carried.append((ratio, known))
    solution, following = [], 0.0
    for ratio, known in reversed(carried):
        following = known - ratio * following
        solution.append(following)
    return solution[::-1]
