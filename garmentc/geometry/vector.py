"""Points and vectors of the plane as complex numbers: x + yj, in millimetres."""

import cmath
import math

Point = complex

CLOSE = 1e-6
"""Two points nearer than this (mm) are taken for the same point."""


def dot(a: complex, b: complex) -> float:
    """Return the scalar product of two vectors (mm²)."""
    return a.real * b.real + a.imag * b.imag


def cross(a: complex, b: complex) -> float:
    """Return the signed area of the parallelogram of two vectors (mm²), positive when b is left of a."""
    return a.real * b.imag - a.imag * b.real


def unit(v: complex) -> complex:
    """Return v scaled to length one; ValueError for the zero vector."""
    size = abs(v)
    if size == 0.0:
        raise ValueError("a zero vector has no direction")
    return v / size


def left(v: complex) -> complex:
    """Return v turned by a quarter turn anticlockwise."""
    return complex(-v.imag, v.real)


def heading(angle: float) -> complex:
    """Return the unit vector at an angle (radians, anticlockwise from the x axis)."""
    return cmath.rect(1.0, angle)


def angle_of(v: complex) -> float:
    """Return the angle of a vector, in (-pi, pi]."""
    return math.atan2(v.imag, v.real)


def turning(a: complex, b: complex) -> float:
    """Return the signed angle from direction a to direction b, in [-pi, pi], positive to the left."""
    return math.atan2(cross(a, b), dot(a, b))


def nearest_on_line(z: Point, p: Point, u: complex) -> Point:
    """Return the foot of the perpendicular from z to the line through p with unit direction u."""
    return p + dot(z - p, u) * u
