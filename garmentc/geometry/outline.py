"""Closed outlines: rings of edges with an inside."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from garmentc.geometry.crossing import line_places
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.line import Line
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path, box_around
from garmentc.geometry.segment import Box, Segment
from garmentc.geometry.vector import CLOSE, Point, dot, turning, unit


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed ring of one or more edges; corner i lies between edge i - 1 and edge i.

    GeometryFault "open-outline" (with the gap in mm and both edges) when an edge does not begin
    where the one before ends. That it does not cross itself is not checked here.
    """

    edges: tuple[Path, ...]

    def __post_init__(self) -> None:
        if not self.edges:
            raise ValueError("an outline has at least one edge")
        count = len(self.edges)
        for i, edge in enumerate(self.edges):
            gap = abs(edge.end - self.edges[(i + 1) % count].start)
            if not gap <= 2 * CLOSE:
                raise GeometryFault("open-outline", edge.end, {"gap": gap}, (i, (i + 1) % count))

    @property
    def segments(self) -> list[Segment]:
        """All segments of all edges in order."""
        return [segment for edge in self.edges for segment in edge.segments]

    @property
    def corners(self) -> tuple[Point, ...]:
        """The starts of the edges."""
        return tuple(edge.start for edge in self.edges)

    @property
    def area(self) -> float:
        """The enclosed area (mm²), exact, positive when the ring runs anticlockwise (Green's theorem)."""
        # Taken about a corner of the outline, so that its distance from the origin costs no digits.
        origin = Motion.shift_by(-self.edges[0].start)
        return sum(segment.moved(origin).area_under() for segment in self.segments)

    @property
    def orientation(self) -> int:
        """+1 when the ring runs anticlockwise, -1 when clockwise."""
        return 1 if self.area >= 0 else -1

    @property
    def perimeter(self) -> float:
        """The sum of the lengths of the edges (mm)."""
        return sum(edge.length for edge in self.edges)

    def reversed(self) -> "Outline":
        """Return the ring run the other way round; the last edge comes first."""
        return Outline(tuple(edge.reversed() for edge in reversed(self.edges)))

    def moved(self, motion: Motion) -> "Outline":
        """Return the image under a rigid motion; a mirrored ring runs the other way round."""
        return Outline(tuple(edge.moved(motion) for edge in self.edges))

    def bounds(self) -> Box:
        """Return the exact bounding box."""
        return box_around([edge.bounds() for edge in self.edges])

    def flatten(self, tolerance: float) -> list[Point]:
        """Return the points of the ring, the first not repeated, with chords within a tolerance (mm)."""
        return [point for edge in self.edges for point in edge.flatten(tolerance)[:-1]]

    def contains(self, p: Point) -> bool:
        """Say whether a point lies inside, or within 1e-6 mm of the border."""
        total = 0.0
        for segment in self.segments:
            swept = _swept(segment, p)
            if swept is None:
                return True
            total += swept
        return abs(total) > 1.0

    def line_spans(self, p: Point, direction: complex) -> list[tuple[float, float]]:
        """Return the stretches of the infinite line through p that lie inside.

        Each is given by its two distances from p along the direction (mm), in order. ValueError for
        a zero direction.
        """
        u = unit(direction)
        places = sorted(dot(at - p, u) for edge in self.edges for _, at in line_places(edge, p, u))
        spans: list[tuple[float, float]] = []
        for low, high in pairwise(places):
            if high - low <= CLOSE or not self.contains(p + (low + high) / 2 * u):
                continue
            if spans and low - spans[-1][1] <= CLOSE:
                spans[-1] = (spans[-1][0], high)
            else:
                spans.append((low, high))
        return spans

    def width_at(self, p: Point, direction: complex) -> float:
        """Return the total length (mm) of the infinite line through p that lies inside."""
        return sum(high - low for low, high in self.line_spans(p, direction))


def _swept(segment: Segment, p: Point) -> float | None:
    """The angle under which p sees the segment run by; None when p lies on it.

    A curve whose bounding box does not hold p sweeps the same angle as its chord.
    """
    if isinstance(segment, Line):
        if segment.nearest(p)[1] <= CLOSE:
            return None
    else:
        xmin, ymin, xmax, ymax = segment.bounds()
        if xmin - CLOSE <= p.real <= xmax + CLOSE and ymin - CLOSE <= p.imag <= ymax + CLOSE:
            if xmax - xmin <= CLOSE and ymax - ymin <= CLOSE:
                return None
            halves = [_swept(half, p) for half in segment.split(0.5)]
            return None if None in halves else sum(half for half in halves if half is not None)
    return turning(segment.start - p, segment.end - p)


def ring(points: Sequence[Point]) -> Outline:
    """Return the polygon through points, one straight edge from each to the next."""
    return Outline(tuple(Path((Line(a, b),)) for a, b in pairwise([*points, points[0]])))
