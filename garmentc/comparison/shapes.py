"""The outlines of pieces as they are compared: their corners and marks by name, and how two edges differ."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from garmentc.assembly.model import Assembly
from garmentc.draft.model import DraftedPiece
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.grade.compare import sized
from garmentc.record import Record

STILL = 0.05
"""mm; a point or a line that is off by less counts as where it was."""

_SAME = 1e-3  # mm; a point this near to a corner is the corner
_SAMPLES = 16  # stretches of an edge between which it is looked at


class Corner(Record):
    """A corner: the edge that ends there, the one that begins, the point of the spec that lies there ("" for none)."""

    edges: tuple[str, str]
    name: str
    at: Point

    @property
    def shown(self) -> str:
        """What it is called: after its point, else after its edges."""
        return self.name or "/".join(self.edges)


class Shape(Record):
    """A piece of one size with its corners, in the order of its edges, and the places of its marks."""

    piece: DraftedPiece
    corners: tuple[Corner, ...]
    marks: Mapping[str, Point]


def shapes_of(assembly: Assembly) -> dict[str, Shape]:
    """All pieces and strips of one size, by name."""
    points = sized(assembly).points
    drafted = (*assembly.draft.pieces, *assembly.draft.strips)
    return {piece.name: _shape(piece, points.get(piece.name, {})) for piece in drafted}


def _shape(piece: DraftedPiece, points: Mapping[str, Point]) -> Shape:
    corners = []
    for number, edge in enumerate(piece.edges):
        at = edge.path.start
        name = next((name for name, point in points.items() if abs(point - at) < _SAME), "")
        corners.append(Corner((piece.edges[number - 1].name, edge.name), name, at))
    return Shape(piece, tuple(corners), {mark.name: mark.at for mark in piece.marks})


def shift_between(old: Sequence[Point], new: Sequence[Point]) -> complex:
    """By how much a whole piece lies elsewhere than it did (mm): 0 where any corner has stayed.

    Corners stand in pairs. Only a shift that brings most of them to where they are counts.
    """
    pairs = list(zip(old, new, strict=True))
    if any(abs(after - before) <= STILL for before, after in pairs):
        return 0j
    shifts = [after - before for before, after in pairs]
    best = max(shifts, key=lambda shift: _alike(shift, shifts), default=0j)
    return best if 2 * _alike(best, shifts) > len(shifts) else 0j


def _alike(shift: complex, shifts: Sequence[complex]) -> int:
    return sum(abs(one - shift) <= STILL for one in shifts)


def bend_between(old: Path, new: Path) -> float:
    """How far apart (mm) two lines run at most when the old one is turned and stretched so that its ends meet.

    Lines that are only longer or elsewhere are 0 apart; places are compared at equal shares of the length.
    """
    if min(abs(old.chord), abs(new.chord)) <= STILL:  # closed lines have no ends to lay on each other
        turned, first = 1 + 0j, old.start
    else:
        turned, first = new.chord / old.chord, old.start
    places = [number / _SAMPLES for number in range(1, _SAMPLES)]
    return max(
        abs(new.start + turned * (old.point_at(share * old.length) - first) - new.point_at(share * new.length))
        for share in places
    )


def distance_between(old: Path, new: Path) -> float:
    """How far apart (mm) two lines lie at most, looked at at equal shares of their lengths."""
    shares = [number / _SAMPLES for number in range(_SAMPLES + 1)]
    return max(abs(old.point_at(share * old.length) - new.point_at(share * new.length)) for share in shares)
