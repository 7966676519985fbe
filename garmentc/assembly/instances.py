"""The pieces as they are once all is cut: each copy of each piece, a fold opened out, a grown part beyond its fold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import groupby, pairwise
from typing import NamedTuple

from garmentc.assembly.gluing import Bond, Part
from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import Point
from garmentc.record import Record


class Side(NamedTuple):
    """One side of a leaf: an edge of the piece, or the fold beyond which a part ``beyond`` was grown on.

    ``length`` is along the stitching line, with darts closed and pleats folded (mm).
    """

    name: str
    path: Path
    length: float
    edge: DraftedEdge | None
    beyond: str = ""


class Leaf(Record):
    """One flat part of one copy of a piece: a half of a piece on the fold, a piece of a pair, or a part grown on.

    ``mirrored`` leaves lie as the mirror image of what is drawn. ``sides`` run round it as the outline does.
    """

    piece: DraftedPiece
    part: str
    copy: int
    mirrored: bool
    sides: tuple[Side, ...]

    @property
    def area(self) -> float:
        """How much cloth it is (mm²), without allowances."""
        points = [p for side in self.sides for p in side.path.flatten(_STRAY)]
        return abs(sum((a.conjugate() * b).imag for a, b in pairwise([*points, points[0]]))) / 2


_STRAY = 1.0  # mm that the line of an area may leave the true one
_MIRRORED = 1.0
"""Outlines that differ by less than this (mm) from their mirror image are taken for their own."""

Place = tuple[int, int]
"""A leaf by its number, and one of its sides."""


class Cut(Record):
    """All leaves of a garment, and the bonds that cutting leaves between them, each ``by`` FOLD or GROWN.

    ``places`` finds an edge of a copy: by piece, edge, copy, and whether it is mirrored.
    """

    leaves: tuple[Leaf, ...]
    bonds: tuple[Bond, ...]
    places: Mapping[tuple[str, str, int, bool], Place]


FOLD, GROWN = "fold", "grown"


def has_mirror(piece: DraftedPiece) -> bool:
    """Whether half of what is cut of it lies as its mirror image."""
    return piece.pair or piece.on_fold


def is_one_sided(piece: DraftedPiece) -> bool:
    """Whether nothing that is cut of a piece could be laid on its mirror image: turned over it is another shape."""
    if has_mirror(piece):
        return False
    x0, y0, x1, y1 = piece.outline.bounds()
    points = piece.outline.flatten(_MIRRORED)
    across = [complex(x0 + x1 - p.real, p.imag) for p in points]
    upright = [complex(p.real, y0 + y1 - p.imag) for p in points]
    return not any(
        all(min(edge.path.nearest(p)[1] for edge in piece.edges) < _MIRRORED for p in turned)
        for turned in (across, upright)
    )


def cut_out(pieces: Iterable[DraftedPiece]) -> Cut:
    """All copies of all pieces."""
    leaves: list[Leaf] = []
    bonds: list[Bond] = []
    for piece in pieces:
        parts = list(_parts(piece))
        for copy in range(piece.number):
            first = len(leaves)
            for mirrored in (False, True) if has_mirror(piece) else (False,):
                start = len(leaves)
                leaves += [Leaf(piece, name, copy, mirrored, sides) for name, sides in parts]
                bonds += _grown(leaves, start)
            if piece.on_fold:
                bonds += _opened(leaves, first, len(parts))
    places = {
        (leaf.piece.name, side.edge.name, leaf.copy, leaf.mirrored): (number, i)
        for number, leaf in enumerate(leaves)
        for i, side in enumerate(leaf.sides)
        if side.edge is not None
    }
    return Cut(tuple(leaves), tuple(bonds), places)


def _parts(piece: DraftedPiece) -> Iterator[tuple[str, tuple[Side, ...]]]:
    """The piece itself, named by nothing, and what is grown onto it, by name."""
    names = dict.fromkeys(_part_of(edge) for edge in piece.edges)
    for name in names:
        count = len(piece.edges)
        start = next((i for i in range(count) if _part_of(piece.edges[i - 1]) != name == _part_of(piece.edges[i])), 0)
        ring = [piece.edges[(start + i) % count] for i in range(count)]
        yield name, tuple(_sides(piece, name, ring))


def _part_of(edge: DraftedEdge) -> str:
    return edge.name.partition(".")[0] if "." in edge.name else ""


def _sides(piece: DraftedPiece, name: str, ring: list[DraftedEdge]) -> Iterator[Side]:
    """The edges of one part in order, and a side for each fold between it and another."""
    if name:
        own = [edge for edge in ring if _part_of(edge) == name]
        yield from (_side(edge) for edge in own)
        yield _fold(piece, name, own[-1].path.end, own[0].path.start)
        return
    for part, found in groupby(ring, _part_of):
        edges = list(found)
        if part:
            yield _fold(piece, part, edges[0].path.start, edges[-1].path.end)
        else:
            yield from (_side(edge) for edge in edges)


def _side(edge: DraftedEdge) -> Side:
    return Side(edge.name, edge.path, edge.sewn_length, edge)


def _fold(piece: DraftedPiece, part: str, start: Point, end: Point) -> Side:
    """The fold between a piece and its grown part, called as the line drawn there."""
    folds = [line for line in piece.lines if line.kind == "fold"]
    middle = (start + end) / 2
    name = min(folds, key=lambda line: line.path.nearest(middle)[1]).name if folds else part
    return Side(name, straight(start, end), abs(end - start), None, part)


def _grown(leaves: list[Leaf], start: int) -> Iterator[Bond]:
    """The folds between a piece and its grown parts, whose first leaf has this number."""
    main = next(i for i in range(start, len(leaves)) if not leaves[i].part)
    for number in range(start, len(leaves)):
        if number == main:
            continue
        name = leaves[number].part
        one, other = (
            Part(leaf, i, 0.0, side.length)
            for leaf in (main, number)
            for i, side in enumerate(leaves[leaf].sides)
            if side.beyond == name
        )
        yield Bond(one, other, True, GROWN)


def _opened(leaves: list[Leaf], first: int, count: int) -> Iterator[Bond]:
    """The folds along which a copy was cut, whose leaves begin at a number: as many again are the mirror images."""
    for number in range(first, first + count):
        for i, side in enumerate(leaves[number].sides):
            if side.edge is not None and side.edge.on_fold:
                one = Part(number, i, 0.0, side.length)
                yield Bond(one, one._replace(disc=number + count), False, FOLD)
