"""Cuts a ring of edges along a line or curve and keeps one side; mirrors a kept part over an edge."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.draft.functions import InfiniteLine, as_line
from garmentc.geometry.bent import drawn_from
from garmentc.geometry.crossing import line_meetings, meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline
from garmentc.geometry.parallel import parallel
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import CLOSE, Point, dot, left
from garmentc.record import Record

_THIN = 1e-4  # mm; parts of an edge shorter than this are not kept
_ON = 0.01  # mm; an end of a curve nearer than this to the ring lies on it


class NamedPath(Record):
    """An edge in ring order; ``backward`` when its own direction is against the ring."""

    name: str
    path: Path
    backward: bool = False


_TOWARD = {"above": 1j, "below": -1j, "left": -1 + 0j, "right": 1 + 0j}


def keep_side(ring: tuple[NamedPath, ...], line: InfiniteLine | Path, side: str, name: str) -> tuple[NamedPath, ...]:
    """What is left of a ring on one side of a line or curve, closed by a new edge called ``name``.

    The new edge comes last. A straight path is a line without ends; a curve that ends inside the ring goes on straight.
    GeometryFault "side-unclear" when the line runs the way the side is asked for, "cuts-nothing" when it does not cross
    the ring or leaves nothing, "falls-apart" when more than one part is left.
    """
    if isinstance(line, Path):
        if not line.is_straight(1e-4):
            return _keep_by_curve(ring, line, _TOWARD[side], name)
        line = as_line(line)
    inward = left(line.direction)
    if abs(dot(inward, _TOWARD[side])) < 1e-9:
        raise GeometryFault("side-unclear", line.at)
    if dot(inward, _TOWARD[side]) < 0:
        inward = -inward
    parts: list[tuple[NamedPath, bool]] = []
    for edge in ring:
        parts.extend(_split(edge, line, inward))
    kept = [stays for _, stays in parts]
    if all(kept) or not any(kept):
        raise GeometryFault("cuts-nothing", line.at)
    starts = [i for i, stays in enumerate(kept) if stays and not kept[i - 1]]
    names = [part.name for part, stays in parts if stays]
    if len(starts) > 1 or len(set(names)) < len(names):
        raise GeometryFault("falls-apart", parts[starts[-1]][0].path.start)
    first = starts[0]
    run: list[NamedPath] = []
    for part, stays in parts[first:] + parts[:first]:
        if not stays:
            break
        run.append(part)
    run.append(NamedPath(name, straight(run[-1].path.end, run[0].path.start)))
    return tuple(run)


def _keep_by_curve(ring: tuple[NamedPath, ...], curve: Path, toward: complex, name: str) -> tuple[NamedPath, ...]:
    cut, entry, leave = _across(ring, curve)
    inward = dot(left(cut.chord), toward)
    if abs(inward) < 1e-9 * abs(cut.chord):
        raise GeometryFault("side-unclear", cut.start)
    if inward > 0:  # what lies to the left of the cut
        return _closed(ring, leave, entry, NamedPath(name, cut))
    return _closed(ring, entry, leave, NamedPath(name, cut.reversed(), True))


def keep_within(ring: tuple[NamedPath, ...], edges: Sequence[str], width: float, name: str) -> tuple[NamedPath, ...]:
    """What lies along some edges of a ring, up to a width (mm), closed by a new edge called ``name``.

    The new edge runs beside the others and goes on straight at its ends; it comes last, drawn the way they are.
    GeometryFault "edges-apart" when the edges do not follow each other, and as for ``keep_side``; "too-tight" and
    "no-meeting" where nothing can run beside them at that width.
    """
    count = len(ring)
    chosen = [one.name in edges for one in ring]
    first = next((i for i in range(count) if chosen[i] and not chosen[i - 1]), 0)
    run = [ring[(first + i) % count] for i in range(sum(chosen))]
    if all(chosen) or any(one.name not in edges for one in run):
        raise GeometryFault("edges-apart", run[0].path.start)
    whole = run[0].path
    for one in run[1:]:
        whole = whole.joined(one.path)
    cut, entry, leave = _across(ring, parallel(whole, width))
    return _closed(ring, entry, leave, NamedPath(name, cut.reversed(), not run[0].backward))


_Place = tuple[int, float]
"""A place of a ring: the number of an edge, and the position (mm) on it."""


def _across(ring: tuple[NamedPath, ...], curve: Path) -> tuple[Path, _Place, _Place]:
    """The part of a curve that lies in a ring, gone on straight to its border, and where it begins and ends there."""
    west, south, east, north = Outline(tuple(edge.path for edge in ring)).bounds()
    far = abs(complex(east - west, north - south)) + 1.0
    long, before = curve, 0.0
    if _within(ring, curve.start):
        long, before = straight(curve.start - far * curve.start_direction(), curve.start).joined(long), far
    after = before + curve.length
    if _within(ring, curve.end):
        long = long.joined(straight(curve.end, curve.end + far * curve.end_direction()))
    met: list[tuple[float, _Place]] = []
    for i, edge in enumerate(ring):
        for s, at, _ in meetings(long, edge.path):
            if all(abs(s - known) > _ON for known, _ in met):
                met.append((s, (i, at)))
    met.sort()
    first = [one for one in met if one[0] <= before + _ON][-1:]
    last = [one for one in met if one[0] >= after - _ON][:1]
    found = [*first, *(one for one in met if before + _ON < one[0] < after - _ON), *last]
    if len(found) < 2:
        raise GeometryFault("cuts-nothing", curve.point_at(curve.length / 2))
    if len(found) > 2:
        raise GeometryFault("falls-apart", long.point_at(found[1][0]))
    (s, entry), (to, leave) = found
    return long.between(s, to), entry, leave


def _within(ring: tuple[NamedPath, ...], p: Point) -> bool:
    """Whether a point lies in a ring or on it."""
    return Outline(tuple(edge.path for edge in ring)).contains(p) or any(
        edge.path.nearest(p)[1] <= _ON for edge in ring
    )


def _closed(ring: tuple[NamedPath, ...], start: _Place, end: _Place, cut: NamedPath) -> tuple[NamedPath, ...]:
    """A ring from one place on to another, closed by a cut."""
    (i, at), (j, to) = start, end
    run: list[NamedPath] = []
    stops = [
        (i, at, ring[i].path.length),
        *((k, 0.0, ring[k].path.length) for k in _onward(i, j, len(ring))),
        (j, 0.0, to),
    ]
    if i == j and at < to:
        stops = [(i, at, to)]
    for number, low, high in stops:
        edge = ring[number]
        if high - low > _THIN:
            whole = low <= _THIN and high >= edge.path.length - _THIN
            run.append(edge if whole else edge._replace(path=edge.path.between(low, high)))
    names = [edge.name for edge in run]
    if not run:
        raise GeometryFault("cuts-nothing", cut.path.start)
    if len(set(names)) < len(names):
        raise GeometryFault("falls-apart", cut.path.start)
    begin, finish = run[0].path.start, run[-1].path.end
    return (*run, cut._replace(path=_fitted(cut.path, finish, begin)))


def _onward(i: int, j: int, count: int) -> list[int]:
    """The numbers strictly between two of a ring, going on from the first; all others when they are one."""
    return [(i + step) % count for step in range(1, (j - i) % count or count)]


def _fitted(path: Path, start: Point, end: Point) -> Path:
    """A path whose ends are moved by less than a drawing shows, so that it closes a ring."""
    if abs(path.start - start) > _ON or abs(path.end - end) > _ON:
        raise GeometryFault("cuts-nothing", path.start)
    if abs(path.start - start) > CLOSE / 2:
        path = drawn_from(start, path)
    return path if abs(path.end - end) <= CLOSE / 2 else drawn_from(end, path.reversed()).reversed()


def _split(edge: NamedPath, line: InfiniteLine, inward: complex) -> list[tuple[NamedPath, bool]]:
    length = edge.path.length
    cuts = [s for s, _ in line_meetings(edge.path, line.at, line.direction) if _THIN < s < length - _THIN]
    found: list[tuple[NamedPath, bool]] = []
    for begin, end in zip([0.0, *cuts], [*cuts, length], strict=True):
        part = edge.path.between(begin, end) if cuts else edge.path
        depth = dot(part.point_at(part.length / 2) - line.at, inward)
        found.append((NamedPath(edge.name, part, edge.backward), depth > _THIN))
    return found


def grow_over(
    ring: tuple[NamedPath, ...], across: str, line: InfiniteLine | Path, side: str, part: str, name: str
) -> tuple[NamedPath, ...]:
    """A ring with a part of itself mirrored over one of its straight edges, which disappears from it.

    The mirrored edges are called ``part.edge``. Faults as for ``keep_side``, "not-straight" when the edge is a
    curve, and "loses-the-fold" when the part kept does not hold the whole edge.
    """
    at = next(i for i, edge in enumerate(ring) if edge.name == across)
    axis = ring[at].path
    if not axis.is_straight(1e-4):
        raise GeometryFault("not-straight", axis.point_at(axis.length / 2))
    mirror = Motion.mirror_in(axis.start, axis.chord)
    kept = keep_side(ring, line, side, name)
    held = next((i for i, edge in enumerate(kept) if edge.name == across), None)
    if held is None or abs(kept[held].path.length - axis.length) > _THIN:
        raise GeometryFault("loses-the-fold", axis.start)
    grown = [
        NamedPath(f"{part}.{edge.name}", edge.path.moved(mirror).reversed(), not edge.backward)
        for edge in reversed(kept[held + 1 :] + kept[:held])
    ]
    return (*ring[at + 1 :], *ring[:at], *grown)
