"""Proofs that shapes can't be cut from a cloth, whoever looks: by area, of one shape alone, or of two.

A proof holds for every angle that the grain allows and for all that the verifier lets pass. Shapes are therefore taken
smaller than they are and the places they may have larger: a range of angles is cut into short ones, and a shape is
shrunk by as far as its points move in one. What can't be proved is not said.
"""

from __future__ import annotations

import math
from collections.abc import Container, Iterator, Sequence
from itertools import combinations, product

from garmentc.cloth.model import TOLERANCE, Ground, Shape, Turn
from garmentc.cloth.room import Hold, held_as, holds, places
from garmentc.cloth.tracks import tracks
from garmentc.cloth.turns import turns
from garmentc.cloth.verify import cloth_region
from garmentc.geometry.coarse import held
from garmentc.geometry.region import Places, Region, area, corners_of, is_empty, minus, moved, overlaps, rings, widened
from garmentc.numbers import area as area_text
from garmentc.numbers import length, percent
from garmentc.record import Record

_FINE = 1.0  # mm that the polygons of a proof may be short of their curves
_LOOSE = 0.5  # mm that a shape may at least be off its places here: more than the verifier lets pass
_RANGES = 8  # parts of a range of angles
_GROWN = (2000.0, 1.0)  # mm: how much more cloth is tried, and how exactly


class Reason(Record):
    """Why it is impossible: ``kind`` is area, alone, edges, picture or together; about which shapes; in words."""

    kind: str
    keys: tuple[str, ...]
    words: str


class _Way(Record):
    """A range of ways to hold a shape: a polygon that each of them covers, and all places it may have.

    One that ``is_bound`` has only single places, from which it may be off by ``loose`` (mm).
    """

    polygon: Region
    places: Places
    is_bound: bool
    loose: float


def impossible(ground: Ground, shapes: Sequence[Shape], joinable: Container[str] = ()) -> tuple[Reason, ...]:
    """Reasons why no plan for these shapes exists; none when none is proved.

    Shapes whose keys are among those ``joinable`` may also be cut of parts, so that only their area counts.
    """
    found = list(_too_much(ground, shapes))
    known: dict[object, tuple[Hold, ...]] = {}
    bound: list[tuple[Shape, list[_Way]]] = []
    for shape in (one for one in shapes if one.key not in joinable):
        if shape.hems and not _has_straight_hem(ground):
            edge = shape.hems[0][0]
            words = f"the {edge} of {shape.title} shall lie on a finished edge, and the cloth has no straight one"
            found.append(Reason("edges", (shape.key,), words))
            continue
        alike = (shape.outline, shape.lengthwise, shape.within, shape.hems, shape.corners, shape.motifs)
        fresh = alike not in known
        if fresh:
            known[alike] = holds(shape, ground)
        if not known[alike] and fresh and not any(True for _ in _ways(shape, ground)):
            found.append(_alone(shape, ground))
        elif known[alike] and all(hold.places.geom_type == "Point" for hold in known[alike]):
            bound.append((shape, list(_ways(shape, ground))))
    for (one, its_ways), (other, ways) in combinations(bound, 2):
        if not _together(its_ways, ways):
            words = f"{one.title} and {other.title} can't both lie where they have to: they would overlap"
            found.append(Reason("together", (one.key, other.key), words))
    return tuple(found)


def _too_much(ground: Ground, shapes: Sequence[Shape]) -> Iterator[Reason]:
    cloth = cloth_region(ground)
    for flaw in ground.flaws:
        cloth = minus(cloth, widened(area(flaw.ring), -TOLERANCE))
    needed = math.fsum(shape.outline.area - TOLERANCE * shape.outline.perimeter for shape in shapes)
    if needed > cloth.area:
        whole = math.fsum(shape.outline.area for shape in shapes)
        words = f"the pieces together are {area_text(whole)}, the cloth without its flaws {area_text(cloth.area)}"
        over = f"{percent(whole / cloth.area - 1)} too much"
        yield Reason("area", tuple(shape.key for shape in shapes), f"{words}: {over}")


