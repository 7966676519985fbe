"""The same drawing as one SVG sheet: all pieces beside each other, the sizes as groups, and the notes."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.output.paper.arrange import Arrangement, Block, arrange
from garmentc.output.paper.pages import Job
from garmentc.output.paper.panel import HEIGHT, WIDTH, panel
from garmentc.output.paper.papers import OVERLAP, Paper
from garmentc.output.paper.parts import Laid, Part
from garmentc.output.paper.sizes import SMALL
from garmentc.output.paper.tiles import Tiling
from garmentc.output.patterns.scene import Stroke, Words
from garmentc.output.patterns.svg import Page, Pen, write_page

_EDGE = OVERLAP / 2  # mm of white that an arrangement leaves at its left and lower edges


def sheet_svg(job: Job, paper: Paper) -> bytes:
    """The pieces on one sheet as wide as a roll and as long as needed."""
    arrangement = arrange(job.pieces, paper, Block(WIDTH, HEIGHT))
    right = max([p.real for laid in arrangement.laid for ring in laid.rings for p in ring] + [WIDTH])
    width, height = right + _EDGE, max(arrangement.top, HEIGHT + _EDGE) + _EDGE
    tiling = Tiling(paper, (), (), 1, 1)
    notes = panel(job.notes, tiling, arrangement.laid, 1, HEIGHT, job.speech)
    groups = [*_notes(notes, height), *_pieces(arrangement, height)]
    title = ", ".join((job.notes.title, *job.notes.lines))
    return write_page(Page(width, height, title, job.speech.say("true_scale"), groups))


def _notes(parts: list[Part], height: float) -> Iterator[str]:
    # The corner of a pen is the upper left corner of the sheet in the coordinates of what it draws.
    pen = Pen(complex(-_EDGE, height - HEIGHT - _EDGE))
    for number, part in enumerate(parts):
        yield pen.group(f"notes-{number}" if number else "notes", part.strokes, part.words, part.look)


def _pieces(arrangement: Arrangement, height: float) -> Iterator[str]:
    pen = Pen(complex(0.0, height))
    for laid in arrangement.laid:
        for part in laid.piece.parts:
            name = f"{laid.piece.name}.{part.layer}" if part.layer else laid.piece.name
            if part.layer and all(stroke.use in SMALL for stroke in part.strokes):
                name += ".marks"
            strokes = [_stroke(laid, stroke) for stroke in part.strokes]
            words = [_words(laid, one) for one in part.words]
            back = [[laid.place(p) for p in ring] for ring in part.back]
            yield pen.group(name, strokes, words, part.look, back)


def _stroke(laid: Laid, stroke: Stroke) -> Stroke:
    return stroke._replace(segments=tuple(segment.moved(laid.motion) for segment in stroke.segments))


def _words(laid: Laid, words: Words) -> Words:
    return words._replace(at=laid.place(words.at), along=words.along * laid.turn)
