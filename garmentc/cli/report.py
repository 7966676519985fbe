"""Tells what was found, and with which exit code."""

from __future__ import annotations

import sys
from argparse import Namespace

from garmentc.cli.codes import CLEAN, FAULT, FINDINGS
from garmentc.design.settings import SETTINGS
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.render import render, summary

_WRONG_USE = ("file-unreadable", "wrong-file", "unknown-size")


def report(findings: Findings, options: Namespace, outcome: str) -> None:
    """Findings for machines go to standard output, findings for people and the outcome to standard error."""
    shown = render(findings, options.format)
    if options.format == "full":
        if shown:
            print(shown, file=sys.stderr)
        print(f"{outcome}: {summary(findings)}", file=sys.stderr)
    elif shown:
        print(shown)


def exit_code(findings: Findings) -> int:
    """The exit code that tells what was found."""
    if any(is_wrong_use(finding) for finding in findings):
        return FAULT
    return FINDINGS if len(findings) else CLEAN


def is_wrong_use(finding: Finding) -> bool:
    """Whether the command was given what it can't take; a value out of its range is a fault of the garment instead."""
    setting = finding.span.source.name == SETTINGS and finding.slug != "out-of-range"
    return setting or finding.slug in _WRONG_USE
