"""The whole compiler on one page: source -> syntax -> design -> draft -> assembly -> output.

What only a draft needs is imported when there is a body to draft for: a plain check starts in half the time.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, NamedTuple

from garmentc.data.checks import check_complete, check_plausible
from garmentc.data.model import Body
from garmentc.design.library import Library
from garmentc.design.model import Design
from garmentc.design.project import Project
from garmentc.design.resolve import resolve
from garmentc.design.settings import other_options, read_settings
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.reading import read_text
from garmentc.syntax.parser import Parser, too_deep

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly


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
    every_choice: bool = False,
) -> Compiled:
    """Compile a spec file for the sizes of a chart, for one body, or (with neither) only check it.

    With ``every_choice`` the other options of the spec's choices are checked too, one at a time.
    """
    findings = Findings()
    source = read_text(host, spec, findings)
    if source is None:
        return Compiled(None, (), findings)
    parser = Parser(host)
    file = Project(host, parser).file(source, findings)
    bodies = _bodies(host, sizes, body, only, findings)
    if not file.readable:
        return Compiled(None, (), findings)
    given = read_settings(settings, parser, findings)
    library = Library(host, parser)
    try:
        design = resolve(file, library, given, findings)
        made = _make_all(design, bodies, findings)
        if every_choice and design is not None:
            for setting in other_options(design):
                aside = Findings()
                other = resolve(file, library, {**given, setting.name: setting}, aside)
                _make_all(other, bodies, aside)
                findings.add_all(aside, f"with --set {setting.name}={setting.value.span.text}")
    except RecursionError:  # the stages follow values and pieces as deep as they lean on each other
        findings.add(too_deep(source.whole()))
        return Compiled(None, (), findings)
    return Compiled(design, made, findings)


def _make_all(design: Design | None, bodies: Sequence[Body], findings: Findings) -> tuple[Assembly, ...]:
    if design is None or findings.has_errors:
        return ()
    if bodies:
        check_complete(bodies[0], {name: plan.span for name, plan in design.measures.items()}, findings)
    if findings.has_errors:
        return ()
    made = [make(design, body, findings) for body in bodies]
    return tuple(one for one in made if one is not None)


def make(design: Design, body: Body, findings: Findings) -> Assembly | None:
    """Draft and assemble a design for one body; None after an error."""
    from garmentc.assembly.assemble import assemble
    from garmentc.draft.draft import draft

    own = Findings()
    check_plausible(body, own)
    drafted = draft(design, body, own)
    made = None if drafted is None else assemble(drafted[0], drafted[1].values, own)
    for finding in own:
        findings.add(finding)
    return None if own.has_errors else made


def _bodies(
    host: Host, sizes: str | None, body: str | None, only: Sequence[str], findings: Findings
) -> tuple[Body, ...]:
    if body is None and sizes is None:
        return ()
    from garmentc.data.bodies import read_body
    from garmentc.data.charts import read_chart

    if body is not None:
        one = read_body(host, body, findings)
        return () if one is None else (one,)
    chart = None if sizes is None else read_chart(host, sizes, findings)
    if chart is None:
        return ()
    return chart.only(only, findings).bodies if only else chart.bodies
