"""Draws a cutting plan: the cloth as it lies, everything on it that counts, and each shape with its number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from garmentc.assembly.model import Assembly
from garmentc.cloth.folding import FOLD, fold_edge
from garmentc.cloth.leftover import Rest, rests
from garmentc.cloth.model import Ground, GroundSide, Plan, Shape
from garmentc.cloth.shapes import fold_lines
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.segments import Box, Segment
from garmentc.geometry.vector import Point, heading, left, unit
from garmentc.output.byhand.ruler import said
from garmentc.output.lay.tape import Frame, Placed, frame, places
from garmentc.output.patterns.arrows import grain_arrow, upright
from garmentc.output.patterns.label import place_label, reading_directions
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.room import Rooms
from garmentc.output.patterns.scene import Stroke, Wall, Words, box_of, polyline
from garmentc.output.patterns.words import Paragraph, Wording
from garmentc.output.texts.speech import Voice
from garmentc.record import Record

_STRAY = 0.05  # mm that a drawn polyline may leave its curve
_TEXT, _LEAST = 3.6, 1.6  # mm, height of capitals beside the cloth, and of the smallest
_GAP = 2.5  # mm
_CROSS = 2.2  # mm, half of the cross of a point
_CLEAR = 1.2  # mm around lines in which no words stand
_NUMBER = 1.7  # height of the number of a shape, as a share of ordinary lines


class Shown(Record):
    """What is drawn: a plan, its numbers and points, what they are measured from, and what is left.

    The cloth may lie ``folded``, and is then cut through both layers, but for the shapes with the keys ``upper_only``.
    """

    assembly: Assembly
    plan: Plan
    placed: tuple[Placed, ...]
    frame: Frame
    rests: tuple[Rest, ...]
    voice: Voice
    folded: bool = False
    upper_only: tuple[str, ...] = ()


def show(
    assembly: Assembly, plan: Plan, voice: Voice, *, folded: bool = False, upper_only: tuple[str, ...] = ()
) -> Shown:
    """What there is to tell of a plan."""
    return Shown(assembly, plan, places(plan), frame(plan.ground), rests(plan), voice, folded, upper_only)


class Group(Record):
    """The strokes and words of the cloth, or of one shape."""

    name: str
    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...]


class Drawn(Record):
    """A drawing, from back to front, and the box around all of it (mm of the drawing, y up)."""

    groups: tuple[Group, ...]
    box: Box


def draw_plan(what: Shown, scale: float = 1.0) -> Drawn:
    """The plan at a scale; words and arrows have the same height at any scale."""
    easel = _Easel(what, scale)
    groups = (easel.cloth(), easel.left(), *(easel.shape(one) for one in what.placed))
    points = [corner for group in groups for words in group.words for corner in words.corners]
    points += [p for group in groups for stroke in group.strokes for s in stroke.segments for p in (s.start, s.end)]
    return Drawn(groups, box_of(points))


class _Easel:
    def __init__(self, what: Shown, scale: float) -> None:
        self.told, self.scale = what, scale

    def length(self, mm: float) -> str:
        return said(mm, self.told.voice)

    # ---- the cloth

    def cloth(self) -> Group:
        """Its sides with their names and finishes, its holes, flaws and places, its threads and its upper end."""
        ground = self.told.plan.ground
        strokes: list[Stroke] = []
        words: list[Words] = []
        for side in ground.sides:
            strokes.append(Stroke("guide", "narrow", self._polyline(side.points), side.name.replace(" ", "-")))
            if side.finish and side.width > 0:
                strokes.append(Stroke("guide", "dashed", self._polyline(_inside(side))))
            words += self._side_words(side)
        for hole in ground.holes:
            strokes.append(Stroke("guide", "narrow", self._ring(hole)))
            words += self._in_area("hole", hole)
        for flaw in ground.flaws:
            strokes += [Stroke("guide", "narrow", self._ring(flaw.ring)), *self._crossed(flaw.ring)]
            words += self._in_area(flaw.name, flaw.ring)
        for place in ground.places:
            strokes.append(Stroke("guide", "chain", self._ring(place.ring)))
            words += self._in_area(place.name, place.ring)
        for pin, letter in zip(self.told.frame.pins or (), "PQ", strict=False):
            strokes.append(self._cross(pin))
            words.append(Words("mark", letter, pin * self.scale + complex(_CROSS, _CROSS), 1 + 0j, 1.3 * _TEXT))
        return Group("cloth", (*strokes, *self._threads()), (*words, *self._thread_words()))

    def _side_words(self, side: GroundSide) -> Iterator[Words]:
        """The name of a side, its length and its finish, along its outside, where there is room."""
        start, end = side.points[0], side.points[-1]
        chord = (end - start) * self.scale
        finish = "folded" if side.finish == FOLD else "raw"
        if side.width > 0:
            finish = f"{side.finish} {self.length(side.width)}"
        long = sum(abs(b - a) for a, b in zip(side.points, side.points[1:], strict=False))
        along = upright(unit(chord)) if chord else 1 + 0j
        middle = side.points[len(side.points) // 2] if len(side.points) > 2 else (start + end) / 2
        outward = -left(unit(chord)) if chord else -1j
        up = left(along)
        near = _GAP if (outward * up.conjugate()).real > 0 else _GAP + _TEXT
        for text in (f"{side.name}, {self.length(long)}: {finish}", f"{side.name}: {finish}", side.name):
            if text_width(text, _TEXT) < max(long * self.scale, 8.0):
                yield Words("cloth", text, middle * self.scale + outward * near, along, _TEXT, True)
                return

    def _in_area(self, text: str, ring: Sequence[Point]) -> Iterator[Words]:
        x0, y0, x1, _ = box_of(p * self.scale for p in ring)
        yield Words("cloth", text, complex((x0 + x1) / 2, y0 - _GAP - _TEXT), 1 + 0j, _TEXT, True)

    def _crossed(self, ring: Sequence[Point]) -> Iterator[Stroke]:
        x0, y0, x1, y1 = box_of(p * self.scale for p in ring)
        yield Stroke("guide", "narrow", polyline(complex(x0, y0), complex(x1, y1)))
        yield Stroke("guide", "narrow", polyline(complex(x0, y1), complex(x1, y0)))

    def _above(self) -> Point:
        """Where the signs above the cloth begin."""
        x0, _, _, y1 = self.told.plan.ground.box
        return complex(x0, y1) * self.scale + complex(0, 4 * _GAP + 2 * _TEXT)

    def _threads(self) -> Iterator[Stroke]:
        """An arrow along each way of the lengthwise threads, above the cloth."""
        corner = self._above()
        for axis in self.told.plan.ground.lengthwise:
            half = heading(axis) * 8.0
            middle = corner + complex(8.0, 8.0)
            yield from grain_arrow(middle - half, middle + half)

    def _thread_words(self) -> Iterator[Words]:
        ground = self.told.plan.ground
        lines = [_thread_text(ground)]
        if ground.is_one_way:
            lines.append(f"its upper end is {_ways(ground.up)}: all pieces lie that way up")
        for number, text in enumerate(reversed(lines)):
            at = self._above() + complex(22.0, 4.0 + 1.8 * _TEXT * number)
            yield Words("cloth", text, at, 1 + 0j, _TEXT)

    # ---- what lies on it

    def left(self) -> Group:
        """The rectangles that are left."""
        strokes, words = [], []
        for rest in self.told.rests:
            along, room = (1 + 0j, rest.wide) if rest.wide >= rest.high else (1j, rest.high)
            text = f"left: {self.length(rest.wide)} by {self.length(rest.high)}"
            if text_width(text, _TEXT) > room * self.scale:
                continue  # it stands in the table of the page
            corners = [complex(rest.x + x * rest.wide, rest.y + y * rest.high) for x, y in _SQUARE]
            strokes.append(Stroke("left", "dashed", self._ring(corners)))
            middle = complex(rest.x + rest.wide / 2, rest.y + rest.high / 2) * self.scale
            words.append(Words("left", text, middle - left(along) * _TEXT / 2, along, _TEXT, True))
        return Group("left", tuple(strokes), tuple(words))

    def shape(self, placed: Placed) -> Group:
        """A shape: the line to cut, its folds, its number and name, the threads, and the points to measure to."""
        plan, shape = self.told.plan, placed.shape
        outline = plan.outline(shape)
        piece = self.told.assembly.draft.piece(shape.piece)
        strokes = [Stroke("cut", "wide", self._outline(outline), "", piece.span.line)]
        motion = plan.spots[shape.key].motion
        on_fold = fold_edge(shape)
        for fold in fold_lines(self.told.assembly, shape) if on_fold is None else (on_fold,):
            strokes.append(Stroke("fold", "chain", self._path(fold.moved(motion))))
        words: list[Words] = []
        strokes += [self._cross(mark.at) for mark in placed.points]
        if shape.is_strip:
            return Group(_id(shape), tuple(strokes), tuple(self._strip_words(placed, outline)))
        middle = sum(outline.corners) / len(outline.corners)
        for mark in placed.points:
            inward = unit(middle - mark.at) if abs(middle - mark.at) > 1.0 else 1 + 0j
            centre = mark.at * self.scale + inward * 2.6 * _TEXT
            words.append(Words("mark", mark.letter, centre - 0.5j * _TEXT, 1 + 0j, _TEXT, True))
        return self._labelled(placed, outline, strokes, words)

    def _strip_words(self, placed: Placed, outline: Outline) -> Iterator[Words]:
        """Number and name of a strip along its middle, and the letters of its points at its ends."""
        long = max(outline.edges, key=lambda edge: edge.length)
        wide = min(edge.length for edge in outline.edges) * self.scale
        high = max(min(_TEXT, 0.5 * wide), _LEAST)
        along = upright(unit(long.chord))
        middle = sum(outline.corners) / len(outline.corners) * self.scale - left(along) * high / 2
        line = self.told.assembly.draft.piece(placed.shape.piece).span.line
        room = long.length * self.scale
        ends = sorted(placed.points, key=lambda mark: (mark.at * along.conjugate()).real)
        for mark, way in zip(ends, (-along, along), strict=True):
            inside = room / 2 - text_width(mark.letter, high)
            yield Words("mark", mark.letter, middle + way * inside, along, high, True)
        for text in (f"{placed.number} {placed.shape.title}", str(placed.number)):
            if text_width(text, high) < room - 6 * high:
                yield Words("label", text, middle, along, high, True, "", line)
                return

    def _labelled(self, placed: Placed, outline: Outline, strokes: list[Stroke], words: list[Words]) -> Group:
        plan, shape = self.told.plan, placed.shape
        ring = [p * self.scale for p in outline.flatten(_STRAY / self.scale)]
        closed = [*ring, ring[0]]
        walls: list[Wall] = [(a, b, _CLEAR) for a, b in zip(closed, ring[1:], strict=False)]
        walls += [(s.start, s.end, _CLEAR) for stroke in strokes[1:] for s in stroke.segments]
        walls += [one.wall for one in words]
        over = ["right side down"] if plan.spots[shape.key].turn.over else []
        over += ["upper layer only"] if shape.key in self.told.upper_only else []
        line = self.told.assembly.draft.piece(shape.piece).span.line
        number, title = Paragraph(str(placed.number), _NUMBER), Paragraph(shape.title, 1.0)
        ways = (
            Wording((number, title, *(Paragraph(text, 1.0) for text in over))),
            Wording((Paragraph(", ".join((f"{placed.number} {shape.title}", *over)), 1.0),)),
            Wording((number,)),
        )
        thread = heading(plan.ground.lengthwise[0])
        rooms = Rooms(ring, walls, reading_directions(thread))
        for wording, along in ((one, arrow) for one in ways for arrow in (thread, None)):
            found = place_label((wording,), rooms, along)
            if found is not None:
                strokes += grain_arrow(*found.arrow) if found.arrow is not None else ()
                words += [
                    Words("label", text, at, found.along, high, False, "", line) for text, at, high in found.lines
                ]
                break
        else:
            at = ring[0] + complex(_GAP, _GAP)
            words.append(Words("label", str(placed.number), at, 1 + 0j, _TEXT, False, "", line))
        return Group(_id(shape), tuple(strokes), tuple(words))

    # ---- lines at the scale

    def _outline(self, outline: Outline) -> tuple[Segment, ...]:
        return tuple(segment for edge in outline.edges for segment in self._path(edge))

    def _path(self, path: Path) -> tuple[Segment, ...]:
        return path.segments if self.scale == 1.0 else self._polyline(path.flatten(_STRAY / self.scale))

    def _polyline(self, points: Iterable[Point]) -> tuple[Segment, ...]:
        return polyline(*(p * self.scale for p in points))

    def _ring(self, points: Sequence[Point]) -> tuple[Segment, ...]:
        return self._polyline([*points, points[0]])

    def _cross(self, at: Point) -> Stroke:
        p = at * self.scale
        arms = (complex(_CROSS, _CROSS), complex(_CROSS, -_CROSS))
        return Stroke("mark", "narrow", tuple(s for arm in arms for s in polyline(p - arm, p + arm)))


def _id(shape: Shape) -> str:
    return shape.key.replace(" ", "-")


_SQUARE = ((0, 0), (1, 0), (1, 1), (0, 1))


def _inside(side: GroundSide) -> list[Point]:
    """The inner line of the finish of a side."""
    points = side.points
    found = []
    for i, p in enumerate(points):
        along = unit(points[min(i + 1, len(points) - 1)] - points[max(i - 1, 0)])
        found.append(p + left(along) * side.width)
    return found


def _thread_text(ground: Ground) -> str:
    if len(ground.lengthwise) > 1:
        return "the threads run level and upright; both ways may count as lengthwise"
    return (
        f"the lengthwise threads (warp) run {'upright' if abs(heading(ground.lengthwise[0]).imag) > 0.5 else 'level'}"
    )


def _ways(up: complex) -> str:
    if abs(up.imag) > abs(up.real):
        return "above" if up.imag > 0 else "below"
    return "on the right" if up.real > 0 else "on the left"
