"""``garmentc build`` and ``garmentc check``."""

from __future__ import annotations

import sys
from argparse import Namespace
from functools import partial

from garmentc.cli.codes import FAULT
from garmentc.cli.report import exit_code, is_wrong_use, report
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.pipeline import Request, compile_each


def check_command(host: Host, options: Namespace) -> int:
    """Report what is wrong with specs; write nothing."""
    codes, document = [], Findings()
    for spec in options.specs:
        options.spec = spec
        request = request_of(options)
        if request is None:
            return FAULT
        findings = compile_each(host, request._replace(every_choice=True), lambda assembly: None).findings
        codes.append(exit_code(findings))
        if options.format == "json":  # one document for all of them
            for finding in findings:
                document.add(finding)
        else:
            report(findings, options, f"{spec} {_checked(findings, options)}")
    if options.format == "json":
        report(document, options, "")
    return max(codes)


def _checked(findings: Findings, options: Namespace) -> str:
    if any(is_wrong_use(finding) for finding in findings):
        return "not checked"
    if options.sizes is not None or options.body is not None:
        return "checked"
    return "checked (words, kinds and units; add --sizes or --body to check the draft and the seams)"


def build_command(host: Host, options: Namespace) -> int:
    """Write all files of a garment, unless there is an error."""
    if options.sheet_pdf is not None and options.patterns_only:
        print("garmentc: --sheet-pdf asks for a sheet, --patterns-only for none", file=sys.stderr)
        return FAULT
    if options.bodies is not None:
        from garmentc.cli.batch import batch_command

        return batch_command(host, options)
    from garmentc.output.record import clear_stale
    from garmentc.output.write import build_files, size_output, write_files

    request = request_of(options)
    if request is None:
        return FAULT
    inches = options.unit == "inch"
    output = partial(size_output, patterns_only=options.patterns_only, inches=inches)
    if options.sheet_pdf is not None:
        from garmentc.output.paper.papers import read_paper
        from garmentc.output.write import size_output_on_paper

        output = partial(size_output_on_paper, host=host, paper=read_paper(options.sheet_pdf), inches=inches)
    compiled = compile_each(host, request, output)
    findings = compiled.findings
    if findings.has_errors or compiled.design is None:
        report(findings, options, "nothing written")
        return exit_code(findings)
    files = build_files(compiled.design, compiled.made, patterns_only=options.patterns_only)
    try:
        written = write_files(host, options.out, files)
        from_chart = request.sizes is not None
        whole = from_chart and not request.only
        cleared = clear_stale(host, options.out, compiled.design.name, files, from_chart=from_chart, whole=whole)
    except OSError as fault:
        print(f"garmentc: can't write below '{options.out}': {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    sizes = len(compiled.made)
    told = f"{written.files} files for {sizes} size{'' if sizes == 1 else 's'} in {options.out}"
    told += f", {written.changed} of them new or changed"
    if cleared.removed:
        told += f", {cleared.removed} old {'one' if cleared.removed == 1 else 'ones'} removed"
    if cleared.left:
        told += f"; left there from earlier builds: {', '.join(cleared.left)}"
    report(findings, options, told)
    return exit_code(findings)


def request_of(options: Namespace) -> Request | None:
    """What the options ask to compile; None, and said so, when they do not go together."""
    only = [name.strip() for name in options.only.split(",") if name.strip()]
    if only and options.sizes is None:
        print("garmentc: --only picks sizes of a chart: give --sizes as well", file=sys.stderr)
        return None
    return Request(options.spec, options.sizes, options.body, only, options.settings)
