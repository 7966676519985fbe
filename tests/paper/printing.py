"""Prints for tests, each made once."""

from __future__ import annotations

from functools import cache, partial

from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost
from garmentc.output.paper.characters import check_characters
from garmentc.output.paper.files import Wanted, print_pdf
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.pages import Printed
from garmentc.output.paper.papers import read_paper
from garmentc.output.paper.parts import PaperPiece
from garmentc.output.paper.sizes import SizeDrawing, paper_pieces, size_drawing
from garmentc.output.patterns.words import Told
from garmentc.output.texts.speech import Speech, Voice
from garmentc.pipeline import Compiled, Request, compile_each
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"


@cache
def compiled(garment: str, only: str = "") -> Compiled[SizeDrawing]:
    """The sizes of a demo garment, all of the chart's or some."""
    request = Request(f"specs/{garment}.garment", CHART, None, [one for one in only.split(",") if one])
    found = compile_each(DiskHost(), request, partial(size_drawing, labelled=None))
    assert not found.findings.has_errors
    return found


@cache
def pieces(garment: str, only: str = "", *, strips: bool = False) -> tuple[PaperPiece, ...]:
    return tuple(paper_pieces(compiled(garment, only).made, Told("sizes", "mark"), strips=strips))


@cache
def printed(garment: str, only: str, paper: str, languages: str = "en", *, inches: bool = False) -> Printed:
    """A demo garment on paper."""
    made = compiled(garment, only)
    assert made.design is not None
    speech = Speech(tuple(Voice(language, inches) for language in languages.split(",")))
    return print_pdf(made.design, made.made, read_paper(paper), Wanted(speech), Fonts(DiskHost()))


def characters(files: dict[str, str], spec: str, fonts: list[str]) -> Findings:
    """What a print says of the characters in a spec of its own, for size 88."""
    host = MemoryHost(files)
    made = compile_each(host, Request(spec, CHART, None, ["88"]), partial(size_drawing, labelled=None))
    assembly = made.made[0].assembly
    assert assembly is not None
    check_characters(assembly, Fonts(host, fonts), made.findings)
    return made.findings
