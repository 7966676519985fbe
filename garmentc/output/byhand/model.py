"""What is done by hand: points, measured ways, lines and tables, in the order of the work. All lengths in mm."""

from __future__ import annotations

from collections.abc import Mapping

from garmentc.geometry.vector import Point
from garmentc.output.byhand.curves import Offset
from garmentc.record import Record


class Spot(Record):
    """A point with its letter or number: where the numbers of the ruler put it, and where the draft has it."""

    name: str
    at: Point
    exact: Point


class Purpose(Record):
    """What a line is called, and its use.

    Uses: fold, turned (where the pattern is turned over), stitch, cut, both (no allowance), edge (which is not cut
    along), dart, pleat, foldline, guide, lengthen and buttonhole.
    """

    use: str
    name: str


class Begin(Record):
    """The first point, so far from the left and the lower edge of a paper at least so wide and high."""

    spot: Spot
    left: float
    low: float
    width: float
    height: float


class Measure(Record):
    """The way from a known point to a new one; ``first_level`` says that its level part is measured first."""

    origin: Spot
    spot: Spot
    first_level: bool


class Join(Record):
    """A straight line."""

    start: Spot
    end: Spot
    purpose: Purpose


class Curve(Record):
    """A smooth line through marks beside the straight line between its ends."""

    start: Spot
    end: Spot
    rows: tuple[Offset, ...]
    purpose: Purpose


class Parallel(Record):
    """A cut line outside a curved edge, between two points, ``points`` near where it lies."""

    start: Spot
    end: Spot
    width: float
    points: tuple[Point, ...]
    purpose: Purpose


class Notch(Record):
    """A notch of so many slits, ``wide`` apart, its middle so far along an edge, from one of its ends."""

    origin: Spot
    along: float
    at: Point
    inward: complex
    edge: str
    slits: int
    wide: float


class Cross(Record):
    """A mark at a point, with its words."""

    spot: Spot
    text: str


class Say(Record):
    """Words of the catalogue with their values; lengths are those that are not text."""

    key: str
    values: Mapping[str, str | float]


Action = Begin | Measure | Join | Curve | Parallel | Notch | Cross | Say


class HandStep(Record):
    """A numbered step with its heading, a key of the catalogue and the name that it fills in."""

    key: str
    name: str
    actions: tuple[Action, ...]


class HandPiece(Record):
    """A piece in steps; ``lengths`` are its edges as drawn by hand (mm), ``moved`` how far a point is off at most."""

    name: str
    title: str
    steps: tuple[HandStep, ...]
    lengths: Mapping[str, float]
    moved: float
