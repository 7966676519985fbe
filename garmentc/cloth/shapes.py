"""The shapes that a garment is cut of: every copy of every piece, opened out, with what is asked of how it lies."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.cloth.model import Match, Shape
from garmentc.design.lays import MAIN
from garmentc.draft.model import GRAIN_TURNS, OFF_GRAIN, DraftedPiece, Laid, Motif
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, heading

JOIN = 10.0
"""What a join takes of each of the two parts of a strip that it joins (mm), as the language reference says."""

FOUND = "found"
_MIRROR = Motion.mirror_in(0j, 1j)

Splits = Mapping[str, Sequence[float]]
"""Where strips are joined, by key: distances along them (mm), in order."""


def shapes(assembly: Assembly, cloth: str = MAIN, splits: Splits | None = None) -> tuple[Shape, ...]:
    """All shapes to cut from one of the cloths that a garment is made of, pieces first, then strips."""
    found: list[Shape] = []
    for piece in assembly.pieces:
        if _laid(assembly, piece.drafted).cloth == cloth:
            found += _copies(assembly, piece)
    for strip in assembly.strips:
        if _laid(assembly, strip.drafted).cloth == cloth:
            found += _strips(assembly, strip.drafted, splits or {})
    return tuple(_beside(found, assembly))


def cloth_names(assembly: Assembly) -> tuple[str, ...]:
    """The cloths that a garment is cut of, in the order in which its pieces name them."""
    drafted = (*assembly.draft.pieces, *assembly.draft.strips)
    return tuple(dict.fromkeys(_laid(assembly, piece).cloth for piece in drafted))


def unfolded(piece: CutPiece) -> tuple[Outline, Motion | None]:
    """The line to cut of a piece opened out, and the motion from its drawn half to the other one if it has two.

    Holes that lie on the fold are left out.
    """
    folds = [edge.path for edge in piece.edges if _is_fold(piece, edge.edge)]
    if not folds:
        return piece.cut_line, None
    mirror = Motion.mirror_in(folds[0].start, folds[0].chord)
    rings = []
    for chain in _chains(piece):
        other = [path.moved(mirror).reversed() for path in reversed(chain)]
        rings.append(Outline((*chain, *other)))
    return max(rings, key=lambda one: abs(one.area)), mirror


def fold_lines(assembly: Assembly, shape: Shape) -> tuple[Path, ...]:
    """The lines on which the pattern of a shape lies folded in half, where they lie in it; strips have none."""
    cut = next((one for one in assembly.pieces if one.drafted.name == shape.piece), None)
    folds = () if cut is None else tuple(edge.path for edge in cut.edges if _is_fold(cut, edge.edge))
    return tuple(path.moved(_MIRROR) for path in folds) if shape.mirrored else folds


def _chains(piece: CutPiece) -> list[list[Path]]:
    """The runs of edges between those on the fold, each with the bits that round its corners."""
    count = len(piece.edges)
    first = next(i for i, edge in enumerate(piece.edges) if _is_fold(piece, edge.edge))
    chains: list[list[Path]] = []
    fresh = True
    for step in range(1, count + 1):
        edge = piece.edges[(first + step) % count]
        if _is_fold(piece, edge.edge):
            fresh = True
            continue
        if fresh:
            chains.append([])
            fresh = False
        chains[-1] += [edge.path] if edge.corner is None else [edge.path, edge.corner]
    return chains


def _is_fold(piece: CutPiece, edge: str) -> bool:
    return edge in piece.uses and piece.uses[edge].way == "fold"


def _laid(assembly: Assembly, piece: DraftedPiece) -> Laid:
    return assembly.draft.lays.get(piece.name) or Laid((piece.grain,), OFF_GRAIN)


def _lengthwise(piece: DraftedPiece, grains: Sequence[str]) -> tuple[complex, ...]:
    """The directions that the lengthwise threads may have; on the bias either way, as both stretch alike."""
    found: list[complex] = []
    for grain in grains:
        found.append(piece.thread_under(grain))
        if grain == "bias":
            found.append(piece.thread_under("straight") * heading(-GRAIN_TURNS["bias"]))
    return tuple(found)


def _copies(assembly: Assembly, piece: CutPiece) -> Iterator[Shape]:
    drafted, laid = piece.drafted, _laid(assembly, piece.drafted)
    outline, half = unfolded(piece)
    paths = {edge.edge: edge.path for edge in piece.edges}
    asked = [name for name, use in piece.uses.items() if use.join is not None and use.join.name == FOUND]
    asked = list(dict.fromkeys([*asked, *(edge.edge for edge in laid.edges)]))
    hems = [(name, paths[name]) for name in asked]
    if half is not None:
        hems += [(name, paths[name].moved(half).reversed()) for name in asked]
    whole = Shape(
        drafted.name,
        drafted.title,
        drafted.name,
        1,
        None,
        False,
        False,
        outline,
        _lengthwise(drafted, laid.grains),
        laid.within,
        tuple(hems),
        tuple((name, _cut_corner(piece, at)) for name, at, _ in laid.corners),
        laid.motifs,
        tuple(_matches(assembly, drafted, laid)),
    )
    number = drafted.number * (2 if drafted.pair else 1)
    for copy in range(1, number + 1):
        mirrored = drafted.pair and copy % 2 == 0
        shape = mirror_image(whole) if mirrored else whole
        if number > 1:
            title = f"{drafted.title} {copy}" + (", mirrored" if mirrored else "")
            beside = f"{drafted.name} {copy - 1}" if mirrored else ""
            shape = shape._replace(key=f"{drafted.name} {copy}", title=title, number=copy, beside=beside)
        yield shape


def _cut_corner(piece: CutPiece, at: Point) -> Point:
    """The corner of the line to cut that belongs to a corner of the draft."""
    drafted = piece.drafted.edges
    i = min(range(len(drafted)), key=lambda i: abs(drafted[i].path.start - at))
    return piece.edges[i - 1].path.end if drafted[i].on_fold else piece.edges[i].path.start


def _matches(assembly: Assembly, piece: DraftedPiece, laid: Laid) -> Iterator[Match]:
    for own, other in laid.matches:
        beside = assembly.draft.piece(other.piece)
        mine, its = piece.edge(own.edge), beside.edge(other.edge)
        if mine is not None and its is not None:
            first = f"{other.piece} 1" if beside.number * (2 if beside.pair else 1) > 1 else other.piece
            yield Match(mine.own_path.start, first, its.own_path.start)


def mirror_image(shape: Shape) -> Shape:
    """The mirror image of a shape, that of another hand. Only the first of a pair has to match other pieces."""

    def turned(p: Point) -> Point:
        return _MIRROR.apply(p)

    return shape._replace(
        mirrored=True,
        outline=shape.outline.moved(_MIRROR).reversed(),
        lengthwise=tuple(_MIRROR.apply_vector(thread) for thread in shape.lengthwise),
        hems=tuple((name, path.moved(_MIRROR).reversed()) for name, path in shape.hems),
        corners=tuple((name, turned(at)) for name, at in shape.corners),
        motifs=tuple(Motif(one.name, turned(one.at), one.within, one.span) for one in shape.motifs),
        matches=(),
    )


def _strips(assembly: Assembly, strip: DraftedPiece, splits: Splits) -> Iterator[Shape]:
    """The copies of a strip, each in as many parts as it is joined of; they lie along y, as strips are drawn."""
    making = strip.making
    if making is None:
        return
    laid = _laid(assembly, strip)
    number = strip.number * (2 if strip.pair else 1)
    for copy in range(1, number + 1):
        key = strip.name if number == 1 else f"{strip.name} {copy}"
        title = strip.title if number == 1 else f"{strip.title} {copy}"
        ends = [0.0, *splits.get(key, ()), making.length]
        parts = list(pairwise(ends))
        for i, (start, end) in enumerate(parts):
            joins = (i > 0) + (i < len(parts) - 1)
            long, wide = end - start + joins * JOIN, making.cut_width
            letter = chr(ord("a") + i) if len(parts) > 1 else ""
            yield Shape(
                key + letter,
                f"{title}, part {letter}" if letter else title,
                strip.name,
                copy,
                (start, end) if letter else None,
                False,
                True,
                ring([0j, complex(wide, 0), complex(wide, long), complex(0, long)]),
                _lengthwise(strip, laid.grains),
                laid.within,
            )


def _beside(found: Sequence[Shape], assembly: Assembly) -> Iterator[Shape]:
    """The shapes with those that a ``lay`` wants on the same threads."""
    keys = {shape.key for shape in found}
    for shape in found:
        laid = assembly.draft.lays.get(shape.piece)
        for other in laid.mirrored if laid else ():
            first = next((key for key in (other, f"{other} 1", f"{other}a", f"{other} 1a") if key in keys), "")
            if first and not shape.beside:
                shape = shape._replace(beside=first)
        yield shape


def least_area(found: Sequence[Shape]) -> float:
    """The area (mm²) of cloth that shapes cover, however they lie."""
    return math.fsum(shape.outline.area for shape in found)
