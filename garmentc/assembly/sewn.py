"""What sewing gives: the surface of a garment, and the openings in it."""

from __future__ import annotations

from garmentc.assembly.gluing import Bond, Part, Sheet
from garmentc.assembly.instances import Leaf
from garmentc.record import Record


class OpeningPart(Record):
    """A part of an opening: an edge of a piece or strip, or a fold at which it ends, from place to place along it (mm).

    ``mirrored`` when it belongs to the half, or the piece of a pair, that is not drawn.
    """

    piece: str
    title: str
    edge: str
    copy: int
    mirrored: bool
    low: float
    high: float

    @property
    def length(self) -> float:
        """How long it is (mm)."""
        return self.high - self.low


class Opening(Record):
    """An opening of the sewn garment: a closed ring of edges, ``length`` mm all round.

    Openings that are each other's mirror image, or copy, are one, there ``times`` times. ``names`` are those that the
    spec gives it. ``opened`` is how long it is (mm) with its ``closures`` open, the seams in it that open; so many as
    ``open_times`` of them do.
    """

    names: tuple[str, ...]
    title: str
    parts: tuple[OpeningPart, ...]
    length: float
    times: int
    opened: float
    closures: tuple[str, ...] = ()
    open_times: int = 0

    @property
    def edges(self) -> tuple[tuple[str, str], ...]:
        """Piece and edge of all its parts, each once."""
        return tuple(dict.fromkeys((part.piece, part.edge) for part in self.parts))


class Surface(Record):
    """A sewn garment: its leaves, the sheets of the whole, and the shells that a body wears.

    The whole holds every seam. A shell is what remains hanging together where layers that are sewn right sides
    together and turned, and facings grown on, are taken apart along their outer edge: there a garment ends, though its
    cloth goes on inside. ``hidden`` are the sheets inside shells: facings and linings. ``bonds`` hold the pieces
    of the shells and hidden sheets together, straps left out.
    """

    leaves: tuple[Leaf, ...]
    whole: tuple[Sheet, ...]
    shells: tuple[Sheet, ...]
    hidden: tuple[Sheet, ...]
    openings: tuple[Opening, ...]
    bonds: tuple[Bond, ...]

    @property
    def euler(self) -> int:
        """The Euler characteristic of all shells together."""
        return sum(sheet.euler for sheet in self.shells)

    @property
    def opening_count(self) -> int:
        """How many openings there are, each counted as often as it is there."""
        return sum(opening.times for opening in self.openings)


def opening_part(leaf: Leaf, part: Part) -> OpeningPart:
    """A part of a border in the words of the spec."""
    side = leaf.sides[part.edge]
    return OpeningPart(leaf.piece.name, leaf.piece.title, side.name, leaf.copy, leaf.mirrored, part.low, part.high)
