"""The pages of a large drawing: which are needed, how they are named, and the marks at which they are joined."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from garmentc.geometry.segments import Box
from garmentc.geometry.vector import Point
from garmentc.output.paper.arrange import Arrangement
from garmentc.output.paper.papers import OVERLAP, Paper
from garmentc.output.patterns.clear import Ground
from garmentc.output.patterns.scene import Look, Stroke, Words, polyline
from garmentc.record import Record

JOINT = Look(0.18)
"""How the lines are drawn along which pages are joined."""

_DIAMOND = 3.0  # mm, half of it
_TALL = 2.8  # mm, the number beside it
_ROOM = 26.0  # mm, what the diamond and its numbers take
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.15, 0.85)  # of a joint, where its diamond may be

Ring = Sequence[Point]


class Tile(Record):
    """A page of the drawing by row (from the top) and column (from the left); ``window`` is what it shows (mm)."""

    row: int
    column: int
    window: Box

    @property
    def name(self) -> str:
        """Rows are lettered, columns numbered: "B2"."""
        return row_name(self.row) + str(self.column + 1)


class Joint(Record):
    """Where two pages are joined: its number, the ends of the line, and where its diamond lies on that."""

    number: int
    one: Tile
    other: Tile
    start: Point
    end: Point
    mark: Point


class Tiling(Record):
    """The pages that hold something, row by row from the top, and the joints between neighbours."""

    paper: Paper
    tiles: tuple[Tile, ...]
    joints: tuple[Joint, ...]
    rows: int
    columns: int

    def joints_of(self, tile: Tile) -> list[Joint]:
        """The joints along the edges of a page."""
        return [joint for joint in self.joints if tile in (joint.one, joint.other)]


def row_name(row: int) -> str:
    """A to Z, then AA and so on."""
    return (row_name(row // 26 - 1) if row >= 26 else "") + chr(ord("A") + row % 26)


def tile_up(arrangement: Arrangement, words: Sequence[Words], panel: bool) -> Tiling:
    """The pages of an arrangement. ``words`` are kept clear of the diamonds; a ``panel`` stands on the lowest left."""
    paper = arrangement.paper
    rings = [ring for laid in arrangement.laid for ring in laid.rings]
    kept = _needed(paper, rings, panel)
    rows, columns = max(row for row, _ in kept) + 1, max(column for _, column in kept) + 1
    tiles = {
        (row, column): Tile(rows - 1 - row, column, _window(paper, row, column))
        for row, column in sorted(kept, key=lambda at: (-at[0], at[1]))
    }
    joints: list[Joint] = []
    for (row, column), tile in tiles.items():
        for other in ((row, column + 1), (row - 1, column)):
            if other in tiles:
                start, end = _line(paper, row, column, upright=other[0] == row)
                mark = _mark_place(rings, words, start, end)
                joints.append(Joint(len(joints) + 1, tile, tiles[other], start, end, mark))
    return Tiling(paper, tuple(tiles.values()), tuple(joints), rows, columns)


def joint_strokes(joints: Sequence[Joint]) -> Iterator[Stroke]:
    """The lines of joints, and the halves of their diamonds that are filled."""
    for joint in joints:
        yield Stroke("joint", "narrow", polyline(joint.start, joint.end))
        along = (joint.end - joint.start) / abs(joint.end - joint.start) * _DIAMOND
        across = along * -1j
        corners = (joint.mark - along, joint.mark + across, joint.mark + along, joint.mark - across)
        yield Stroke("joint", "narrow", polyline(*corners, corners[0]))
        yield Stroke("joint", "solid", polyline(corners[0], corners[1], corners[2], corners[0]))


def joint_words(joints: Sequence[Joint], tile: Tile) -> Iterator[Words]:
    """The number of each joint on the side of a page."""
    for joint in joints:
        upright = abs((joint.end - joint.start).real) < 1e-6
        if upright:
            at = joint.mark + (-7.5 if tile == joint.one else 7.5) - _TALL / 2 * 1j
        else:
            at = joint.mark + 1j * (5.0 if tile == joint.one else -5.0 - _TALL)
        yield Words("joint", str(joint.number), at, 1 + 0j, _TALL, True)


def _window(paper: Paper, row: int, column: int) -> Box:
    (across, up), (wide, high) = paper.step, paper.window
    return column * across, row * up, column * across + wide, row * up + high


def _line(paper: Paper, row: int, column: int, upright: bool) -> tuple[Point, Point]:
    """The line at the right of a page, or at its lower edge, from the middle of one overlap to the next."""
    x0, y0, x1, y1 = (value + inset for value, inset in zip(_window(paper, row, column), _INSETS, strict=True))
    return (complex(x1, y0), complex(x1, y1)) if upright else (complex(x0, y0), complex(x1, y0))


_INSETS = (OVERLAP / 2, OVERLAP / 2, -OVERLAP / 2, -OVERLAP / 2)


def _needed(paper: Paper, rings: Sequence[Ring], panel: bool) -> set[tuple[int, int]]:
    """Rows (from below) and columns of the pages without which something would be missing."""
    across, up = paper.step
    right, top = max(p.real for ring in rings for p in ring), max(p.imag for ring in rings for p in ring)
    every = [(row, column) for row in range(math.ceil(top / up) + 1) for column in range(math.ceil(right / across) + 1)]
    kept = {at for at in every if any(_meets(ring, _own(paper, at, set())) for ring in rings)}
    if panel:
        kept.add((0, 0))
    # A page is left out when the edges of the pages beside it show all that it would; those then have to stay.
    stays = {(0, 0)} if panel else set()
    for at in sorted(kept, key=lambda at: (-at[0] - at[1], at)):
        if at not in stays and not any(_meets(ring, _own(paper, at, kept)) for ring in rings):
            kept.discard(at)
            stays |= kept & {(at[0] + row, at[1] + column) for row, column in ((0, 1), (0, -1), (-1, 0))}
    return kept


def _own(paper: Paper, at: tuple[int, int], kept: set[tuple[int, int]]) -> Box:
    """What a page shows up to its joints, less what its neighbours among the kept show of it."""
    row, column = at
    half = OVERLAP / 2
    x0, y0, x1, y1 = (value + inset for value, inset in zip(_window(paper, row, column), _INSETS, strict=True))
    return (
        x0 + half * ((row, column - 1) in kept),
        y0 + half * ((row - 1, column) in kept),
        x1 - half * ((row, column + 1) in kept),
        y1,  # the page above shows nothing below its joint
    )


def _meets(ring: Ring, box: Box) -> bool:
    """Whether a closed ring of points has something inside a box."""
    x0, y0, x1, y1 = box
    if max(p.real for p in ring) < x0 or min(p.real for p in ring) > x1:
        return False
    if max(p.imag for p in ring) < y0 or min(p.imag for p in ring) > y1:
        return False
    if any(_crosses(a, b, box) for a, b in pairwise((*ring, ring[0]))):
        return True
    return Ground(ring, 0.0).holds(complex((x0 + x1) / 2, (y0 + y1) / 2))


def _crosses(a: Point, b: Point, box: Box) -> bool:
    """Whether a straight stretch comes into a box."""
    low, high = 0.0, 1.0
    x0, y0, x1, y1 = box
    for start, end, least, most in ((a.real, b.real, x0, x1), (a.imag, b.imag, y0, y1)):
        run = end - start
        if run == 0.0:
            if not least < start < most:
                return False
            continue
        enter, leave = sorted(((least - start) / run, (most - start) / run))
        low, high = max(low, enter), min(high, leave)
    return low < high


def _mark_place(rings: Sequence[Ring], words: Sequence[Words], start: Point, end: Point) -> Point:
    """The place on a joint that is clear of lines and words, or else its middle."""
    ground = Ground((start, end), 0.0)
    near = _ROOM * 1.5
    box = (
        min(start.real, end.real) - near,
        min(start.imag, end.imag) - near,
        max(start.real, end.real) + near,
        max(start.imag, end.imag) + near,
    )
    ground.walls = [(a, b, 1.0) for ring in rings for a, b in pairwise((*ring, ring[0])) if _crosses(a, b, box)]
    ground.walls += [one.wall for one in words if _crosses(one.wall[0], one.wall[1], box)]
    size = complex(_ROOM, 12.0) if abs((end - start).real) < 1e-6 else complex(12.0, _ROOM)
    for share in _SHARES:
        at = start + share * (end - start)
        if not ground.meets(at - size / 2, 1 + 0j, size.real, size.imag):
            return at
    return (start + end) / 2
