"""The compiler on one page: source -> syntax -> design -> draft -> assembly -> cloth, grade, comparison -> output.

What only a draft needs is imported when there is a body to draft for: a plain check starts in half the time.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Generic, TypeVar

from garmentc.data.checks import check_complete, check_plausible
from garmentc.data.model import Body
from garmentc.design.library import Library
from garmentc.design.model import Design
from garmentc.design.project import Project
from garmentc.design.raw import check_raw_edges
from garmentc.design.resolve import resolve
from garmentc.design.settings import other_options, read_settings
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.host import Host
from garmentc.reading import read_text
from garmentc.record import Record
from garmentc.syntax.nodes import File
from garmentc.syntax.parser import Parser, too_deep

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly
    from garmentc.comparison.differences import Side
    from garmentc.grade.model import Grade


Kept = TypeVar("Kept")


class Compiled(Record, Generic[Kept]):
    """What a run has found out. ``made`` is what was made of the bodies that came out without an error.

    ``file`` is the spec with all that it varies and uses worked in; None when it could not be read.
    """

    design: Design | None
    made: tuple[Kept, ...]
    findings: Findings
    file: File | None = None


class Request(Record):
    """What to compile: a spec file for the sizes of a chart, for one body or (with neither) only to check it.

    ``only`` picks sizes of the chart, ``settings`` are changes from outside as ``name=value``. With ``every_choice``
    the other options of the spec's choices are checked too, one at a time.
    """

    spec: str
    sizes: str | None = None
    body: str | None = None
    only: Sequence[str] = ()
    settings: Sequence[str] = ()
    every_choice: bool = False


def compile_spec(
    host: Host,
    spec: str,
    *,
    sizes: str | None = None,
    body: str | None = None,
    only: Sequence[str] = (),
    settings: Sequence[str] = (),
    every_choice: bool = False,
) -> Compiled[Assembly]:
    """Compile what a ``Request`` of these words asks for, and keep the whole assembly for each body."""
    return compile_here(host, Request(spec, sizes, body, only, settings, every_choice))


def compile_here(host: Host, request: Request) -> Compiled[Assembly]:
    """Compile in this process alone, and keep the whole assembly for each body."""
    return _compile(host, request, lambda assembly: assembly, at_once=False)


def compile_each(host: Host, request: Request, keep: Callable[[Assembly], Kept]) -> Compiled[Kept]:
    """Compile on all cores, and keep of each assembly what a function makes of it; that has to bear pickling."""
    return _compile(host, request, keep, at_once=True)


def compile_grade(host: Host, request: Request, align: Sequence[str] = ()) -> tuple[Grade | None, Findings]:
    """Compile the sizes of a chart and compare them; None after an error, or when there are not two of them.

    ``align`` says for pieces, as ``PIECE.POINT``, at which point their sizes are laid over each other.
    """
    from garmentc.grade.compare import compare, read_alignments, sized
    from garmentc.grade.judge import judge

    compiled = compile_each(host, request, sized)
    design, sizes, findings = compiled.design, compiled.made, compiled.findings
    alignments = read_alignments(align, sizes, findings) if sizes else {}
    if findings.has_errors or design is None or len(sizes) < 2:
        return None, findings
    grade = compare(design, sizes, alignments)
    judge(design, grade, findings, whole=not request.only)
    return grade, findings


def compile_side(host: Host, request: Request, bodies: Host) -> tuple[Side | None, Findings]:
    """Compile one state of a garment, to be compared with another; None after an error.

    The spec and what it uses come through ``host``, the chart or the body through ``bodies``.
    """
    from garmentc.comparison.differences import Side

    compiled = _compile(host, request, lambda assembly: assembly, at_once=False, bodies_from=bodies)
    design, file, findings = compiled.design, compiled.file, compiled.findings
    if findings.has_errors or design is None or file is None:
        return None, findings
    return Side(file, design, compiled.made), findings


def _compile(
    host: Host,
    request: Request,
    keep: Callable[[Assembly], Kept],
    *,
    at_once: bool,
    bodies_from: Host | None = None,
) -> Compiled[Kept]:
    findings = Findings()
    read = _read(host, request.spec, findings)
    if read is None:
        return Compiled(None, (), findings)
    file, parser, library = read
    bodies = _bodies(bodies_from or host, request, findings)
    if not file.readable:
        return Compiled(None, (), findings)
    given = read_settings(request.settings, parser, findings)
    try:
        design = resolve(file, library, given, findings, drawn=bool(bodies))
        made = _make_all(design, bodies, keep, findings, at_once)
        if request.every_choice and design is not None:
            for setting in other_options(design):
                aside = Findings()
                other = resolve(file, library, {**given, setting.name: setting}, aside)
                _make_all(other, bodies, lambda assembly: None, aside, at_once)
                findings.add_all(aside, f"with --set {setting.name}={setting.value.span.text}")
    except RecursionError:  # the stages follow values and pieces as deep as they lean on each other
        findings.add(too_deep(file.source.whole()))
        return Compiled(None, (), findings)
    return Compiled(design, made, findings, file)


def read_design(host: Host, spec: str, settings: Sequence[str], findings: Findings) -> Design | None:
    """A spec ready to be drafted for any body; None after an error."""
    read = _read(host, spec, findings)
    if read is None or not read[0].readable:
        return None
    file, parser, library = read
    try:
        design = resolve(file, library, read_settings(settings, parser, findings), findings, drawn=True)
    except RecursionError:
        findings.add(too_deep(file.source.whole()))
        return None
    return None if findings.has_errors else design


def _read(host: Host, spec: str, findings: Findings) -> tuple[File, Parser, Library] | None:
    source = read_text(host, spec, findings)
    if source is None:
        return None
    parser = Parser(host)
    return Project(host, parser).file(source, findings), parser, Library(host, parser)


def _make_all(
    design: Design | None,
    bodies: Sequence[Body],
    keep: Callable[[Assembly], Kept],
    findings: Findings,
    at_once: bool,
) -> tuple[Kept, ...]:
    if design is None or findings.has_errors:
        return ()
    if not bodies:
        check_raw_edges(design, findings)
        return ()
    check_complete(bodies[0], {name: plan.span for name, plan in design.measures.items()}, findings)
    if findings.has_errors:
        return ()

    def of_body(body: Body) -> tuple[list[Finding], list[Kept]]:
        own = Findings()
        made = make(design, body, own)
        return list(own), [] if made is None else [keep(made)]

    from garmentc.spread import spread

    _load_stages()
    kept: list[Kept] = []
    for found, made in spread(of_body, bodies) if at_once else map(of_body, bodies):
        kept += made
        for finding in found:
            findings.add(finding)
    findings.looked_at(len(bodies))
    return tuple(kept)


def _load_stages() -> None:
    """Import what each body needs before the work is spread, so that it is done once."""
    import garmentc.assembly.assemble
    import garmentc.draft.draft  # noqa: F401


def make(design: Design, body: Body, findings: Findings) -> Assembly | None:
    """Draft and assemble a design for one body; None after an error."""
    from garmentc.assembly.assemble import assemble
    from garmentc.draft.draft import draft

    check_plausible(body, findings)
    drafted = draft(design, body, findings)
    made = None if drafted is None else assemble(drafted[0], drafted[1].values, findings)
    return None if findings.has_errors else made


def _bodies(host: Host, request: Request, findings: Findings) -> tuple[Body, ...]:
    if request.body is None and request.sizes is None:
        return ()
    from garmentc.data.bodies import read_body
    from garmentc.data.charts import read_chart

    if request.body is not None:
        one = read_body(host, request.body, findings)
        return () if one is None else (one,)
    chart = None if request.sizes is None else read_chart(host, request.sizes, findings)
    if chart is None:
        return ()
    return chart.only(request.only, findings).bodies if request.only else chart.bodies
