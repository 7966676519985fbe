"""``garmentc build`` and ``garmentc check``."""

from __future__ import annotations

import sys
from argparse import Namespace

from garmentc.cli.codes import CLEAN, FAULT, FINDINGS
from garmentc.diagnostics.render import render, summary
from garmentc.host import Host
from garmentc.pipeline import Compiled, compile_spec

_UNREADABLE = ("file-unreadable",)


def check_command(host: Host, options: Namespace) -> int:
    """Report what is wrong with a spec; write nothing."""
    compiled = _compile(host, options, every_choice=True)
    if compiled is None:
        return FAULT
    drafted = options.sizes is not None or options.body is not None
    scope = (
        "checked"
        if drafted
        else "checked (words, kinds and units; add --sizes or --body to check the draft and the seams)"
    )
    _report(compiled, options, f"{options.spec} {scope}")
    return _code(compiled)


def build_command(host: Host, options: Namespace) -> int:
    """Write all files of a garment, unless there is an error."""
    from garmentc.output.write import build_files, write_files

    compiled = _compile(host, options)
    if compiled is None:
        return FAULT
    if compiled.findings.has_errors or compiled.design is None:
        _report(compiled, options, "nothing written")
        return _code(compiled)
    files = build_files(compiled.design, compiled.assemblies, patterns_only=options.patterns_only)
    try:
        written = write_files(host, options.out, files)
    except OSError as fault:
        print(f"garmentc: can't write below '{options.out}': {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    sizes = len(compiled.assemblies)
    told = f"{written.files} files for {sizes} size{'' if sizes == 1 else 's'} in {options.out}"
    _report(compiled, options, f"{told}, {written.changed} of them new or changed")
    return _code(compiled)


def _compile(host: Host, options: Namespace, *, every_choice: bool = False) -> Compiled | None:
    only = [name.strip() for name in options.only.split(",") if name.strip()]
    if only and options.sizes is None:
        print("garmentc: --only picks sizes of a chart: give --sizes as well", file=sys.stderr)
        return None
    return compile_spec(
        host,
        options.spec,
        sizes=options.sizes,
        body=options.body,
        only=only,
        settings=options.settings,
        every_choice=every_choice,
    )


def _report(compiled: Compiled, options: Namespace, outcome: str) -> None:
    """Findings for machines go to standard output, findings for people and the outcome to standard error."""
    findings = compiled.findings
    shown = render(findings, options.format)
    if options.format == "full":
        if shown:
            print(shown, file=sys.stderr)
        print(f"{outcome}: {summary(findings)}", file=sys.stderr)
    elif shown:
        print(shown)


def _code(compiled: Compiled) -> int:
    if any(finding.slug in _UNREADABLE for finding in compiled.findings):
        return FAULT
    return FINDINGS if len(compiled.findings) else CLEAN
