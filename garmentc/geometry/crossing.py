"""Where paths meet each other, an infinite line, or themselves."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from garmentc.geometry.line import Line
from garmentc.geometry.meeting import apart, line_roots, meet_lines, segment_meetings, settle
from garmentc.geometry.path import Path, Place
from garmentc.geometry.segment import Segment
from garmentc.geometry.vector import CLOSE, Point, cross, dot, unit

__all__ = ["Crossing", "find_crossing", "line_meetings", "meet_lines", "meetings"]

SWEEP_TOLERANCE = 0.05
"""Chords this near (mm) to a ring are searched for crossings; shallower ones may be missed."""
JOINT = 1e-3
"""A meeting this near (mm) to where two neighbours are joined is their joint."""


@dataclass(frozen=True, slots=True)
class Crossing:
    """A place where a ring of edges crosses itself: the two edges, the point, the positions on both."""

    edges: tuple[int, int]
    at: Point
    positions: tuple[float, float]


def meetings(a: Path, b: Path, tolerance: float = CLOSE) -> list[tuple[float, float, Point]]:
    """Return all meetings of two paths: the positions on both (mm) and the point, in order along a.

    Touches within the tolerance (mm) count. Meetings nearer to each other than ten times the
    tolerance are one. Of a shared stretch its ends are given when it is of lines or of arcs, and
    some points of it otherwise.
    """
    found = [(a.position(one), b.position(other), at) for one, other, at in place_meetings(a, b, tolerance)]
    kept: list[tuple[float, float, Point]] = []
    for sa, sb, at in sorted(found, key=lambda meeting: meeting[:2]):
        if not any(max(abs(sa - s), abs(sb - r)) <= 10 * tolerance for s, r, _ in kept):
            kept.append((sa, sb, at))
    return kept


def place_meetings(a: Path, b: Path, tolerance: float = CLOSE) -> list[tuple[Place, Place, Point]]:
    """Return the meetings of two paths by places, in no order, some perhaps more than once."""
    found = []
    boxes = [segment.bounds() for segment in b.segments]
    for i, one in enumerate(a.segments):
        box = one.bounds()
        for j, other in enumerate(b.segments):
            if not apart(box, boxes[j], tolerance):
                for t, v in segment_meetings(one, other, tolerance):
                    found.append(((i, t), (j, v), one.point(t)))
    return found


def line_meetings(path: Path, p: Point, direction: complex) -> list[tuple[float, Point]]:
    """Return where a path meets the infinite line through p: positions (mm) and points, in order.

    A touch, and a joint of two segments on the line, is one meeting; a straight stretch on the
    line gives its ends. ValueError for a zero direction.
    """
    found: list[tuple[float, Point]] = []
    for place, at in line_places(path, p, unit(direction)):
        s = path.position(place)
        if not found or s - found[-1][0] > CLOSE:
            found.append((s, at))
    return found


def line_places(path: Path, p: Point, u: complex) -> list[tuple[Place, Point]]:
    """Return the places where a path meets the line through p along the unit vector u, in order.

    A joint of two segments on the line comes twice.
    """
    return [
        ((i, t), segment.point(t))
        for i, segment in enumerate(path.segments)
        for t in line_roots(segment, p, u, CLOSE / 10)
    ]


Chord = tuple[float, float, float, float, float, float, float, float, int, int, int]
"""xmin, xmax, ymin, ymax, start x and y, end x and y, number in the ring, segment, number in the segment."""


def find_crossing(ring: Sequence[Path]) -> Crossing | None:
    """Return the first place where a closed ring of edges meets itself other than where it is joined.

    The edges follow each other, the last ending where the first begins. First is by edge and
    position on it. A line that runs back along the one before meets it at their joint. A crossing
    shallower than 0.05 mm between curves may be missed.
    """
    owners = [(e, i) for e, path in enumerate(ring) for i in range(len(path.segments))]
    segments = [ring[e].segments[i] for e, i in owners]
    best = _run_back(ring, owners)
    for one, other in _crossing_chords(_ring_chords(segments)):
        if one[8] > other[8]:
            one, other = other, one
        met = _refined(segments, one, other)
        if met is None:
            continue
        t, v, at = met
        (e, i), (f, j) = owners[one[9]], owners[other[9]]
        crossing = Crossing((e, f), at, (ring[e].position((i, t)), ring[f].position((j, v))))
        if best is None or (e, crossing.positions[0]) < (best.edges[0], best.positions[0]):
            best = crossing
    return best


def _run_back(ring: Sequence[Path], owners: Sequence[tuple[int, int]]) -> Crossing | None:
    """The first line that runs back along the line before it."""
    for (e, i), (f, j) in pairwise([*owners, owners[0]]):
        one, other = ring[e].segments[i], ring[f].segments[j]
        if isinstance(one, Line) and isinstance(other, Line) and one is not other:
            u, v = one.end - one.start, other.end - other.start
            if min(abs(u), abs(v)) > JOINT and dot(u, v) < 0 and abs(cross(u, v)) <= CLOSE * max(abs(u), abs(v)):
                return Crossing((e, f), one.end, (ring[e].position((i, 1.0)), ring[f].position((j, 0.0))))
    return None


def _ring_chords(segments: Sequence[Segment]) -> list[Chord]:
    chords: list[Chord] = []
    for number, segment in enumerate(segments):
        start = segment.start
        ax, ay = start.real, start.imag
        for i, point in enumerate(segment.flatten(SWEEP_TOLERANCE)):
            bx, by = point.real, point.imag
            west, east = (ax, bx) if ax < bx else (bx, ax)
            south, north = (ay, by) if ay < by else (by, ay)
            chords.append((west, east, south, north, ax, ay, bx, by, len(chords), number, i))
            ax, ay = bx, by
    return chords


def _crossing_chords(chords: list[Chord]) -> list[tuple[Chord, Chord]]:
    """Sweep from left to right and return the pairs of chords that meet, neighbours left out."""
    last = len(chords) - 1
    found = []
    active: list[Chord] = []
    for chord in sorted(chords):
        xmin, _, ymin, ymax, ax, ay, bx, by, number, _, _ = chord
        dx, dy = bx - ax, by - ay
        active = [other for other in active if other[1] >= xmin]
        for other in active:
            if other[2] > ymax or other[3] < ymin or not 1 < abs(number - other[8]) < last:
                continue
            _, _, _, _, cx, cy, ex, ey, _, _, _ = other
            if (dx * (cy - ay) - dy * (cx - ax)) * (dx * (ey - ay) - dy * (ex - ax)) > 0:
                continue
            fx, fy = ex - cx, ey - cy
            if (fx * (ay - cy) - fy * (ax - cx)) * (fx * (by - cy) - fy * (bx - cx)) <= 0:
                found.append((chord, other))
        active.append(chord)
    return found


def _refined(segments: Sequence[Segment], one: Chord, other: Chord) -> tuple[float, float, Point] | None:
    """The parameters and place of the true meeting near two crossing chords; None when there is none."""
    a, b = one[9], other[9]
    first, second = segments[a], segments[b]
    step, pace = 1 / first.steps(SWEEP_TOLERANCE), 1 / second.steps(SWEEP_TOLERANCE)
    x, y = _fractions(one, other)
    met = settle(first, (one[10] + x) * step, second, (other[10] + y) * pace, 2 * step, 2 * pace)
    if met is None or met[2] > CLOSE:
        return None
    t, v, _ = met
    at = first.point(t)
    if a == b and abs(t - v) < step:
        return None
    count = len(segments)
    joined = (b - a == 1 and abs(at - first.end) <= JOINT) or ((a - b) % count == 1 and abs(at - first.start) <= JOINT)
    return None if joined else (t, v, at)


def _fractions(one: Chord, other: Chord) -> tuple[float, float]:
    """How far along each of two chords their common point is; for chords in one line, some common point."""
    a, c = complex(one[4], one[5]), complex(other[4], other[5])
    u, v = complex(one[6], one[7]) - a, complex(other[6], other[7]) - c
    at = meet_lines(a, u, c, v)
    if at is None:
        ends = (a, a + u, c, c + v)
        along = sorted(ends, key=lambda z: (z * u.conjugate()).real)
        at = (along[1] + along[2]) / 2
    x = ((at - a) * u.conjugate()).real / abs(u) ** 2
    y = ((at - c) * v.conjugate()).real / abs(v) ** 2
    return x, y
