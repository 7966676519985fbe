"""Where a shape may lie on a cloth by itself: the places of its origin, for each way to hold it."""

from __future__ import annotations

from garmentc.cloth.model import Ground, Shape, Turn
from garmentc.cloth.tracks import Track, tracks
from garmentc.cloth.verify import cloth_region, hem_regions
from garmentc.geometry.coarse import holding
from garmentc.geometry.fitting import holding_places, inner_fit, no_fit
from garmentc.geometry.region import (
    Places,
    Region,
    area,
    common,
    disc,
    flipped,
    is_empty,
    minus,
    on_line,
    simplified,
    turned,
    union,
    widened,
)
from garmentc.record import Record

COARSE = 0.4
"""How far (mm) the polygons that are laid leave the curves of their shapes, outward."""

SLACK = 0.02
"""By how much (mm) polygons are made smaller and the cloth is made larger, so that what just fits has some room."""


class Hold(Record):
    """A way to hold a shape: the polygon that is then laid, and the ``places`` of its origin that the cloth allows."""

    turn: Turn
    polygon: Region
    places: Places


def holds(shape: Shape, ground: Ground) -> tuple[Hold, ...]:
    """All ways to hold a shape that leave it a place on an empty cloth, in a fixed order."""
    found: list[Hold] = []
    flat = coarse(shape)
    for track in tracks(shape, ground):
        polygon = held_as(flat, track.turn)
        room = places(shape, polygon, track, ground)
        if not room.is_empty:
            found.append(Hold(track.turn, polygon, room))
    return tuple(found)


def coarse(shape: Shape) -> Region:
    """The polygon that is laid for a shape: it holds it but for the slack."""
    return widened(area(holding(shape.outline, COARSE)), -SLACK)


def held_as(flat: Region, turn: Turn) -> Region:
    """A polygon turned over and turned, still about its origin."""
    return turned(flipped(flat) if turn.over else flat, turn.angle)


def places(
    shape: Shape, polygon: Region, track: Track, ground: Ground, slack: float = SLACK, holder: Region | None = None
) -> Places:
    """The places of the origin of a polygon at which it lies on the cloth, off what it keeps off, on its track.

    By ``slack`` (mm) it may fail all of that. ``holder`` is what has to hold a part of the picture; if left out, the
    polygon.
    """
    room = inner_fit(widened(cloth_region(ground), slack), polygon)
    for flaw in ground.flaws:
        room = minus(room, no_fit(_rough(area(flaw.ring), slack), polygon))
    for _, hem in hem_regions(ground, track.sides):
        room = minus(room, no_fit(_rough(hem, slack), polygon))
    for place in ground.places:
        thing = area(place.ring)
        whole = holding_places(widened(polygon, slack) if holder is None else holder, thing)
        wanted = [motif for motif in shape.motifs if motif.name == place.name]
        for motif in wanted:
            whole = common(whole, disc(place.middle - track.turn.motion.apply(motif.at), motif.within + slack))
        around = no_fit(_rough(thing, slack), polygon)
        room = common(room, whole) if wanted else union([minus(room, around), common(room, whole)])
    known = {place.name for place in ground.places}
    if is_empty(room) or any(motif.name not in known for motif in shape.motifs):
        return area(())
    if track.start is None or track.end is None:
        return room
    return on_line(room, track.start, track.end, slack)


def _rough(region: Region, slack: float) -> Region:
    """A region with fewer corners: larger where a plan is sought, smaller where the slack is that of a proof."""
    if slack > SLACK:
        return simplified(widened(region, -2 * slack), slack)
    return widened(simplified(region, COARSE), -slack)
