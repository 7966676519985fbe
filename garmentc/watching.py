"""A garment that is compiled again and again while its files are worked on."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from pathlib import PurePath
from typing import TYPE_CHECKING

from garmentc.comparison.differences import Side, differences
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.doors import Recorder
from garmentc.host import Host, seconds
from garmentc.output.compare.short import comparison_short
from garmentc.output.record import clear_stale
from garmentc.output.write import SizeOutput, build_files, size_output, with_sheets, write_files
from garmentc.pipeline import Compiled, Request, compile_each
from garmentc.record import Record
from garmentc.spread import spread

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly


class Order(Record):
    """What to keep up to date: a garment, and the folder its files go into; without a folder it is only checked.

    ``cloths`` are the files of cloths with what is cut from them; plans that are kept for them are verified.
    """

    request: Request
    out: str | None = None
    patterns_only: bool = False
    inches: bool = False
    cloths: tuple[tuple[str, str], ...] = ()


class Round(Record):
    """What came of compiling once. ``patterns_after`` is when the patterns were written (s), ``moved`` says in a few
    lines what has changed since the last round without an error, and is empty in the first. ``plans`` says of each plan
    that is kept whether it still holds.
    """

    findings: tuple[Finding, ...]
    ok: bool
    sizes: int
    files: int
    changed: int
    patterns_after: float
    moved: str
    plans: tuple[str, ...] = ()


class _Made(Record):
    """One size: the whole of it, to be compared later, and what is written first."""

    assembly: Assembly
    patterns: SizeOutput


class Watched:
    """One garment, with what its files held when it was last compiled and the last state of it without an error."""

    def __init__(self, host: Host, order: Order) -> None:
        self._host = host
        self._order = order
        self._read = Recorder(host)
        self._good: Side | None = None
        self._is_new = False

    @property
    def folders(self) -> set[str]:
        """The folders of all that the garment is made of."""
        return {str(PurePath(path).parent) for path in self._read.own}

    def is_stale(self) -> bool:
        """Whether a file that the garment is made of is not as it was, or has come or gone."""
        return self._is_new or self._read.is_stale()

    def change(self, order: Order) -> None:
        """Go on with something else that is asked of the same garment."""
        self._is_new = self._is_new or order != self._order
        self._order = order

    def round(self) -> Round:
        """Compile and, unless there is an error, write what has changed; raises ``OSError`` when that can't be done."""
        began = seconds()
        self._read = Recorder(self._host)
        self._is_new = False
        compiled = compile_each(self._read, self._order.request, partial(_patterns, inches=self._order.inches))
        findings, design, file = compiled.findings, compiled.design, compiled.file
        if findings.has_errors or design is None or file is None:
            return Round(tuple(findings), False, 0, 0, 0, seconds() - began, "")
        files, changed, after = self._write(compiled, began)
        side = Side(file, design, tuple(one.assembly for one in compiled.made))
        moved = "" if self._good is None else comparison_short(differences(self._good, side))
        self._good = side
        plans = tuple(self._plans(side, findings))
        return Round(tuple(findings), True, len(compiled.made), files, changed, after, moved, plans)

    def _plans(self, side: Side, findings: Findings) -> Iterator[str]:
        """Whether the plans that are kept still hold, in words."""
        if not self._order.cloths:
            return
        from garmentc.laying import verify_kept

        spec = self._order.request.spec
        for part, cloth in self._order.cloths:
            for assembly in side.sizes:
                told = verify_kept(self._read, spec, assembly, part, cloth, findings)
                if told is not None:
                    yield told

    def _write(self, compiled: Compiled[_Made], began: float) -> tuple[int, int, float]:
        """Write the patterns of all sizes, then the rest; how many files there are, how many had to be written."""
        order, design = self._order, compiled.design
        if order.out is None or design is None:
            return 0, 0, seconds() - began
        files = build_files(design, [one.patterns for one in compiled.made], patterns_only=True)
        changed = write_files(self._host, order.out, files).changed
        after = seconds() - began
        if not order.patterns_only:
            full = spread(lambda one: with_sheets(one.patterns, one.assembly, inches=order.inches), compiled.made)
            files = build_files(design, full)
            changed += write_files(self._host, order.out, files).changed
        from_chart = order.request.sizes is not None
        whole = from_chart and not order.request.only
        clear_stale(self._host, order.out, design.name, files, from_chart=from_chart, whole=whole)
        return len(files), changed, after


def _patterns(assembly: Assembly, *, inches: bool) -> _Made:
    return _Made(assembly, size_output(assembly, patterns_only=True, inches=inches))
