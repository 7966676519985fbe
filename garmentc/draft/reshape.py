"""Opens, turns and spreads a ring of edges: the moves of scissors and pins on a paper pattern, as numbers."""

from __future__ import annotations

import cmath
from collections.abc import Callable, Sequence
from itertools import pairwise

from garmentc.draft.clip import NamedPath
from garmentc.draft.model import Shift
from garmentc.geometry.bent import drawn_from
from garmentc.geometry.crossing import line_meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import Point, dot, heading, left, unit
from garmentc.record import Record

Ring = tuple[NamedPath, ...]

_END = 1e-3  # mm; a cut nearer than this to the end of an edge is made there
_ROUNDS = 200


class Mouth(Record):
    """The stretch of an edge that a dart takes up, in the direction of the ring, and the tip of the dart."""

    edge: str
    first: Point
    second: Point
    tip: Point

    @property
    def angle(self) -> float:
        """The angle at the tip (radians)."""
        return abs(cmath.phase((self.second - self.tip) / (self.first - self.tip)))

    def moved(self, motion: Motion) -> Mouth:
        """The mouth after a motion of the part of the piece that it lies in."""
        return Mouth(self.edge, motion.apply(self.first), motion.apply(self.second), motion.apply(self.tip))


def named(ring: Ring, name: str) -> NamedPath:
    """An edge of a ring by name; StopIteration when it has none."""
    return ring[_index(ring, name)]


def mouth_width(path: Path, at: float, tip: Point, angle: float) -> float:
    """How much (mm) of a path a dart takes, half on each side of a position, whose legs make an angle at the tip."""
    width = 0.0
    for _ in range(_ROUNDS):  # each round comes nearer by the sine of half the angle at least
        before = width
        width = 2 * abs(path.point_at(max(0.0, at - width / 2)) - tip) * cmath.sin(angle / 2).real
        if abs(width - before) < 1e-12:
            break
    return width


def open_dart(ring: Ring, edge: str, at: float, tip: Point, width: float) -> tuple[Ring, Mouth]:
    """A ring with a dart in an edge: ``width`` (mm) of it, half on each side of a position (mm) along the ring.

    The legs come out equal: the end of the second one (along the ring) is the first one turned about the tip, and the
    edge from there on is drawn to meet it. GeometryFault "too-wide" when the mouth runs beyond the edge, "tip-outside"
    when the tip does not lie inside the ring.
    """
    i = _index(ring, edge)
    path = ring[i].path
    low, high = at - width / 2, at + width / 2
    if low < _END or high > path.length - _END:
        raise GeometryFault("too-wide", path.point_at(at), {"width": width, "edge": path.length})
    if not Outline(tuple(one.path for one in ring)).contains(tip):
        raise GeometryFault("tip-outside", tip)
    first = path.point_at(low)
    leg = abs(first - tip)
    if width >= 2 * leg:
        raise GeometryFault("too-wide", first, {"width": width, "leg": leg})
    # A ring runs anticlockwise, so seen from inside it turns to the left.
    second = tip + (first - tip) * heading(2 * cmath.asin(width / 2 / leg).real)
    before, after = path.between(0.0, low), path.between(high, path.length)
    onward = drawn_from(second, after)
    opened = ring[i]._replace(path=before.joined(straight(before.end, second)).joined(onward))
    return (*ring[:i], opened, *ring[i + 1 :]), Mouth(edge, before.end, second, tip)


