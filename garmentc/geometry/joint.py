"""How two paths that run along the sides of a corner are brought together."""

import math
from typing import NamedTuple

from garmentc.geometry.crossing import line_places, meet_lines, place_meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.line import Line
from garmentc.geometry.meeting import settle
from garmentc.geometry.path import Path, Place, straight
from garmentc.geometry.segment import Segment
from garmentc.geometry.vector import CLOSE, Point, dot, left, unit


class Reach(NamedTuple):
    """How far a path is used at one end: to a place on it, and from there straight to a point."""

    place: Place
    to: Point


class Joint(NamedTuple):
    """The end of one path, the start of the next, and what lies between if they do not touch."""

    before: Reach
    between: Path | None
    after: Reach


def whole_end(path: Path) -> Reach:
    """Return the reach of a path used to its very end."""
    return Reach(path.last_place, path.end)


def whole_start(path: Path) -> Reach:
    """Return the reach of a path used from its very start."""
    return Reach(path.first_place, path.start)


def stepped(a: Path, b: Path) -> Joint:
    """Return the joint straight across from the end of a to the start of b."""
    between = None if abs(a.end - b.start) <= CLOSE else straight(a.end, b.start)
    return Joint(whole_end(a), between, whole_start(b))


def fitted(path: Path, first: Reach, last: Reach) -> Path:
    """Return a path trimmed and lengthened to its reaches.

    GeometryFault "too-tight" (with the missing length) when they leave nothing of it.
    """
    if first.place >= last.place:
        missing = path.position(first.place) - path.position(last.place)
        raise GeometryFault("too-tight", (first.to + last.to) / 2, {"missing": missing})
    segments = list(path.part(first.place, last.place).segments)
    if abs(first.to - segments[0].start) > CLOSE:
        if isinstance(segments[0], Line):
            segments[0] = Line(first.to, segments[0].end)
        else:
            segments.insert(0, Line(first.to, segments[0].start))
    if abs(last.to - segments[-1].end) > CLOSE:
        if isinstance(segments[-1], Line):
            segments[-1] = Line(segments[-1].start, last.to)
        else:
            segments.append(Line(segments[-1].end, last.to))
    return Path(tuple(segments))


def mitred(a: Path, b: Path, corner: Point, limit: float) -> Joint:
    """Return the joint of two paths that pass a corner on the same side.

    Where both have to be lengthened they go on along their tangents to the tip where these meet; a
    tip farther than `limit` mm from the corner is cut off at that distance, square to the line from
    the corner to the tip. Where one or both have to be shortened they end where they meet. Paths
    at different distances from the corner that do not meet are joined by a straight step;
    GeometryFault "no-meeting" (with the distance) when the distances are equal.
    """
    if abs(a.end - b.start) <= CLOSE:
        return stepped(a, b)
    u, v = a.end_direction(), b.start_direction()
    tip = meet_lines(a.end, u, b.start, v)
    if tip is None:
        return stepped(a, b)
    ahead, behind = dot(tip - a.end, u), dot(b.start - tip, v)
    if ahead >= -CLOSE and behind >= -CLOSE:
        if abs(tip - corner) <= limit:
            return Joint(Reach(a.last_place, tip), None, Reach(b.first_place, tip))
        return _cut_off(a, b, corner, tip, limit)
    # The tangents foretell which side is lengthened, but the curves may have it otherwise.
    joint = (
        (_trimmed(a, b, corner, ahead, behind, math.inf) if ahead < 0 and behind < 0 else None)
        or (_met_from_behind(a, b, v, limit) if ahead < 0 else _met_ahead(a, b, u, limit))
        or _trimmed(a, b, corner, ahead, behind, limit)
        or (_met_ahead(a, b, u, limit) if ahead < 0 else _met_from_behind(a, b, v, limit))
    )
    if joint is not None:
        return joint
    distance = abs(a.end - corner)
    if abs(distance - abs(b.start - corner)) <= CLOSE:
        raise GeometryFault("no-meeting", corner, {"distance": distance})
    return stepped(a, b)


def _cut_off(a: Path, b: Path, corner: Point, tip: Point, limit: float) -> Joint:
    toward = unit(tip - corner)
    middle, across = corner + limit * toward, left(toward)
    p = meet_lines(a.end, a.end_direction(), middle, across)
    q = meet_lines(b.start, b.start_direction(), middle, across)
    if p is None or q is None:
        return stepped(a, b)
    return Joint(Reach(a.last_place, p), straight(p, q), Reach(b.first_place, q))


def _trimmed(a: Path, b: Path, corner: Point, ahead: float, behind: float, limit: float) -> Joint | None:
    """Where both paths are shortened: Newton's method from where the tangents meet, else a search."""
    last, first = a.segments[-1], b.segments[0]
    t = min(max(1 + ahead / _speed(last, 1.0), 0.0), 1.0)
    v = min(max(-behind / _speed(first, 0.0), 0.0), 1.0)
    met = settle(last, t, first, v)
    if met is not None and met[2] <= CLOSE / 1000:
        i = len(a.segments) - 1
        found = [((i, met[0]), (0, met[1]), last.point(met[0]))]
    else:
        found = place_meetings(a, b)
    near = [meeting for meeting in found if abs(meeting[2] - corner) <= limit]
    if not near:
        return None
    one, other, at = min(near, key=lambda meeting: abs(meeting[2] - corner))
    return Joint(Reach(one, at), None, Reach(other, at))


def _speed(segment: Segment, t: float) -> float:
    return abs(segment.derivatives(t)[0]) or abs(segment.end - segment.start) or 1.0


def _met_ahead(a: Path, b: Path, u: complex, limit: float) -> Joint | None:
    """Where a is lengthened and b shortened: the first meeting of b with the tangent of a."""
    for place, at in line_places(b, a.end, u):
        if -CLOSE <= dot(at - a.end, u) <= limit:
            return Joint(Reach(a.last_place, at), None, Reach(place, at))
    return None


def _met_from_behind(a: Path, b: Path, v: complex, limit: float) -> Joint | None:
    """Where a is shortened and b lengthened: the last meeting of a with the tangent of b."""
    for place, at in reversed(line_places(a, b.start, v)):
        if -CLOSE <= dot(b.start - at, v) <= limit:
            return Joint(Reach(place, at), None, Reach(b.first_place, at))
    return None
