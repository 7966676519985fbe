"""A garment for each body of a table, on all cores, each in a folder of its own.

What was made before from the same spec, body and compiler is left as it is, so that a batch that was broken off goes on
where it stopped. What is wrong with one body keeps only that one from being made.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from hashlib import sha256

from garmentc.data.checks import check_complete
from garmentc.data.model import Body
from garmentc.data.tables import BodyTable, read_table, repeated
from garmentc.design.model import Design
from garmentc.diagnostics.finding import Finding, Findings, Severity
from garmentc.doors import Recorder
from garmentc.host import Host
from garmentc.output.record import clear_stale, is_made
from garmentc.output.write import folders, size_output, write_files
from garmentc.pipeline import make, read_design
from garmentc.record import Record
from garmentc.shipped import program_mark
from garmentc.spread import stream
from garmentc.syntax.parser import too_deep

MADE, KEPT, FAILED = "made", "kept", "failed"


class Order(Record):
    """What to make: a spec for the bodies of a table, below a folder, with settings as ``name=value``."""

    spec: str
    table: str
    out: str
    settings: Sequence[str] = ()
    patterns_only: bool = False


class Outcome(Record):
    """What became of one body: ``line`` is that of its row.

    ``state`` is made, kept (it was made before) or failed, then ``why`` says in one phrase why. ``written`` counts the
    files that had to be written.
    """

    line: int
    name: str
    state: str
    findings: tuple[Finding, ...] = ()
    why: str = ""
    written: int = 0


class Batch:
    """A batch that is ready to run: its spec and the form of its table are sound."""

    def __init__(self, host: Host, order: Order, design: Design, table: BodyTable, mark: str) -> None:
        self._host = host
        self._order = order
        self._design = design
        self._table = table
        self._mark = mark
        self._folders = folders(table.name(row).text for row in table.rows)
        self._repeated = dict(repeated(table))
        self.garment = design.name

    def __len__(self) -> int:
        return len(self._table.rows)

    def run(self) -> Iterator[Outcome]:
        """What becomes of each body, as soon as it is known; raises ``OSError`` when a file can't be written."""
        return stream(self._one, range(len(self)))

    def _one(self, at: int) -> Outcome:
        row, findings = self._table.rows[at], Findings()
        line, name = row.line, self._table.name(row).text
        body = self._table.body(row, findings)
        if at in self._repeated:
            findings.add(self._repeated[at])
        if body is None or findings.has_errors:
            return _failed(line, name, findings)
        out, made_from = f"{self._order.out}/{self._folders[at]}", self._made_from(body)
        if is_made(self._host, out, self.garment, made_from):
            return Outcome(line, name, KEPT)
        try:
            files = self._files(body, findings)
        except RecursionError:
            findings.add(too_deep(self._design.source.whole()))
            return _failed(line, name, findings)
        except Exception as fault:  # a fault of the compiler with one body shall not keep the others from being made
            return Outcome(line, name, FAILED, tuple(findings), f"fault of garmentc: {type(fault).__name__}: {fault}")
        if files is None:
            return _failed(line, name, findings)
        written = write_files(self._host, out, files).changed
        clear_stale(self._host, out, self.garment, files, from_chart=False, whole=False, made_from=made_from)
        return Outcome(line, name, MADE, tuple(findings), written=written)

    def _files(self, body: Body, findings: Findings) -> list[tuple[str, bytes]] | None:
        """All files of one body, and its model; None after an error."""
        check_complete(body, {name: plan.span for name, plan in self._design.measures.items()}, findings)
        assembly = None if findings.has_errors else make(self._design, body, findings)
        if assembly is None:
            return None
        size = size_output(assembly, patterns_only=self._order.patterns_only)
        if size.model is None:
            return size.files
        from garmentc.output.model_json import garment_json

        return [*size.files, ("garment.json", garment_json(self._design, [size.model]))]

    def _made_from(self, body: Body) -> str:
        facts = [f"{name}={one.mm!r} {one.unit}" for name, one in sorted(body.measures.items())]
        return _digest([self._mark, body.name, body.origin, *facts])


def ready(host: Host, order: Order, findings: Findings) -> Batch | None:
    """A batch that can run; None after an error in the spec or in the form of the table."""
    recorder = Recorder(host)
    design = read_design(recorder, order.spec, order.settings, findings)
    table = read_table(host, order.table, findings)
    if design is None or table is None or findings.has_errors:
        return None
    texts = sorted(recorder.held.values())
    mark = _digest([program_mark(), *texts, *order.settings, str(order.patterns_only)])
    return Batch(host, order, design, table, mark)


def _failed(line: int, name: str, findings: Findings) -> Outcome:
    first = next((one for one in findings if one.severity is Severity.ERROR), None)
    return Outcome(line, name, FAILED, tuple(findings), "" if first is None else f"{first.headline} [{first.slug}]")


def _digest(texts: Sequence[str]) -> str:
    return sha256("\0".join(texts).encode()).hexdigest()
