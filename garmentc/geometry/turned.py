"""Strip ends at the corner of a squared or folded-back edge.

Throughout, `e` is the path beside the edge concerned, ending at the corner, and `f` the one beside its
neighbour, starting there; `u` is the direction in which the edge arrives at the corner and `n` the unit
normal to its outer side. The line of the edge is its tangent through the corner, and depth the distance
from that line, positive outward.
"""

from collections.abc import Sequence

from garmentc.geometry.crossing import line_places, meet_lines, place_meetings
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.joint import Joint, Reach, fitted, mitred, stepped, whole_end
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path, Place, straight
from garmentc.geometry.vector import CLOSE, Point, cross, dot

STRAIGHT_ON = 1e-9
"""Sine of the angle below which a neighbour counts as going straight on."""


def squared(e: Path, f: Path, corner: Point, u: complex, n: complex, limit: float) -> Joint:
    """Return the joint at which the strip beside an edge ends square to it.

    The square line stands where the line of the edge meets f, at most `limit` mm from the corner.
    """
    if dot(f.start_direction(), n) >= -STRAIGHT_ON:
        return mitred(e, f, corner, limit)
    foot = _on_edge_line(f, corner, u, n)
    if foot is None or dot(foot.to - corner, u) > limit:
        capped = meet_lines(corner + limit * u, n, f.start, f.start_direction())
        if dot(f.start - corner, n) > 0 or capped is None:
            return stepped(e, f)
        foot = Reach(f.first_place, capped)
    tip = e.end + max(dot(foot.to - corner, u), 0.0) * u
    between = straight(tip, foot.to) if abs(tip - foot.to) > CLOSE else None
    return Joint(Reach(e.last_place, tip), between, foot)


def folded(e: Path, f: Path, corner: Point, u: complex, n: complex, depths: Sequence[float], limit: float) -> Joint:
    """Return the joint that lies on f once the strip is folded along the line of the edge.

    `depths` are the cumulative depths (mm) of the folds after the first, which is the line of the edge
    itself, and last the depth of the raw border. Where f runs so nearly straight on that it meets
    the line of the edge farther than `limit` mm from the corner, the joint is mitred. GeometryFault
    "too-sharp" when f meets that line so far off because it runs back, "too-short" when f ends before
    the depth its image needs, "no-meeting" when the image and e do not meet.
    """
    if dot(f.start_direction(), n) >= -STRAIGHT_ON:
        return mitred(e, f, corner, limit)
    foot = _on_edge_line(f, corner, u, n)
    if foot is None or abs(foot.to - corner) > limit:
        if dot(f.start_direction(), u) > 0:
            return mitred(e, f, corner, limit)
        raise GeometryFault("too-sharp", corner, {"limit": limit})
    border = _images(fitted(f, foot, whole_end(f)), corner, u, n, depths)
    off = cross(u, border.end - e.end)
    ahead = dot(border.end - e.end, u)
    if abs(off) <= CLOSE and ahead >= 0:
        return Joint(Reach(e.last_place, border.end), border.reversed(), foot)
    s, distance = e.nearest(border.end)
    if distance <= CLOSE:
        return Joint(Reach(e.place(s), border.end), border.reversed(), foot)
    longer = border.joined(straight(border.end, border.end + limit * border.end_direction()))
    met = place_meetings(e.joined(straight(e.end, e.end + limit * u)), longer)
    if not met:
        raise GeometryFault("no-meeting", corner, {"depth": depths[-1]})
    place, other, at = max(met, key=lambda meeting: meeting[0])
    between = longer.part(longer.first_place, other).reversed()
    return Joint(Reach(min(place, e.last_place), at), between, foot)


def from_start(joint: Joint, a: Path, b: Path) -> Joint:
    """Return a joint made for reversed paths (b's as e, a's as f), for the paths a and b themselves."""
    return Joint(
        _turned(joint.after, a),
        None if joint.between is None else joint.between.reversed(),
        _turned(joint.before, b),
    )


def _turned(reach: Reach, path: Path) -> Reach:
    i, t = reach.place
    return Reach((len(path.segments) - 1 - i, 1.0 - t), reach.to)


def _on_edge_line(f: Path, corner: Point, u: complex, n: complex) -> Reach | None:
    """Where f, lengthened backward if it starts inside, meets the line of the edge; None if nowhere."""
    if dot(f.start - corner, n) > CLOSE:
        for place, at in line_places(f, corner, u):
            if dot(at - corner, u) >= -CLOSE:
                return Reach(place, at)
        return None
    at_line = meet_lines(corner, u, f.start, f.start_direction())
    return None if at_line is None else Reach(f.first_place, at_line)


def _images(border: Path, corner: Point, u: complex, n: complex, depths: Sequence[float]) -> Path:
    """The images of a border that starts on the line of the edge, one for each fold, outward."""
    fold = Motion.mirror_in(corner, u)
    level, outer, inward = 0.0, 0.0, 1.0
    place = border.first_place
    images: list[Path] = []
    for depth in depths:
        level += inward * (depth - outer)
        other = _at_depth(border, corner, u, n, level)
        if place < other:
            images.append(border.part(place, other).moved(fold))
        else:
            images.append(border.part(other, place).reversed().moved(fold))
        fold = fold.then(Motion.mirror_in(corner + depth * n, u))
        outer, place, inward = depth, other, -inward
    joined = images[0]
    for image in images[1:]:
        joined = joined.joined(image)
    return joined


def _at_depth(border: Path, corner: Point, u: complex, n: complex, level: float) -> Place:
    if level <= CLOSE:
        return border.first_place
    found = line_places(border, corner - level * n, u)
    if not found:
        raise GeometryFault("too-short", border.end, {"depth": level, "reach": -dot(border.end - corner, n)})
    return found[0][0]
