"""``garmentc watch``."""

from __future__ import annotations

import gc
import sys
import textwrap
from argparse import Namespace
from collections.abc import Iterable, Iterator
from pathlib import Path

from garmentc.cli.codes import CLEAN, FAULT
from garmentc.cli.compile import request_of
from garmentc.diagnostics.render import render, summary
from garmentc.host import Host, seconds
from garmentc.watching import Order, Round, Watched

_STEP, _LONGEST = 10, 100  # ms: how long it has to be quiet after a change, and at most
_LOOK = 1000  # ms: how often files are looked at even if no change was told of, as on some network disks


def watch_command(host: Host, options: Namespace) -> int:
    """Keep garments up to date while their files are worked on, until it is stopped with Ctrl-C."""
    watched = []
    for spec in options.specs:
        options.spec = spec
        request = request_of(options)
        if request is None:
            return FAULT
        watched.append(
            (spec, Watched(host, Order(request, options.out, options.patterns_only, options.unit == "inch")))
        )
    try:
        for spec, one in watched:
            _round(spec, one, options)
        print("watching; Ctrl-C stops", file=sys.stderr)
        while True:
            folders = sorted(set().union(*(one.folders for _, one in watched)))
            for _ in _wakes(folders):
                for spec, one in watched:
                    if one.is_stale():
                        _round(spec, one, options)
                if not set().union(*(one.folders for _, one in watched)) <= set(folders):
                    break
    except KeyboardInterrupt:
        return CLEAN


def _wakes(folders: Iterable[str]) -> Iterator[object]:
    """Comes back whenever something in the folders changes, and now and then without that."""
    from watchfiles import watch

    there = [folder for folder in folders if Path(folder).is_dir()] or ["."]
    return watch(
        *there,
        watch_filter=None,
        debounce=_LONGEST,
        step=_STEP,
        rust_timeout=_LOOK,
        yield_on_timeout=True,
        recursive=False,
    )


def _round(spec: str, watched: Watched, options: Namespace) -> None:
    began = seconds()
    try:
        made = watched.round()
    except OSError as fault:
        print(f"garmentc: can't write below '{options.out}': {fault.strerror or fault}", file=sys.stderr)
        return
    except Exception as fault:  # a fault of the compiler shall not end the watch: the next save may not meet it
        print(f"{spec}: fault of garmentc: {type(fault).__name__}: {fault}", file=sys.stderr)
        return
    shown = render(made.findings, options.format) if made.findings else ""
    if shown:
        print(shown, file=sys.stderr if options.format == "full" else sys.stdout, flush=True)
    print(f"{spec}: {_told(made, options, seconds() - began)}", file=sys.stderr)
    if made.moved:
        print(textwrap.indent(made.moved, "  "), file=sys.stderr)
    gc.collect()  # while the maker looks at the result, and never in the middle of a round


def _told(made: Round, options: Namespace, took: float) -> str:
    if not made.ok:
        kept = f"; {options.out} stays as it was" if options.out is not None else ""
        return f"{summary(made.findings)}, in {took:.2f} s{kept}"
    sizes = f"{made.sizes} size{'' if made.sizes == 1 else 's'}" if made.sizes else "checked"
    told = f"{sizes} in {took:.2f} s"
    if options.out is not None:
        told += f" (patterns after {made.patterns_after:.2f} s), {made.changed} of {made.files} files new or changed"
    return f"{told}: {summary(made.findings)}" if made.findings else told
