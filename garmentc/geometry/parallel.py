"""Parallel curves at a constant distance."""

from collections.abc import Sequence
from itertools import pairwise

from garmentc.geometry.arc import Arc
from garmentc.geometry.cubic import Cubic
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.joint import fitted, mitred, whole_end, whole_start
from garmentc.geometry.line import Line
from garmentc.geometry.path import Path
from garmentc.geometry.segment import Segment
from garmentc.geometry.vector import CLOSE, dot, left

MITRE_LIMIT = 3.0
"""A tip may lie this many distances from its corner before it is cut off."""
CHECKS = 16
DEEPEST = 10
MANY = 8
"""A cubic that is halved into more fits than this is fitted again, each fit as long as it can be."""
ROUNDS = 2
HOPELESS = 30.0
"""A first fit that deviates by this many tolerances is not improved but split."""

FITTED_AT = (1 / 6, 1 / 3, 1 / 2, 2 / 3, 5 / 6)


def parallel(path: Path, distance: float, tolerance: float = 0.01) -> Path:
    """Return the curve at a signed distance (mm) from a path, positive to the left of travel.

    Lines stay lines and arcs arcs. The parallel q(t) = p(t) + d n(t) of a cubic has the direction of
    the cubic itself and the speed (1 - d κ) |p'|; it is fitted by cubics, tangent-continuous, to a
    measured deviation of at most `tolerance` mm. Corners between segments are mitred.
    GeometryFault "too-tight" (with radius and distance) at the tightest place of a curve whose radius
    on that side is no larger than the distance; "no-meeting" at a corner whose sides do not meet.
    """
    if distance == 0.0:
        return path
    runs: list[list[Segment]] = []
    corners = []
    for segment in path.segments:
        shifted = _shifted(segment, distance, tolerance)
        if runs and abs(runs[-1][-1].end - shifted[0].start) <= CLOSE:
            runs[-1].extend(shifted)
        else:
            corners.append(segment.start)
            runs.append(shifted)
    paths = [Path(tuple(run)) for run in runs]
    if len(paths) == 1:
        return paths[0]
    segments: list[Segment] = []
    first = whole_start(paths[0])
    for (a, b), corner in zip(pairwise(paths), corners[1:], strict=True):
        joint = mitred(a, b, corner, MITRE_LIMIT * abs(distance))
        segments.extend(fitted(a, first, joint.before).segments)
        if joint.between is not None:
            segments.extend(joint.between.segments)
        first = joint.after
    segments.extend(fitted(paths[-1], first, whole_end(paths[-1])).segments)
    return Path(tuple(segments))


def _shifted(segment: Segment, distance: float, tolerance: float) -> list[Segment]:
    if isinstance(segment, Line):
        aside = distance * left(segment.tangent(0.0))
        return [Line(segment.start + aside, segment.end + aside)]
    if isinstance(segment, Arc):
        radius = segment.radius - (distance if segment.sweep > 0 else -distance)
        if radius <= CLOSE:
            raise _too_tight(segment, 0.5, distance)
        return [Arc(segment.centre, radius, segment.start_angle, segment.sweep)]
    assert isinstance(segment, Cubic)
    _check_room(segment, distance)
    fits = _fits(segment, 0.0, 1.0, distance, tolerance, DEEPEST)
    if len(fits) > MANY:
        fits = _stretched(segment, fits, distance, tolerance)
    return [fit for _, fit in fits]


def _too_tight(segment: Segment, t: float, distance: float) -> GeometryFault:
    bend = abs(segment.curvature(t))
    numbers = {"radius": 1 / bend, "distance": abs(distance)}
    return GeometryFault("too-tight", segment.point(t), numbers)


def _check_room(cubic: Cubic, distance: float) -> None:
    """Fault where the cubic turns toward the parallel in a radius no larger than the distance."""
    values = [distance * cubic.curvature(i / CHECKS) for i in range(CHECKS + 1)]
    most = max(values)
    t, step = values.index(most) / CHECKS, 1 / CHECKS
    # Only a peak near one can hide a higher one between the samples.
    while most > 0.5 and step > 1e-4:
        step /= 2
        for near in (max(t - step, 0.0), min(t + step, 1.0)):
            value = distance * cubic.curvature(near)
            if value > most:
                most, t = value, near
    if most >= 1.0:
        raise _too_tight(cubic, t, distance)


Part = tuple[float, Cubic]
"""Up to which parameter of the cubic, and the parallel there."""


