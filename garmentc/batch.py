"""A garment for each body of a table, on all cores, each in a folder of its own.

What was made before from the same spec, body and compiler is left as it is, so that a batch that was broken off goes on
where it stopped. What is wrong with one body keeps only that one from being made.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from hashlib import sha256
from typing import TYPE_CHECKING

from garmentc.data.checks import check_complete
from garmentc.data.model import Body
from garmentc.data.tables import BodyTable, read_table, repeated
from garmentc.design.model import Design
from garmentc.diagnostics.finding import Finding, Findings, Severity
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.doors import Recorder
from garmentc.host import Host
from garmentc.output.record import clear_stale, is_made
from garmentc.output.write import SizeOutput, folders, size_output, size_output_on_paper, write_files
from garmentc.pipeline import make, read_design
from garmentc.record import Record
from garmentc.shipped import program_mark
from garmentc.spread import stream
from garmentc.syntax.parser import too_deep

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly

MADE, KEPT, FAILED = "made", "kept", "failed"


class Order(Record):
    """What to make: a spec for the bodies of a table, below a folder, with settings as ``name=value``.

    ``sheet_paper`` names the paper of sheets as PDF, if they are wanted.
    """

    spec: str
    table: str
    out: str
    settings: Sequence[str] = ()
    patterns_only: bool = False
    sheet_paper: str = ""
    inches: bool = False


class Outcome(Record):
    """What became of one body: ``line`` is that of its row.

    ``state`` is made, kept (it was there already) or failed, then ``why`` says in one phrase why. ``written`` counts
    the files that had to be written.
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
        self._varied: tuple[tuple[str, ...], Design] = ((), design)
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
        places = {f"{one}={cell.text}": cell.span for one, cell in self._table.settings(row).items()}
        outcome = self._made(Outcome(line, name, MADE), body, self._folders[at], tuple(places), findings)
        found = tuple(replace(one, span=places.get(one.span.source.text, one.span)) for one in outcome.findings)
        return outcome._replace(findings=found)

    def _made(self, made: Outcome, body: Body, folder: str, given: tuple[str, ...], findings: Findings) -> Outcome:
        """What becomes of a body, into a folder, with what its row sets."""
        line, name = made.line, made.name
        out, made_from = f"{self._order.out}/{folder}", self._made_from(body, given)
        if is_made(self._host, out, self.garment, made_from):
            return Outcome(line, name, KEPT)
        try:
            design = self._with(given, findings)
            files = None if design is None else self._files(design, body, findings)
        except RecursionError:
            findings.add(too_deep(self._design.source.whole()))
            return _failed(line, name, findings)
        except Exception as fault:  # a fault of the compiler with one body shall not keep the others from being made
            return Outcome(line, name, FAILED, tuple(findings), f"fault of garmentc: {type(fault).__name__}: {fault}")
        if files is None:
            return _failed(line, name, findings)
        written = write_files(self._host, out, files).changed
        mark = made_from if not len(findings) else ""  # without it the body is made again, and its warnings told again
        clear_stale(self._host, out, self.garment, files, from_chart=False, whole=False, made_from=mark)
        return made._replace(state=MADE if written else KEPT, findings=tuple(findings), written=written)

    def _with(self, given: tuple[str, ...], findings: Findings) -> Design | None:
        """The design with what a row sets; None after an error."""
        if not given:
            return self._design
        if self._varied[0] != given:
            design = read_design(self._host, self._order.spec, (*self._order.settings, *given), findings)
            if design is None:
                return None
            self._varied = (given, design)
        return self._varied[1]

    def _files(self, design: Design, body: Body, findings: Findings) -> list[tuple[str, bytes]] | None:
        """All files of one body, and its model; None after an error."""
        check_complete(body, {name: plan.span for name, plan in design.measures.items()}, findings, in_table=True)
        assembly = None if findings.has_errors else make(design, body, findings)
        if assembly is None:
            return None
        size = self._output(assembly)
        if size.model is None:
            return size.files
        from garmentc.output.model_json import garment_json

        return [*size.files, ("garment.json", garment_json(design, [size.model]))]

    def _output(self, assembly: Assembly) -> SizeOutput:
        if not self._order.sheet_paper:
            return size_output(assembly, patterns_only=self._order.patterns_only, inches=self._order.inches)
        from garmentc.output.paper.papers import read_paper

        paper = read_paper(self._order.sheet_paper)
        return size_output_on_paper(assembly, host=self._host, paper=paper, inches=self._order.inches)

    def _made_from(self, body: Body, given: Sequence[str]) -> str:
        facts = [f"{name}={one.mm!r} {one.unit}" for name, one in sorted(body.measures.items())]
        return _digest([self._mark, body.name, body.origin, *facts, *given])


def ready(host: Host, order: Order, findings: Findings) -> Batch | None:
    """A batch that can run; None after an error in the spec or in the form of the table."""
    recorder = Recorder(host)
    design = read_design(recorder, order.spec, order.settings, findings)
    table = read_table(host, order.table, findings)
    if design is not None and table is not None:
        _check_settings(design, table, findings)
    if design is None or table is None or findings.has_errors:
        return None
    texts = sorted(recorder.held.values())
    mark = _digest(
        [program_mark(), *texts, *order.settings, str(order.patterns_only), order.sheet_paper, str(order.inches)]
    )
    return Batch(host, order, design, table, mark)


def _check_settings(design: Design, table: BodyTable, findings: Findings) -> None:
    known = [*design.params, *design.choices]
    for column in table.columns:
        if column.sets and column.sets not in known:
            told = f"the garment has no param, ease or choice `{column.sets}`"
            findings.add(Finding("unknown-name", told, column.span, help=meant_or_known(column.sets, known)))


def _failed(line: int, name: str, findings: Findings) -> Outcome:
    first = next((one for one in findings if one.severity is Severity.ERROR), None)
    return Outcome(line, name, FAILED, tuple(findings), "" if first is None else f"{first.headline} [{first.slug}]")


def _digest(texts: Sequence[str]) -> str:
    return sha256("\0".join(texts).encode()).hexdigest()