def pivot(
    ring: Ring, mouth: Mouth, edge: str, at: float, share: float, stays: str
) -> tuple[Ring, Mouth | None, Mouth, Shift]:
    """A dart, or a share of its angle, moved to a position of another edge by turning a part of the piece.

    The piece is cut from the new place to the tip, and the part between the two places that does not hold the edge
    ``stays`` is turned about the tip. Gives the ring, what is left of the dart, the new dart, and what was moved.
    GeometryFault "same-place" when the new place lies in the dart itself.
    """
    path = named(ring, mouth.edge).path
    low, high = path.nearest(mouth.first)[0], path.nearest(mouth.second)[0]
    if edge == mouth.edge and low - _END < at < high + _END:
        raise GeometryFault("same-place", path.point_at(at))
    where = named(ring, edge).path.point_at(at)
    stretches = _cut(ring, [(mouth.edge, low), (mouth.edge, high), (edge, at)])
    begun = next(i for i, one in enumerate(stretches) if abs(one.path.start - mouth.second) < _END)
    around = stretches[begun:] + stretches[:begun]
    half = next(i for i, one in enumerate(around) if abs(one.path.end - where) < _END) + 1
    onward, back = around[:half], around[half:-1]
    angle = mouth.angle * share
    if any(one.name == stays for one in onward) and not any(one.name == stays for one in back):
        motion = Motion.turn_about(mouth.tip, angle)
        part = _part([*back, *_lines(mouth.first, mouth.tip, where)])
        back = [one._replace(path=one.path.moved(motion)) for one in back]
    else:
        motion = Motion.turn_about(mouth.tip, -angle)
        part = _part([*onward, *_lines(where, mouth.tip, mouth.second)])
        onward = [one._replace(path=one.path.moved(motion)) for one in onward]
    opened = Mouth(edge, onward[-1].path.end, back[0].path.start, mouth.tip)
    filler = named(ring, edge)._replace(path=straight(opened.first, opened.second))
    rest: Mouth | None = None
    last: list[NamedPath] = []
    if share < 1.0 - 1e-9:
        rest = Mouth(mouth.edge, back[-1].path.end, onward[0].path.start, mouth.tip)
        last = [around[-1]._replace(path=straight(rest.first, rest.second))]
    else:
        onward[0] = onward[0]._replace(path=_snapped(onward[0].path, back[-1].path.end))
    return _merged([*onward, filler, *back, *last], ring), rest, opened, Shift(part, motion)


def close_through(ring: Ring, mouth: Mouth, stays: str) -> tuple[Ring, Shift]:
    """A ring with a dart laid together that runs through it, from its mouth to where its legs leave the ring again.

    The part that does not hold the edge ``stays`` is turned about the tip of the dart. GeometryFault "not-through" when
    the legs do not leave the ring before they meet.
    """
    path = named(ring, mouth.edge).path
    low, high = path.nearest(mouth.first)[0], path.nearest(mouth.second)[0]
    out, back_in = _leaves(ring, mouth, mouth.second), _leaves(ring, mouth, mouth.first)
    if out[0] != back_in[0]:
        raise GeometryFault("not-through", mouth.tip)
    edge = out[0]
    stretches = _cut(ring, [(mouth.edge, low), (mouth.edge, high), out, back_in])
    begun = next(i for i, one in enumerate(stretches) if abs(one.path.start - mouth.second) < _END)
    around = stretches[begun:] + stretches[:begun]
    there, here = (named(ring, edge).path.point_at(at) for _, at in (out, back_in))
    gone = next(i for i, one in enumerate(around) if abs(one.path.end - there) < _END) + 1
    come = next(i for i, one in enumerate(around) if abs(one.path.end - here) < _END) + 1
    onward, back = around[:gone], around[come:-1]
    if any(one.name == stays for one in onward) and not any(one.name == stays for one in back):
        motion = Motion.turn_about(mouth.tip, mouth.angle)
        part = _part([*back, *_lines(mouth.first, here)])
        back = [one._replace(path=one.path.moved(motion)) for one in back]
    else:
        motion = Motion.turn_about(mouth.tip, -mouth.angle)
        part = _part([*onward, *_lines(there, mouth.second)])
        onward = [one._replace(path=one.path.moved(motion)) for one in onward]
    return _merged([*onward, *back], ring), Shift(part, motion)


def _leaves(ring: Ring, mouth: Mouth, start: Point) -> tuple[str, float]:
    """The edge and the position at which a leg of a dart leaves a ring."""
    way = mouth.tip - start
    met = [
        (dot(p - start, unit(way)), one.name, s)
        for one in ring
        for s, p in line_meetings(one.path, start, way)
        if one.name != mouth.edge and _END < dot(p - start, unit(way)) < abs(way) + _END
    ]
    if not met:
        raise GeometryFault("not-through", mouth.tip)
    _, name, at = min(met)
    return name, at


def spread(
    ring: Ring,
    first: tuple[str, float],
    second: tuple[str, float],
    stays: str,
    motion_for: Callable[[Point, Point, int], Motion],
) -> tuple[Ring, Shift]:
    """A ring cut from a position of one edge to a position of another and opened there.

    The part that does not hold the edge ``stays`` is moved by what ``motion_for`` gives for the two places and the side
    of the cut, seen from the second place, on which the part lies (1 left, -1 right). Straight stretches fill the gaps.
    """
    p, q = named(ring, first[0]).path.point_at(first[1]), named(ring, second[0]).path.point_at(second[1])
    if abs(p - q) < _END:
        raise GeometryFault("coinciding-points", p)
    stretches = _cut(ring, [first, second])
    begun = next(i for i, one in enumerate(stretches) if abs(one.path.start - p) < _END)
    around = stretches[begun:] + stretches[:begun]
    half = next(i for i, one in enumerate(around) if abs(one.path.end - q) < _END) + 1
    onward, back = around[:half], around[half:]
    if any(one.name == stays for one in onward) and not any(one.name == stays for one in back):
        motion = motion_for(p, q, -1)
        part = _part([*back, *_lines(p, q)])
        back = [one._replace(path=one.path.moved(motion)) for one in back]
    else:
        motion = motion_for(p, q, 1)
        part = _part([*onward, *_lines(q, p)])
        onward = [one._replace(path=one.path.moved(motion)) for one in onward]
    names = named(ring, second[0]), named(ring, first[0])
    gaps = (onward[-1].path.end, back[0].path.start), (back[-1].path.end, onward[0].path.start)
    fillers = [
        [] if abs(a - b) < _END else [name._replace(path=straight(a, b))]
        for name, (a, b) in zip(names, gaps, strict=True)
    ]
    return _merged([*onward, *fillers[0], *back, *fillers[1]], ring), Shift(part, motion)


