"""A picture as an ``svg`` element, with its style."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from garmentc.geometry.vector import Point
from garmentc.numbers import decimal
from garmentc.output.pictures.model import LETTER, LOOKS, Picture, Stroke

STYLE = """\
.pic path { fill: none; stroke: #000; stroke-linejoin: round; stroke-linecap: round; }
.pic .closed { fill: #fff; }
.pic .head { fill: #000; }
.pic text { paint-order: stroke; stroke: #fff; stroke-width: 4px; stroke-linejoin: round; }
""" + "".join(
    f".pic .{kind} {{ stroke-width: {decimal(look.width)}px;"
    + (f" stroke-dasharray: {' '.join(map(decimal, look.dashes))};" if look.dashes else "")
    + (" stroke-linecap: butt;" if look.blunt else "")
    + " }\n"
    for kind, look in LOOKS.items()
)


def picture_svg(picture: Picture) -> Iterator[str]:
    """The lines of an ``svg`` element with its alternative text."""
    wide, high = decimal(picture.width, 1), decimal(picture.height, 1)
    size = f'width="{wide}" height="{high}" viewBox="0 0 {wide} {high}"'
    yield f'<svg class="pic" role="img" aria-label="{escape(picture.alt)}" {size}>'
    for stroke in picture.strokes:
        name = f"{stroke.kind} closed" if stroke.closed else stroke.kind
        yield f'<path class="{name}" d="{_d(stroke)}"/>'
    for word in picture.words:
        x, y = decimal(word.at.real, 1), decimal(word.at.imag, 1)
        where = f'x="{x}" y="{y}" text-anchor="{word.anchor}" font-size="{decimal(LETTER)}"'
        yield f"<text {where}>{escape(word.text)}</text>"
    yield "</svg>"


def _d(stroke: Stroke) -> str:
    end = "Z" if stroke.closed else ""
    return "".join(f"M{' '.join(_at(p) for p in run)}{end}" for run in stroke.runs)


def _at(p: Point) -> str:
    return f"{decimal(p.real, 1)},{decimal(p.imag, 1)}"
