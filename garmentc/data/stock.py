"""Cloths as values: what a layout is made on. Lengths in mm, x to the right, y up, from the lower left corner."""

from __future__ import annotations

from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.record import Record
from garmentc.source import Span


class ClothSide(Record):
    """One side of a cloth; ``finish`` is hem, selvage, border or rolled, or empty where it is raw."""

    name: str
    path: Path
    finish: str
    finish_width: float


class Area(Record):
    """A place on a cloth with a name: a flaw, or a part of the picture."""

    name: str
    outline: Outline
    span: Span


class ThreadShares(Record):
    """Shares of a length along the lengthwise threads, across them and on the bias."""

    along: float
    across: float
    bias: float = 0.0


class PhotoPin(Record):
    """A point of a photo (pixels from its upper left corner, y down) and its place on the cloth."""

    pixel: Point
    at: Point


class Photo(Record):
    """A picture of the cloth, in a file beside its own."""

    file: str
    pins: tuple[PhotoPin, PhotoPin]


class Cloth(Record):
    """A cloth as measured, before it is washed.

    ``key`` is its file name without ending. ``sides`` run anticlockwise and are empty for cloth by the metre, which has
    a ``width`` instead: it lies with its length to the right. ``threads`` is up, across or either. ``repeat`` is how
    often the picture comes again to the right and upward, 0 where it does not. Shrinkage and stretch are shares of 1.
    """

    key: str
    title: str
    note: str
    sides: tuple[ClothSide, ...]
    width: float
    is_round: bool
    holes: tuple[Outline, ...]
    selvage: float
    threads: str
    is_alike: bool
    is_one_way: bool
    repeat: tuple[float, float]
    places: tuple[Area, ...]
    flaws: tuple[Area, ...]
    shrinkage: ThreadShares
    stretch: ThreadShares
    weight: float
    fibre: str
    photo: Photo | None
    span: Span

    @property
    def by_metre(self) -> bool:
        """Whether it has a width and as much length as is bought."""
        return not self.sides

    @property
    def outline(self) -> Outline:
        """The sides as one ring; ValueError for cloth by the metre."""
        return Outline(tuple(side.path for side in self.sides))
