"""``garmentc format``."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator

from garmentc.cli.codes import CLEAN, FAULT, FINDINGS
from garmentc.cli.report import exit_code
from garmentc.diagnostics.finding import Findings
from garmentc.diagnostics.render import render
from garmentc.format.proof import Unproven, formatted
from garmentc.host import Host
from garmentc.reading import read_text, source_of
from garmentc.source import Source
from garmentc.syntax.parser import Parser

_STANDARD, _INPUT = "-", "standard input"


def format_command(host: Host, options: Namespace) -> int:
    """Lay files out; with ``--check`` or ``--diff`` only tell which would change, and how."""
    if options.width < 1:
        print("garmentc: --width is the number of columns: at least 1", file=sys.stderr)
        return FAULT
    parser = Parser(host)
    codes = [CLEAN]
    for name in options.specs:
        codes.append(_one(host, parser, name, options))
    return max(codes)


def _one(host: Host, parser: Parser, name: str, options: Namespace) -> int:
    findings = Findings()
    source = _read(host, name, findings)
    try:
        text = None if source is None else formatted(parser, source, findings, options.width)
    except (Unproven, RecursionError) as fault:
        why = str(fault) if isinstance(fault, Unproven) else "it is nested too deep"
        print(f"garmentc: {name} left as it is: its layout could not be proved ({why})", file=sys.stderr)
        return FAULT
    if source is None or text is None:
        print(render(findings, "full"), file=sys.stderr)
        print(f"{name} left as it is", file=sys.stderr)
        return exit_code(findings)
    return _tell(host, source, text, options)


def _read(host: Host, name: str, findings: Findings) -> Source | None:
    if name == _STANDARD:
        return source_of(_INPUT, sys.stdin.buffer.read(), findings)
    return read_text(host, name, findings)


def _tell(host: Host, source: Source, text: str, options: Namespace) -> int:
    """Write the layout of a text, or tell how it differs; the exit code."""
    differs = text != source.text
    if options.diff:
        from difflib import unified_diff

        before, after = source.text.splitlines(keepends=True), text.splitlines(keepends=True)
        sys.stdout.writelines(_ended(unified_diff(before, after, source.name, f"{source.name}, formatted")))
    if options.check or options.diff:
        if differs and not options.diff:
            print(f"{source.name} would change", file=sys.stderr)
        return FINDINGS if differs else CLEAN
    if source.name == _INPUT:
        sys.stdout.write(text)
        return CLEAN
    try:
        if differs and host.write(source.name, text.encode()):
            print(f"{source.name} formatted", file=sys.stderr)
    except OSError as fault:
        print(f"garmentc: can't write '{source.name}': {fault.strerror or fault}", file=sys.stderr)
        return FAULT
    return CLEAN


def _ended(lines: Iterator[str]) -> Iterator[str]:
    """Lines of a diff, each with its end, also where the file has none."""
    for line in lines:
        yield line if line.endswith("\n") else f"{line}\n\\ no line end at the end\n"
