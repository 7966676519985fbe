"""The notes of the first page: what it is, square and bars to check the print by, the map, the kinds of line."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from garmentc.geometry.segments import Line
from garmentc.geometry.vector import Point, cross
from garmentc.output.paper.parts import Laid, Part
from garmentc.output.paper.tiles import Tiling, row_name
from garmentc.output.patterns.letters import line_step, text_width, wrapped
from garmentc.output.patterns.scene import LOOKS, Look, Stroke, Words, box_of, polyline
from garmentc.output.texts.speech import INCH, Speech
from garmentc.record import Record

WIDTH, HEIGHT = 188.0, 250.0
"""What the notes take (mm): less than the drawing of a page of A4 or Letter."""

SQUARE = 50.0
"""A side of the square (mm)."""

BAR_CM, BAR_INCH = 10, 4
"""How long the bars are, in cm and in inches."""

_TITLE, _HEAD, _TEXT, _SMALL = 6.5, 3.6, 2.9, 2.3  # mm, heights of capitals
_RIGHT = 122.0  # where the right column begins
_SAMPLE, _SHORT_SAMPLE = 24.0, 18.0  # mm of a line in the key
_BESIDE = 50.0  # mm that text needs beside a map
_LINES = (
    ("line_cut", "wide"),
    ("line_stitch", "dashed"),
    ("line_fold", "chain"),
    ("line_grain", "narrow"),
)


class Notes(Record):
    """What the first page says: ``sizes`` are those laid over each other, with their lines; ``strips`` sentences."""

    title: str
    lines: tuple[str, ...]
    sizes: tuple[tuple[str, Look], ...]
    strips: tuple[str, ...]


class _Sheet:
    """Lines and words so far, from the upper left corner at 0 to the right and down."""

    def __init__(self) -> None:
        self.strokes: list[Stroke] = []
        self.words: list[Words] = []
        self.looks: list[Part] = []

    def text(self, text: str, x: float, y: float, height: float, widest: float) -> float:
        """Text in lines whose first has its top at y; gives where it ends."""
        for line in wrapped(text, height, widest):
            self.words.append(Words("note", line, complex(x, y - height), 1 + 0j, height))
            y -= line_step(height)
        return y


def panel(
    notes: Notes, tiling: Tiling, laid: Sequence[Laid], first_page: int, height: float, speech: Speech
) -> list[Part]:
    """All of it in a height (mm), the upper left corner at 0; ``first_page`` is the number of the map's first page."""
    for tight in (False, True):
        sheet = _filled(notes, tiling, laid, first_page, height, speech, tight)
        if min(words.at.imag for words in sheet.words) >= -height:
            break
    return [Part("", tuple(sheet.strokes), tuple(sheet.words)), *sheet.looks]


def _filled(
    notes: Notes, tiling: Tiling, laid: Sequence[Laid], first_page: int, height: float, speech: Speech, tight: bool
) -> _Sheet:
    """The notes; ``tight`` sets the sizes in two columns, and how pages are joined above the map."""
    sheet = _Sheet()
    tall = min(_TITLE, max(_TITLE * WIDTH / text_width(notes.title, _TITLE), _HEAD + 1.0))
    y = sheet.text(notes.title, 0.0, 0.0, tall, WIDTH)
    for line in notes.lines:
        y = sheet.text(line, 0.0, y - 0.6, _TEXT, WIDTH)
    y = sheet.text(speech.say("check_title"), 0.0, y - 3.0, _HEAD, WIDTH)
    y = sheet.text(speech.say("check_text"), 0.0, y, _TEXT, WIDTH) - 3.0
    low = y - BAR_INCH * INCH - 14.0
    _measures(sheet, complex(7.0, low + 7.0), speech)
    lower = _key(sheet, notes, y, speech, tight)
    several = len(tiling.tiles) > 1
    if several:
        top = sheet.text(speech.say("map_title"), 0.0, low - 3.0, _HEAD, _RIGHT - 4.0)
        if tight:
            across, up = tiling.paper.step
            beside = 10.0 + tiling.columns * across * (height + top - 5.0) / (tiling.rows * up)
            x = beside if _RIGHT - 4.0 - beside > _BESIDE else 0.0
            ends = sheet.text(speech.say("join_text"), x, top, _SMALL, _RIGHT - 4.0 - x)
            top = top if x else ends
        _map(sheet, tiling, laid, first_page, complex(0.0, top), _RIGHT - 4.0, height + top)
    if not (several and tight):
        text = speech.say("join_text" if several else "one_sheet_text")
        sheet.text(text, _RIGHT, min(low - 3.0 - line_step(_HEAD), lower - 3.0), _TEXT, WIDTH - _RIGHT)
    return sheet