def redrawn(ring: Ring, name: str, path: Path) -> Ring:
    """A ring with one edge drawn anew between the same ends; the path runs along the ring."""
    i = _index(ring, name)
    return (*ring[:i], ring[i]._replace(path=path), *ring[i + 1 :])


class Closing(Record):
    """An edge (along the ring) without what is taken up in it: its stretches, each with the motion that closes it.

    ``spokes`` are the lines, by a point and a direction outward, on which the stretches meet once all is closed.
    """

    stretches: tuple[Path, ...]
    motions: tuple[Motion, ...]
    spokes: tuple[tuple[Point, complex], ...]

    def motion_at(self, p: Point) -> Motion:
        """The motion of the stretch that lies nearest to a point."""
        nearest = min(range(len(self.stretches)), key=lambda i: self.stretches[i].nearest(p)[1])
        return self.motions[nearest]


def closing(path: Path, mouths: Sequence[tuple[Mouth, bool]]) -> Closing:
    """An edge with its mouths closed one after the other from its start on; each says whether it is a dart.

    A dart closes by a turn about its tip, a fold by a shift.
    """
    stretches: list[Path] = []
    motions = [Motion.identity()]
    spokes: list[tuple[Point, complex]] = []
    begin = 0.0
    placed = [(path.nearest(mouth.first)[0], path.nearest(mouth.second)[0], mouth, dart) for mouth, dart in mouths]
    for low, high, mouth, is_dart in sorted(placed, key=lambda one: one[0]):
        stretches.append(path.between(begin, low))
        so_far = motions[-1]
        if is_dart:
            out = unit(mouth.first - mouth.tip)
            motion = Motion.turn_about(mouth.tip, -mouth.angle)
        else:
            out = unit((mouth.first + mouth.second) / 2 - mouth.tip)
            motion = Motion.shift_by(mouth.first - mouth.second)
        spokes.append((so_far.apply(mouth.first), so_far.apply_vector(out)))
        motions.append(motion.then(so_far))
        begin = high
    stretches.append(path.between(begin, path.length))
    return Closing(tuple(stretches), tuple(motions), tuple(spokes))


def reopened(drawn: Path, closed: Closing) -> tuple[Path, tuple[tuple[Point, Point], ...]]:
    """A path drawn over a closed edge, opened again: the edge along the ring, and both ends of each mouth.

    GeometryFault "misses-dart" where the path does not cross the line of a dart or fold once, in order.
    """
    cuts = [0.0]
    for at, out in closed.spokes:
        onward = [s for s, p in line_meetings(drawn, at, out) if s > cuts[-1] + _END]
        if not onward:
            raise GeometryFault("misses-dart", at)
        cuts.append(min(onward, key=lambda s: abs(drawn.point_at(s) - at)))
    cuts.append(drawn.length)
    if any(high - low < _END for low, high in pairwise(cuts)):
        raise GeometryFault("misses-dart", closed.spokes[-1][0])
    parts = [
        drawn.between(low, high).moved(motion.inverse())
        for (low, high), motion in zip(pairwise(cuts), closed.motions, strict=True)
    ]
    found = parts[0]
    ends = []
    for part in parts[1:]:
        ends.append((found.end, part.start))
        found = _bridged(found, part)
    return found, tuple(ends)


