"""``garmentc print``."""

from __future__ import annotations

import sys
from argparse import Namespace
from functools import partial
from typing import TYPE_CHECKING

from garmentc.cli.codes import FAULT
from garmentc.cli.compile import request_of
from garmentc.cli.out import write_file
from garmentc.cli.report import exit_code, report
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.pipeline import compile_each

if TYPE_CHECKING:
    from garmentc.output.texts.speech import Speech
    from garmentc.source import Span

_KINDS = ("pdf", "svg", "dxf")


_DRAWING_PAPER = "roll:914mm"  # for a drawing on one sheet, when none is named


def print_command(host: Host, options: Namespace) -> int:
    """Write a pattern for paper, or the same drawing as SVG or DXF, unless there is an error."""
    from garmentc.output.paper.characters import check_characters
    from garmentc.output.paper.files import Wanted, garment_mark
    from garmentc.output.paper.fonts import FontFault, Fonts
    from garmentc.output.paper.papers import read_paper
    from garmentc.output.paper.sizes import size_drawing

    request = request_of(options)
    kind = options.out.rpartition(".")[2].lower()
    if request is None:
        return FAULT
    try:
        if kind not in _KINDS:
            raise ValueError(f"'{options.out}' has to end in {', '.join(_KINDS)}, which says what is written")
        usual = options.workshop.paper if options.workshop else ""
        paper = read_paper(options.paper or ((usual or "a4") if kind == "pdf" else _DRAWING_PAPER))
        if kind == "svg" and not paper.endless:
            raise ValueError(f"an SVG is one sheet: give a roll, such as --paper {_DRAWING_PAPER}")
        fonts = Fonts(host, options.font)
        speech = read_speech(options)
    except (ValueError, FontFault, OSError) as fault:
        return tell_fault(fault)
    compiled = compile_each(host, request, partial(size_drawing, labelled=None))
    design, sizes = compiled.design, compiled.made
    if compiled.findings.has_errors or design is None or not sizes:
        report(compiled.findings, options, "nothing written")
        return exit_code(compiled.findings)
    if sizes[0].assembly is not None:
        check_characters(sizes[0].assembly, fonts, compiled.findings, maker_texts(options))
    maker, licence = (options.workshop.maker, options.workshop.licence) if options.workshop else ("", "")
    wanted = Wanted(speech, options.draw_strips, maker, licence)
    mark = garment_mark(design, sizes)
    if kind == "pdf":
        from garmentc.output.paper.files import print_pdf

        printed = print_pdf(design, sizes, paper, wanted, fonts)
        data = printed.data
        told = f"{'1 page' if printed.pages == 1 else f'{printed.pages} pages'} of {paper.name}"
    elif kind == "svg":
        from garmentc.output.paper.files import print_svg

        data, told = print_svg(design, sizes, paper, wanted), "one sheet"
    else:
        from garmentc.output.paper.dxf import pieces_dxf

        data, told = pieces_dxf(design, sizes, mark), "a block for each piece and size"
    return write_out(host, options, data, compiled.findings, f"{told}, fingerprint {mark}")


def maker_texts(options: Namespace) -> list[tuple[str, Span]]:
    """What a workshop lets print of the maker and the licence, with where it says so."""
    workshop = options.workshop
    said = {"maker": workshop.maker, "licence": workshop.licence} if workshop else {}
    return [(text, workshop.places[name]) for name, text in said.items() if text]


def tell_fault(fault: Exception) -> int:
    """Say what is wrong with an option or a file that it names."""
    told = f"can't read '{fault.filename}': {fault.strerror or fault}" if isinstance(fault, OSError) else str(fault)
    print(f"garmentc: {told}", file=sys.stderr)
    return FAULT


def write_out(host: Host, options: Namespace, data: bytes, findings: Findings, told: str) -> int:
    """Write the one file of a command, say so, and give the exit code."""
    if not write_file(host, options.out, data):
        return FAULT
    report(findings, options, f"{options.out}: {told}")
    return exit_code(findings)


def read_speech(options: Namespace) -> Speech:
    """The voices that the options ask for; ValueError for a language without texts."""
    from garmentc.output.texts.catalogue import LANGUAGES
    from garmentc.output.texts.speech import Speech, Voice

    languages = [one.strip() for one in options.language.split(",") if one.strip()]
    wrong = [one for one in languages if one not in LANGUAGES]
    if wrong or not languages:
        raise ValueError(f"no texts in the language '{options.language}': there are {', '.join(LANGUAGES)}")
    return Speech(tuple(Voice(language, options.unit == "inch") for language in languages))
