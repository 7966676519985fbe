"""Places at which a shape has its edges on finished edges of the cloth and its points on corners of it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from garmentc.cloth.model import Ground, Shape, Turn
from garmentc.cloth.turns import is_way_up, off_grain, turns
from garmentc.cloth.verify import corners, sides_at
from garmentc.geometry.vector import Point, angle_of, cross, dot, unit
from garmentc.record import Record

NEAR = 0.05
"""How far (mm) an edge may be off a hem in what is sought: half of what the verifier lets pass."""


class Track(Record):
    """A way to hold a shape, and the places of its origin from which all its demands are met: on a line, or a point.

    ``start`` and ``end`` are None where nothing is asked. ``sides`` are those of the cloth on which it has an edge.
    """

    turn: Turn
    start: Point | None
    end: Point | None
    sides: frozenset[int]


def tracks(shape: Shape, ground: Ground, near: float = NEAR, held: Sequence[Turn] | None = None) -> tuple[Track, ...]:
    """All tracks of a shape, in a fixed order; none when no way to hold it meets what is asked of its edges.

    ``near`` is how far (mm) edges may be off. ``held`` are the ways to hold it; if left out, those with its first such
    edge along a finished side, or with its grain exactly on the threads.
    """
    if not shape.hems:
        free = (Track(turn, None, None, frozenset()) for turn in (turns(shape, ground) if held is None else held))
        return tuple(one for track in free for one in _on_corners(track, shape, ground, near))
    found: dict[tuple[object, ...], Track] = {}
    for turn in _along_sides(shape, ground) if held is None else held:
        ways = [Track(turn, None, None, frozenset())]
        for i in range(len(shape.hems)):
            ways = [one for way in ways for one in _on_sides(way, shape, i, ground, near)]
        for way in ways:
            for one in _on_corners(way, shape, ground, near):
                found.setdefault((_near(one.turn), _at(one.start), _at(one.end)), one)
    return tuple(found.values())


def _along_sides(shape: Shape, ground: Ground) -> Iterator[Turn]:
    """The ways to hold a shape whose first edge then runs along a finished side."""
    seen: set[tuple[int, bool]] = set()
    for over in (False, True) if ground.is_alike else (False,):
        edge = _edge(shape, 0, Turn(0.0, over))
        for side in ground.sides:
            if not (side.finish and side.is_straight):
                continue
            angle = (angle_of(side.points[-1] - side.points[0]) - angle_of(edge[1] - edge[0])) % (2 * math.pi)
            turn = Turn(0.0 if 2 * math.pi - angle < 1e-9 else angle, over)
            fits = off_grain(shape, turn, ground) <= shape.within + 1e-9 and is_way_up(shape, turn, ground)
            if fits and _near(turn) not in seen:
                seen.add(_near(turn))
                yield turn


def _on_sides(track: Track, shape: Shape, i: int, ground: Ground, near: float) -> Iterator[Track]:
    """What is left of a track when one more edge has to lie on a finished side."""
    a, b = _edge(shape, i, track.turn)
    long = abs(b - a)
    for number, side in enumerate(ground.sides):
        if not (side.finish and side.is_straight):
            continue
        start, end = side.points[0], side.points[-1]
        along, room = unit(end - start), abs(end - start) - long
        if dot(b - a, along) > 0 and abs(cross(b - a, along)) <= near and room >= -near:
            own = (start - a, start - a + along * max(room, 0.0))
            for one in _meet(track, own, near):
                yield track._replace(start=one[0], end=one[1], sides=track.sides | {number})


def _on_corners(track: Track, shape: Shape, ground: Ground, near: float) -> Iterator[Track]:
    ways = [track]
    for _, at in shape.corners:
        p = track.turn.motion.apply(at)
        ways = [
            way._replace(start=one[0], end=one[1], sides=way.sides | sides_at(ground, corner))
            for way in ways
            for corner in corners(ground)
            for one in _meet(way, (corner - p, corner - p), near)
        ]
    yield from ways


def _meet(track: Track, line: tuple[Point, Point], near: float) -> Iterator[tuple[Point, Point]]:
    """The places of a track that also lie on a line, within what is near enough."""
    if track.start is None or track.end is None:
        yield line
        return
    (a, b), (c, d) = (track.start, track.end), line
    if abs(b - a) < abs(d - c):
        (a, b), (c, d) = (c, d), (a, b)
    if abs(b - a) <= near:  # two points
        if abs(a - c) <= near:
            yield c, c
        return
    along = unit(b - a)
    off, slope = cross(along, c - a), cross(along, d - c)
    low, high = 0.0, abs(b - a)
    if abs(slope) <= near:  # a point, or a line along it
        if abs(off) > near:
            return
        first, last = sorted((dot(c - a, along), dot(d - a, along)))
        first, last = max(first, low), min(last, high)
        if first <= last + near:
            yield a + along * first, a + along * max(first, last)
        return
    share = -off / slope
    reach = near / abs(d - c)
    p = c + (d - c) * share
    if -reach <= share <= 1 + reach and low - near <= dot(p - a, along) <= high + near:
        yield p, p


def _edge(shape: Shape, i: int, turn: Turn) -> tuple[Point, Point]:
    """An edge that lies on a hem, as it is held, with the shape on its left."""
    path = shape.hems[i][1]
    a, b = turn.motion.apply(path.start), turn.motion.apply(path.end)
    return (b, a) if turn.over else (a, b)


def _near(turn: Turn) -> tuple[int, bool]:
    return round(turn.angle * 1e6), turn.over


def _at(p: Point | None) -> tuple[float, float] | None:
    return None if p is None else (round(p.real, 2), round(p.imag, 2))
