"""What a sheet is made of, before it becomes HTML or Markdown. All texts are plain: the renderers escape them."""

from __future__ import annotations

import re

from garmentc.output.pictures.model import Picture
from garmentc.output.sheet.sketch import Sketch
from garmentc.record import Record


class Heading(Record):
    """A heading below the title; ``level`` is 2 or 3."""

    level: int
    text: str


class Paragraph(Record):
    """A paragraph; one ``of_pictures`` is left out where there are none."""

    text: str
    of_pictures: bool = False


class Items(Record):
    """A list of things."""

    lines: tuple[str, ...]


class Checklist(Record):
    """A list of things to tick off."""

    lines: tuple[str, ...]


class Table(Record):
    """A table; the first cell of each row names the row, and every row has as many cells as ``head``.

    A ``narrow`` one is only as wide as its cells need.
    """

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    narrow: bool = False


class Step(Record):
    """One numbered step to tick off, with its pictures; ``after`` is what to measure when it is done."""

    number: int
    title: str
    lines: tuple[str, ...]
    after: tuple[str, ...]
    pictures: tuple[Picture, ...] = ()


class Steps(Record):
    steps: tuple[Step, ...]


class Caution(Record):
    """A warning, and where its facts come from."""

    title: str
    lines: tuple[str, ...]
    sources: tuple[str, ...]


class Figure(Record):
    """A picture on its own, beside the blocks that follow it up to the next heading."""

    picture: Picture


class Drawing(Record):
    """A whole SVG drawing, as the text of its root element; ``alt`` says what it shows."""

    svg: str
    alt: str


class Notes(Record):
    """Room to write by hand."""

    lines: int


Block = Heading | Paragraph | Items | Checklist | Table | Steps | Caution | Sketch | Figure | Drawing | Notes


class Document(Record):
    """A whole sheet, in a language (BCP 47); ``contents`` is what its list of parts is called."""

    title: str
    blocks: tuple[Block, ...]
    language: str = "en"
    contents: str = "Parts of this sheet"


_UNIT = re.compile(r" (?=(?:mm|cm|m|cm²|g/m²|%|°C|momme)(?![^\W_]))(?<=\d )")
_JOINERS = "\u200c\u200d"  # invisible, but some scripts are misspelt without them


def plain(text: str) -> str:
    """Text on one line, without control and text-direction characters that could change how the rest is read."""
    return " ".join("".join(" " if _steers(mark) else mark for mark in text).split())


def tied(text: str) -> str:
    """Text in which no line is broken between a number and its unit."""
    return _UNIT.sub("\u00a0", text)


def _steers(mark: str) -> bool:
    return not mark.isprintable() and mark not in _JOINERS
