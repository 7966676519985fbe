"""Which corners and marks have moved, and which edges bend otherwise, in all sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from garmentc.comparison.model import Bend, Move, Overlay
from garmentc.comparison.pairs import Names
from garmentc.comparison.shapes import STILL, Corner, Shape, bend_between, distance_between, shift_between
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point

Shapes = Sequence[tuple[Mapping[str, Shape], Mapping[str, Shape]]]
"""For each size the old and the new shapes by the name of their piece."""


def moves(names: Names, shapes: Shapes) -> Iterator[Move]:
    """The corners and marks of pieces that moved in any size; a piece that only lies elsewhere has not."""
    for old_name, name in names.pieces.items():
        sizes = [_paired_points(names, before[old_name], after[name]) for before, after in shapes]
        for point in sizes[0]:
            places = [points[point] for points in sizes if point in points]
            if len(places) == len(sizes) and any(abs(now - was) > STILL for was, now in places):
                yield Move(name, point, tuple(was for was, _ in places), tuple(now for _, now in places))


def _paired_points(names: Names, old: Shape, new: Shape) -> dict[str, tuple[Point, Point]]:
    """Where each corner and mark was and is, by what it is called now; seen from where the new piece lies."""
    found, shift = _paired_corners(names, old, new)
    marks = {name: (old.marks[name], at) for name, at in new.marks.items() if name in old.marks and name not in found}
    return {name: (was + shift, now) for name, (was, now) in (found | marks).items()}


def _paired_corners(names: Names, old: Shape, new: Shape) -> tuple[dict[str, tuple[Point, Point]], complex]:
    """Where each corner was and is, and by how much the whole piece lies elsewhere."""
    found: dict[str, tuple[Point, Point]] = {}
    for corner in new.corners:
        before = _old_corner(names, old, corner)
        if before is not None:
            found[corner.shown] = before.at, corner.at
    return found, shift_between(*zip(*found.values(), strict=True)) if found else 0j


def overlays(names: Names, shapes: Shapes, size: int) -> Iterator[Overlay]:
    """The pieces and strips that are not as they were, in the size of a number, old lines laid over new ones."""
    before, after = shapes[size]
    for old_name, name in names.pieces.items():
        old, new = before[old_name], after[name]
        shift = Motion.shift_by(_paired_corners(names, old, new)[1])
        lines = tuple(line.moved(shift) for line in _lines(old))
        if not _alike(lines, _lines(new)):
            yield Overlay(name, new.piece.title, size, lines, _lines(new))
    for name, new in after.items():
        if name not in names.pieces.values():
            yield Overlay(name, new.piece.title, size, (), _lines(new))
    for name, old in before.items():
        if name not in names.pieces:
            yield Overlay(name, old.piece.title, size, _lines(old), ())


def _lines(shape: Shape) -> tuple[Path, ...]:
    return tuple(edge.path for edge in shape.piece.edges)


def _alike(old: Sequence[Path], new: Sequence[Path]) -> bool:
    """Whether each line lies on one of the other side."""
    return len(old) == len(new) and all(any(distance_between(one, other) <= STILL for other in new) for one in old)


def _old_corner(names: Names, old: Shape, corner: Corner) -> Corner | None:
    """The same corner in the old state: between the same edges, else at the point of the same name."""
    piece = old.piece.name
    for one in old.corners:
        if tuple(names.edges.get((piece, edge), "") for edge in one.edges) == corner.edges:
            return one
    return next((one for one in old.corners if one.name and one.name == corner.name), None)


def bends(names: Names, shapes: Shapes) -> Iterator[Bend]:
    """The edges that bend otherwise in any size."""
    for (piece, edge), now in names.edges.items():
        off = []
        for before, after in shapes:
            old, new = before[piece].piece.edge(edge), after[names.piece(piece)].piece.edge(now)
            if old is not None and new is not None:
                off.append(bend_between(old.path, new.path))
        if len(off) == len(shapes) and max(off) > STILL:
            yield Bend(names.edge(piece, edge), tuple(off))