def _ways(shape: Shape, ground: Ground) -> Iterator[_Way]:
    """All ways to hold a shape that may leave it a place."""
    flat = area(held(shape.outline, _FINE))
    is_free = not (shape.hems or shape.corners or shape.motifs)
    if is_free:  # where its origin comes is of no account, and turned about its middle its points move least
        x0, y0, x1, y1 = flat.bounds
        flat = moved(flat, -complex(x0 + x1, y0 + y1) / 2)
    reach = max(abs(p) for p in corners_of(flat))
    for middle, off in _ranges(shape, ground):
        moves = reach * off + TOLERANCE + 0.01
        loose = 2 * TOLERANCE if is_free else max(_LOOSE, 2 * moves)
        whole = held_as(flat, middle)
        polygon, holder = widened(whole, -moves), widened(whole, moves + _FINE)
        for track in tracks(shape, ground, loose, (middle,)):
            if is_empty(polygon):
                yield _Way(polygon, cloth_region(ground), False, loose)
            elif not (room := places(shape, polygon, track, ground, loose, holder)).is_empty:
                yield _Way(polygon, room, track.start is not None and track.start == track.end, loose)


def _ranges(shape: Shape, ground: Ground) -> Iterator[tuple[Turn, float]]:
    """The angles that a shape may have, as middles of ranges with half their width."""
    if shape.hems:
        tilt = 2 * TOLERANCE / max(path.length for _, path in shape.hems)
        yield from ((turn, tilt) for turn in dict.fromkeys(track.turn for track in tracks(shape, ground, math.inf)))
        return
    half = shape.within / _RANGES
    for turn in turns(shape, ground):
        for i in range(_RANGES):
            yield Turn(turn.angle - shape.within + (2 * i + 1) * half, turn.over), half + 1e-5


def _alone(shape: Shape, ground: Ground) -> Reason:
    """The reason why a shape has no place on the cloth, even alone."""
    key = (shape.key,)
    missing = [motif.name for motif in shape.motifs if all(place.name != motif.name for place in ground.places)]
    if missing:
        return Reason("picture", key, f"the cloth has no place `{missing[0]}`, which {shape.title} wants")
    if shape.hems or shape.corners:
        free = shape._replace(hems=(), corners=())
        if any(True for _ in _ways(free, ground)):
            return Reason("edges", key, _edge_words(shape, ground))
    short = _short(shape._replace(hems=(), corners=(), motifs=()), ground)
    words = f"{shape.title} alone does not fit on the cloth under its grain"
    return Reason("alone", key, f"{words}; {short}" if short else words)


def _has_straight_hem(ground: Ground) -> bool:
    return any(side.finish and side.is_straight for side in ground.sides)


def _edge_words(shape: Shape, ground: Ground) -> str:
    longest = max(shape.hems, key=lambda hem: hem[1].length, default=None)
    sides = [abs(side.points[-1] - side.points[0]) for side in ground.sides if side.finish and side.is_straight]
    if longest is not None and longest[1].length > max(sides) + TOLERANCE:
        return (
            f"the {longest[0]} of {shape.title} is {length(longest[1].length)} long, "
            f"the longest finished edge of the cloth {length(max(sides))}"
        )
    asked = list(dict.fromkeys([*(name for name, _ in shape.hems), *(name for name, _ in shape.corners)]))
    named = " and ".join(asked)
    return f"{shape.title} fits on the cloth, but not with its {named} on finished edges and corners"


def _short(shape: Shape, ground: Ground) -> str:
    """How much more cloth there would have to be all round, found by halving; empty where even much more is no help.

    Finished borders are left out: where they would lie round a larger cloth, a shape could use them or not.
    """
    raw = tuple(side._replace(finish="", width=0.0) for side in ground.sides)

    def fits(by: float) -> bool:
        wider = widened(cloth_region(ground), by)
        outer, *holes = rings(wider)
        larger = ground._replace(ring=tuple(outer), holes=tuple(map(tuple, holes)), sides=raw)
        return any(True for _ in _ways(shape, larger))

    low, high = 0.0, _GROWN[0]
    if not fits(high):
        return ""
    while high - low > _GROWN[1]:
        middle = (low + high) / 2
        low, high = (low, middle) if fits(middle) else (middle, high)
    return f"it would have to be at least {length(low)} larger all round" if low >= _GROWN[1] else ""


def _together(ones: Sequence[_Way], others: Sequence[_Way]) -> bool:
    """Whether two shapes with single places leave each other room in some of them; also when that is not known."""
    for one, other in product(ones, others):
        if not (one.is_bound and other.is_bound):
            return True
        mine, its = widened(one.polygon, -one.loose), widened(other.polygon, -other.loose)
        for p, q in product(corners_of(one.places), corners_of(other.places)):
            if not overlaps(moved(mine, p), moved(its, q)):
                return True
    return False
