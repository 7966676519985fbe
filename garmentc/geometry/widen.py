"""Outlines grown outward, each edge by its own width."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from garmentc.geometry.crossing import find_crossing
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.joint import Joint, fitted, mitred
from garmentc.geometry.outline import Outline
from garmentc.geometry.parallel import MITRE_LIMIT, parallel
from garmentc.geometry.path import Path
from garmentc.geometry.turned import folded, from_start, squared
from garmentc.geometry.vector import CLOSE, Point, left

Side = Literal["before", "after"]
"""Which edge at a corner is meant: the one that arrives there or the one that leaves."""


@dataclass(frozen=True, slots=True)
class Mitre:
    """The borders go on along their tangents until they meet; long tips are cut off square."""


@dataclass(frozen=True, slots=True)
class Square:
    """The strip of one edge ends square to it, where its line meets the border of the other edge."""

    of: Side


@dataclass(frozen=True, slots=True)
class FoldedBack:
    """The strip of one edge is so shaped that, folded along the edge's line, it lies on the other border.

    `depths` are cumulative distances (mm) from the edge outward: of each further fold, and last of the
    border, so the last is the width of the edge. ValueError unless they are positive and rise, and
    every layer stays on the inner side of the first fold.
    """

    of: Side
    depths: tuple[float, ...]

    def __post_init__(self) -> None:
        level, outer, inward = 0.0, 0.0, 1.0
        if not self.depths:
            raise ValueError("a folded edge has at least one depth")
        for depth in self.depths:
            if not depth > outer:
                raise ValueError("depths must be positive and rise")
            level += inward * (depth - outer)
            if level < -CLOSE:
                raise ValueError("a layer reaches out beyond the first fold")
            outer, inward = depth, -inward


Corner = Mitre | Square | FoldedBack


@dataclass(frozen=True, slots=True)
class Widened:
    """A grown outline: the border of each edge, and at each corner the border between, if any.

    The ring runs joins[0], edges[0], joins[1], edges[1], ... in the sense of the outline.
    """

    edges: tuple[Path, ...]
    joins: tuple[Path | None, ...]

    @property
    def ring(self) -> Outline:
        """The outer border as an outline."""
        return Outline(tuple(path for path, _ in self.owned()))

    def owned(self) -> list[tuple[Path, tuple[int, ...]]]:
        """Return the paths of the ring in order, each with the one or two edges it belongs to."""
        count = len(self.edges)
        paths: list[tuple[Path, tuple[int, ...]]] = []
        for i, (join, edge) in enumerate(zip(self.joins, self.edges, strict=True)):
            if join is not None:
                paths.append((join, ((i - 1) % count, i)))
            paths.append((edge, (i,)))
        return paths


def widen(
    outline: Outline,
    widths: Sequence[float],
    corners: Sequence[Corner],
    mitre_limit: float = MITRE_LIMIT,
) -> Widened:
    """Return the outline grown outward, edge i by widths[i] >= 0 mm.

    corners[i] says how the border passes the corner between edge i - 1 and edge i. No tip reaches
    farther from its corner than `mitre_limit` times the larger width there. Corners that are reflex
    or straight on, or so nearly that a fold finds no other border in reach, are mitred, whatever is
    asked for. Straight on with different widths the border steps straight across. ValueError for
    numbers that do not fit together; GeometryFault with the edges concerned: "too-tight",
    "no-meeting", "too-sharp", "too-short", and "self-crossing" when the grown border crosses itself.
    """
    count = len(outline.edges)
    if len(widths) != count or len(corners) != count:
        raise ValueError(f"{count} edges need as many widths and corners")
    if any(not width >= 0 for width in widths):
        raise ValueError("a width is not negative")
    outward = -outline.orientation
    parallels = []
    for i, edge in enumerate(outline.edges):
        try:
            parallels.append(parallel(edge, outward * widths[i]))
        except GeometryFault as fault:
            raise fault.on(i) from None
    joints = []
    for i, corner in enumerate(corners):
        try:
            joints.append(_joint(outline, outward, parallels, widths, i, corner, mitre_limit))
        except GeometryFault as fault:
            raise fault.on((i - 1) % count, i) from None
    edges = []
    for i, path in enumerate(parallels):
        try:
            edges.append(fitted(path, joints[i].after, joints[(i + 1) % count].before))
        except GeometryFault as fault:
            raise fault.on(i) from None
    widened = Widened(tuple(edges), tuple(joint.between for joint in joints))
    _check_simple(widened)
    return widened


def _joint(
    outline: Outline,
    outward: int,
    parallels: Sequence[Path],
    widths: Sequence[float],
    i: int,
    corner: Corner,
    mitre_limit: float,
) -> Joint:
    """How the borders before and after corner i are brought together."""
    a, b = parallels[i - 1], parallels[i]
    place = outline.edges[i].start
    limit = mitre_limit * max(widths[i - 1], widths[i])
    if isinstance(corner, Mitre):
        return mitred(a, b, place, limit)
    if corner.of == "before":
        u = outline.edges[i - 1].end_direction()
        return _ended(corner, a, b, place, u, outward * left(u), widths[i - 1], limit)
    u = outline.edges[i].start_direction()
    joint = _ended(corner, b.reversed(), a.reversed(), place, -u, outward * left(u), widths[i], limit)
    return from_start(joint, a, b)


def _ended(
    corner: Square | FoldedBack,
    e: Path,
    f: Path,
    place: Point,
    u: complex,
    n: complex,
    width: float,
    limit: float,
) -> Joint:
    if isinstance(corner, Square):
        return squared(e, f, place, u, n, limit)
    if abs(corner.depths[-1] - width) > CLOSE:
        raise ValueError(f"an edge folded to a depth of {corner.depths[-1]} mm is {width} mm wide")
    return folded(e, f, place, u, n, corner.depths, limit)


def _check_simple(widened: Widened) -> None:
    paths = widened.owned()
    crossing = find_crossing([path for path, _ in paths])
    if crossing is not None:
        one, other = crossing.edges
        edges = sorted({*paths[one][1], *paths[other][1]})
        raise GeometryFault("self-crossing", crossing.at, edges=edges)
