"""Draws one piece: its lines, marks, arrows and words."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.geometry.segments import Box
from garmentc.geometry.vector import Point
from garmentc.output.patterns.arrows import fold_arrows, grain_arrow
from garmentc.output.patterns.captions import (
    all_marks,
    edge_places,
    is_found,
    line_places,
    mark_places,
    mark_stroke,
)
from garmentc.output.patterns.clear import Ground
from garmentc.output.patterns.edges import edge_strokes, inner_strokes, notch_strokes
from garmentc.output.patterns.label import place_label, reading_directions, slanting
from garmentc.output.patterns.room import room_in
from garmentc.output.patterns.scene import Stroke, Words, box_of, walls_along
from garmentc.output.patterns.words import Wording, wordings

_STRAY = 0.8  # mm that the flattened outline may leave the true one, where words look for room
_CLEAR = 1.2  # mm that words keep from lines
_AIR = 2.0  # mm more that the label keeps


class DrawnPiece(NamedTuple):
    """A piece ready to be written. ``ring`` is the flattened cut line, ``box`` holds everything drawn."""

    name: str
    title: str
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]
    ring: tuple[Point, ...]
    box: Box


def draw_piece(assembly: Assembly, piece: CutPiece) -> DrawnPiece:
    """Draw a piece or strip of a garment."""
    drafted = piece.drafted
    ground = Ground(drafted.outline.flatten(_STRAY), _CLEAR)
    strokes, words = list(edge_strokes(piece)), list[Words]()
    inner = [*inner_strokes(piece), *notch_strokes(piece)]
    marks = all_marks(piece, assembly.seams)
    inner += [mark_stroke(mark) for mark in marks]
    for bent, text in fold_arrows(drafted):
        inner += bent
        words.append(text)
        ground.walls.append(text.wall)
    for stroke in inner:
        ground.walls += _walls(stroke)
    strokes += inner

    def say(places: Iterable[Words]) -> None:
        found = ground.first_free(places)
        if found is not None:
            words.append(found)

    for edge in drafted.edges:
        if is_found(piece, edge.name):
            say(edge_places(piece, edge.name))
    for mark in marks:
        say(mark_places(piece, mark))
    for line in drafted.lines:
        say(line_places(line))
    _label(assembly, piece, ground, strokes, words)
    for edge in drafted.edges:
        if not is_found(piece, edge.name):
            say(edge_places(piece, edge.name))
    ring = tuple(piece.cut_line.flatten(_STRAY))
    box = box_of((*ring, *(p for stroke in strokes for s in stroke.segments for p in (s.start, s.end)), *_ends(words)))
    return DrawnPiece(drafted.name, drafted.title, tuple(strokes), tuple(words), ring, box)


def _label(assembly: Assembly, piece: CutPiece, ground: Ground, strokes: list[Stroke], words: list[Words]) -> None:
    """The label with the grain arrow; what does not fit there is set as a second block."""
    thread: complex | None = piece.drafted.thread
    directions = reading_directions(piece.drafted.thread)
    says: Iterable[Wording] = wordings(assembly, piece)
    while says:
        walls = [(a, b, around + _AIR) for a, b, around in ground.walls]
        rooms = (room_in(ground.ring, walls, along) for along in directions)
        placed = place_label(says, rooms, thread)
        if placed is None:
            return
        if placed.arrow is not None:
            arrow = grain_arrow(*placed.arrow)
            strokes += arrow
            ground.walls += _walls(arrow[0])
        for text, at, height in placed.lines:
            line = Words("label", text, at, placed.along, height, False, "", piece.drafted.span.line)
            words.append(line)
            ground.walls.append(line.wall)
        says, thread = [Wording(placed.rest)] if placed.rest else [], None
        directions = slanting(directions)


def _walls(stroke: Stroke) -> list[tuple[Point, Point, float]]:
    return [
        wall for segment in stroke.segments for wall in walls_along([segment.start, *segment.flatten(_STRAY)], _CLEAR)
    ]


def _ends(words: Iterable[Words]) -> list[Point]:
    return [corner for one in words for corner in one.corners]