def cap(cut: Path, mouth: Mouth, to_first: bool) -> Path:
    """A cut line with its course over a dart such that, once sewn and pressed to one side, it lies on itself.

    ``cut`` runs along the ring. ``to_first``: the cloth of the dart is pressed toward its first leg. GeometryFault
    "no-meeting" when a leg, drawn on, does not meet the cut line.
    """
    tip = mouth.tip
    ways = unit(mouth.first - tip), unit(mouth.second - tip)
    low, high = (_meeting(cut, tip, way, leg) for way, leg in zip(ways, (mouth.first, mouth.second), strict=True))
    if not low < high:
        raise GeometryFault("no-meeting", mouth.first)
    fold = unit(ways[0] + ways[1])
    before, after = cut.between(0.0, low), cut.between(high, cut.length)
    if to_first:
        half = _to_fold(before.reversed().moved(Motion.mirror_in(tip, ways[0])), tip, fold)
        other = half.moved(Motion.mirror_in(tip, fold)).reversed()
    else:
        other = _to_fold(after.moved(Motion.mirror_in(tip, ways[1])), tip, fold).reversed()
        half = other.moved(Motion.mirror_in(tip, fold)).reversed()
    parts = [before, half, other, after]
    found = parts[0]
    for part in parts[1:]:
        found = found.joined(part) if abs(found.end - part.start) < 1e-6 else _bridged(found, part)
    return found


def _bridged(one: Path, other: Path) -> Path:
    return one.joined(straight(one.end, other.start)).joined(other)


def _meeting(cut: Path, tip: Point, way: complex, leg: Point) -> float:
    """Where a leg, drawn on from the edge, meets the cut line first."""
    reach = abs(leg - tip)
    beyond = [
        (abs((p - tip) / way), s) for s, p in line_meetings(cut, tip, way) if ((p - tip) / way).real > reach - 1.0
    ]
    if not beyond:
        raise GeometryFault("no-meeting", leg)
    return min(beyond)[1]


def _to_fold(path: Path, tip: Point, fold: complex) -> Path:
    """A path up to the fold line of a dart, drawn on straight where it ends before."""
    meetings = [s for s, p in line_meetings(path, tip, fold) if ((p - tip) / fold).real > 0 and s > 1e-6]
    if meetings:
        return path.between(0.0, min(meetings))
    way, end = path.end_direction(), path.end
    aside = ((way) / fold).imag
    if abs(aside) < 1e-9:
        raise GeometryFault("no-meeting", end)
    on = -((end - tip) / fold).imag / aside
    if on <= 0:
        raise GeometryFault("no-meeting", end)
    return path.joined(straight(end, end + on * way))


def _index(ring: Ring, name: str) -> int:
    return next(i for i, one in enumerate(ring) if one.name == name)


def _cut(ring: Ring, places: Sequence[tuple[str, float]]) -> list[NamedPath]:
    """The stretches of a ring cut at positions along its edges."""
    found: list[NamedPath] = []
    for one in ring:
        length = one.path.length
        cuts = sorted(at for name, at in places if name == one.name and _END < at < length - _END)
        cuts = [at for i, at in enumerate(cuts) if not i or at - cuts[i - 1] > _END]
        stations = [0.0, *cuts, length]
        found += [one._replace(path=one.path.between(a, b)) for a, b in pairwise(stations)]
    return found


def _merged(stretches: list[NamedPath], like: Ring) -> Ring:
    """Stretches of one edge made one again; the ring begins with the edge it began with."""
    begin = next(
        i for i, one in enumerate(stretches) if one.name == like[0].name and stretches[i - 1].name != like[0].name
    )
    found: list[NamedPath] = []
    for one in stretches[begin:] + stretches[:begin]:
        if found and found[-1].name == one.name:
            last = found[-1].path
            found[-1] = found[-1]._replace(path=last.joined(_snapped(one.path, last.end)))
        else:
            found.append(one)
    return tuple(found)


def _snapped(path: Path, start: Point) -> Path:
    """A path whose start is moved by less than rounding can tell."""
    return path if path.start == start else path.moved(Motion.shift_by(start - path.start))


def _lines(*points: Point) -> list[NamedPath]:
    return [NamedPath("", straight(a, b)) for a, b in pairwise(points) if abs(a - b) > 1e-9]


def _part(stretches: Sequence[NamedPath]) -> Outline:
    return Outline(tuple(one.path for one in stretches))


def opening(by: float, is_angle: bool, hinged: bool) -> Callable[[Point, Point, int], Motion]:
    """How a spread moves its part: turned about the second place by an angle or until it gapes so wide, or shifted."""

    def motion(p: Point, q: Point, side: int) -> Motion:
        if not is_angle and not hinged:
            return Motion.shift_by(left(unit(p - q)) * side * by)
        long = abs(p - q)
        if not is_angle and by >= 2 * long:
            raise GeometryFault("too-wide", p, {"opening": by, "cut": long})
        angle = by if is_angle else 2 * cmath.asin(by / 2 / long).real
        return Motion.turn_about(q, side * angle)

    return motion
