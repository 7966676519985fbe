"""``garmentc measure``."""

from __future__ import annotations

from argparse import Namespace

from garmentc.cli.codes import FAULT
from garmentc.cli.compile import request_of
from garmentc.cli.out import show
from garmentc.cli.report import exit_code, report
from garmentc.host import Host
from garmentc.pipeline import compile_each


def measure_command(host: Host, options: Namespace) -> int:
    """Show what the finished garment measures in each size, or write it with ``--out``, unless there is an error."""
    from garmentc.output.measure.measures import size_measures
    from garmentc.output.measure.tables import measure_csv, measure_json
    from garmentc.output.measure.text import measure_text

    request = request_of(options)
    if request is None:
        return FAULT
    compiled = compile_each(host, request, size_measures)
    design, sizes, findings = compiled.design, compiled.made, compiled.findings
    if findings.has_errors or design is None or not sizes:
        report(findings, options, "nothing measured")
        return exit_code(findings)
    if options.table == "csv":
        text = measure_csv(sizes)
    elif options.table == "json":
        text = measure_json(design.name, design.title, sizes)
    else:
        text = measure_text(design.title, sizes, inches=options.unit == "inch") + "\n"
    told = f"{len(sizes)} size{'' if len(sizes) == 1 else 's'} of {design.name} measured"
    if not show(host, options, text):
        return FAULT
    if options.out is not None:
        told += f", written to {options.out}"
    report(findings, options, told)
    return exit_code(findings)
