"""``garmentc compare``."""

from __future__ import annotations

import sys
from argparse import Namespace
from typing import TYPE_CHECKING

from garmentc.cli.codes import CLEAN, FAULT, FINDINGS
from garmentc.cli.out import show
from garmentc.diagnostics.render import render, summary
from garmentc.host import Host
from garmentc.pipeline import Request, compile_side
from garmentc.states import read_states

if TYPE_CHECKING:
    from garmentc.output.paper.papers import Paper


def compare_command(host: Host, options: Namespace) -> int:
    """Show what has changed from one state of a garment to another; a state with errors can't be compared."""
    from garmentc.comparison.differences import differences
    from garmentc.output.compare.forms import told

    only = [name.strip() for name in options.only.split(",") if name.strip()]
    if only and options.sizes is None:
        print("garmentc: --only picks sizes of a chart: give --sizes as well", file=sys.stderr)
        return FAULT
    try:
        paper = None if options.paper is None else _paper(options.paper)
        states = read_states(host, options.old, options.new)
    except (ValueError, OSError) as fault:
        print(f"garmentc: {fault}", file=sys.stderr)
        return FAULT
    sides = []
    for spec, door in states:
        side, findings = compile_side(door, Request(spec, options.sizes, options.body, only, options.settings), host)
        if side is None:
            print(render(findings, options.format), file=sys.stdout if options.format == "json" else sys.stderr)
            print(f"{spec} can't be compared: {summary(findings)}", file=sys.stderr)
        else:
            sides.append(side)
    if len(sides) < 2:
        return FAULT
    comparison = differences(*sides)
    if paper is not None and comparison.sizes:
        from garmentc.output.compare.pages import with_pages
        from garmentc.output.paper.fonts import Fonts

        comparison = with_pages(comparison, sides[0], sides[1], paper, Fonts(host, ()))
    text = told(comparison, options.shape)
    if not show(host, options, text):
        return FAULT
    return CLEAN if comparison.is_same else FINDINGS


def _paper(name: str) -> Paper:
    from garmentc.output.paper.papers import read_paper

    return read_paper(name)
