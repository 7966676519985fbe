"""``garmentc watch``."""

from __future__ import annotations

import gc
import sys
import textwrap
from argparse import Namespace
from collections.abc import Iterable, Iterator
from pathlib import Path, PurePath

from garmentc.cli.cloths import cloth_path
from garmentc.cli.codes import CLEAN, FAULT
from garmentc.cli.compile import request_of
from garmentc.cli.defaults import fill_in
from garmentc.design.lays import MAIN
from garmentc.diagnostics.render import render, summary
from garmentc.doors import Recorder
from garmentc.host import Host, seconds
from garmentc.watching import Order, Round, Watched

_STEP, _LONGEST = 10, 100  # ms: how long it has to be quiet after a change, and at most
_LOOK = 1000  # ms: how often files are looked at even if no change was told of, as on some network disks


class _Desk:
    """All garments that are watched, and the defaults of the project that they are compiled with."""

    def __init__(self, host: Host, options: Namespace) -> None:
        self._host, self._given = host, options
        self._defaults = Recorder(host)
        self.options = options
        self.watched: dict[str, Watched] = {}

    @property
    def folders(self) -> set[str]:
        """The folders of everything that is read."""
        own = {str(PurePath(path).parent) for path, held in self._defaults.held.items() if held}
        return own.union(*(one.folders for one in self.watched.values()))

    def look(self) -> int | None:
        """Take the defaults as they are now, if they have changed; the exit code, and it has been said why, if not."""
        if self.watched and not self._defaults.is_stale():
            return None
        self._defaults = Recorder(self._host)
        options = Namespace(**vars(self._given))
        wrong = fill_in(self._defaults, options)
        if wrong is not None:
            return wrong
        cloths = tuple(_cloth(one) for one in options.cloth)
        for spec in options.specs:
            options.spec = spec
            request = request_of(options)
            if request is None:
                return FAULT
            order = Order(request, options.out, options.patterns_only, options.unit == "inch", cloths)
            if spec in self.watched:
                self.watched[spec].change(order)
            else:
                self.watched[spec] = Watched(self._host, order)
        self.options = options
        return None


def watch_command(host: Host, options: Namespace) -> int:
    """Keep garments up to date while their files are worked on, until it is stopped with Ctrl-C."""
    desk = _Desk(host, options)
    wrong = desk.look()
    if wrong is not None:
        return wrong
    try:
        for spec, one in desk.watched.items():
            _round(spec, one, desk.options)
        print("watching; Ctrl-C stops", file=sys.stderr)
        while True:
            folders = sorted(desk.folders)
            for _ in _wakes(folders):
                desk.look()
                for spec, one in desk.watched.items():
                    if one.is_stale():
                        _round(spec, one, desk.options)
                if not desk.folders <= set(folders):
                    break
    except KeyboardInterrupt:
        return CLEAN


def _cloth(given: str) -> tuple[str, str]:
    """Which cloth of the garment, and its file."""
    part, equals, cloth = given.partition("=")
    return (part, cloth_path(cloth)) if equals else (MAIN, cloth_path(given))


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
    for told in (made.moved, *made.plans):
        if told:
            print(textwrap.indent(told, "  "), file=sys.stderr)
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
