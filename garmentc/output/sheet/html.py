"""Renders a sheet as one HTML file that needs nothing else: no script, no other file, no network."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from itertools import count

from garmentc.output.pictures.model import Picture
from garmentc.output.pictures.svg import picture_svg
from garmentc.output.sheet.document import (
    Block,
    Caution,
    Checklist,
    Document,
    Drawing,
    Figure,
    Heading,
    Items,
    Notes,
    Paragraph,
    Step,
    Steps,
    Table,
    plain,
    tied,
)
from garmentc.output.sheet.picture import picture
from garmentc.output.sheet.sketch import Sketch
from garmentc.output.sheet.style import STYLE
from garmentc.output.sheet.words import capital


def to_html(document: Document) -> str:
    """The sheet as HTML text."""
    return "\n".join(_Page(document).lines()) + "\n"


class _Page:
    """One rendering: hands out ids in the order of the page, so that no two are alike."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._parts = count(1)
        self._ticks = count(1)

    def lines(self) -> Iterator[str]:
        title = _text(self._document.title)
        yield "<!DOCTYPE html>"
        yield f'<html lang="{_text(self._document.language)}">'
        yield "<head>"
        yield '<meta charset="utf-8">'
        yield '<meta name="viewport" content="width=device-width, initial-scale=1">'
        yield f"<title>{title}</title>"
        yield f"<style>\n{STYLE}</style>"
        yield "</head>"
        yield "<body>"
        yield "<main>"
        yield f"<h1>{title}</h1>"
        yield from self._contents()
        for block in self._document.blocks:
            yield from self._block(block)
        yield "</main>"
        yield "</body>"
        yield "</html>"

    def _contents(self) -> Iterator[str]:
        parts = [block.text for block in self._document.blocks if isinstance(block, Heading) and block.level == 2]
        yield f'<nav aria-label="{_text(self._document.contents)}"><ul>'
        for number, text in enumerate(parts, start=1):
            yield f'<li><a href="#part-{number}">{_text(text)}</a></li>'
        yield "</ul></nav>"

    def _block(self, block: Block) -> Iterator[str]:
        match block:
            case Heading(2, text):
                yield f'<h2 id="part-{next(self._parts)}">{_text(text)}</h2>'
            case Heading(level, text):
                yield f"<h{level}>{_text(text)}</h{level}>"
            case Paragraph(text):
                yield f"<p>{_text(text)}</p>"
            case Items(lines):
                yield from _list(lines)
            case Checklist(lines):
                yield from self._ticked("ul", lines)
            case Table():
                yield from _table(block)
            case Steps(steps):
                for step in steps:
                    yield from self._step(step)
            case Caution():
                yield from _caution(block)
            case Sketch():
                yield from picture(block)
            case Figure(one):
                yield '<div class="pics beside">'
                yield from _figure(one)
                yield "</div>"
            case Drawing(svg, _):
                yield '<div class="sketch">'
                yield svg
                yield "</div>"
            case Notes(lines):
                yield '<div class="notes">'
                yield from ['<div class="note"></div>'] * lines
                yield "</div>"

    def _step(self, step: Step) -> Iterator[str]:
        yield '<section class="step">'
        yield f"<h3>{step.number}. {_text(step.title)}</h3>"
        if step.pictures:
            yield '<div class="pics">'
            for one in step.pictures:
                yield from _figure(one)
            yield "</div>"
        yield from self._ticked("ol", step.lines)
        if step.after:
            tick = f"tick-{next(self._ticks)}"
            box = f'<input type="checkbox" id="{tick}">'
            what = f'<strong>Measure:</strong> {_text("; ".join(step.after))}. Measured: <span class="blank"></span>'
            yield f'<p class="after ticks"><label for="{tick}">{box}<span>{what}</span></label></p>'
        yield "</section>"

    def _ticked(self, tag: str, lines: Iterable[str]) -> Iterator[str]:
        # The role keeps it a list for screen readers that drop lists without bullets.
        yield f'<{tag} class="ticks" role="list">'
        for line in lines:
            tick = f"tick-{next(self._ticks)}"
            box = f'<input type="checkbox" id="{tick}">'
            yield f'<li><label for="{tick}">{box}<span>{_text(line)}</span></label></li>'
        yield f"</{tag}>"


def _figure(one: Picture) -> Iterator[str]:
    yield "<figure>"
    yield from picture_svg(one)
    if one.caption:
        yield f"<figcaption>{_text(capital(one.caption))}</figcaption>"
    yield "</figure>"


def _list(lines: Iterable[str]) -> Iterator[str]:
    yield "<ul>"
    yield from (f"<li>{_text(line)}</li>" for line in lines)
    yield "</ul>"


def _table(table: Table) -> Iterator[str]:
    yield '<table class="narrow">' if table.narrow else "<table>"
    yield f"<caption>{_text(table.caption)}</caption>"
    head = "".join(f'<th scope="col">{_text(cell)}</th>' for cell in table.head)
    yield f"<thead><tr>{head}</tr></thead>"
    yield "<tbody>"
    for name, *cells in table.rows:
        rest = "".join(f"<td>{_text(cell)}</td>" for cell in cells)
        yield f'<tr><th scope="row">{_text(name)}</th>{rest}</tr>'
    yield "</tbody>"
    yield "</table>"


def _caution(caution: Caution) -> Iterator[str]:
    yield '<section class="caution">'
    yield f"<h3>{_text(caution.title)}</h3>"
    yield from _list(caution.lines)
    if caution.sources:
        yield f'<p class="sources">Where this comes from: {_text(" ".join(caution.sources))}</p>'
    yield "</section>"


def _text(text: str) -> str:
    return escape(tied(plain(text)))
