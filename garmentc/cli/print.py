"""``garmentc print``."""

from __future__ import annotations

import sys
from argparse import Namespace
from functools import partial

from garmentc.cli.codes import FAULT
from garmentc.cli.compile import exit_code, report, request_of
from garmentc.host import Host
from garmentc.pipeline import compile_each


def print_command(host: Host, options: Namespace) -> int:
    """Write a pattern for paper, unless there is an error."""
    from garmentc.output.paper.characters import check_characters
    from garmentc.output.paper.files import Wanted, garment_mark, print_pdf
    from garmentc.output.paper.fonts import FontFault, Fonts
    from garmentc.output.paper.papers import read_paper
    from garmentc.output.paper.sizes import size_drawing
    from garmentc.output.texts.speech import Speech, Voice

    request = request_of(options)
    if request is None:
        return FAULT
    try:
        paper = read_paper(options.paper)
        fonts = Fonts(host, options.font)
    except (ValueError, FontFault) as fault:
        print(f"garmentc: {fault}", file=sys.stderr)
        return FAULT
    except OSError as fault:
        print(f"garmentc: can't read a font: {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    compiled = compile_each(host, request, partial(size_drawing, labelled=None))
    if compiled.findings.has_errors or compiled.design is None or not compiled.made:
        report(compiled.findings, options, "nothing written")
        return exit_code(compiled.findings)
    labelled = compiled.made[0].assembly
    if labelled is not None:
        check_characters(labelled, fonts, compiled.findings)
    speech = Speech(tuple(Voice(language, options.unit == "inch") for language in options.language.split(",")))
    wanted = Wanted(speech, options.draw_strips)
    printed = print_pdf(compiled.design, compiled.made, paper, wanted, fonts)
    try:
        host.write(options.out, printed.data)
    except OSError as fault:
        print(f"garmentc: can't write '{options.out}': {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    mark = garment_mark(compiled.design, compiled.made)
    pages = "1 page" if printed.pages == 1 else f"{printed.pages} pages"
    report(compiled.findings, options, f"{options.out}: {pages} of {paper.name}, fingerprint {mark}")
    return exit_code(compiled.findings)
