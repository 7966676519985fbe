"""Polygonal regions, for checks and for what needs set operations; the one user of shapely."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from numpy import array
from shapely import (
    MultiLineString,
    MultiPoint,
    MultiPolygon,
    Polygon,
    STRtree,
    constrained_delaunay_triangles,
    contains,
    contains_xy,
    distance,
    get_coordinates,
    make_valid,
    maximum_inscribed_circle,
    prepare,
    relate_pattern,
    transform,
    union_all,
)
from shapely import Point as ShapelyPoint
from shapely import box as shapely_box
from shapely import points as shapely_points
from shapely.geometry import LinearRing, LineString
from shapely.geometry.base import BaseGeometry

from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point

QUARTER_STEPS = 512
MITRE_LIMIT = 1e6
_SLIVER = 0.02

Region = Polygon | MultiPolygon
"""An area, in one part or several, or empty."""

Places = BaseGeometry
"""Points of the plane: a region, or parts of lines, or single points."""


def polygon(outline: Outline, tolerance: float = 0.01) -> Polygon:
    """Return the polygon of an outline whose curves are flattened within a tolerance (mm)."""
    return Polygon([(p.real, p.imag) for p in outline.flatten(tolerance)])


def polyline(path: Path, tolerance: float = 0.01) -> LineString:
    """Return the polyline of a path whose curves are flattened within a tolerance (mm)."""
    return LineString([(p.real, p.imag) for p in path.flatten(tolerance)])


def grown(outline: Outline, width: float, mitre: bool = False, tolerance: float = 0.01) -> Polygon:
    """Return the region within a width (mm) of an outline, its corners round, or mitred without limit."""
    if mitre:
        area = polygon(outline, tolerance).buffer(width, join_style="mitre", mitre_limit=MITRE_LIMIT)
    else:
        area = polygon(outline, tolerance).buffer(width, quad_segs=QUARTER_STEPS)
    assert isinstance(area, Polygon)
    return area


def hausdorff(a: Polygon, b: Polygon) -> float:
    """Return the Hausdorff distance (mm) between the outer borders of two regions."""
    return float(LinearRing(a.exterior.coords).hausdorff_distance(LinearRing(b.exterior.coords)))


def overlap_area(a: Polygon, b: Polygon) -> float:
    """Return the area (mm²) that two regions have in common."""
    return float(a.intersection(b).area)


def interior_point(outline: Outline, tolerance: float = 0.1) -> Point:
    """Return a point well inside an outline: the centre of the largest circle that fits, within tolerance."""
    spoke = maximum_inscribed_circle(polygon(outline, tolerance), tolerance)
    x, y = spoke.coords[0]
    return complex(x, y)


def area(ring: Sequence[Point], holes: Iterable[Sequence[Point]] = ()) -> Region:
    """Return the region inside a ring of points and outside its holes, mended where the ring touches itself."""
    made = Polygon(_pairs(ring), [_pairs(hole) for hole in holes])
    return made if made.is_valid else _areas(make_valid(made))


def beside_line(points: Sequence[Point], width: float) -> Region:
    """Return the strip of a width (mm) on the left of a line, square at its ends."""
    strip = LineString(_pairs(points)).buffer(width, cap_style="flat", single_sided=True)
    return _areas(strip)


def union(regions: Iterable[Region]) -> Region:
    """Return what any of some regions covers."""
    return _areas(union_all(list(regions)))


def minus(a: Region, b: Region) -> Region:
    """Return what a region covers and another does not."""
    return _areas(a.difference(b))


def common(a: Region, b: Region) -> Region:
    """Return what two regions have in common."""
    return _areas(a.intersection(b))


def breadth(region: Region) -> float:
    """Return how broad (mm) a region is at its broadest: the diameter of the largest circle in it."""
    return max((_breadth(part) for part in parts(region)), default=0.0)


def depth(a: Region, b: Region) -> float:
    """Return how far (mm) two regions reach into each other: how broad what they have in common is."""
    return breadth(common(a, b)) if a.intersects(b) else 0.0


def outside(a: Region, b: Region) -> float:
    """Return how far (mm) a region reaches out of another: how broad what lies outside is."""
    return breadth(minus(a, b))


def nearest_place(region: Region) -> Point:
    """Return a point inside a region."""
    p = region.representative_point()
    return complex(p.x, p.y)


def box(x0: float, y0: float, x1: float, y1: float) -> Region:
    """Return an upright rectangle; empty when it has no area."""
    return shapely_box(x0, y0, x1, y1) if x1 > x0 and y1 > y0 else Polygon()


def widened(region: Region, width: float) -> Region:
    """Return a region grown by a width (mm), or shrunk where it is less than 0, with its corners kept sharp."""
    return _areas(region.buffer(width, join_style="mitre", mitre_limit=MITRE_LIMIT if width > 0 else 5.0))


def simplified(region: Region, tolerance: float) -> Region:
    """Return a region of fewer corners that holds a region and leaves it by at most twice a tolerance (mm).

    One whose corners are already few and far apart stays as it is.
    """
    fewer = _areas(region.simplify(tolerance))
    if fewer.equals(region) or len(get_coordinates(fewer)) > 0.7 * len(get_coordinates(region)):
        return region
    return _areas(region.buffer(tolerance, quad_segs=4).simplify(tolerance))


def moved(region: Region, shift: Point) -> Region:
    """Return a region moved by a shift."""
    return _areas(transform(region, lambda xy: xy + array((shift.real, shift.imag))))


def turned(region: Region, angle: float) -> Region:
    """Return a region turned about the origin by an angle (radians, anticlockwise)."""
    c, s = math.cos(angle), math.sin(angle)
    return _areas(transform(region, lambda xy: xy @ [[c, s], [-s, c]]))


def flipped(region: Region) -> Region:
    """Return the mirror image of a region in the y axis."""
    return _areas(transform(region, lambda xy: xy * [-1.0, 1.0]))


def opposite(region: Region) -> Region:
    """Return a region turned about the origin by half a turn."""
    return _areas(transform(region, lambda xy: -xy))


def disc(at: Point, radius: float) -> Region:
    """Return a round region that stays just inside its circle."""
    return _areas(ShapelyPoint(at.real, at.imag).buffer(radius))


def point_place(p: Point) -> Places:
    """Return a single place."""
    return ShapelyPoint(p.real, p.imag)


def on_line(region: Region, a: Point, b: Point, slack: float) -> Places:
    """Return the places on the way between two points that a region covers, or is no further from than a slack (mm)."""
    line = ShapelyPoint(a.real, a.imag) if abs(b - a) < 1e-6 else LineString(_pairs((a, b)))
    return line.intersection(region.buffer(slack))


def on_lattice(places: Places, origin: Point, across: float, up: float) -> Places:
    """Return the places that lie whole numbers of repeats from an origin, in the ways in which it repeats (else 0)."""
    if places.is_empty or not (across or up):
        return places
    x0, y0, x1, y1 = places.bounds
    xs, ys = _steps(origin.real, across, x0, x1), _steps(origin.imag, up, y0, y1)
    if not across:
        return places.intersection(MultiLineString([((x0 - 1, y), (x1 + 1, y)) for y in ys]))
    if not up:
        return places.intersection(MultiLineString([((x, y0 - 1), (x, y1 + 1)) for x in xs]))
    return places.intersection(MultiPoint([(x, y) for x in xs for y in ys]))


def _steps(origin: float, step: float, low: float, high: float) -> list[float]:
    if not step:
        return []
    first, last = math.ceil((low - origin) / step - 1e-9), math.floor((high - origin) / step + 1e-9)
    return [origin + number * step for number in range(first, last + 1)]


def without(places: Places, region: Region) -> Places:
    """Return the places that do not lie inside a region."""
    return places.difference(region)


def corners_of(places: Places) -> list[Point]:
    """Return the corners of the borders of some places, or the ends of their lines, each once."""
    return list(dict.fromkeys(complex(x, y) for x, y in get_coordinates(places)))


def depths(region: Region, points: Sequence[Point]) -> list[float]:
    """Return for each point how deep (mm) it lies inside a region: its distance from the border, 0 outside."""
    made = shapely_points(_pairs(points))
    inside = contains(region, made)
    found = distance(region.boundary, made)
    return [float(d) if within else 0.0 for within, d in zip(inside, found, strict=True)]


def inside_grid(region: Region, first: Point, step: float, columns: int, rows: int) -> list[list[bool]]:
    """Return for each row of a grid of points, the lowest first, which of them lie inside a region."""
    if not (columns and rows):
        return []
    xs = [first.real + step * i for i in range(columns)]
    prepare(region)
    return [
        [bool(inside) for inside in contains_xy(region, xs, [first.imag + step * row] * columns)] for row in range(rows)
    ]


def is_empty(region: Region) -> bool:
    """Say whether a region has no area."""
    return bool(region.is_empty)


def overlaps(a: Region, b: Region) -> bool:
    """Say whether two regions have an area in common."""
    return bool(a.intersects(b)) and common(a, b).area > 1e-6


def covers(a: Region, b: Region) -> bool:
    """Say whether a region covers another, but for rounding."""
    return minus(b, a).area <= 1e-3


def parts(region: Region) -> Sequence[Polygon]:
    """Return the parts of a region that do not touch each other along a border."""
    return [] if region.is_empty else [region] if isinstance(region, Polygon) else list(region.geoms)


def rings(region: Region) -> list[list[Point]]:
    """Return the borders of a region: of each part the outer one, then its holes."""
    borders = (ring for part in parts(region) for ring in (part.exterior, *part.interiors))
    return [[complex(x, y) for x, y in ring.coords[:-1]] for ring in borders]


def _pairs(points: Sequence[Point]) -> list[tuple[float, float]]:
    return [(p.real, p.imag) for p in points]


def _areas(made: BaseGeometry) -> Region:
    """What of the outcome of a set operation has an area."""
    if isinstance(made, Polygon | MultiPolygon):
        return made
    kept = [part for part in getattr(made, "geoms", ()) if isinstance(part, Polygon | MultiPolygon)]
    return _areas(union_all(kept)) if kept else Polygon()


def _breadth(part: Polygon) -> float:
    if part.area <= 0.0:
        return 0.0
    mean = 2 * part.area / part.length  # of a sliver, whose circle can't be found for rounding
    if mean < _SLIVER:
        return float(mean)
    return 2 * float(maximum_inscribed_circle(part, min(0.005, mean / 4)).length)


def overlapping_pairs(rings: Sequence[Sequence[Point]], tolerance: float) -> list[tuple[int, int]]:
    """Return the pairs of polygons that reach into each other by more than a tolerance (mm), by index.

    Whether they share an inner point at all is decided without rounding (the predicates of GEOS).
    """
    areas = [Polygon(_pairs(ring)) for ring in rings]
    near = STRtree(areas).query(areas, predicate="intersects").T.tolist()
    return sorted(
        (i, j)
        for i, j in near
        if i < j
        and relate_pattern(areas[i], areas[j], "T********")
        and relate_pattern(areas[i].buffer(-tolerance, join_style="mitre"), areas[j], "T********")
    )


def silhouette(rings: Sequence[Sequence[Point]]) -> list[Point]:
    """Return the outer border of polygons that hang together, anticlockwise; gaps that they close in are filled."""
    whole = union_all([Polygon(_pairs(ring)) for ring in rings])
    assert isinstance(whole, Polygon)
    found = [complex(x, y) for x, y in whole.exterior.coords[:-1]]
    return found if whole.exterior.is_ccw else found[::-1]


def triangles(corners: Sequence[Point]) -> list[tuple[Point, Point, Point]]:
    """Return triangles, anticlockwise, that fill a simple polygon and have no corners but its own."""
    found = []
    for part in constrained_delaunay_triangles(Polygon(_pairs(corners))).geoms:
        assert isinstance(part, Polygon)
        a, b, c = (complex(x, y) for x, y in part.exterior.coords[:3])
        turns_left = ((b - a).conjugate() * (c - a)).imag > 0
        found.append((a, b, c) if turns_left else (a, c, b))
    return found
