"""``garmentc grade``."""

from __future__ import annotations

import sys
from argparse import Namespace

from garmentc.cli.codes import FAULT
from garmentc.cli.compile import request_of
from garmentc.cli.report import exit_code, report
from garmentc.host import Host
from garmentc.pipeline import compile_grade


def grade_command(host: Host, options: Namespace) -> int:
    """Show how the pieces change from size to size; with ``--out``, write it too, unless there is an error."""
    from garmentc.output.grade.files import grade_files
    from garmentc.output.grade.text import grade_text
    from garmentc.output.write import write_files

    request = request_of(options)
    if request is None:
        return FAULT
    grade, findings = compile_grade(host, request, options.align)
    if grade is None:
        report(findings, options, "nothing compared")
        if not findings.has_errors:
            print("garmentc: there is only one size; give at least two to compare", file=sys.stderr)
            return FAULT
        return exit_code(findings)
    told = f"{len(grade.sizes)} sizes of {grade.name} compared"
    if options.out is not None:
        try:
            written = write_files(host, options.out, grade_files(grade))
        except OSError as fault:
            print(f"garmentc: can't write below '{options.out}': {fault.strerror or fault}", file=sys.stderr)
            return FAULT
        told += f", {written.files} files in {options.out}, {written.changed} of them new or changed"
    if options.format == "full":
        print(grade_text(grade))
    report(findings, options, told)
    return exit_code(findings)
