"""The marks of a page as operations of a PDF, from the upper left corner of the page, y down."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from garmentc.geometry.vector import Point
from garmentc.numbers import decimal
from garmentc.output.paper.pdf import Document
from garmentc.output.pictures.model import LETTER, LOOKS, Look, Picture
from garmentc.output.sheet.sketch import Sketch
from garmentc.output.sheetpdf.parts import Drawn, Frame, Mark, Rule, Text
from garmentc.output.sheetpdf.type import Type

_PX = 25.4 / 96
_BOLD = 0.035  # of the font size: the line round the letters that makes them bold
_HALO = 1.1  # of white round the words in a picture (mm)
_SKETCH = {
    "cut": Look(2.2),
    "stitch": Look(1.1, (5.0, 3.0), True),
    "leader": Look(0.7),
    "fold": Look(1.1, (12.0, 3.0, 2.0, 3.0), True),
}


class Pen:
    """Draws marks on a page of a height (mm)."""

    def __init__(self, document: Document, type: Type, high: float) -> None:
        self._document = document
        self._type = type
        self._high = high

    def ops(self, marks: Iterable[Mark]) -> Iterator[str]:
        """The operations of all marks."""
        for mark in marks:
            match mark:
                case Text(x, y, text, size, bold):
                    yield from self._text(text, size, complex(x, y), _BOLD * size if bold else 0.0)
                case Rule(x, y, to_x, to_y, width):
                    yield _pen(Look(width, (), True), 1.0)
                    yield self._path((complex(x, y), complex(to_x, to_y)), closed=False) + " S"
                case Frame(x, y, wide, high, width):
                    yield _pen(Look(width, (), True), 1.0)
                    corners = (complex(x, y), complex(x + wide, y), complex(x + wide, y + high), complex(x, y + high))
                    yield self._path(corners, closed=True) + " S"
                case Drawn(x, y, Picture() as picture, scale):
                    yield from self._picture(picture, complex(x, y), scale)
                case Drawn(x, y, Sketch() as sketch, scale):
                    yield from self._sketch(sketch, complex(x, y), scale)

    def _picture(self, picture: Picture, at: Point, scale: float) -> Iterator[str]:
        yield "1 g"
        for stroke in picture.strokes:
            yield _pen(LOOKS[stroke.kind], scale)
            runs = [self._path([at + scale * p for p in run], closed=stroke.closed) for run in stroke.runs]
            filled = "0 g {} B 1 g" if stroke.kind == "head" else "{} B" if stroke.closed else "{} S"
            yield filled.format(" ".join(runs))
        yield "0 g"
        for word in picture.words:
            yield from self._word(word.text, at + scale * word.at, LETTER * scale, word.anchor)

    def _sketch(self, sketch: Sketch, at: Point, scale: float) -> Iterator[str]:
        for stroke in sketch.strokes:
            yield _pen(_SKETCH[stroke.kind], _PX)
            yield self._path([at + scale * p for p in stroke.points], closed=False) + " S"
        for word in sketch.labels:
            yield from self._word(word.text, at + scale * word.at, sketch.letter * scale, word.anchor)

    def _word(self, text: str, at: Point, size: float, anchor: str) -> Iterator[str]:
        wide = self._type.wide(text) * size
        at -= {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
        yield "1 G"
        yield from self._text(text, size, at, _HALO)
        yield "0 G"
        yield from self._text(text, size, at, 0.0)

    def _text(self, text: str, size: float, at: Point, line: float) -> list[str]:
        place = complex(at.real, self._high - at.imag)
        return self._document.text(text, size, place, line)

    def _path(self, points: Sequence[Point], *, closed: bool) -> str:
        pairs = [f"{decimal(p.real, 3)} {decimal(self._high - p.imag, 3)}" for p in points]
        return " ".join([f"{pairs[0]} m", *(f"{pair} l" for pair in pairs[1:]), *(["h"] if closed else [])])


def _pen(look: Look, scale: float) -> str:
    dashes = " ".join(decimal(one * scale, 3) for one in look.dashes)
    return f"{decimal(look.width * scale, 3)} w [{dashes}] 0 d {0 if look.blunt else 1} J 1 j"
