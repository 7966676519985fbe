"""A pattern for paper, of one size or of several laid over each other."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.design.model import Design
from garmentc.output.fingerprint import fingerprint, spec_mark
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.pages import Job, Printed, print_pieces
from garmentc.output.paper.panel import Notes
from garmentc.output.paper.papers import Paper
from garmentc.output.paper.sizes import SizeDrawing, look_of, paper_pieces
from garmentc.output.paper.svg_sheet import sheet_svg
from garmentc.output.patterns.words import Told
from garmentc.output.texts.cut import size_text
from garmentc.output.texts.speech import Speech, Voice
from garmentc.record import Record


class Wanted(Record):
    """How a pattern is printed: the voices of its texts, and whether strips are drawn or only said.

    ``maker`` and ``licence``, where they are given, stand on the first page.
    """

    speech: Speech
    strips_drawn: bool = False
    maker: str = ""
    licence: str = ""


def print_pdf(design: Design, sizes: Sequence[SizeDrawing], paper: Paper, wanted: Wanted, fonts: Fonts) -> Printed:
    """The PDF of a garment in some sizes."""
    return print_pieces(_job(design, sizes, wanted), paper, fonts)


def print_svg(design: Design, sizes: Sequence[SizeDrawing], paper: Paper, wanted: Wanted) -> bytes:
    """The same drawing on one sheet of a roll, as SVG."""
    return sheet_svg(_job(design, sizes, wanted), paper)


def _job(design: Design, sizes: Sequence[SizeDrawing], wanted: Wanted) -> Job:
    speech = wanted.speech
    mark = garment_mark(design, sizes)
    size = size_text([one.name for one in sizes], sizes[0].is_size, speech)
    pieces = paper_pieces(sizes, Told(size, mark, speech), strips=wanted.strips_drawn)
    edition = speech.say("edition", edition=design.edition)
    lines: tuple[str, ...] = (f"{design.name}, {edition}, {size}", speech.say("fingerprint", mark=mark))
    by = [speech.say("made_by", name=wanted.maker)] * bool(wanted.maker) + [wanted.licence] * bool(wanted.licence)
    lines += (" · ".join(by),) * bool(by)
    looks = tuple((one.name, look_of(number)) for number, one in enumerate(sizes))
    strips = () if wanted.strips_drawn else strip_texts(sizes, speech)
    notes = Notes(design.title, lines, looks, strips)
    return Job(pieces, notes, f"{design.name}, {edition}  ·  {size}  ·  {mark}", speech)


def garment_mark(design: Design, sizes: Sequence[SizeDrawing]) -> str:
    """The fingerprint of a garment in some sizes."""
    return fingerprint(spec_mark(design), [size.facts for size in sizes])


def strip_texts(sizes: Sequence[SizeDrawing], speech: Speech) -> tuple[str, ...]:
    """How strips are cut, in words."""
    return tuple(
        speech.each(lambda voice, number=number: _strip_text(sizes, number, voice))  # type: ignore[misc]
        for number in range(len(sizes[0].strips))
    )


def _strip_text(sizes: Sequence[SizeDrawing], number: int, voice: Voice) -> str:
    strips = [size.strips[number] for size in sizes]
    first = strips[0]
    cut, width = voice.say("cut", number=first.number), voice.length(first.wide)
    said = list(dict.fromkeys(voice.length(strip.long) for strip in strips))
    if len(said) == 1:
        return voice.say("strip_one", title=first.title, cut=cut, length=said[0], width=width)
    lengths = "; ".join(
        voice.say("strip_size", size=size.name, length=voice.length(strip.long))
        for size, strip in zip(sizes, strips, strict=True)
    )
    return voice.say("strip_sizes", title=first.title, cut=cut, width=width, lengths=lengths)
