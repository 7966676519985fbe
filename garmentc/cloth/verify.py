"""Whether a plan can be cut: judged from its shapes and spots alone, by exact regions, whoever made it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import combinations

from garmentc.cloth.model import TOLERANCE, Ground, GroundSide, Plan, Shape, off_axis
from garmentc.cloth.turns import is_way_up, off_grain, same_threads
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.region import Region, area, beside_line, depth, minus, outside, union
from garmentc.geometry.vector import Point, dot, unit
from garmentc.numbers import degrees, length
from garmentc.record import Record

_FINE = 0.005
"""How far (mm) the polygons that are compared leave the curves."""

_ANGLE = 1e-5
"""Rounding (radians) that is not held against a grain."""


class PlanFault(Record):
    """Why a plan can't be cut: about which shapes, in words, and by how much (mm, or radians for a grain)."""

    kind: str
    keys: tuple[str, ...]
    words: str
    amount: float


def verify(plan: Plan) -> tuple[PlanFault, ...]:
    """All that is wrong with a plan, shape by shape; nothing when it can be cut.

    ``kind`` is unplaced, overlap, off-cloth, flaw, hem, picture, grain, over, upside-down, edge, corner, motif, match
    or threads.
    """
    missing = [shape for shape in plan.shapes if shape.key not in plan.spots]
    if missing:
        return tuple(PlanFault("unplaced", (shape.key,), f"{shape.title} lies nowhere", 0.0) for shape in missing)
    laid = {shape.key: laid_region(plan.outline(shape)) for shape in plan.shapes}
    found: list[PlanFault] = []
    for shape in plan.shapes:
        found += _held(plan, shape)
        found += _on_cloth(plan, shape, laid[shape.key])
        found += _on_edges(plan, shape)
        found += _in_picture(plan, shape)
    for one, other in combinations(plan.shapes, 2):
        deep = depth(laid[one.key], laid[other.key])
        if deep > TOLERANCE:
            words = f"{one.title} and {other.title} lie over each other by {length(deep)}"
            found.append(PlanFault("overlap", (one.key, other.key), words, deep))
    return (*found, *_beside(plan))


def laid_region(outline: Outline) -> Region:
    """The region of an outline, fine enough to be judged."""
    return area(outline.flatten(_FINE))


def cloth_region(ground: Ground) -> Region:
    """All of a cloth, without its holes."""
    return area(ground.ring, ground.holes)


def used_sides(ground: Ground, edges: Iterable[tuple[Point, Point]], points: Iterable[Point]) -> frozenset[int]:
    """The sides of the cloth, by their index, that a shape may use up.

    Those on which its ``edges`` lie that have to, or nearly lie, and those that meet in a corner under its ``points``.
    """
    found = {i for p in points for i in sides_at(ground, p)}
    for a, b in edges:
        found |= {
            i
            for i, side in enumerate(ground.sides)
            if side.finish and off_side(side, a, b) <= max(TOLERANCE, side.width)
        }
    return frozenset(found)


def sides_at(ground: Ground, p: Point) -> frozenset[int]:
    """The sides that meet in a point, by their index."""
    sides = enumerate(ground.sides)
    return frozenset(i for i, side in sides if min(abs(p - side.points[0]), abs(p - side.points[-1])) <= 2 * TOLERANCE)


def hem_regions(ground: Ground, used: frozenset[int]) -> list[tuple[str, Region]]:
    """The finished borders of the cloth that a shape has to keep off: all but those on which it has an edge."""
    return [
        (side.name, beside_line(side.points, side.width))
        for i, side in enumerate(ground.sides)
        if side.finish and side.width > 0 and i not in used
    ]


def off_side(side: GroundSide, a: Point, b: Point) -> float:
    """How far (mm) an edge from a to b, its shape on the left, is off a straight side; infinite for a curved side."""
    if not side.is_straight:
        return math.inf
    start, end = side.points[0], side.points[-1]
    along = unit(end - start)
    if dot(b - a, along) <= 0:
        return math.inf
    beyond = max(-dot(a - start, along), dot(b - end, along), 0.0)
    return max(abs(((p - start) * along.conjugate()).imag) for p in (a, b)) + beyond


def laid_edge(plan: Plan, shape: Shape, path: Path) -> tuple[Point, Point]:
    """The ends of an edge where it lies, in the order that has the shape on the left."""
    spot = plan.spots[shape.key]
    a, b = spot.motion.apply(path.start), spot.motion.apply(path.end)
    return (b, a) if spot.turn.over else (a, b)


def _held(plan: Plan, shape: Shape) -> Iterator[PlanFault]:
    turn, ground = plan.spots[shape.key].turn, plan.ground
    off = off_grain(shape, turn, ground)
    if off > shape.within + _ANGLE:
        words = f"{shape.title} lies {degrees(off)} off its grain; {degrees(shape.within)} are allowed"
        yield PlanFault("grain", (shape.key,), words, off - shape.within)
    if turn.over and not ground.is_alike:
        yield PlanFault("over", (shape.key,), f"{shape.title} lies face down on a cloth whose sides differ", 0.0)
    if not is_way_up(shape, turn, ground):
        words = f"{shape.title} lies upside down on a cloth with an upper end"
        yield PlanFault("upside-down", (shape.key,), words, 0.0)