def _fits(cubic: Cubic, t0: float, t1: float, distance: float, tolerance: float, deeper: int) -> list[Part]:
    fit = _fit(cubic, t0, t1, distance, tolerance, last=not deeper)
    if fit is not None:
        return [(t1, fit)]
    middle = (t0 + t1) / 2
    before = _fits(cubic, t0, middle, distance, tolerance, deeper - 1)
    return before + _fits(cubic, middle, t1, distance, tolerance, deeper - 1)


def _stretched(cubic: Cubic, parts: list[Part], distance: float, tolerance: float) -> list[Part]:
    """Fewer parts: halving cuts at the same places whatever the curve, and a hard place cuts what lies beside it.

    From each place the fit goes on over as many cuts as it can, then half-way to the next.
    """
    cuts = [t for t, _ in parts]
    longest: list[Part] = []
    at = 0.0
    while at < 1.0:
        ends = [t for t in cuts if t > at]
        best: Part | None = None
        for end in ends:
            fit = _fit(cubic, at, end, distance, tolerance, last=False)
            if fit is None:
                break
            best = (end, fit)
        if best is None:
            return parts
        if best[0] < 1.0:
            half = (best[0] + ends[ends.index(best[0]) + 1]) / 2
            fit = _fit(cubic, at, half, distance, tolerance, last=False)
            best = best if fit is None else (half, fit)
        longest.append(best)
        at = best[0]
    return min(longest, parts, key=len)


def _fit(cubic: Cubic, t0: float, t1: float, distance: float, tolerance: float, last: bool) -> Cubic | None:
    """Fit one cubic with the ends and end tangents of a part of the parallel; None if it deviates.

    The lengths of the two handles are the least squares solution at sample points; if that is not
    close enough, the parameters of the samples are moved to the feet of their perpendiculars and the
    lengths solved for again. The `last` fit is taken as it is.
    Source: J. Hoschek, "Spline approximation of offset curves", Computer Aided Geometric Design 5
    (1988) 33-40.
    """
    u, v = cubic.tangent(t0), cubic.tangent(t1)
    start, end = cubic.point(t0) + distance * left(u), cubic.point(t1) + distance * left(v)
    p0, p1, p2, p3 = cubic.powers()
    aside = distance * 1j
    aims = []
    for x in FITTED_AT:
        t = t0 + x * (t1 - t0)
        first = p1 + t * (2 * p2 + 3 * t * p3)
        aims.append(p0 + t * (p1 + t * (p2 + t * p3)) + first * (aside / abs(first)))
    params: Sequence[float] = FITTED_AT
    for _ in range(ROUNDS):
        fit = _handled(start, u, v, end, aims, params)
        deviation, params = _feet(fit, aims, params)
        if deviation <= tolerance:
            return fit
        if deviation > HOPELESS * tolerance:
            break
    return fit if last else None


def _handled(
    start: complex, u: complex, v: complex, end: complex, aims: list[complex], params: Sequence[float]
) -> Cubic:
    """The cubic with given ends and end directions whose handle lengths bring it closest to the aims."""
    aa = ab = bb = ar = br = 0.0
    run, back, back2 = end - start, u.conjugate(), v.conjugate()
    for t, aim in zip(params, aims, strict=True):
        r = 1.0 - t
        wa, wb = 3 * r * r * t, 3 * r * t * t
        rest = aim - start - (wb + t * t * t) * run
        aa += wa * wa
        ab += wa * wb
        bb += wb * wb
        ar += wa * (rest * back).real
        br -= wb * (rest * back2).real
    ab *= -dot(u, v)
    area = aa * bb - ab * ab
    least = abs(run) / 100
    a, b = max((ar * bb - br * ab) / area, least), max((br * aa - ar * ab) / area, least)
    return Cubic(start, start + a * u, end - b * v, end)


def _feet(fit: Cubic, aims: list[complex], params: Sequence[float]) -> tuple[float, list[float]]:
    """The largest distance of the aims across the fit, and the parameters of their feet on it."""
    f0, f1, f2, f3 = fit.powers()
    g2, g3 = 2 * f2, 3 * f3
    most = 0.0
    moved = []
    for t, aim in zip(params, aims, strict=True):
        away = aim - f0 - t * (f1 + t * (f2 + t * f3))
        first = f1 + t * (g2 + t * g3)
        speed = abs(first)
        both = away * first.conjugate() / speed
        moved.append(t + both.real / speed)
        most = max(most, both.imag, -both.imag)
    return most, moved
