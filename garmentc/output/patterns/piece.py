"""Draws one piece: its lines, marks, arrows and words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.design.texts import spoken
from garmentc.draft.model import PlacedMark
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
    takeup_places,
)
from garmentc.output.patterns.clear import Ground
from garmentc.output.patterns.edges import edge_strokes, inner_strokes, notch_strokes
from garmentc.output.patterns.label import Placed, place_arrow, place_label, reading_directions, slanting
from garmentc.output.patterns.letters import line_step, wrapped
from garmentc.output.patterns.room import Rooms
from garmentc.output.patterns.scene import Stroke, Wall, Words, box_of
from garmentc.output.patterns.words import PLAINLY, Told, Wording, wordings
from garmentc.output.texts.speech import Speech
from garmentc.record import Record

_STRAY = 0.8  # mm that the flattened outline may leave the true one, where words look for room
_CLEAR = 1.2  # mm that words keep from lines
_AIR = 1.5  # mm more that the label keeps
_NOTE = 2.7  # mm, height of words below a piece
_NARROWEST = 60.0  # mm that a line of them may always take


class DrawnPiece(Record):
    """A piece ready to be written. ``ring`` is the flattened cut line, ``box`` holds everything drawn.

    Of its strokes the first ``lines`` are those that change with the size; then come arrows.
    """

    name: str
    title: str
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]
    ring: tuple[Point, ...]
    box: Box
    lines: int


def size_strokes(assembly: Assembly, piece: CutPiece) -> list[Stroke]:
    """The lines of a piece that change with the size: edges, folds, darts, guides, notches and marks."""
    marks = map(mark_stroke, all_marks(piece, assembly.seams))
    return [*edge_strokes(piece), *inner_strokes(piece), *notch_strokes(piece), *marks]


def draw_piece(assembly: Assembly, piece: CutPiece, told: Told = PLAINLY, walls: Iterable[Wall] = ()) -> DrawnPiece:
    """Draw a piece or strip of a garment; its words keep clear of further walls."""
    easel = _Easel(piece, told.speech)
    easel.ground.walls += walls
    marks = all_marks(piece, assembly.seams)
    easel.draw_lines(marks)
    easel.label(wordings(assembly, piece, told))
    easel.name_edges()
    ring = tuple(piece.cut_line.flatten(_STRAY))
    ends = [p for stroke in easel.strokes for s in stroke.segments for p in (s.start, s.end)]
    left, low, right, _ = box_of(ring)
    below = [line for text in easel.unsaid for line in wrapped(text, _NOTE, max(right - left, _NARROWEST))]
    for number, text in enumerate(below):
        at = complex(left, low - 2 * _NOTE - number * line_step(_NOTE))
        easel.words.append(Words("label", text, at, 1 + 0j, _NOTE, False, "", piece.drafted.span.line))
    corners = [corner for words in easel.words for corner in words.corners]
    box = box_of((*ring, *ends, *corners))
    drawn, written = tuple(easel.strokes), tuple(easel.words)
    return DrawnPiece(piece.drafted.name, piece.drafted.title, drawn, written, ring, box, easel.lines)


class _Easel:
    """A piece being drawn; ``unsaid`` is what found no room inside and goes below the piece."""

    def __init__(self, piece: CutPiece, speech: Speech) -> None:
        self.piece, self.speech = piece, speech
        self.ground = Ground(piece.drafted.outline.flatten(_STRAY), _CLEAR)
        self.strokes = list(edge_strokes(piece))
        self.words: list[Words] = []
        self.unsaid: list[str] = []
        self.lines = 0

    def draw_lines(self, marks: Sequence[PlacedMark]) -> None:
        """Everything that has its place given, and the words that belong to it."""
        drafted = self.piece.drafted
        self._draw((*inner_strokes(self.piece), *notch_strokes(self.piece), *map(mark_stroke, marks)))
        self.lines = len(self.strokes)
        for bent, places in fold_arrows(drafted, self.speech):
            self._write(self.ground.first_free(places) or places[0])
            self._draw(bent)
        for edge in drafted.edges:
            if is_found(self.piece, edge.name):
                self._say(edge_places(self.piece, edge.name, self.speech))
        for mark in marks:
            if not mark.quiet and not self._say(mark_places(self.piece, mark)):
                self.unsaid.append(f"{spoken(mark.name)}: {mark.text}" if mark.text else spoken(mark.name))
        for line in drafted.lines:
            if not line.quiet:
                self._say(line_places(line, self.speech))
        for one in drafted.takeups:
            self._say(takeup_places(one))

    def name_edges(self) -> None:
        """The names of the edges, where there is room."""
        for edge in self.piece.drafted.edges:
            if not is_found(self.piece, edge.name):
                self._say(edge_places(self.piece, edge.name, self.speech))

    def label(self, ways: Sequence[Sequence[Wording]]) -> None:
        """The label with the grain arrow; what does not fit there is set as a second block, or below the piece."""
        thread = self.piece.drafted.thread
        directions = reading_directions(thread)
        rooms = self._rooms(directions)
        tries = (place_label(wordings, rooms, thread) for wordings in ways)
        placed = next((one for one in tries if one is not None), None)
        if placed is None:
            self.unsaid += [paragraph.text for paragraph in ways[0][-1].block]
            placed = place_arrow(rooms, thread)
        if placed is None:
            return
        self._set(placed)
        if placed.rest:
            second = place_label([Wording(placed.rest)], self._rooms(slanting(directions)), None)
            if second is None:
                self.unsaid += [paragraph.text for paragraph in placed.rest]
            else:
                self._set(second)

    def _rooms(self, directions: Sequence[complex]) -> Rooms:
        walls = [(a, b, around + _AIR) for a, b, around in self.ground.walls]
        return Rooms(self.ground.ring, walls, directions)

    def _set(self, placed: Placed) -> None:
        if placed.arrow is not None:
            self.strokes += grain_arrow(*placed.arrow)
            self.ground.walls.append((*placed.arrow, 2 * _CLEAR))
        for text, at, height in placed.lines:
            self._write(Words("label", text, at, placed.along, height, False, "", self.piece.drafted.span.line))

    def _draw(self, strokes: Iterable[Stroke]) -> None:
        for stroke in strokes:
            self.strokes.append(stroke)
            for segment in stroke.segments:
                points = [segment.start, *segment.flatten(_STRAY)]
                self.ground.walls += [(a, b, _CLEAR) for a, b in pairwise(points)]

    def _write(self, words: Words) -> None:
        self.words.append(words)
        self.ground.walls.append(words.wall)

    def _say(self, places: Iterable[Words]) -> bool:
        found = self.ground.first_free(places)
        if found is not None:
            self._write(found)
        return found is not None
