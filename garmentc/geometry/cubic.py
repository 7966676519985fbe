"""Cubic Bézier segments."""

import math
from dataclasses import dataclass, field

from garmentc.geometry.motion import Motion
from garmentc.geometry.quadrature import speed_integral
from garmentc.geometry.roots import quadratic_roots
from garmentc.geometry.segment import Box, Segment
from garmentc.geometry.vector import Point, cross, dot, unit

STANDSTILL = 1e-9
"""Below this share of the control polygon's size a derivative counts as zero."""
SAMPLES = 16


@dataclass(frozen=True, slots=True)
class Cubic(Segment):
    """The cubic Bézier curve with control points start, c1, c2, end."""

    start: Point
    c1: Point
    c2: Point
    end: Point
    _length: float = field(default=-1.0, init=False, repr=False, compare=False)

    def point(self, t: float) -> Point:
        if t == 1.0:
            return self.end
        r = 1.0 - t
        return r * r * (r * self.start + 3 * t * self.c1) + t * t * (3 * r * self.c2 + t * self.end)

    def powers(self) -> tuple[complex, complex, complex, complex]:
        """Return the coefficients of 1, t, t² and t³ of the point."""
        a, b, c = self.start, self.c1, self.c2
        return a, 3 * (b - a), 3 * (a - 2 * b + c), self.end - a + 3 * (b - c)

    def derivatives(self, t: float) -> tuple[complex, complex]:
        _, p1, p2, p3 = self.powers()
        return p1 + t * (2 * p2 + 3 * t * p3), 2 * p2 + 6 * t * p3

    def tangent(self, t: float) -> complex:
        first, second = self.derivatives(t)
        size = abs(self.c1 - self.start) + abs(self.c2 - self.c1) + abs(self.end - self.c2)
        if abs(first) > STANDSTILL * size:
            return first / abs(first)
        # At a standstill the travel goes on along the next derivative, or at the end came along it.
        backward = t > 0.5
        if abs(second) > STANDSTILL * size:
            return unit(-second if backward else second)
        return unit(self.end - self.start)

    def curvature(self, t: float) -> float:
        first, second = self.derivatives(t)
        speed, bend = abs(first), cross(first, second)
        if speed**3 == 0.0:
            return math.copysign(math.inf, bend) if bend else 0.0
        return bend / speed**3

    def length(self) -> float:
        if self._length < 0:
            object.__setattr__(self, "_length", self._length_between(0.0, 1.0))
        return self._length

    def _length_between(self, t0: float, t1: float) -> float:
        _, p1, p2, p3 = self.powers()
        return speed_integral(p1, 2 * p2, 3 * p3, t0, t1)

    def length_to(self, t: float) -> float:
        if t == 1.0:
            return self.length()
        return self._length_between(0.0, t) if t else 0.0

    def t_at_length(self, s: float) -> float:
        length = self.length()
        if s <= 0.0:
            return 0.0
        if s >= length:
            return 1.0
        low, high, t, reached = 0.0, 1.0, s / length, 0.0
        known = 0.0
        for _ in range(60):
            reached += self._length_between(known, t) if t > known else -self._length_between(t, known)
            known, miss = t, s - reached
            if abs(miss) <= 1e-10:
                break
            if miss > 0:
                low = t
            else:
                high = t
            speed = abs(self.derivatives(t)[0])
            t = t + miss / speed if speed else low
            if not low < t < high:
                t = (low + high) / 2
        return t

    def between(self, t0: float, t1: float) -> "Cubic":
        a, b, c, d = self.start, self.c1, self.c2, self.end
        if t1 < 1.0:
            ab, bc, cd = a + t1 * (b - a), b + t1 * (c - b), c + t1 * (d - c)
            abc, bcd = ab + t1 * (bc - ab), bc + t1 * (cd - bc)
            b, c, d = ab, abc, abc + t1 * (bcd - abc)
            t0 = t0 / t1 if t1 else 0.0
        if t0 > 0.0:
            ab, bc, cd = a + t0 * (b - a), b + t0 * (c - b), c + t0 * (d - c)
            abc, bcd = ab + t0 * (bc - ab), bc + t0 * (cd - bc)
            a, b, c = abc + t0 * (bcd - abc), bcd, cd
        return Cubic(a, b, c, d)

    def reversed(self) -> "Cubic":
        return Cubic(self.end, self.c2, self.c1, self.start)

    def moved(self, motion: Motion) -> "Cubic":
        move = motion.apply
        return Cubic(move(self.start), move(self.c1), move(self.c2), move(self.end))

    def bounds(self) -> Box:
        _, p1, p2, p3 = self.powers()
        across = quadratic_roots(p1.real, 2 * p2.real, 3 * p3.real)
        along = quadratic_roots(p1.imag, 2 * p2.imag, 3 * p3.imag)
        turns = [self.point(t) for t in across + along if 0 < t < 1]
        xs = [self.start.real, self.end.real, *(p.real for p in turns)]
        ys = [self.start.imag, self.end.imag, *(p.imag for p in turns)]
        return min(xs), min(ys), max(xs), max(ys)

    def area_under(self) -> float:
        a, b, c, d = self.start, self.c1, self.c2, self.end
        return (6 * cross(a, b) + 3 * cross(a, c) + cross(a, d) + 3 * cross(b, c + d) + 6 * cross(c, d)) / 20

    def nearest(self, p: Point) -> tuple[float, float]:
        points = [self.point(i / SAMPLES) - p for i in range(SAMPLES + 1)]
        squares = [dot(z, z) for z in points]
        best, least = 0.0, squares[0]
        for i, square in enumerate(squares):
            before, after = squares[max(i - 1, 0)], squares[min(i + 1, SAMPLES)]
            if square <= before and square <= after:
                t = self._nearest_in(p, max(i - 1, 0) / SAMPLES, min(i + 1, SAMPLES) / SAMPLES)
                for candidate in (t, i / SAMPLES):
                    away = self.point(candidate) - p
                    if dot(away, away) < least:
                        best, least = candidate, dot(away, away)
        return best, math.sqrt(least)

    def _nearest_in(self, p: Point, low: float, high: float) -> float:
        """Close in on a zero of the derivative of the squared distance by Newton within a bracket."""
        t = (low + high) / 2
        for _ in range(60):
            away = self.point(t) - p
            first, second = self.derivatives(t)
            slope = dot(away, first)
            if slope < 0:
                low = t
            else:
                high = t
            bend = dot(first, first) + dot(away, second)
            new = t - slope / bend if bend > 0 else -1.0
            if not low < new < high:
                new = (low + high) / 2
            if abs(new - t) <= 1e-14:
                break
            t = new
        return t

    def steps(self, tolerance: float) -> int:
        # A chord over a step h of t strays at most h²/8 of the largest second derivative.
        a, b, c, d = self.start, self.c1, self.c2, self.end
        bend = 6 * max(abs(a - 2 * b + c), abs(b - 2 * c + d))
        return max(1, math.ceil(math.sqrt(bend / (8 * tolerance))))

    def is_straight(self, tolerance: float) -> bool:
        run = self.end - self.start
        if not run:
            return max(abs(self.c1 - self.start), abs(self.c2 - self.start)) <= tolerance
        side = unit(run)
        strays = (cross(side, self.c1 - self.start), cross(side, self.c2 - self.start))
        return max(map(abs, strays)) <= tolerance
