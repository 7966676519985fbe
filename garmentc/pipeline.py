"""The whole compiler on one page: source -> syntax -> design -> draft -> assembly -> output."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from garmentc.assembly.assemble import assemble
from garmentc.assembly.model import Assembly
from garmentc.data.bodies import Body, read_body
from garmentc.data.charts import read_chart
from garmentc.data.checks import check_complete, check_plausible
from garmentc.reading import read_text
from garmentc.design.library import Library
from garmentc.design.model import Design
from garmentc.design.resolve import resolve
from garmentc.design.settings import read_settings
from garmentc.diagnostics.finding import Findings
from garmentc.draft.draft import draft
from garmentc.host import Host
from garmentc.syntax.parser import Parser


class Compiled(NamedTuple):
    """What a run has found out. ``assemblies`` are those of the bodies that came out without an error."""

    design: Design | None
    assemblies: tuple[Assembly, ...]
    findings: Findings


def compile_spec(
    host: Host,
    spec: str,
    *,
    sizes: str | None = None,
    body: str | None = None,
    only: Sequence[str] = (),
    settings: Iterable[str] = (),
) -> Compiled:
    """Compile a spec file for the sizes of a chart, for one body, or (with neither) only check it."""
    findings = Findings()
    design = understand(host, spec, settings, findings)
    bodies = _bodies(host, sizes, body, only, findings)
    if design is None or findings.has_errors:
        return Compiled(design, (), findings)
    if bodies:
        check_complete(bodies[0], {name: plan.span for name, plan in design.measures.items()}, findings)
    if findings.has_errors:
        return Compiled(design, (), findings)
    made = [made for one in bodies if (made := make(design, one, findings)) is not None]
    return Compiled(design, tuple(made), findings)


def understand(host: Host, spec: str, settings: Iterable[str], findings: Findings) -> Design | None:
    """Read a spec and find out what it means."""
    source = read_text(host, spec, findings)
    if source is None:
        return None
    parser = Parser(host)
    file = parser.file(source, findings)
    given = read_settings(settings, parser, findings)
    return resolve(file, Library(host, parser), given, findings)


def make(design: Design, body: Body, findings: Findings) -> Assembly | None:
    """Draft and assemble a design for one body."""
    check_plausible(body, findings)
    drafted = draft(design, body, findings)
    if drafted is None:
        return None
    made, drafter = drafted
    return assemble(made, drafter.values, findings)


def _bodies(
    host: Host, sizes: str | None, body: str | None, only: Sequence[str], findings: Findings
) -> tuple[Body, ...]:
    if body is not None:
        one = read_body(host, body, findings)
        return () if one is None else (one,)
    if sizes is None:
        return ()
    chart = read_chart(host, sizes, findings)
    if chart is None:
        return ()
    return chart.only(only, findings).bodies if only else chart.bodies
