"""What every kind of segment offers."""

from abc import ABC, abstractmethod
from typing import Self

from garmentc.geometry.motion import Motion
from garmentc.geometry.vector import Point

Box = tuple[float, float, float, float]
"""xmin, ymin, xmax, ymax in millimetres."""


class Segment(ABC):
    """A smooth piece of curve run through by a parameter t from 0 (start) to 1 (end)."""

    __slots__ = ()

    start: Point
    end: Point

    @abstractmethod
    def point(self, t: float) -> Point:
        """Return the point at parameter t; exactly the ends at 0 and 1."""

    @abstractmethod
    def tangent(self, t: float) -> complex:
        """Return the unit vector of travel at parameter t; ValueError where the segment is one point."""

    @abstractmethod
    def derivatives(self, t: float) -> tuple[complex, complex]:
        """Return the first and second derivative of the point by t."""

    @abstractmethod
    def curvature(self, t: float) -> float:
        """Return the signed curvature (1/mm), positive where the curve turns left."""

    @abstractmethod
    def length(self) -> float:
        """Return the arc length (mm)."""

    @abstractmethod
    def length_to(self, t: float) -> float:
        """Return the arc length from the start to parameter t (mm)."""

    @abstractmethod
    def t_at_length(self, s: float) -> float:
        """Return the parameter at arc length s from the start, held within 0 and 1."""

    @abstractmethod
    def between(self, t0: float, t1: float) -> Self:
        """Return the part from parameter t0 to t1, t0 <= t1."""

    @abstractmethod
    def reversed(self) -> Self:
        """Return the same curve travelled from end to start."""

    @abstractmethod
    def moved(self, motion: Motion) -> Self:
        """Return the image under a rigid motion."""

    @abstractmethod
    def bounds(self) -> Box:
        """Return the exact bounding box."""

    @abstractmethod
    def area_under(self) -> float:
        """Return the exact integral of (x dy - y dx) / 2 along the segment (mm²)."""

    @abstractmethod
    def nearest(self, p: Point) -> tuple[float, float]:
        """Return the parameter of the point nearest to p, and its distance (mm)."""

    @abstractmethod
    def steps(self, tolerance: float) -> int:
        """Return how many equal steps of t give chords within a tolerance (mm) of the curve."""

    @abstractmethod
    def is_straight(self, tolerance: float) -> bool:
        """Say whether the curve stays within a tolerance (mm) of the line through its ends."""

    def split(self, t: float) -> tuple[Self, Self]:
        """Return the parts before and after parameter t."""
        return self.between(0.0, t), self.between(t, 1.0)

    def flatten(self, tolerance: float) -> list[Point]:
        """Return points, without the start, whose chords stay within a tolerance (mm) of the curve."""
        count = self.steps(tolerance)
        return [self.point(i / count) for i in range(1, count)] + [self.end]
