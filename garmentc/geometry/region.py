"""Polygonal regions, for checks and for what needs set operations; the one user of shapely."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from shapely import (
    MultiPolygon,
    Polygon,
    STRtree,
    constrained_delaunay_triangles,
    make_valid,
    maximum_inscribed_circle,
    relate_pattern,
    union_all,
)
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
    return max((_breadth(part) for part in _parts(region)), default=0.0)


def depth(a: Region, b: Region) -> float:
    """Return how far (mm) two regions reach into each other: how broad what they have in common is."""
    return breadth(common(a, b)) if a.intersects(b) else 0.0


def outside(a: Region, b: Region) -> float:
    """Return how far (mm) a region reaches out of another: how broad what lies outside is."""
    return breadth(minus(a, b))


def nearest_place(region: Region) -> Point:
    """Return a point well inside a region."""
    p = region.representative_point()
    return complex(p.x, p.y)


def _pairs(points: Sequence[Point]) -> list[tuple[float, float]]:
    return [(p.real, p.imag) for p in points]


def _areas(made: BaseGeometry) -> Region:
    """What of the outcome of a set operation has an area."""
    if isinstance(made, Polygon | MultiPolygon):
        return made
    kept = [part for part in getattr(made, "geoms", ()) if isinstance(part, Polygon | MultiPolygon)]
    return _areas(union_all(kept)) if kept else Polygon()


def _parts(region: Region) -> Sequence[Polygon]:
    return [region] if isinstance(region, Polygon) else list(region.geoms)


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


def triangles(corners: Sequence[Point]) -> list[tuple[Point, Point, Point]]:
    """Return triangles, anticlockwise, that fill a simple polygon and have no corners but its own."""
    found = []
    for part in constrained_delaunay_triangles(Polygon(_pairs(corners))).geoms:
        assert isinstance(part, Polygon)
        a, b, c = (complex(x, y) for x, y in part.exterior.coords[:3])
        turns_left = ((b - a).conjugate() * (c - a)).imag > 0
        found.append((a, b, c) if turns_left else (a, c, b))
    return found
