"""Circular arcs from points and sizes on them."""

import math

from garmentc.geometry.arc import FULL_TURN, Arc
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.vector import CLOSE, Point, angle_of, cross, dot, left


def arc_through(a: Point, p: Point, b: Point) -> Arc:
    """Return the arc from a through p to b.

    The centre is the meeting of the perpendicular bisectors. GeometryFault "coinciding-points" when
    two of the points coincide, "straight" when all three lie on one line.
    """
    for one, other in ((a, p), (p, b), (a, b)):
        if abs(one - other) <= CLOSE:
            raise GeometryFault("coinciding-points", one)
    u, v = p - a, b - a
    twice = 2 * cross(u, v)
    if abs(twice) <= 1e-12 * abs(u) * abs(v):
        raise GeometryFault("straight", p)
    spoke = left(dot(u, u) * v - dot(v, v) * u) / -twice
    sweep = (angle_of(b - a - spoke) - angle_of(-spoke)) % FULL_TURN
    if twice < 0:
        sweep -= FULL_TURN
    return Arc(a + spoke, abs(spoke), angle_of(-spoke), sweep)


def arc_with_bulge(a: Point, b: Point, sagitta: float) -> Arc:
    """Return the arc from a to b whose middle lies `sagitta` mm left of the chord (right if negative).

    With half-chord c and sagitta h the radius is (c² + h²) / 2h and the sweep 4 atan(h / c).
    GeometryFault "coinciding-points" when a and b coincide, "straight" for a sagitta of zero.
    """
    half = abs(b - a) / 2
    if half <= CLOSE / 2:
        raise GeometryFault("coinciding-points", a)
    if sagitta == 0.0:
        raise GeometryFault("straight", (a + b) / 2)
    radius = (half * half + sagitta * sagitta) / (2 * sagitta)
    centre = (a + b) / 2 + left(b - a) / (2 * half) * (sagitta - radius)
    return Arc(centre, abs(radius), angle_of(a - centre), -4 * math.atan(sagitta / half))


def arc_with_radius(a: Point, b: Point, radius: float, to_left: bool) -> Arc:
    """Return the arc of at most a half turn from a to b with a radius, bulging left or right of a->b.

    GeometryFault "coinciding-points" when a and b coincide, "too-small-radius" (with radius and
    half-chord) when the radius is below half the chord.
    """
    half = abs(b - a) / 2
    if half <= CLOSE / 2:
        raise GeometryFault("coinciding-points", a)
    if radius < half - CLOSE:
        raise GeometryFault("too-small-radius", (a + b) / 2, {"radius": radius, "half-chord": half})
    reach = max(radius, half)
    sagitta = reach - math.sqrt(reach * reach - half * half)
    return arc_with_bulge(a, b, sagitta if to_left else -sagitta)


def circle_arc(centre: Point, start: Point, sweep: float) -> Arc:
    """Return the arc about a centre from a start point through a signed angle (radians).

    GeometryFault "coinciding-points" when the start is the centre.
    """
    if abs(start - centre) <= CLOSE:
        raise GeometryFault("coinciding-points", centre)
    return Arc(centre, abs(start - centre), angle_of(start - centre), sweep)
