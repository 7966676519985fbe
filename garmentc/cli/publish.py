"""``garmentc publish``."""

from __future__ import annotations

from argparse import Namespace
from functools import partial

from garmentc.cli.codes import FAULT
from garmentc.cli.compile import request_of
from garmentc.cli.print import maker_texts, read_speech, tell_fault, write_out
from garmentc.cli.report import exit_code, report
from garmentc.host import Host
from garmentc.pipeline import compile_each


def publish_command(host: Host, options: Namespace) -> int:
    """Write a hand-out of a garment into one zip, unless there is an error."""
    from garmentc.output.paper.characters import check_characters
    from garmentc.output.paper.files import garment_mark
    from garmentc.output.paper.fonts import FontFault, Fonts
    from garmentc.output.publish.bundle import zipped
    from garmentc.output.publish.handout import Maker, handout, size_part

    request = request_of(options)
    if request is None:
        return FAULT
    try:
        if not options.out.lower().endswith(".zip"):
            raise ValueError(f"'{options.out}' has to end in .zip")
        fonts = Fonts(host, options.font)
        speech = read_speech(options)
        maker = Maker(*_maker(host, options), tuple(options.credit), _in_short(options))
    except (ValueError, FontFault, OSError) as fault:
        return tell_fault(fault)
    fresh = partial(Fonts, host, options.font)
    compiled = compile_each(host, request, partial(size_part, fonts=fresh, inches=speech.first.inches))
    design, parts, findings = compiled.design, compiled.made, compiled.findings
    if findings.has_errors or design is None or not parts:
        report(findings, options, "nothing written")
        return exit_code(findings)
    drawings = [part.drawing for part in parts]
    if drawings[0].assembly is not None:
        check_characters(drawings[0].assembly, fonts, findings, maker_texts(options))
    files = list(handout(design, parts, maker, speech, fresh))
    told = f"{len(files)} files, fingerprint {garment_mark(design, drawings)}"
    return write_out(host, options, zipped(design.name, files), findings, told)


def _in_short(options: Namespace) -> str:
    """The licence of the workshop in a few words, unless the command names another licence."""
    return "" if options.workshop is None or options.licence else options.workshop.licence


def _maker(host: Host, options: Namespace) -> tuple[str, bytes]:
    """Who made the garment, and the text of the licence, from the options or else from the workshop."""
    workshop = options.workshop
    name = options.maker or (workshop.maker if workshop else "")
    licence = options.licence or (workshop.licence_file if workshop else "")
    missing = [option for option, given in (("--maker NAME", name), ("--licence FILE", licence)) if not given]
    if missing:
        raise ValueError(f"give {' and '.join(missing)}, or maker and licence_file in workshop.yaml")
    return name, host.read(licence)
