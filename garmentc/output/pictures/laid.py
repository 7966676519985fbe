"""Leaves laid flat beside each other, opened out along the seams that are sewn already."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import accumulate, pairwise

from garmentc.assembly.chains import Stretch
from garmentc.assembly.model import JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.geometry.motion import Motion
from garmentc.geometry.vector import Point
from garmentc.output.pictures.leaf import Leaf, Line
from garmentc.record import Record

_SAMPLES = 9


class Laid(Record):
    """A leaf and where it lies."""

    leaf: Leaf
    motion: Motion

    def moved(self, line: Sequence[Point]) -> Line:
        return tuple(self.motion.apply(p) for p in line)

    @property
    def outline(self) -> Line:
        return self.moved(self.leaf.outline)


Group = tuple[Laid, ...]


def lay(leaves: Iterable[Leaf], names: Sequence[EdgeName], sewn: Sequence[JoinedSeam]) -> list[Group]:
    """Groups of leaves that hang together by seams sewn before, each opened out flat.

    Where several seams join two leaves, they are opened out at the one that lies nearest to the edges in hand. Of a
    pair, the other one is laid beside it where it hangs on the same leaf.
    """
    groups: list[list[Laid]] = []
    for leaf in leaves:
        for group in groups:
            beside = [one for laid in group for one in _beside(laid, leaf, sewn)]
            free = [one for one in beside if not any(inside(middle(one.outline), laid.outline) for laid in group)]
            if free:
                group.append(min(free, key=lambda one: _apart(one, group, names)))
                break
        else:
            groups.append([Laid(leaf, Motion.identity())])
    return [(*group, *_other_ones(group, names, sewn)) for group in groups]


def _other_ones(group: Sequence[Laid], names: Sequence[EdgeName], sewn: Sequence[JoinedSeam]) -> Iterator[Laid]:
    """The mirror images of the pieces of pairs in a group, where they hang on one that is none."""
    whole = [laid for laid in group if not laid.leaf.is_pair]
    for leaf in (laid.leaf.mirrored() for laid in group if laid.leaf.is_pair):
        beside = [one for laid in whole for one in _beside(laid, leaf, sewn)]
        free = [one for one in beside if not any(inside(middle(one.outline), laid.outline) for laid in group)]
        if free:
            yield min(free, key=lambda one: _apart(one, group, names))


class Chain(Record):
    """The sewing line of a side of a seam as it lies, the cloth on its left.

    ``begins`` says that the side of the seam starts at its start; ``gap`` how far (mm) its edges are from each other at
    most.
    """

    line: Line
    begins: bool
    gap: float


def chain(group: Group, side: Sequence[Stretch], half: int = 0) -> Chain:
    """The edges of a side one after the other, as they lie in a group; ``half`` 1 is that beyond the fold."""
    found: list[Point] = []
    begins, gap = True, 0.0
    for stretch in side:
        laid = next(one for one in group if one.leaf.holds(stretch.name))
        lines = [laid.moved(line) for line in laid.leaf.lines[stretch.name.edge]]
        if not found:
            here = min(half, len(lines) - 1)
            found, begins = list(lines[here]), laid.leaf.begins(stretch, here)
            continue
        behind = min(lines, key=lambda line: abs(found[-1] - line[0]))
        before = min(lines, key=lambda line: abs(found[0] - line[-1]))
        gap = max(gap, min(abs(found[-1] - behind[0]), abs(found[0] - before[-1])))
        if abs(found[-1] - behind[0]) <= abs(found[0] - before[-1]):
            found, begins = [*found, *behind], True
        else:
            found, begins = [*before, *found], False
    return Chain(tuple(found), begins, gap)


def halves(group: Group, side: Sequence[Stretch]) -> int:
    """How many times a side is there: twice when a piece is on the fold."""
    return max(len(laid.leaf.lines[one.name.edge]) for one in side for laid in group if laid.leaf.holds(one.name))


def onto(moved: Sequence[Point], fixed: Sequence[Point], *, mirrored: bool) -> tuple[Motion, float]:
    """The motion that brings one line onto another, start to start, and how far (mm) it stays off at most."""
    motion = _fit(moved, fixed, mirrored)
    return motion, _off([motion.apply(p) for p in moved], fixed)


def _fit(moved: Sequence[Point], fixed: Sequence[Point], mirrored: bool) -> Motion:
    step, wanted = moved[-1] - moved[0], fixed[-1] - fixed[0]
    if mirrored:
        step = step.conjugate()
    turn = wanted / step if step else 1 + 0j
    turn /= abs(turn) or 1.0
    middle = (moved[0] + moved[-1]) / 2
    middle = middle.conjugate() if mirrored else middle
    return Motion(turn, (fixed[0] + fixed[-1]) / 2 - turn * middle, mirrored)


def _off(one: Sequence[Point], other: Sequence[Point]) -> float:
    return max(abs(a - b) for a, b in zip(_samples(one), _samples(other), strict=True))


def _samples(line: Sequence[Point]) -> list[Point]:
    return [along(line, i / (_SAMPLES - 1)) for i in range(_SAMPLES)]


def along(line: Sequence[Point], share: float) -> Point:
    """The point after a share of the length of a line."""
    runs = list(accumulate((abs(b - a) for a, b in pairwise(line)), initial=0.0))
    due = share * runs[-1]
    for (a, b), start, end in zip(pairwise(line), runs, runs[1:], strict=False):
        if end >= due and end > start:
            return a + (b - a) * (due - start) / (end - start)
    return line[-1]


def cut(line: Sequence[Point], first: float, last: float) -> Line:
    """The part of a line from one share of its length to another."""
    runs = list(accumulate((abs(b - a) for a, b in pairwise(line)), initial=0.0))
    inner = (p for p, run in zip(line, runs, strict=True) if first * runs[-1] < run < last * runs[-1])
    return along(line, first), *inner, along(line, last)


def long(line: Sequence[Point]) -> float:
    """The length of a line."""
    return sum(abs(b - a) for a, b in pairwise(line))


def _apart(one: Laid, group: Iterable[Laid], names: Iterable[EdgeName]) -> float:
    """How far the edges in hand of a leaf are from those of a group."""
    here, there = _ends((one,), names), _ends(group, names)
    return round(min((abs(a - b) for a in here for b in there), default=0.0), 3)


def _ends(group: Iterable[Laid], names: Iterable[EdgeName]) -> list[Point]:
    held = [(laid, name) for laid in group for name in names if laid.leaf.holds(name)]
    lines = [laid.moved(line) for laid, name in held for line in laid.leaf.lines[name.edge]]
    return [end for line in lines for end in (line[0], line[-1])]


def inset(line: Sequence[Point], depth: float) -> Line:
    """A line moved to its left by a depth (mm): into a leaf whose edges run anticlockwise."""
    found: list[Point] = []
    steps = [(b - a) / abs(b - a) for a, b in pairwise(line) if b != a]
    points = [a for a, b in pairwise(line) if b != a] + [line[-1]]
    for i, p in enumerate(points):
        before, after = steps[max(i - 1, 0)], steps[min(i, len(steps) - 1)]
        across = 1j * (before + after)
        size = abs(across)
        found.append(p + depth * across / size * min(2 / size, 1.5) if size > 1e-9 else p)
    return tuple(found)


def _beside(laid: Laid, leaf: Leaf, sewn: Iterable[JoinedSeam]) -> Iterator[Laid]:
    """The leaf where a seam that is sewn already joins it to one that lies."""
    for seam in sewn:
        if seam.mirrored or len(seam.first) != len(seam.second):
            continue
        for pair in zip(*seam.sides, strict=True):
            for one, other in (pair, pair[::-1]):
                if laid.leaf.holds(one.name) and leaf.holds(other.name):
                    yield _joined(laid, one, leaf, other)


def _joined(laid: Laid, one: Stretch, leaf: Leaf, other: Stretch) -> Laid:
    """The leaf beside one that lies, at an edge; of leaves with two halves, at those where the ends meet."""
    fixed, moved = laid.leaf.lines[one.name.edge], leaf.lines[other.name.edge]
    ways = [(here, there) for here in range(len(fixed)) for there in range(len(moved))]
    here, there = next((way for way in ways if laid.leaf.begins(one, way[0]) != leaf.begins(other, way[1])), (0, 0))
    return Laid(leaf, _fit(moved[there][::-1], laid.moved(fixed[here]), laid.motion.mirrored))


def middle(ring: Sequence[Point]) -> Point:
    """The centre of gravity of what a closed line holds."""
    pairs = list(pairwise([*ring, ring[0]]))
    areas = [(a.conjugate() * b).imag for a, b in pairs]
    whole = sum(areas)
    if abs(whole) < 1e-9:
        return sum(ring) / len(ring)
    return sum(((a + b) * area for (a, b), area in zip(pairs, areas, strict=True)), start=0j) / (3 * whole)


def inside(p: Point, ring: Sequence[Point]) -> bool:
    """Whether a point lies in what a closed line holds."""
    cuts = (
        a.real + (p.imag - a.imag) / (b.imag - a.imag) * (b.real - a.real)
        for a, b in pairwise([*ring, ring[0]])
        if (a.imag > p.imag) != (b.imag > p.imag)
    )
    return sum(cut > p.real for cut in cuts) % 2 == 1
