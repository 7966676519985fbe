"""Writes drawings as SVG, true to scale: one user unit is one millimetre, and one element stands on each line."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from xml.sax.saxutils import escape

import svgwrite

from garmentc.geometry.segments import Arc, Cubic, Segment
from garmentc.geometry.vector import Point, angle_of
from garmentc.numbers import decimal
from garmentc.output.patterns.letters import CAPITALS, plain
from garmentc.output.patterns.scene import LOOKS, NARROW, WIDE, Look, Stroke, Words, polyline
from garmentc.record import Record

_PLAIN = {"fill": "none", "stroke": "black", "stroke-width": decimal(NARROW), "stroke-linejoin": "round"}
_DASHES = {kind: " ".join(map(decimal, look.dashes)) for kind, look in LOOKS.items() if look.dashes}


class Page(Record):
    """A drawing to write: its size (mm), what it is called and says about itself, and its written groups.

    A ``fluid`` one is as large as the window it is shown in.
    """

    width: float
    height: float
    title: str
    about: str
    groups: Sequence[str]
    fluid: bool = False


class Pen:
    """Turns strokes and words into SVG text; ``corner`` is the upper left corner of the drawing, y up."""

    def __init__(self, corner: Point) -> None:
        self._corner = corner

    def group(
        self,
        name: str,
        strokes: Iterable[Stroke],
        words: Iterable[Words],
        look: Look | None = None,
        back: Iterable[Sequence[Point]] = (),
    ) -> str:
        """All of a piece as one group; a look replaces those of its lines, and rings behind the words are white."""
        head = {"id": name, **_PLAIN}
        if look is not None:
            head["stroke-width"] = decimal(look.width)
            if look.dashes:
                head["stroke-dasharray"] = " ".join(map(decimal, look.dashes))
            strokes = [stroke if stroke.kind == "solid" else stroke._replace(kind="narrow") for stroke in strokes]
        parts = [f"<g{_attributes(head)}>"]
        parts += [f"<path{_attributes(self._path(name, stroke))} />" for stroke in strokes]
        rings = [path_data(polyline(*ring, ring[0]), self._corner) for ring in back]
        parts += [f'<path d="{ring}" fill="white" stroke="none" />' for ring in rings]
        parts += [f"<text{_attributes(self._text(name, text))}>{escape(plain(text.text))}</text>" for text in words]
        return "\n".join([*parts, "</g>\n"])

    def _path(self, name: str, stroke: Stroke) -> dict[str, str]:
        attribs = {"d": path_data(stroke.segments, self._corner), **_data(name, stroke.use, stroke.edge, stroke.line)}
        if stroke.edge and stroke.use in ("cut", "stitch", "fold"):
            attribs["id"] = f"{name}.{stroke.edge}.{stroke.use}"
        if stroke.kind == "wide":
            attribs["stroke-width"] = decimal(WIDE)
            attribs["stroke-linecap"] = "round"
        elif stroke.kind == "solid":
            attribs["fill"] = "black"
            attribs["stroke"] = "none"
        elif stroke.kind in _DASHES:
            attribs["stroke-dasharray"] = _DASHES[stroke.kind]
        return attribs

    def _text(self, name: str, words: Words) -> dict[str, str]:
        at = _page(words.at, self._corner)
        x, y = decimal(at.real), decimal(at.imag)
        attribs = {
            **_data(name, words.use, words.edge, words.line),
            "x": x,
            "y": y,
            "font-size": decimal(words.height / CAPITALS, 2),
            "fill": "black",
            "stroke": "none",
        }
        if words.centred:
            attribs["text-anchor"] = "middle"
        turn = -math.degrees(angle_of(words.along))
        if abs(turn) > 1e-3:
            attribs["transform"] = f"rotate({decimal(turn)} {x} {y})"
        return attribs


def _attributes(values: Mapping[str, str]) -> str:
    """Attributes as text; their values are numbers and names of the language, which need no escaping."""
    return "".join([f' {name}="{value}"' for name, value in values.items()])


def moved(group: str, by: complex) -> str:
    """A written group, moved right and down."""
    return f'<g transform="translate({decimal(by.real)} {decimal(by.imag)})">\n{group}</g>\n'


def write_page(page: Page) -> bytes:
    """A whole SVG file."""
    wide, high = decimal(page.width), decimal(page.height)
    size = ("100%", "100%") if page.fluid else (f"{wide}mm", f"{high}mm")
    drawing = svgwrite.Drawing(size=size, viewBox=f"0 0 {wide} {high}", debug=False)
    drawing.attribs.update({"role": "img", "font-family": "sans-serif"})
    drawing.set_desc(plain(page.title), plain(page.about))
    head = drawing.tostring().removesuffix("</svg>").replace("><", ">\n<")
    return "".join(['<?xml version="1.0" encoding="UTF-8"?>\n', head, "\n", *page.groups, "</svg>\n"]).encode()


def path_data(segments: Sequence[Segment], corner: Point) -> str:
    """The segments as the text of a path, y down from the corner; lines, arcs and cubics stay what they are."""
    parts: list[str] = []
    last: Point | None = None
    for segment in segments:
        start = _page(segment.start, corner)
        if last is None or abs(start - last) > 1e-6:
            parts.append(f"M{_pair(start)}")
        last = _page(segment.end, corner)
        if isinstance(segment, Cubic):
            c1, c2 = _page(segment.c1, corner), _page(segment.c2, corner)
            parts.append(f"C{_pair(c1)} {_pair(c2)} {_pair(last)}")
        elif isinstance(segment, Arc):
            parts += _arc(segment, corner)
        else:
            parts.append(f"L{_pair(last)}")
    return " ".join(parts)


def _arc(arc: Arc, corner: Point) -> list[str]:
    """In two halves: the ends of more than half a circle don't fix it well."""
    radius, swept = decimal(arc.radius), 0 if arc.sweep > 0 else 1
    ends = (arc.point(0.5), arc.end)
    return [f"A{radius} {radius} 0 0 {swept} {_pair(_page(end, corner))}" for end in ends]


def _page(p: Point, corner: Point) -> Point:
    return complex(p.real - corner.real, corner.imag - p.imag)


def _pair(p: Point) -> str:
    return f"{decimal(p.real)} {decimal(p.imag)}"


def _data(name: str, use: str, edge: str, line: int) -> dict[str, str]:
    data = {"data-piece": name, "data-use": use}
    if edge:
        data["data-edge"] = edge
    if line:
        data["data-line"] = str(line)
    return data
