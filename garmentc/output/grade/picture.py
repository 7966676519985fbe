"""One piece in all its sizes, laid over each other, as a true-scale picture."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise
from xml.sax.saxutils import quoteattr

from garmentc.design.texts import spoken
from garmentc.geometry.path import box_around
from garmentc.geometry.segments import Arc, Box, Line, Segment
from garmentc.geometry.vector import Point, left, unit
from garmentc.grade.model import ORIGIN, Grade, GradedCorner, GradedPiece
from garmentc.numbers import decimal
from garmentc.output.grade.labels import Label, size_labels
from garmentc.output.grade.lines import line_of
from garmentc.output.patterns.check_square import SIDE, check_strokes, check_words
from garmentc.output.patterns.clear import Ground
from garmentc.output.patterns.letters import line_step, text_width, wrapped
from garmentc.output.patterns.scene import Stroke, Words, box_of, polyline
from garmentc.output.patterns.svg import Page, Pen, moved, path_data, write_page
from garmentc.record import Record

_MARGIN, _GAP = 8.0, 14.0  # mm
_STRAY = 0.8  # mm that a flattened line may leave the true one, where words look for room
_CLEAR = 0.9  # mm that words keep from lines
_SMALL, _PLAIN, _TITLE = 2.6, 3.2, 5.0  # mm, heights of capitals
_HEAD, _DOT = 3.0, 0.7  # mm, an arrow's head and half the width of a dot
_CROSS = 4.0  # mm, half the width of the cross where the sizes are aligned
_SAMPLE = 30.0  # mm of a line in the key
_KEY = 70.0  # mm, width of the words beside the piece
_STILL = 0.05  # mm; a corner that moves less is drawn as one that stays
_AROUND = tuple(complex(x, y) for y in (0, 1, -1) for x in (1, -1, 0) if x or y)
_SCALE = "True to scale: one unit of the drawing is one millimetre. The square is 5 cm on each side."
_STITCHING = "stitching lines, without allowances"
_ARROWS = "arrows show how corners move, a dot for each size"
_ALIKE = "all sizes are alike"
_CUT = "the strip as it is cut"


def picture(grade: Grade, piece: GradedPiece) -> bytes:
    """The SVG of a piece: its lines in each size, the way of each corner, size labels, a key."""
    labels = size_labels(grade, piece)
    ways = [way for corner in piece.corners for way in _way(corner)]
    leaders = [stroke for label in labels for stroke in label.leader]
    drawn_beside = [*(way.segments for way in ways), *(leader.segments for leader in leaders)]
    walls = [(a, b, _CLEAR) for a, b in _lines(piece)]
    walls += [(one.start, one.end, _CLEAR) for segments in drawn_beside for one in segments]
    names = list(_names(piece, walls + [label.words.wall for label in labels]))
    written = [*names, *(label.words for label in labels)]
    box = box_of([*_corners_of(_box(piece)), *(corner for words in written for corner in words.corners)])
    top_left = complex(box[0], box[3])
    key, deep = _key(grade, piece)
    beside = _MARGIN + box[2] - box[0] + _GAP
    drawn = _drawn_sizes(grade, piece, top_left) + _backed(labels, top_left) + _drawn_ways(piece, ways, top_left)
    words = Pen(top_left).group(piece.name, [*leaders, *_aligned_here(piece)], written)
    square = Pen(complex(0, SIDE)).group("check-square", check_strokes(), check_words())
    parts = [
        moved(drawn + words, complex(_MARGIN, _MARGIN)),
        moved(key, complex(beside, _MARGIN)),
        moved(square, complex(beside, _MARGIN + deep + _GAP)),
    ]
    height = max(box[3] - box[1], deep + _GAP + SIDE)
    title = f"{grade.title}: {piece.title}, sizes {grade.sizes[0]} to {grade.sizes[-1]}"
    about = f"All sizes laid over each other: {_what(piece)}. {_SCALE}"
    return write_page(Page(beside + _KEY + _MARGIN, height + 2 * _MARGIN, title, about, parts))


def _what(piece: GradedPiece) -> str:
    return _CUT if piece.is_strip else _STITCHING


def _box(piece: GradedPiece) -> Box:
    return box_around([path.bounds() for edge in piece.edges for path in edge.paths])


def _corners_of(box: Box) -> tuple[Point, ...]:
    x0, y0, x1, y1 = box
    return complex(x0, y0), complex(x1, y0), complex(x1, y1), complex(x0, y1)


def _is_alike(piece: GradedPiece) -> bool:
    """Whether no corner moves and no edge changes, as far as can be drawn."""
    still = all(_reach(corner) <= _STILL for corner in piece.corners)
    return still and all(max(edge.lengths) - min(edge.lengths) <= _STILL for edge in piece.edges)


def _lines(piece: GradedPiece) -> Iterator[tuple[Point, Point]]:
    for edge in piece.edges:
        for path in edge.paths:
            yield from pairwise(path.flatten(_STRAY))
    for paths in piece.inside:
        for path in paths:
            yield from pairwise(path.flatten(_STRAY))


def _drawn_sizes(grade: Grade, piece: GradedPiece, top_left: Point) -> str:
    parts = ['<g fill="none" stroke="black" stroke-linejoin="round">']
    for number, size in enumerate(grade.sizes):
        parts.append(f"<g data-size={quoteattr(size)}{_look(number)}>")
        for edge in piece.edges:
            data = path_data(edge.paths[number].segments, top_left)
            about = f'data-use="stitch" data-edge="{edge.name}" data-line="{edge.span.line}"'
            parts.append(f'<path d="{data}" data-piece="{piece.name}" {about} />')
        for path in piece.inside[number]:
            data = path_data(path.segments, top_left)
            parts.append(f'<path d="{data}" data-piece="{piece.name}" data-use="inside" />')
        parts.append("</g>")
    return "\n".join([*parts, "</g>\n"])


def _look(number: int) -> str:
    width, dashes = line_of(number)
    return f' stroke-width="{width}"' + (f' stroke-dasharray="{dashes}"' if dashes else "")


def _backed(labels: Iterable[Label], top_left: Point) -> str:
    """White below the size labels, so that they can be read on their lines."""
    boxes = [path_data(polyline(*label.back, label.back[0]), top_left) for label in labels if label.back]
    return "".join(f'<path d="{box}" fill="white" stroke="none" data-use="label" />\n' for box in boxes)


# ---- corners


class _Way(Record):
    """A part of what shows how a corner moves: its line, or with ``is_solid`` a dot or the head."""

    corner: str
    segments: tuple[Segment, ...]
    is_solid: bool


def _way(corner: GradedCorner) -> Iterator[_Way]:
    """A line through a corner in all sizes, a dot at each, and a head at the last; only a dot when it does not move."""
    places, name = corner.at, corner.name
    if _reach(corner) > _STILL:
        yield _Way(name, polyline(*places), False)
        before = next((p for p in reversed(places) if abs(p - places[-1]) > _STILL), places[0])
        yield _Way(name, _head(places[-1], unit(places[-1] - before)), True)
        places = places[:-1]
    else:
        places = places[:1]
    for at in places:
        yield _Way(name, polyline(at - _DOT, at - _DOT * 1j, at + _DOT, at + _DOT * 1j), True)


def _reach(corner: GradedCorner) -> float:
    """How far a corner gets from its place in the first size (mm)."""
    return max(abs(at - corner.at[0]) for at in corner.at)


def _head(tip: Point, way: complex) -> tuple[Segment, ...]:
    back, side = tip - way * _HEAD, left(way) * _HEAD / 3
    return polyline(back + side, tip, back - side)


def _drawn_ways(piece: GradedPiece, ways: Iterable[_Way], top_left: Point) -> str:
    parts = ['<g stroke="black" stroke-width="0.25">']
    for way in ways:
        look = 'fill="black" stroke="none"' if way.is_solid else 'fill="none"'
        about = f'data-piece="{piece.name}" data-use="move" data-corner="{way.corner}"'
        parts.append(f'<path d="{path_data(way.segments, top_left)}" {look} {about} />')
    return "\n".join([*parts, "</g>\n"])


def _names(piece: GradedPiece, walls: list[tuple[Point, Point, float]]) -> Iterator[Words]:
    """What the corners are called, each near its place in the largest size where it covers nothing."""
    ground = Ground(_corners_of(_box(piece)), 0.0)
    ground.walls += walls
    for corner in piece.corners:
        for words in _places(spoken(corner.name), corner.at[-1]):
            first, second, third, _ = words.corners
            if not ground.meets(first, words.along, abs(second - first), abs(third - second)):
                ground.walls.append(words.wall)
                yield words
                break


def _places(text: str, at: Point) -> Iterator[Words]:
    long = text_width(text, _SMALL)
    for away in (2.0, 5.0, 9.0, 14.0, 20.0):
        for way in _AROUND:
            x = {1: away, -1: -away - long, 0: -long / 2}[int(way.real)]
            y = {1: away, -1: -away - _SMALL, 0: -_SMALL / 2}[int(way.imag)]
            yield Words("name", text, at + complex(x, y), 1 + 0j, _SMALL)


def _aligned_here(piece: GradedPiece) -> Iterator[Stroke]:
    """A cross with a ring where the sizes are laid over each other, when that is near the piece."""
    x0, y0, x1, y1 = _box(piece)
    if x0 <= 0 <= x1 and y0 <= 0 <= y1:
        sign = (Line(-_CROSS + 0j, _CROSS + 0j), Line(-_CROSS * 1j, _CROSS * 1j), Arc(0j, _CROSS / 2, 0.0, math.tau))
        yield Stroke("aligned", "narrow", sign)


# ---- the key


def _key(grade: Grade, piece: GradedPiece) -> tuple[str, float]:
    """What is drawn, and the line of each size, as a group with its upper left corner at 0; and how deep it is (mm)."""
    aligned = "their origin (0, 0)" if piece.aligned == ORIGIN else spoken(piece.aligned)
    texts = [
        (piece.title, _TITLE),
        (grade.title, _PLAIN),
        (f"sizes {grade.sizes[0]} to {grade.sizes[-1]}, aligned at {aligned}", _PLAIN),
        (f"{_what(piece)}; {_ALIKE if _is_alike(piece) else _ARROWS}", _SMALL),
    ]
    words: list[Words] = []
    y = 0.0
    for text, height in texts:
        for line in wrapped(text, height, _KEY):
            y -= height
            words.append(Words("key", line, complex(0, y), 1 + 0j, height))
            y -= line_step(height) - height
        y -= 1.5
    samples = []
    for number, size in enumerate(grade.sizes):
        y -= _PLAIN + 2.4
        words.append(Words("key", size, complex(_SAMPLE + 4, y), 1 + 0j, _PLAIN))
        middle = decimal(-(y + _PLAIN / 2))
        line = f'd="M0 {middle} L{decimal(_SAMPLE)} {middle}" fill="none" stroke="black"'
        samples.append(f'<path {line}{_look(number)} data-use="key" />')
    return "\n".join([*samples, Pen(0j).group("size-key", (), words)]), -y
