"""Where two segments, or a segment and an infinite line, meet; in parameters of the segments."""

import math

from garmentc.geometry.arc import FULL_TURN, Arc
from garmentc.geometry.cubic import Cubic
from garmentc.geometry.line import Line
from garmentc.geometry.roots import roots_in_unit
from garmentc.geometry.segment import Box, Segment
from garmentc.geometry.vector import Point, angle_of, cross, dot, left

COARSE = 0.01
"""Chords this near (mm) to a curve give the first guesses for its meetings."""
NUDGE = 1e-4
"""How far in t a guess is moved off a place where a segment stands still."""

Pair = tuple[float, float]


def apart(one: Box, other: Box, tolerance: float) -> bool:
    """Say whether two boxes are farther apart than a tolerance (mm)."""
    return (
        one[2] + tolerance < other[0]
        or other[2] + tolerance < one[0]
        or one[3] + tolerance < other[1]
        or other[3] + tolerance < one[1]
    )


def line_roots(segment: Segment, p: Point, u: complex, tolerance: float) -> list[float]:
    """Return the parameters at which a segment meets the line through p along the unit vector u.

    A touch within the tolerance (mm) is one parameter; a segment lying on the line gives its ends.
    """
    if isinstance(segment, Arc):
        return _arc_line_roots(segment, p, u, tolerance)
    if isinstance(segment, Cubic):
        p0, p1, p2, p3 = segment.powers()
        poly = (cross(u, p0 - p), cross(u, p1), cross(u, p2), cross(u, p3))
    else:
        poly = (cross(u, segment.start - p), cross(u, segment.end - segment.start), 0.0, 0.0)
    return roots_in_unit(poly, tolerance)


def _arc_line_roots(arc: Arc, p: Point, u: complex, tolerance: float) -> list[float]:
    away = cross(u, arc.centre - p)
    foot = -away * left(u)
    square = arc.radius**2 - away * away
    if abs(abs(away) - arc.radius) <= tolerance:
        spokes = [foot]
    elif square < 0:
        return []
    else:
        spokes = [foot - math.sqrt(square) * u, foot + math.sqrt(square) * u]
    found = [t for spoke in spokes if (t := _on_arc(arc, spoke, tolerance)) is not None]
    return sorted(found)


def _on_arc(arc: Arc, spoke: complex, tolerance: float) -> float | None:
    """The parameter of the arc in the direction of a spoke, held to the ends; None when beyond them."""
    t, slack = arc.t_of_angle(angle_of(spoke)), tolerance / arc.length()
    if t <= 1 + slack:
        return min(t, 1.0)
    return 0.0 if t >= FULL_TURN / abs(arc.sweep) - slack else None


def segment_meetings(one: Segment, other: Segment, tolerance: float) -> list[Pair]:
    """Return the pairs of parameters at which two segments meet within a tolerance (mm).

    Segments that share a stretch give its ends when both are lines or both are arcs, and some
    points of it otherwise. A meeting may come more than once.
    """
    if isinstance(one, Line):
        return _with_line(one, other, tolerance)
    if isinstance(other, Line):
        return [(t, u) for u, t in _with_line(other, one, tolerance)]
    if isinstance(one, Arc) and isinstance(other, Arc):
        return _arc_meetings(one, other, tolerance)
    return _curve_meetings(one, other, tolerance)


def _with_line(line: Line, other: Segment, tolerance: float) -> list[Pair]:
    run = line.end - line.start
    length = abs(run)
    u = run / length
    found = []
    for t in line_roots(other, line.start, u, tolerance):
        along = dot(other.point(t) - line.start, u)
        if -tolerance <= along <= length + tolerance:
            found.append((min(max(along / length, 0.0), 1.0), t))
    if isinstance(other, Line):
        for t in (0.0, 1.0):
            at, distance = other.nearest(line.point(t))
            if distance <= tolerance:
                found.append((t, at))
    return found


