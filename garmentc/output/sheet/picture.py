"""A sketch as SVG inside the HTML sheet."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from garmentc.numbers import decimal
from garmentc.output.sheet.document import plain
from garmentc.output.sheet.sketch import Sketch

_LETTER_PX = 13.0  # the size of the letters on the screen decides the scale of the picture


def picture(sketch: Sketch) -> Iterator[str]:
    """The lines of one figure: its caption, and an ``svg`` element with its alternative text."""
    scale = _LETTER_PX / sketch.letter
    wide, high = (decimal(side * scale, 1) for side in (sketch.width, sketch.height))
    label = escape(plain(sketch.alt))
    size = f'width="{wide}" height="{high}" viewBox="0 0 {wide} {high}"'
    yield '<figure class="sketch">'
    yield f"<figcaption>{escape(plain(sketch.caption))}</figcaption>"
    yield f'<svg role="img" aria-label="{label}" {size}>'
    for stroke in sketch.strokes:
        points = " ".join(f"{decimal(at.real * scale, 1)},{decimal(at.imag * scale, 1)}" for at in stroke.points)
        yield f'<polyline class="{stroke.kind}" points="{points}"/>'
    for word in sketch.labels:
        x, y = (decimal(part * scale, 1) for part in (word.at.real, word.at.imag))
        where = f'x="{x}" y="{y}" text-anchor="{word.anchor}" font-size="{decimal(_LETTER_PX)}"'
        yield f"<text {where}>{escape(plain(word.text))}</text>"
    yield "</svg>"
    yield "</figure>"