def _measures(sheet: _Sheet, start: Point, speech: Speech) -> None:
    """A bar to the right and one up from a corner, each with cm on one side and inches on the other, and a square."""
    for along, outward in ((1 + 0j, -1j), (1j, -1 + 0j)):
        for use, long, step, side in (
            ("bar_cm", BAR_CM * 10.0, 10.0, outward),
            ("bar_inch", BAR_INCH * INCH, INCH, -outward),
        ):
            base = start + along * 4.0 + side * 0.5
            sheet.strokes.append(Stroke(use, "narrow", polyline(base, base + along * long)))
            count = round(long / step)
            for i in range(count + 1):
                at = base + along * step * i
                sheet.strokes.append(
                    Stroke("tick", "narrow", polyline(at, at + side * (3.0 if i in (0, count) else 1.8)))
                )
            above = (side / along).imag > 0
            level = 3.2 if above else -3.2 - _SMALL
            middle = base + along * long / 2 + along * 1j * level
            sheet.words.append(Words("check", speech.say(use), middle, along, _SMALL, True))
    low = start + complex(22.0, 24.0)
    corners = (low, low + SQUARE, low + complex(SQUARE, SQUARE), low + SQUARE * 1j)
    for i, name in enumerate(("bottom", "right", "top", "left")):
        sheet.strokes.append(Stroke("check", "narrow", polyline(corners[i], corners[(i + 1) % 4]), name))
    lines = wrapped(speech.say("square_side"), _TEXT, SQUARE - 6.0)
    for number, line in enumerate(lines):
        down = (number - (len(lines) - 1) / 2) * line_step(_TEXT)
        at = low + complex(SQUARE / 2, SQUARE / 2 - _TEXT / 2 - down)
        sheet.words.append(Words("check", line, at, 1 + 0j, _TEXT, True))


