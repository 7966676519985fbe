"""Circular arcs."""

import math
from dataclasses import dataclass

from garmentc.geometry.motion import Motion
from garmentc.geometry.segment import Box, Segment
from garmentc.geometry.vector import Point, angle_of, cross, heading, left

FULL_TURN = 2 * math.pi


@dataclass(frozen=True, slots=True)
class Arc(Segment):
    """An arc of a circle from `start_angle` on, through the signed angle `sweep`.

    Angles in radians, positive sweep anticlockwise, at most a full turn. ValueError for a radius
    that is not positive or a sweep beyond a full turn.
    """

    centre: Point
    radius: float
    start_angle: float
    sweep: float

    def __post_init__(self) -> None:
        if not self.radius > 0:
            raise ValueError("the radius of an arc must be positive")
        if not abs(self.sweep) <= FULL_TURN * (1 + 1e-12):
            raise ValueError("an arc sweeps at most a full turn")

    @property
    def start(self) -> Point:  # type: ignore[override]
        """The first point."""
        return self.centre + self.radius * heading(self.start_angle)

    @property
    def end(self) -> Point:  # type: ignore[override]
        """The last point."""
        return self.centre + self.radius * heading(self.start_angle + self.sweep)

    def point(self, t: float) -> Point:
        return self.centre + self.radius * heading(self.start_angle + t * self.sweep)

    def tangent(self, t: float) -> complex:
        normal = heading(self.start_angle + t * self.sweep)
        return left(normal) if self.sweep >= 0 else -left(normal)

    def derivatives(self, t: float) -> tuple[complex, complex]:
        spoke = self.radius * heading(self.start_angle + t * self.sweep)
        return self.sweep * left(spoke), -self.sweep * self.sweep * spoke

    def curvature(self, t: float) -> float:
        return math.copysign(1 / self.radius, self.sweep)

    def length(self) -> float:
        return self.radius * abs(self.sweep)

    def length_to(self, t: float) -> float:
        return t * self.length()

    def t_at_length(self, s: float) -> float:
        length = self.length()
        return min(max(s / length, 0.0), 1.0) if length else 0.0

    def between(self, t0: float, t1: float) -> "Arc":
        start = self.start_angle + t0 * self.sweep
        return Arc(self.centre, self.radius, start, (t1 - t0) * self.sweep)

    def reversed(self) -> "Arc":
        return Arc(self.centre, self.radius, self.start_angle + self.sweep, -self.sweep)

    def moved(self, motion: Motion) -> "Arc":
        turn = angle_of(motion.turn)
        centre = motion.apply(self.centre)
        if motion.mirrored:
            return Arc(centre, self.radius, turn - self.start_angle, -self.sweep)
        return Arc(centre, self.radius, turn + self.start_angle, self.sweep)

    def t_of_angle(self, angle: float) -> float:
        """Return the smallest t >= 0 at which the arc, run on as a circle, reaches an angle."""
        ahead = (angle - self.start_angle) * (1.0 if self.sweep >= 0 else -1.0)
        return (ahead % FULL_TURN) / abs(self.sweep) if self.sweep else 0.0

    def bounds(self) -> Box:
        a, b, c, r = self.start, self.end, self.centre, self.radius
        rightmost = self.t_of_angle(0.0) <= 1
        top = self.t_of_angle(math.pi / 2) <= 1
        leftmost = self.t_of_angle(math.pi) <= 1
        bottom = self.t_of_angle(-math.pi / 2) <= 1
        return (
            c.real - r if leftmost else min(a.real, b.real),
            c.imag - r if bottom else min(a.imag, b.imag),
            c.real + r if rightmost else max(a.real, b.real),
            c.imag + r if top else max(a.imag, b.imag),
        )

    def area_under(self) -> float:
        return (self.radius**2 * self.sweep + cross(self.centre, self.end - self.start)) / 2

    def nearest(self, p: Point) -> tuple[float, float]:
        spoke = p - self.centre
        t = self.t_of_angle(angle_of(spoke)) if spoke else 0.0
        if t <= 1:
            return t, abs(abs(spoke) - self.radius)
        to_start, to_end = abs(p - self.start), abs(p - self.end)
        return (0.0, to_start) if to_start <= to_end else (1.0, to_end)

    def steps(self, tolerance: float) -> int:
        half = math.acos(max(1 - tolerance / self.radius, 0.0))
        return max(1, math.ceil(abs(self.sweep) / (2 * half)))

    def is_straight(self, tolerance: float) -> bool:
        return self.radius * (1 - math.cos(min(abs(self.sweep) / 2, math.pi))) <= tolerance
