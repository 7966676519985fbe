"""``garmentc draw-by-hand``."""

from __future__ import annotations

import sys
from argparse import Namespace
from functools import partial

from garmentc.cli.print import read_speech, tell_fault, write_out
from garmentc.cli.report import exit_code, report
from garmentc.host import Host
from garmentc.pipeline import Request, compile_each

_KINDS = ("html", "md")


def draw_by_hand_command(host: Host, options: Namespace) -> int:
    """Write a draft as instructions for paper, ruler and pencil, unless there is an error."""
    from garmentc.output.byhand.files import hand_file

    kind = "md" if options.out is None else options.out.rpartition(".")[2].lower()
    try:
        if kind not in _KINDS:
            raise ValueError(f"'{options.out}' has to end in {' or '.join(_KINDS)}, which says what is written")
        if (options.sizes is None) != (options.size is None):
            raise ValueError("a size is one of a chart: give --size and --sizes together, or --body")
        speech = read_speech(options)
    except ValueError as fault:
        return tell_fault(fault)
    only = [] if options.size is None else [options.size]
    request = Request(options.spec, options.sizes, options.body, only, options.settings)
    compiled = compile_each(host, request, partial(hand_file, speech=speech, kind=kind))
    design, made, findings = compiled.design, compiled.made, compiled.findings
    if findings.has_errors or design is None or not made:
        report(findings, options, "nothing written")
        return exit_code(findings)
    if options.out is None:
        sys.stdout.write(made[0].decode())
        report(findings, options, f"{design.name} to draw by hand")
        return exit_code(findings)
    return write_out(host, options, made[0], findings, f"{design.name} to draw by hand")
