"""Numbers that a ruler has: whole millimetres, or parts of an inch."""

from __future__ import annotations

from garmentc.geometry.vector import Point
from garmentc.numbers import fixed
from garmentc.output.texts.speech import INCH, Voice, fraction
from garmentc.record import Record

_FAR = 1.2  # mm; a point that eighths of an inch would move further is given in sixteenths


class Ruler(Record):
    """A ruler in cm with marks every 1 mm, or in inches with marks every 1/8 in.

    Sixteenths, halfway between two marks, are used for curves, and for points that eighths would move too far.
    """

    inches: bool = False

    @property
    def mark(self) -> float:
        """The distance of its marks (mm)."""
        return INCH / 8 if self.inches else 1.0

    @property
    def fine(self) -> float:
        """The finest distance that is read from it (mm)."""
        return INCH / 16 if self.inches else 1.0

    @property
    def stations(self) -> tuple[float, ...]:
        """How far apart (mm) the places of a table of offsets are, the widest first."""
        return tuple(INCH * share for share in (3 / 4, 3 / 8, 3 / 16)) if self.inches else (20.0, 10.0, 5.0)

    def point(self, way: complex) -> complex:
        """The way to a point in numbers of the ruler, both level and upright."""
        near = _rounded(way, self.mark)
        return near if abs(near - way) <= _FAR else _rounded(way, self.fine)

    def height(self, mm: float) -> float:
        """A height over a base line, to the finest distance."""
        return round(mm / self.fine) * self.fine

    def along(self, mm: float) -> float:
        """A distance that is measured along a line."""
        near = round(mm / self.mark) * self.mark
        return near if abs(near - mm) <= _FAR else round(mm / self.fine) * self.fine

    def up(self, mm: float) -> float:
        """The next whole cm or inch, for sizes of paper."""
        whole = INCH if self.inches else 10.0
        return -(-mm // whole) * whole


def said(mm: float, voice: Voice) -> str:
    """A distance with its unit: cm and millimetres as a decimal, or inches with a fraction."""
    if voice.inches:
        return f"{fraction(mm / INCH, 16)} {voice.say('unit_inch')}"
    return f"{voice.number(mm / 10.0, 1)} cm"


def bare(mm: float, voice: Voice) -> str:
    """The same for a column of numbers, without its unit."""
    if voice.inches:
        return fraction(mm / INCH, 16)
    number = fixed(mm / 10.0, 1)
    return number.replace(".", ",") if voice.language == "de" else number


def _rounded(way: Point, step: float) -> Point:
    return complex(round(way.real / step) * step, round(way.imag / step) * step)
