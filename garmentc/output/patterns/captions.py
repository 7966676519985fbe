"""Words beside what they are about: marks, inner lines and edges."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import pi

from garmentc.assembly.model import CutPiece, Inserted, JoinedSeam
from garmentc.design.texts import spoken
from garmentc.draft.model import InnerLine, PlacedMark, TakeUp
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.path import Path
from garmentc.geometry.segments import Arc, Segment
from garmentc.geometry.vector import Point, cross, dot, left
from garmentc.output.patterns.arrows import upright
from garmentc.output.patterns.edges import LENGTHEN_GAP
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.scene import Stroke, Words, polyline
from garmentc.output.texts.speech import Speech

ARM = 3.0
"""Half the width of the cross of a mark (mm)."""

_TALL, _SMALL = 3.2, 2.6  # mm, heights of capitals
_NEAR = 0.05  # mm; a mark nearer than this to what is inserted says where it goes
_PLACES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)  # shares of an edge at which its words may stand
_GAPS = (2.0, 6.0, 14.0)  # mm from a mark to its words
_NEAR_EDGE = (2.2, 3.5, 6.0)  # mm from an edge to its name
_FAR_FROM_EDGE = (9.0, 12.0, 15.0, 18.0, 22.0)


def all_marks(piece: CutPiece, seams: Iterable[JoinedSeam]) -> list[PlacedMark]:
    """The marks of a piece, and one for each strip that is caught in its seams where no mark says so."""
    drafted = piece.drafted
    inserts = {one.at: (one, seam) for seam in seams for one in seam.inserts if one.piece == drafted.name}
    found = list(drafted.marks)
    for insert, seam in inserts.values():
        if all(abs(mark.at - insert.at) >= _NEAR for mark in drafted.marks):
            found.append(_insert_mark(insert, seam))
    return found


def _insert_mark(insert: Inserted, seam: JoinedSeam) -> PlacedMark:
    return PlacedMark(insert.point_name, insert.at, insert.strip_title, seam.span)


def mark_stroke(mark: PlacedMark) -> Stroke:
    """A small cross; round the place of a button a circle of its size."""
    lines: tuple[Segment, ...] = (
        *polyline(mark.at - ARM, mark.at + ARM),
        *polyline(mark.at - ARM * 1j, mark.at + ARM * 1j),
    )
    if mark.size:
        lines += (Arc(mark.at, mark.size / 2, 0.0, pi), Arc(mark.at, mark.size / 2, pi, pi))
    return Stroke("mark", "narrow", lines, "", mark.span.line)


def mark_places(piece: CutPiece, mark: PlacedMark) -> Iterator[Words]:
    """Places for the words of a mark, best first: at a corner between its edges, then level, upright, along them."""
    text, line = mark.text or spoken(mark.name), mark.span.line
    corner_ways = _edge_directions(piece, mark.at)
    for height in (_TALL, _SMALL):
        for between in corner_ways[:1]:
            long = text_width(text, height)
            for gap in _GAPS:
                for corner in _around(long, height, ARM + gap)[:2]:
                    yield Words("mark", text, mark.at + corner * between, between, height, False, "", line)
    directions = [1 + 0j, 1j, *corner_ways]
    for height in (_TALL, _SMALL):
        long = text_width(text, height)
        for gap in _GAPS:
            around = _around(long, height, ARM + gap)
            for along in directions:
                for corner in around:
                    yield Words("mark", text, mark.at + corner * along, along, height, False, "", line)


def _edge_directions(piece: CutPiece, at: Point) -> list[complex]:
    """How text may read at a corner: between the two edges that meet there, and along each."""
    edges = piece.drafted.edges
    for i, edge in enumerate(edges):
        if abs(edge.path.start - at) < _NEAR:
            leaving, arriving = edge.path.start_direction(), edges[i - 1].path.end_direction()
            between = leaving - arriving
            ways = [leaving, arriving] if abs(between) < _NEAR else [between / abs(between), leaving, arriving]
            return [upright(way) for way in ways]
    return []


def _around(long: float, height: float, gap: float) -> tuple[Point, ...]:
    """Where text may begin round a point at 0, reading to the right: beside it, then under and over it."""
    level, under, over = -height / 2, -gap - height, gap
    return (
        complex(gap, level),
        complex(-gap - long, level),
        complex(-ARM, under),
        complex(-ARM, over),
        complex(-long + ARM, under),
        complex(-long + ARM, over),
        complex(gap, under),
        complex(-gap - long, under),
        complex(gap, over),
        complex(-gap - long, over),
    )


def line_places(line: InnerLine, speech: Speech) -> Iterator[Words]:
    """Places for the words of an inner line, along it."""
    text, away = line.text or spoken(line.name), 1.6
    if line.kind == "fold" and line.text == "fold":
        text = speech.say("fold_named", name=spoken(line.name))
    if line.kind == "lengthen":
        text, away = line.text or speech.say("lengthen_here"), away + LENGTHEN_GAP / 2
    for height in (_TALL, _SMALL):
        for place in _along(line.path, text, height, (1, -1), away):
            yield place._replace(use=line.kind, line=line.span.line)


def takeup_places(one: TakeUp) -> Iterator[Words]:
    """Places for the words of a dart, tuck or pleat, along its lines."""
    lines = takeup_lines(one)
    for height in (_TALL, _SMALL):
        for path in (*lines.folds, *lines.legs):
            for place in _along(path, one.title, height, (1, -1), 1.6):
                yield place._replace(use="dart" if one.kind == "dart" else "pleat", line=one.span.line)


def edge_places(piece: CutPiece, name: str, speech: Speech) -> Iterator[Words]:
    """Places for the words of an edge, along it on the inside: its name, or that it is the cloth's own hem.

    Where the words of a mark take up a short edge, its name goes farther in, as long as no other edge is nearer, or
    reads away from the edge.
    """
    edge = piece.drafted.edge(name)
    use = piece.uses.get(name)
    if edge is None or use is None or use.way == "fold":
        return
    found, line = is_found(piece, name), edge.span.line
    text = speech.say("found_edge") if found else spoken(name)
    heights = (_TALL, _SMALL) if found else (_SMALL,)
    for height in heights:
        for away in _NEAR_EDGE + _FAR_FROM_EDGE:
            for place in _along(edge.path, text, height, (1,), away):
                if away in _NEAR_EDGE or _is_nearest(piece, name, place):
                    yield place._replace(use="finish" if found else "name", edge=name, line=line)
        for place in _inward(edge.path, text, height):
            yield place._replace(use="finish" if found else "name", edge=name, line=line)


def _is_nearest(piece: CutPiece, name: str, words: Words) -> bool:
    """Whether the whole of some words lies nearer to an edge than to any other edge of the piece."""
    return all(min(piece.drafted.edges, key=lambda edge: edge.path.nearest(p)[1]).name == name for p in words.corners)


def is_found(piece: CutPiece, name: str) -> bool:
    """Whether an edge is the cloth's own hem."""
    use = piece.uses.get(name)
    return use is not None and use.way == "finish" and use.join is not None and use.join.name == "found"


def _along(path: Path, text: str, height: float, sides: tuple[int, ...], away: float) -> Iterator[Words]:
    """Words beside a path, on its left (1) or right (-1), a little away from it."""
    for share in _PLACES:
        at = path.point_at(share * path.length)
        along = path.tangent_at(share * path.length)
        reading = upright(along)
        for side in sides:
            outward = left(along) * side
            over = cross(reading, outward) > 0
            yield Words("", text, at + outward * (away + (0.3 * height if over else height)), reading, height, True)


def _inward(path: Path, text: str, height: float) -> Iterator[Words]:
    """Words that begin or end at a path and read square to it, on its left."""
    for share in _PLACES:
        inward = left(path.tangent_at(share * path.length))
        reading = upright(inward)
        off = _NEAR_EDGE[0] + (text_width(text, height) if dot(reading, inward) < 0 else 0.0)
        start = path.point_at(share * path.length) + inward * off
        yield Words("", text, start - left(reading) * height / 2, reading, height)