def _on_cloth(plan: Plan, shape: Shape, laid: Region) -> Iterator[PlanFault]:
    ground, key = plan.ground, (shape.key,)
    out = outside(laid, cloth_region(ground))
    if out > TOLERANCE:
        yield PlanFault("off-cloth", key, f"{shape.title} reaches {length(out)} off the cloth", out)
    for flaw in ground.flaws:
        deep = depth(laid, area(flaw.ring))
        if deep > TOLERANCE:
            yield PlanFault("flaw", key, f"{shape.title} reaches {length(deep)} into the {flaw.name}", deep)
    motion = plan.spots[shape.key].motion
    on_corners = (motion.apply(at) for _, at in shape.corners)
    used = used_sides(ground, (laid_edge(plan, shape, path) for _, path in shape.hems), on_corners)
    hems = hem_regions(ground, used)
    if hems and depth(laid, union(region for _, region in hems)) > TOLERANCE:
        for name, region in hems:
            deep = depth(laid, region)
            if deep > TOLERANCE:
                words = f"{shape.title} reaches {length(deep)} into the finished edge `{name}`"
                yield PlanFault("hem", key, words, deep)
    for place in ground.places:
        whole = area(place.ring)
        inside, left = depth(laid, whole), outside(whole, laid)
        if min(inside, left) > TOLERANCE:
            words = f"{shape.title} cuts through the {place.name}, {length(inside)} deep"
            yield PlanFault("picture", key, words, min(inside, left))


def _on_edges(plan: Plan, shape: Shape) -> Iterator[PlanFault]:
    ground = plan.ground
    for name, path in shape.hems:
        a, b = laid_edge(plan, shape, path)
        off = min((off_side(side, a, b) for side in ground.sides if side.finish), default=math.inf)
        if off > TOLERANCE:
            far = f": it is {length(off)} off" if off < math.inf else ""
            words = f"the {name} of {shape.title} does not lie on a finished edge of the cloth{far}"
            yield PlanFault("edge", (shape.key,), words, off)
    for name, at in shape.corners:
        p = plan.spots[shape.key].motion.apply(at)
        off = min((abs(p - corner) for corner in corners(ground)), default=math.inf)
        if off > TOLERANCE:
            words = f"{name} of {shape.title} lies {length(off)} from the nearest corner of the cloth"
            yield PlanFault("corner", (shape.key,), words, off)


def corners(ground: Ground) -> list[Point]:
    """The points where two straight sides of the cloth meet at an angle."""
    found = []
    for before, after in zip((ground.sides[-1], *ground.sides), ground.sides, strict=False):
        if before.is_straight and after.is_straight:
            coming, going = before.points[-1] - before.points[0], after.points[-1] - after.points[0]
            if off_axis(coming, going) > 1e-3:
                found.append(after.points[0])
    return found


def _in_picture(plan: Plan, shape: Shape) -> Iterator[PlanFault]:
    ground, motion = plan.ground, plan.spots[shape.key].motion
    for motif in shape.motifs:
        place = next((one for one in ground.places if one.name == motif.name), None)
        if place is None:
            words = f"the cloth has no place `{motif.name}`, which {shape.title} wants"
            yield PlanFault("motif", (shape.key,), words, math.inf)
            continue
        off = abs(motion.apply(motif.at) - place.middle)
        left = outside(area(place.ring), laid_region(plan.outline(shape)))
        if off > motif.within + TOLERANCE or left > TOLERANCE:
            words = f"the middle of the {motif.name} lies {length(off)} from where {shape.title} wants it"
            yield PlanFault("motif", (shape.key,), words, max(off - motif.within, left))
    for match in shape.matches:
        if match.other in plan.spots:
            mine = motion.apply(match.at)
            theirs = plan.spots[match.other].motion.apply(match.other_at)
            off = abs(off_repeat(mine - theirs, ground.repeat))
            if off > TOLERANCE:
                words = f"the picture of {shape.title} is {length(off)} off that of {match.other}"
                yield PlanFault("match", (shape.key, match.other), words, off)


def off_repeat(v: complex, repeat: tuple[float, float]) -> complex:
    """How far a vector is from the nearest one that the picture repeats in, in the ways in which it repeats."""
    across, up = repeat
    x = math.remainder(v.real, across) if across else 0.0
    y = math.remainder(v.imag, up) if up else 0.0
    return complex(x, y)


def _beside(plan: Plan) -> Iterator[PlanFault]:
    by_key = {shape.key: shape for shape in plan.shapes}
    for shape in plan.shapes:
        other = by_key.get(shape.beside)
        if other is None:
            continue
        turn, its = plan.spots[shape.key].turn, plan.spots[other.key].turn
        if not same_threads(shape, turn, other, its, plan.ground):
            words = f"{shape.title} and {other.title} do not lie on the same threads like mirror images"
            yield PlanFault("threads", (shape.key, other.key), words, 0.0)


def left_over(plan: Plan) -> Region:
    """What remains of the cloth, without flaws and finished borders."""
    ground = plan.ground
    gone = [laid_region(plan.outline(shape)) for shape in plan.shapes]
    gone += [area(flaw.ring) for flaw in ground.flaws]
    gone += [region for _, region in hem_regions(ground, frozenset())]
    return minus(cloth_region(ground), union(gone)) if gone else cloth_region(ground)