def _key(sheet: _Sheet, notes: Notes, y: float, speech: Speech, tight: bool) -> float:
    """The kinds of line, those of the sizes, and the strips, below each other in the right column; where it ends."""
    room = WIDTH - _RIGHT
    y = sheet.text(speech.say("lines_title"), _RIGHT, y, _HEAD, room) - 1.0
    several = len(notes.sizes) > 1
    for key, kind in _LINES:
        if several and kind in ("wide", "dashed"):
            continue
        y = _sample(sheet, LOOKS[kind], speech.say(key), y, arrow=key == "line_grain")
    if several:
        y = sheet.text(speech.say("sizes_title"), _RIGHT, y - 2.0, _HEAD, room) - 1.0
        half = -(-len(notes.sizes) // 2) if tight else len(notes.sizes)
        ends = []
        for column, x in enumerate((_RIGHT, _RIGHT + room / 2)):
            at = y
            for size, look in notes.sizes[column * half : (column + 1) * half]:
                at = _sample(sheet, look, size, at, x, _SHORT_SAMPLE if tight else _SAMPLE)
            ends.append(at)
        y = min(ends)
        y = sheet.text(speech.say("no_stitching"), _RIGHT, y - 1.0, _SMALL, room)
    if notes.strips:
        y = sheet.text(speech.say("strips_title"), _RIGHT, y - 2.0, _HEAD, room)
        for strip in notes.strips:
            y = sheet.text(strip, _RIGHT, y - 0.5, _SMALL, room)
    return y


def _sample(
    sheet: _Sheet, look: Look, text: str, y: float, x: float = _RIGHT, long: float = _SAMPLE, *, arrow: bool = False
) -> float:
    middle = y - _TEXT / 2
    start, end = complex(x, middle), complex(x + long, middle)
    sheet.looks.append(Part("", (Stroke("key", "narrow", polyline(start, end)),), (), look))
    if arrow:
        for tip, way in ((start, -1.0), (end, 1.0)):
            head = polyline(tip - way * 4 + 1.3j, tip, tip - way * 4 - 1.3j)
            sheet.strokes.append(Stroke("key", "solid", head))
    widest = (WIDTH - _RIGHT if long == _SAMPLE else (WIDTH - _RIGHT) / 2) - long - 3.0
    return sheet.text(text, x + long + 3.0, y, _TEXT, widest) - 0.4


def _map(
    sheet: _Sheet, tiling: Tiling, laid: Sequence[Laid], first_page: int, corner: Point, wide: float, high: float
) -> None:
    """The pages with their numbers and names, and small pictures of the pieces."""
    across, up = tiling.paper.step
    left, top = min(tile.window[0] for tile in tiling.tiles), max(tile.window[1] for tile in tiling.tiles) + up
    scale = min((wide - 6.0) / (tiling.columns * across), (high - 5.0) / (tiling.rows * up))
    base = corner + complex(6.0, -4.0)

    def place(p: Point) -> Point:
        return base + (p - complex(left, top)) * scale

    for column in range(tiling.columns):
        at = base + complex((column + 0.5) * across * scale, 1.2)
        sheet.words.append(Words("map", str(column + 1), at, 1 + 0j, _SMALL, True))
    for row in range(tiling.rows):
        at = base - complex(3.0, (row + 0.5) * up * scale + _SMALL / 2)
        sheet.words.append(Words("map", row_name(row), at, 1 + 0j, _SMALL, True))
    pages: list[Stroke] = []
    words: list[Words] = []
    for number, tile in enumerate(tiling.tiles, first_page):
        low = place(complex(tile.window[0], tile.window[1]))
        right, tall = across * scale, up * scale
        pages.append(Stroke("map", "narrow", _closed([low, low + right, low + complex(right, tall), low + tall * 1j])))
        words.append(Words("map", str(number), low + complex(1.0, tall - 1.0 - _SMALL), 1 + 0j, _SMALL))
    sheet.looks.append(Part("", tuple(pages), (), Look(0.18, (1.0, 1.0))))
    outlines = [
        Stroke("map", "narrow", _closed([place(p) for p in ring]))
        for one in laid
        for ring in (one.rings[:1] if len(one.piece.rings) == 1 else (one.rings[0], one.rings[-1]))
    ]
    sheet.looks.append(Part("", tuple(outlines), (), Look(0.25)))
    for one in laid:
        middle = place(one.place(_middle(one.piece.rings[0])))
        name = Words("map", one.piece.title, middle - _SMALL / 2 * 1j, 1 + 0j, _SMALL * 0.9, True)
        tries = [name._replace(at=name.at + away * _SMALL * 1j) for away in (0.0, 1.2, -1.2, 2.4, -2.4)]
        words.append(next((one for one in tries if all(_apart(one, other) for other in words)), name))
    sheet.looks.append(Part("", (), tuple(words), None, tuple(one.corners for one in words)))


def _apart(one: Words, other: Words) -> bool:
    """Whether two level words don't touch."""
    x0, y0, x1, y1 = box_of(one.corners)
    u0, v0, u1, v1 = box_of(other.corners)
    return x1 < u0 or u1 < x0 or y1 < v0 or v1 < y0


def _closed(points: Sequence[Point]) -> tuple[Line, ...]:
    return tuple(Line(a, b) for a, b in pairwise((*points, points[0])))


def _middle(ring: Sequence[Point]) -> Point:
    """The centre of the area inside a ring of points."""
    area, sum_ = 0.0, 0j
    for a, b in pairwise((*ring, ring[0])):
        part = cross(a - ring[0], b - ring[0])
        area += part
        sum_ += part * (a + b + ring[0]) / 3
    return sum_ / area if area else ring[0]
