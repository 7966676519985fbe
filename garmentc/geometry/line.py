"""Straight segments."""

from dataclasses import dataclass

from garmentc.geometry.motion import Motion
from garmentc.geometry.segment import Box, Segment
from garmentc.geometry.vector import Point, cross, dot, unit


@dataclass(frozen=True, slots=True)
class Line(Segment):
    """The straight segment between two points."""

    start: Point
    end: Point

    def point(self, t: float) -> Point:
        if t == 1.0:
            return self.end
        return self.start + t * (self.end - self.start)

    def tangent(self, t: float) -> complex:
        return unit(self.end - self.start)

    def derivatives(self, t: float) -> tuple[complex, complex]:
        return self.end - self.start, 0j

    def curvature(self, t: float) -> float:
        return 0.0

    def length(self) -> float:
        return abs(self.end - self.start)

    def length_to(self, t: float) -> float:
        return t * self.length()

    def t_at_length(self, s: float) -> float:
        length = self.length()
        return min(max(s / length, 0.0), 1.0) if length else 0.0

    def between(self, t0: float, t1: float) -> "Line":
        return Line(self.point(t0), self.point(t1))

    def reversed(self) -> "Line":
        return Line(self.end, self.start)

    def moved(self, motion: Motion) -> "Line":
        return Line(motion.apply(self.start), motion.apply(self.end))

    def bounds(self) -> Box:
        a, b = self.start, self.end
        return min(a.real, b.real), min(a.imag, b.imag), max(a.real, b.real), max(a.imag, b.imag)

    def area_under(self) -> float:
        return cross(self.start, self.end) / 2

    def nearest(self, p: Point) -> tuple[float, float]:
        run = self.end - self.start
        square = dot(run, run)
        t = min(max(dot(p - self.start, run) / square, 0.0), 1.0) if square else 0.0
        return t, abs(self.point(t) - p)

    def steps(self, tolerance: float) -> int:
        return 1

    def is_straight(self, tolerance: float) -> bool:
        return True
