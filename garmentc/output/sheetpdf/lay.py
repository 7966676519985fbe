"""A sheet as parts of a width, in the order in which they stand on the pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from garmentc.output.pictures.model import Picture
from garmentc.output.sheet.document import (
    Block,
    Caution,
    Checklist,
    Document,
    Figure,
    Heading,
    Items,
    Notes,
    Paragraph,
    Step,
    Steps,
    Table,
)
from garmentc.output.sheet.sketch import Sketch
from garmentc.output.sheet.words import capital
from garmentc.output.sheetpdf.parts import Drawn, Frame, Mark, Part, Rule, beside, height, stacked
from garmentc.output.sheetpdf.tables import TableParts
from garmentc.output.sheetpdf.type import BODY, FINE, PART, SMALL_PART, STRONG, TITLE, Type

PX = 25.4 / 96 * 0.86
"""How large a px of a picture is on paper (mm): its letters come out as those of the captions."""
_TICK, _TICK_ROOM = 3.0, 6.0
_BULLET_ROOM = 4.0
_LINE = 0.25
_NOTE = 9.0
_BLANK = 22.0
_SKETCH_LETTER = 2.6
_PICTURE_GAP = 5.0

Clump = Sequence[Part]
"""Parts that stay on one page where they fit on one."""


def lay(document: Document, type: Type, room: float, page: float) -> Iterator[Clump]:
    """The sheet in clumps, for pages that hold so much (mm)."""
    yield [type.paragraph(document.title, TITLE, room)]
    yield from _Layer(type, page).blocks(document.blocks, room)


class _Layer:
    def __init__(self, type: Type, page: float) -> None:
        self._type = type
        self._page = page

    def blocks(self, blocks: Sequence[Block], room: float) -> Iterator[Clump]:
        waiting = list(blocks)
        while waiting:
            block = waiting.pop(0)
            if isinstance(block, Figure):
                end = next((i for i, one in enumerate(waiting) if isinstance(one, Heading)), len(waiting))
                yield self._beside(block.picture, waiting[:end], room)
                waiting = waiting[end:]
            else:
                yield from self._block(block, room)

    def _beside(self, picture: Picture, blocks: Sequence[Block], room: float) -> Clump:
        """A picture at the right of the blocks that go with it."""
        shown = self._pictures((picture,), room / 2)
        wide = picture.width * PX
        parts = [part for clump in self.blocks(blocks, room - wide - _PICTURE_GAP) for part in clump]
        at = room - wide
        figure = stacked(shown)
        text = stacked(parts) if parts else Part(0.0, ())
        high = max(text.high, figure.high)
        return [Part(high, (*text.marks, *beside(figure, at).marks), max(text.above, 1.0))]

    def _block(self, block: Block, room: float) -> Iterator[Clump]:
        type = self._type
        match block:
            case Heading(level, text):
                yield [self._heading(level, text, room)]
            case Paragraph(text):
                yield [type.paragraph(text, BODY, room, above=1.2, holds=text.endswith(":"))]
            case Items(lines):
                yield from ([self._item(line, room)] for line in lines)
            case Checklist(lines):
                yield from ([self._ticked(line, room)] for line in lines)
            case Table():
                yield from self._table(block, room)
            case Steps(steps):
                yield from (self._step(step, room) for step in steps)
            case Caution():
                yield [self._caution(block, room)]
            case Sketch():
                yield self._sketch(block, room)
            case Notes(lines):
                rule = Part(_NOTE, (Rule(0.0, _NOTE, room, _NOTE, _LINE),))
                yield [rule] * lines

    def _heading(self, level: int, text: str, room: float) -> Part:
        if level > 2:
            return self._type.paragraph(text, SMALL_PART, room, above=3.5, holds=True)
        part = self._type.paragraph(text, PART, room, above=6.5, holds=True)
        high = part.high + 1.0
        return part._replace(high=high, marks=(*part.marks, Rule(0.0, high, room, high, 0.5)), part_of=text)

    def _item(self, line: str, room: float) -> Part:
        text = beside(self._type.paragraph(line, BODY, room - _BULLET_ROOM), _BULLET_ROOM)
        return text._replace(marks=(*self._type.marks(["•"], BODY, 0.8), *text.marks), above=0.6)

    def _ticked(self, line: str, room: float) -> Part:
        text = beside(self._type.paragraph(line, BODY, room - _TICK_ROOM), _TICK_ROOM)
        box = Frame(0.2, (BODY.line - _TICK) / 2, _TICK, _TICK, _LINE)
        return text._replace(marks=(box, *text.marks), above=0.9)

    def _table(self, block: Table, room: float) -> Iterator[Clump]:
        table = TableParts(block, self._type, room)
        whole = [table.caption, table.head, *table.rows]
        if height(whole) <= self._page / 2:
            yield whole
            return
        yield [table.caption, table.head, *table.rows[:1]]
        yield from ([row] for row in table.rows[1:])

    def _step(self, step: Step, room: float) -> Clump:
        parts = [self._type.paragraph(f"{step.number}. {step.title}", SMALL_PART, room, above=4.5, holds=True)]
        parts += self._pictures(step.pictures, room)
        parts += (self._ticked(line, room) for line in step.lines)
        if step.after:
            parts.append(self._measure(step.after, room))
        return parts

    def _measure(self, after: Iterable[str], room: float) -> Part:
        """What to measure, with a place for what was measured."""
        type, left = self._type, 8.5
        text = self._ticked(f"Measure: {'; '.join(after)}. Measured:", room - left)
        lines = type.lines(f"Measure: {'; '.join(after)}. Measured:", BODY, room - left - _TICK_ROOM)
        last = type.width(lines[-1], BODY) + _TICK_ROOM + 1.5
        high, low = text.high, text.high - 1.0
        if last + _BLANK > room - left:
            last, high, low = _TICK_ROOM, text.high + BODY.line, text.high + BODY.line - 1.0
        blank = Rule(last, low, last + _BLANK, low, _LINE)
        bar = Rule(-2.5, 0.0, -2.5, high, 0.9)
        return beside(Part(high, (bar, *text.marks, blank), 1.4), left)

    def _pictures(self, pictures: Sequence[Picture], room: float) -> list[Part]:
        """Pictures beside each other as far as they go, each over its caption."""
        rows: list[Part] = []
        marks: list[Mark] = []
        x, high = 0.0, 0.0
        for picture in pictures:
            scale = min(PX, room / picture.width)
            wide = picture.width * scale
            lines = self._type.lines(capital(picture.caption), FINE, max(wide, 45.0)) if picture.caption else []
            column = max([wide, *(self._type.width(line, FINE) for line in lines)])
            if marks and x + column > room:
                rows.append(self._row(marks, high, rows))
                marks, x, high = [], 0.0, 0.0
            low = picture.height * scale
            marks += [Drawn(x, 0.0, picture, scale), *self._type.marks(lines, FINE, x, low + 0.5)]
            x, high = x + column + _PICTURE_GAP, max(high, low + 0.5 + len(lines) * FINE.line)
        return [*rows, self._row(marks, high, rows)] if marks else rows

    def _row(self, marks: Sequence[Mark], high: float, before: Sequence[Part]) -> Part:
        return Part(high, tuple(marks), 2.5 if before else 1.2, holds=True)

    def _caution(self, caution: Caution, room: float) -> Part:
        inner = room - 7.0
        parts = [self._type.paragraph(caution.title, STRONG, inner, holds=True)]
        parts += (self._item(line, inner) for line in caution.lines)
        if caution.sources:
            parts.append(
                self._type.paragraph(f"Where this comes from: {' '.join(caution.sources)}", FINE, inner, above=1.0)
            )
        text = stacked(parts)
        high = text.high + 4.5
        frame = Frame(0.2, 0.0, room - 0.4, high, 0.4)
        placed = stacked([Part(2.2, ()), beside(text, 3.5)._replace(above=0.0)])
        return Part(high, (frame, *placed.marks), 2.5)

    def _sketch(self, sketch: Sketch, room: float) -> Clump:
        scale = min(_SKETCH_LETTER / sketch.letter, room / sketch.width, self._page * 0.6 / sketch.height)
        caption = self._type.paragraph(sketch.caption, STRONG, room, above=3.0, holds=True)
        return [caption, Part(sketch.height * scale, (Drawn(0.0, 0.0, sketch, scale),), 1.0)]