def _arc_meetings(one: Arc, other: Arc, tolerance: float) -> list[Pair]:
    between = other.centre - one.centre
    distance = abs(between)
    r, q = one.radius, other.radius
    found: list[Pair] = []
    if distance > tolerance:
        if distance > r + q + tolerance or distance < abs(r - q) - tolerance:
            return found
        u = between / distance
        along = (r * r - q * q + distance * distance) / (2 * distance)
        aside = math.sqrt(max(r * r - along * along, 0.0))
        for spoke in {complex(along, aside), complex(along, -aside)}:
            foot = one.centre + spoke * u
            t = _on_arc(one, foot - one.centre, tolerance)
            v = _on_arc(other, foot - other.centre, tolerance)
            if t is not None and v is not None:
                found.append((t, v))
    elif abs(r - q) <= tolerance:
        found = [(t, v) for t in (0.0, 1.0) for v, d in [other.nearest(one.point(t))] if d <= tolerance]
        found += [(t, v) for v in (0.0, 1.0) for t, d in [one.nearest(other.point(v))] if d <= tolerance]
    return found


def _curve_meetings(one: Segment, other: Segment, tolerance: float) -> list[Pair]:
    """Guess from coarse chords whose boxes overlap, and settle each guess by Newton's method."""
    ones, others = _chords(one, other.bounds()), _chords(other, one.bounds())
    step, pace = 1.5 / one.steps(COARSE), 1.5 / other.steps(COARSE)
    found = []
    for t0, t1, box in ones:
        for v0, v1, box2 in others:
            if apart(box, box2, 2 * COARSE):
                continue
            for t in (t0, (t0 + t1) / 2, t1):
                v = (v0 + v1) / 2
                settled = settle(one, t, other, v, step, pace)
                if settled is not None and settled[2] <= tolerance:
                    found.append((settled[0], settled[1]))
    return found


def _chords(segment: Segment, near: Box) -> list[tuple[float, float, Box]]:
    count = segment.steps(COARSE)
    points = [segment.start, *segment.flatten(COARSE)]
    chords = []
    for i in range(count):
        box = Line(points[i], points[i + 1]).bounds()
        if not apart(box, near, 2 * COARSE):
            chords.append((i / count, (i + 1) / count, box))
    return chords


def settle(
    one: Segment, t: float, other: Segment, v: float, step: float = 2.0, pace: float = 2.0
) -> tuple[float, float, float] | None:
    """Bring guessed parameters of two segments to a meeting by Newton's method.

    They stay within `step` and `pace` of the guess and on the segments. Returns both parameters and
    the distance (mm) that is left, or None for a segment that is one point.
    """
    low, high = max(t - step, 0.0), min(t + step, 1.0)
    low2, high2 = max(v - pace, 0.0), min(v + pace, 1.0)
    gap = other.point(v) - one.point(t)
    for _ in range(40):
        if abs(gap) <= 1e-12:
            break
        da, db = one.derivatives(t)[0], other.derivatives(v)[0]
        if not da:
            t += NUDGE if t < 0.5 else -NUDGE
            da = one.derivatives(t)[0]
        if not db:
            v += NUDGE if v < 0.5 else -NUDGE
            db = other.derivatives(v)[0]
        square, square2 = dot(da, da), dot(db, db)
        if square == 0.0 or square2 == 0.0:
            return None
        area = cross(da, db)
        if area * area > 1e-16 * square * square2:
            new, new2 = t + cross(gap, db) / area, v + cross(gap, da) / area
        else:
            new, new2 = t + dot(gap, da) / (2 * square), v - dot(gap, db) / (2 * square2)
        new, new2 = min(max(new, low), high), min(max(new2, low2), high2)
        still = abs(new - t) + abs(new2 - v) <= 1e-15
        t, v = new, new2
        gap = other.point(v) - one.point(t)
        if still:
            break
    return t, v, abs(gap)


def meet_lines(p: Point, u: complex, q: Point, v: complex) -> Point | None:
    """Return where the infinite lines through p along u and through q along v meet.

    None when they are parallel (the sine of their angle below 1e-12).
    """
    area = cross(u, v)
    if abs(area) <= 1e-12 * abs(u) * abs(v):
        return None
    return p + cross(q - p, v) / area * u
