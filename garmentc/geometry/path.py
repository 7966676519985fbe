"""Paths: segments end to end, measured by arc length."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from garmentc.geometry.line import Line
from garmentc.geometry.motion import Motion
from garmentc.geometry.segment import Box, Segment
from garmentc.geometry.vector import CLOSE, Point, cross, dot, unit

SLIVER = 1e-9
"""A cut this near (mm) to a joint between segments is made at the joint."""

Place = tuple[int, float]
"""The number of a segment of a path and a parameter on it; places are in order along the path."""


@dataclass(frozen=True, slots=True)
class Path:
    """One or more segments, each beginning where the one before ends (to 1e-6 mm).

    Positions along it are arc lengths in mm from the start. ValueError when it is empty or broken.
    """

    segments: tuple[Segment, ...]
    _stations: tuple[float, ...] = field(default=(), init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        if not self.segments:
            raise ValueError("a path has at least one segment")
        for one, other in pairwise(self.segments):
            if not abs(one.end - other.start) <= CLOSE:
                raise ValueError(f"path broken between {one.end} and {other.start}")

    @property
    def start(self) -> Point:
        """The first point."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """The last point."""
        return self.segments[-1].end

    @property
    def chord(self) -> complex:
        """The vector from start to end."""
        return self.end - self.start

    @property
    def stations(self) -> tuple[float, ...]:
        """The positions of the ends of the segments: 0 first, the length last."""
        if not self._stations:
            total, stations = 0.0, [0.0]
            for segment in self.segments:
                total += segment.length()
                stations.append(total)
            object.__setattr__(self, "_stations", tuple(stations))
        return self._stations

    @property
    def length(self) -> float:
        """The arc length (mm)."""
        return self.stations[-1]

    @property
    def first_place(self) -> Place:
        """The place of the start."""
        return 0, 0.0

    @property
    def last_place(self) -> Place:
        """The place of the end."""
        return len(self.segments) - 1, 1.0

    def place(self, s: float) -> Place:
        """Return the place at a position, held to the ends."""
        stations = self.stations
        last = len(self.segments) - 1
        i = min(max(bisect_right(stations, s) - 1, 0), last)
        return i, self.segments[i].t_at_length(s - stations[i])

    def position(self, place: Place) -> float:
        """Return the position (mm) of a place."""
        i, t = place
        return self.stations[i] + self.segments[i].length_to(t)

    def point_at(self, s: float) -> Point:
        """Return the point at a position, held to the ends."""
        i, t = self.place(s)
        return self.segments[i].point(t)

    def tangent_at(self, s: float) -> complex:
        """Return the unit direction of travel at a position; at a corner the one after it."""
        i, t = self.place(s)
        return self.segments[i].tangent(t)

    def start_direction(self) -> complex:
        """Return the unit direction of travel at the start."""
        return self.segments[0].tangent(0.0)

    def end_direction(self) -> complex:
        """Return the unit direction of travel at the end."""
        return self.segments[-1].tangent(1.0)

    def split_at(self, s: float) -> tuple["Path", "Path"]:
        """Return the parts before and after a position; ValueError unless both have some length."""
        return self.between(0.0, s), self.between(s, self.length)

    def between(self, s0: float, s1: float) -> "Path":
        """Return the part between two positions, held to the ends; ValueError when it has no length."""
        if not min(s1, self.length) - max(s0, 0.0) > SLIVER:
            raise ValueError(f"no path between {s0} and {s1} of {self.length}")
        return self.part(self.place(s0), self.place(s1))

    def part(self, first: Place, last: Place) -> "Path":
        """Return the part between two places; ValueError when nothing of it is left."""
        (i, t0), (j, t1) = first, last
        # A cut within a sliver of a joint is made there.
        if _ends_by(self.segments[i], t0) and i < j:
            i, t0 = i + 1, 0.0
        if _starts_by(self.segments[j], t1) and i < j:
            j, t1 = j - 1, 1.0
        if _starts_by(self.segments[i], t0):
            t0 = 0.0
        if _ends_by(self.segments[j], t1):
            t1 = 1.0
        if i == j:
            if not t0 < t1:
                raise ValueError(f"no path between {first} and {last}")
            return Path((_cut(self.segments[i], t0, t1),))
        middle = self.segments[i + 1 : j]
        return Path((_cut(self.segments[i], t0, 1.0), *middle, _cut(self.segments[j], 0.0, t1)))

    def reversed(self) -> "Path":
        """Return the same path travelled from end to start."""
        return Path(tuple(segment.reversed() for segment in reversed(self.segments)))

    def moved(self, motion: Motion) -> "Path":
        """Return the image under a rigid motion."""
        return Path(tuple(segment.moved(motion) for segment in self.segments))

    def joined(self, other: "Path") -> "Path":
        """Return this path and then the other; ValueError unless the other begins at this one's end."""
        return Path(self.segments + other.segments)

    def nearest(self, p: Point) -> tuple[float, float]:
        """Return the position of the point nearest to p, and its distance (both mm)."""
        best, place = float("inf"), (0, 0.0)
        for i, segment in enumerate(self.segments):
            t, distance = segment.nearest(p)
            if distance < best:
                best, place = distance, (i, t)
        return self.position(place), best

    def bounds(self) -> Box:
        """Return the exact bounding box."""
        return box_around([segment.bounds() for segment in self.segments])

    def flatten(self, tolerance: float) -> list[Point]:
        """Return points from start to end whose chords stay within a tolerance (mm) of the path."""
        points = [self.start]
        for segment in self.segments:
            points.extend(segment.flatten(tolerance))
        return points

    def is_straight(self, tolerance: float = CLOSE) -> bool:
        """Say whether the path runs forward within a tolerance (mm) of the line from start to end."""
        if not all(segment.is_straight(tolerance) for segment in self.segments):
            return False
        if len(self.segments) == 1:
            return True
        if abs(self.chord) <= tolerance:
            return False
        u, origin = unit(self.chord), self.start
        joints = [segment.end - origin for segment in self.segments]
        along = [0.0, *(dot(u, joint) for joint in joints)]
        forward = all(a <= b for a, b in pairwise(along))
        return forward and all(abs(cross(u, joint)) <= tolerance for joint in joints)


def straight(a: Point, b: Point) -> Path:
    """Return the path of one straight segment from a to b."""
    return Path((Line(a, b),))


def _starts_by(segment: Segment, t: float) -> bool:
    return t < 0.5 and abs(segment.point(t) - segment.start) <= SLIVER


def _ends_by(segment: Segment, t: float) -> bool:
    return t > 0.5 and abs(segment.point(t) - segment.end) <= SLIVER


def _cut(segment: Segment, t0: float, t1: float) -> Segment:
    return segment if t0 == 0.0 and t1 == 1.0 else segment.between(t0, t1)


def box_around(boxes: Sequence[Box]) -> Box:
    """Return the smallest box around one or more boxes."""
    xmins, ymins, xmaxs, ymaxs = zip(*boxes, strict=True)
    return min(xmins), min(ymins), max(xmaxs), max(ymaxs)
