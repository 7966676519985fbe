"""What holds where a command says nothing: the ``workshop.yaml`` of a project, else what is built in."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from garmentc.cli.codes import FAULT
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host

if TYPE_CHECKING:
    from garmentc.data.workshops import Workshop

FILE = "workshop.yaml"
_UP = 6  # folders above that of a garment in which a workshop is looked for
_BUILT_IN = {"unit": "cm", "language": "en"}


def fill_in(host: Host, options: Namespace) -> int | None:
    """Complete the options of a command; the exit code when that can't be done, and then it has been said why."""
    options.workshop = None
    path = next((path for spec in _specs(options)[:1] for path in _places(spec) if _is_there(host, path)), None)
    if path is not None:
        options.workshop = _read(host, path, options)
        if options.workshop is None:
            return FAULT
    for name, built_in in _BUILT_IN.items():
        if getattr(options, name, "") is None:
            setattr(options, name, _said(options.workshop, name) or built_in)
    if "sizes" not in options or options.sizes or options.body or getattr(options, "bodies", None):
        return None
    if getattr(options, "size", "") is not None:  # drawing by hand takes a chart only with one size of it
        options.sizes = _said(options.workshop, "chart") or None
    if options.needs_bodies and options.sizes is None:
        batch = ", or a table with --bodies" if "bodies" in options else ""
        size = "--sizes CHART --size SIZE" if "size" in options else "--sizes CHART"
        person = "" if options.command == "grade" else " or one person with --body FILE"
        told = f"say for which bodies: {size}{person}{batch}; a chart named in {FILE} holds for all commands"
        print(f"garmentc {options.command}: {told}", file=sys.stderr)
        return FAULT
    return None


def _said(workshop: Workshop | None, name: str) -> str:
    return "" if workshop is None else getattr(workshop, name)


def _specs(options: Namespace) -> list[str]:
    """The specs that a command names, without git revisions."""
    named = [getattr(options, name, None) for name in ("spec", "new", "old")]
    paths = [text.rpartition(":")[2] for text in (*named, *getattr(options, "specs", ())) if text]
    return [path for path in paths if path.endswith(".garment")] or paths


def _places(spec: str) -> Iterator[str]:
    """Where a workshop may lie: in the folder of a spec, or above it, the nearest first."""
    folder = PurePosixPath(spec).parent
    above = [folder, *folder.parents]
    if not folder.is_absolute():
        above += [PurePosixPath(*[".."] * up) for up in range(1, _UP)]
    return (str(one / FILE) for one in above[:_UP])


def _is_there(host: Host, path: str) -> bool:
    try:
        host.read(path, 1)
    except (OSError, ValueError):
        return False
    return True


def _read(host: Host, path: str, options: Namespace) -> Workshop | None:
    from garmentc.cli.report import report
    from garmentc.data.workshops import read_workshop

    findings = Findings()
    workshop = read_workshop(host, path, findings)
    if workshop is None:
        report(findings, options, f"nothing done: {path} has to be mended first")
    return workshop
