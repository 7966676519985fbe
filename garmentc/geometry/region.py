"""Polygonal regions, for checks and for what needs set operations; the one user of shapely."""

from shapely import Polygon, maximum_inscribed_circle
from shapely.geometry import LinearRing, LineString

from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point

QUARTER_STEPS = 512
MITRE_LIMIT = 1e6


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
