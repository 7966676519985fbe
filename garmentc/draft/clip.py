"""Cuts a ring of edges along a straight line and keeps one side; mirrors a kept part over an edge."""

from __future__ import annotations

from garmentc.draft.functions import InfiniteLine
from garmentc.geometry.crossing import line_meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path, straight
from garmentc.geometry.vector import dot, left
from garmentc.record import Record

_THIN = 1e-4  # mm; parts of an edge shorter than this are not kept


class NamedPath(Record):
    """An edge in ring order; ``backward`` when its own direction is against the ring."""

    name: str
    path: Path
    backward: bool = False


_TOWARD = {"above": 1j, "below": -1j, "left": -1 + 0j, "right": 1 + 0j}


def keep_side(ring: tuple[NamedPath, ...], line: InfiniteLine, side: str, name: str) -> tuple[NamedPath, ...]:
    """What is left of a ring on one side of a line, closed by a new edge called ``name``.

    The new edge comes last. GeometryFault "side-unclear" when the line runs the way the side is asked for,
    "cuts-nothing" when it does not cross the ring or leaves nothing, "falls-apart" when more than one part is left.
    """
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
    ring: tuple[NamedPath, ...], across: str, line: InfiniteLine, side: str, part: str, name: str
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
