"""What lies where: shapes to cut, the ground they are cut from, and plans. Lengths in mm, angles in radians, y up."""

from __future__ import annotations

import math
from collections.abc import Mapping

from garmentc.draft.model import Motif
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.record import Record

TOLERANCE = 0.1
"""How far (mm) shapes may reach into each other, off the cloth or off a hem: less than a chalk line."""

_TURNED_OVER = Motion.mirror_in(0j, 1j)


class Match(Record):
    """A point of a shape that lies like a point of another piece in the repeat of the picture."""

    at: Point
    other: str
    other_at: Point


class Shape(Record):
    """One piece of cloth to cut out, opened flat, face up.

    ``key`` is unlike any other; ``piece`` is what it is a copy of, ``number`` which one, ``part`` of a strip the
    stretch along it that this is cut for. ``mirrored`` is a copy that is the mirror image of what is drawn. The
    ``outline`` is the line to cut, anticlockwise; ``lengthwise`` are directions of the lengthwise threads that it may
    have, each up to ``within`` off. ``hems`` are straight edges that lie on finished edges of the cloth, ``corners``
    points on its corners. ``beside`` is the key of a shape whose mirror image has to lie on the same threads.
    """

    key: str
    title: str
    piece: str
    number: int
    part: tuple[float, float] | None
    mirrored: bool
    is_strip: bool
    outline: Outline
    lengthwise: tuple[complex, ...]
    within: float
    hems: tuple[tuple[str, Path], ...] = ()
    corners: tuple[tuple[str, Point], ...] = ()
    motifs: tuple[Motif, ...] = ()
    matches: tuple[Match, ...] = ()
    beside: str = ""


class GroundSide(Record):
    """A side of the cloth, with the cloth on the left of its points; ``finish`` is empty where it is raw."""

    name: str
    points: tuple[Point, ...]
    is_straight: bool
    finish: str
    width: float


class GroundArea(Record):
    """A flaw or a part of the picture, by its corners."""

    name: str
    ring: tuple[Point, ...]

    @property
    def middle(self) -> Point:
        """The middle of the box around it."""
        xs, ys = [p.real for p in self.ring], [p.imag for p in self.ring]
        return complex((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)


class Ground(Record):
    """A cloth as it lies ready to cut: washed, so that it has shrunk, its curves as many short sides.

    ``lengthwise`` are the ways of its lengthwise threads, as angles from the x axis, each for both directions. ``up``
    is where the upper end of its picture or pile is; it counts where ``is_one_way``. ``repeat`` is how often the
    picture comes again to the right and upward, 0 where it does not. ``shrunk`` are the shares of its width and height
    that washing has left. ``length`` is None, or for cloth by the metre the length that was taken of it.
    """

    key: str
    title: str
    ring: tuple[Point, ...]
    sides: tuple[GroundSide, ...]
    holes: tuple[tuple[Point, ...], ...]
    flaws: tuple[GroundArea, ...]
    places: tuple[GroundArea, ...]
    lengthwise: tuple[float, ...]
    up: complex
    is_one_way: bool
    is_alike: bool
    is_round: bool
    repeat: tuple[float, float]
    shrunk: tuple[float, float]
    length: float | None = None

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Its least and greatest x and y, as xmin, ymin, xmax, ymax."""
        xs, ys = [p.real for p in self.ring], [p.imag for p in self.ring]
        return min(xs), min(ys), max(xs), max(ys)


class Turn(Record):
    """How a shape is held: turned ``over``, then turned by ``angle`` (radians, anticlockwise)."""

    angle: float
    over: bool = False

    @property
    def motion(self) -> Motion:
        """Where points of the shape come, still about its origin."""
        turned = Motion.turn_about(0j, self.angle)
        return _TURNED_OVER.then(turned) if self.over else turned


class Spot(Record):
    """Where a shape lies: held as ``turn`` says, its origin at ``at``. A ``pinned`` one was put there by a person."""

    turn: Turn
    at: Point
    pinned: bool = False

    @property
    def motion(self) -> Motion:
        """Where points of the shape lie on the cloth."""
        return self.turn.motion.then(Motion.shift_by(self.at))


Spots = Mapping[str, Spot]
"""Where each shape lies, by its key."""


class Plan(Record):
    """A ground, the shapes that lie on it, and where."""

    ground: Ground
    shapes: tuple[Shape, ...]
    spots: Spots

    @property
    def used(self) -> float:
        """The share of the cloth that the shapes cover."""
        cloth = abs(ring_area(self.ground.ring)) - sum(abs(ring_area(hole)) for hole in self.ground.holes)
        return sum(shape.outline.area for shape in self.shapes) / cloth

    def outline(self, shape: Shape) -> Outline:
        """The line to cut of a shape, where it lies; anticlockwise."""
        laid = shape.outline.moved(self.spots[shape.key].motion)
        return laid.reversed() if self.spots[shape.key].turn.over else laid


def ring_area(ring: tuple[Point, ...]) -> float:
    """The area (mm²) inside a ring of points, positive when it runs anticlockwise."""
    following = [*ring[1:], ring[0]]
    return sum((a.conjugate() * b).imag for a, b in zip(ring, following, strict=True)) / 2


def off_axis(direction: complex, axis: complex) -> float:
    """The angle (radians, from 0 to a quarter turn) between two lines of these directions."""
    turned = direction * axis.conjugate()
    return math.atan2(abs(turned.imag), abs(turned.real))
