"""The compiler for other programs: notebooks, scripts, web services.

Nothing here prints, ends the program or starts another process. What is wrong with a garment comes back as findings,
each with its place, as the command shows them; an exception means that a function was called wrongly.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import PurePath
from typing import TYPE_CHECKING

from garmentc.design.model import ChoicePlan, MeasurePlan, ParamPlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.render import render
from garmentc.doors import Overlay, ShippedHost
from garmentc.host import DiskHost, Host
from garmentc.output.write import SizeOutput, build_files, size_output, write_files
from garmentc.pipeline import Compiled, Request, compile_here, compile_side
from garmentc.record import Record
from garmentc.states import read_states

if TYPE_CHECKING:
    from garmentc.assembly.model import Assembly
    from garmentc.comparison.model import Comparison
    from garmentc.design.model import Design
    from garmentc.draft.model import FinishedMeasure

Path = str | PurePath
Settings = Mapping[str, object]


class Person:
    """One person's measures by name: a number in mm, or text such as ``"88 cm"`` or ``"34 1/2 in"``."""

    def __init__(self, name: str, measures: Mapping[str, str | float]) -> None:
        self.name = name
        self.measures = dict(measures)

    def _text(self) -> str:
        shown = {name: one if isinstance(one, str) else _written(one) for name, one in self.measures.items()}
        return json.dumps({"body": self.name, "measures": shown}, ensure_ascii=False, indent=1)


class _Found:
    """What a run has found out about a garment."""

    def __init__(self, findings: Findings) -> None:
        self.findings: tuple[Finding, ...] = tuple(findings)
        """What is wrong, with slug, severity, headline and place, in the order of places."""
        self.ok: bool = not findings.has_errors
        """Whether there is no error; there may be warnings."""

    def told(self, form: str = "full") -> str:
        """The findings as the command shows them: ``full``, ``plain`` (one line each) or ``json``."""
        return render(self.findings, form)

    def __repr__(self) -> str:
        return f"<{type(self).__name__} {'ok' if self.ok else 'with errors'}, {len(self.findings)} findings>"


class Garment(_Found):
    """A garment as its spec says it, without a body; after an error it may be empty."""

    def __init__(self, spec: str, host: Host, settings: tuple[str, ...], compiled: Compiled[Assembly]) -> None:
        super().__init__(compiled.findings)
        design = compiled.design
        self.spec = spec
        """The path of the spec."""
        self.name: str = "" if design is None else design.name
        self.title: str = "" if design is None else design.title
        self.edition: str = "" if design is None else design.edition
        self.measures: Mapping[str, MeasurePlan] = {} if design is None else design.measures
        """The body measures it needs."""
        self.params: Mapping[str, ParamPlan] = {} if design is None else design.params
        """The numbers that ``settings`` may change, those of an ease as ``ease.NAME``."""
        self.choices: Mapping[str, ChoicePlan] = {} if design is None else design.choices
        self.pieces: tuple[str, ...] = () if design is None else (*design.pieces, *design.strips)
        """The names of its pieces and strips."""
        self._host = host
        self._settings = settings


class Checked(_Found):
    """The findings of a check."""


class Size(Record):
    """A garment in one size or for one person."""

    name: str
    files: Mapping[str, bytes]
    """Patterns and sheets by name of the file."""
    assembly: Assembly
    """The whole of it, with exact curves: see ``garmentc/assembly/model.py``."""

    @property
    def edges(self) -> Mapping[str, float]:
        """The length of each stitching line in mm, darts and pleats closed, as ``piece.edge``."""
        drafted = (*self.assembly.draft.pieces, *self.assembly.draft.strips)
        return {f"{one.name}.{edge.name}": edge.sewn_length for one in drafted for edge in one.edges}

    @property
    def finished(self) -> Mapping[str, FinishedMeasure]:
        """The finished measurements that the spec names."""
        return {one.name: one for one in self.assembly.draft.finished}

    @property
    def params(self) -> Mapping[str, float]:
        """What each param and ease stands at: mm, radians or a plain number."""
        return self.assembly.draft.params


class Built(_Found):
    """A garment in all sizes asked for; after an error there is none."""

    def __init__(self, findings: Findings, design: Design | None, sizes: Sequence[Size], outputs: list[SizeOutput]):
        super().__init__(findings)
        self.sizes: Mapping[str, Size] = {size.name: size for size in sizes}
        patterns_only = any(one.model is None for one in outputs)
        made = [] if design is None or not outputs else build_files(design, outputs, patterns_only=patterns_only)
        self.files: Mapping[str, bytes] = dict(made)
        """All files by their path below an output folder, as ``garmentc build`` names them."""

    def write(self, folder: Path) -> int:
        """Write all files below a folder, each only if its bytes change, and say how many of them had to be written.

        Raises ``ValueError`` when there was an error in the garment, ``OSError`` when a file can't be written.
        """
        if not self.ok:
            raise ValueError(f"there is nothing to write: {self.findings[0].headline}")
        return write_files(DiskHost(), str(folder), self.files.items()).changed


class Compared(_Found):
    """What has changed from one state of a garment to another; ``comparison`` is None after an error."""

    def __init__(self, findings: Findings, comparison: Comparison | None) -> None:
        super().__init__(findings)
        self.comparison = comparison

    @property
    def same(self) -> bool:
        """Whether both were read without an error and are the same garment."""
        return self.comparison is not None and self.comparison.is_same

    def text(self, form: str = "text") -> str:
        """What has changed as ``text``, ``short`` (for a commit), ``json`` or ``html``; ValueError after an error."""
        if self.comparison is None:
            raise ValueError(f"the two can't be compared: {self.findings[0].headline}")
        from garmentc.output.compare.forms import told

        return told(self.comparison, form)


def load(spec: Path, *, files: Mapping[str, str] | None = None, settings: Settings | None = None) -> Garment:
    """Read a spec and all that it uses: what it is called, which measures it needs, what may be set.

    With ``files``, texts by path, nothing is read from the disk: the spec, what it uses and, later, charts and bodies
    are looked for among them. ``settings`` change params, eases and choices: ``{"ease.bust_girth": "10 cm"}``.
    """
    host: Host = DiskHost() if files is None else Overlay(ShippedHost(), files)
    path, given = str(spec), _given(settings)
    return Garment(path, host, given, compile_here(host, Request(path, settings=given)))


def check(
    garment: Garment | Path,
    *,
    sizes: Path | None = None,
    body: Path | Person | None = None,
    only: Sequence[str] = (),
    settings: Settings | None = None,
) -> Checked:
    """Look for mistakes: words, kinds and units, and with a chart or a body also the draft and the seams."""
    host, request = _asked(garment, sizes, body, only, settings)
    return Checked(compile_here(host, request._replace(every_choice=True)).findings)


def build(
    garment: Garment | Path,
    *,
    sizes: Path | None = None,
    body: Path | Person | None = None,
    only: Sequence[str] = (),
    settings: Settings | None = None,
    patterns_only: bool = False,
) -> Built:
    """Draft a garment for the sizes of a chart (``only`` some of them) or for one body, and make all files of it.

    Nothing is written; ``Built.write`` does. Raises ``ValueError`` unless there is either a chart or a body.
    """
    if sizes is None and body is None:
        raise ValueError("give either sizes, a chart, or a body")
    host, request = _asked(garment, sizes, body, only, settings)
    compiled = compile_here(host, request)
    made = () if compiled.findings.has_errors else compiled.made
    outputs = [size_output(one, patterns_only=patterns_only) for one in made]
    built = [Size(output.name, dict(output.files), one) for output, one in zip(outputs, made, strict=True)]
    return Built(compiled.findings, compiled.design, built, outputs)


def compare(
    old: Garment | Path,
    new: Garment | Path,
    *,
    sizes: Path | None = None,
    body: Path | Person | None = None,
    only: Sequence[str] = (),
    settings: Settings | None = None,
) -> Compared:
    """Say what has changed from one state of a garment to another, in all sizes, for one person, or as a spec alone.

    Each state is a loaded garment, a file, a file in a git revision (``HEAD~1:specs/tern.garment``), or only a
    revision, of the file that the other names. ValueError when neither names a file, OSError for no such revision.
    """
    from garmentc.comparison.differences import differences

    names = [one.spec if isinstance(one, Garment) else str(one) for one in (old, new)]
    states = [*read_states(DiskHost(), *names)] if not all(isinstance(one, Garment) for one in (old, new)) else []
    findings, sides = Findings(), []
    for at, one in enumerate((old, new)):
        if isinstance(one, Garment):
            door, request = _asked(one, sizes, body, only, settings)
            side, found = compile_side(door, request, door)
        else:
            bodies, request = _asked(states[at].spec, sizes, body, only, settings)
            side, found = compile_side(states[at].host, request, bodies)
        for finding in found:
            findings.add(finding)
        sides.append(side)
    before, after = sides
    return Compared(findings, None if before is None or after is None else differences(before, after))


def _asked(
    garment: Garment | Path,
    sizes: Path | None,
    body: Path | Person | None,
    only: Sequence[str],
    settings: Settings | None,
) -> tuple[Host, Request]:
    """The door to read through and what to compile; ValueError for what does not go together."""
    if sizes is not None and body is not None:
        raise ValueError("give either sizes, a chart, or a body; not both")
    if only and sizes is None:
        raise ValueError("only picks sizes of a chart: give sizes as well")
    host: Host = DiskHost()
    given = _given(settings)
    if isinstance(garment, Garment):
        spec, host, given = garment.spec, garment._host, (*garment._settings, *given)
    else:
        spec = str(garment)
    name = None if body is None or isinstance(body, Person) else str(body)
    if isinstance(body, Person):
        name = f"measures of {body.name}"
        host = Overlay(host, {name: body._text()})
    return host, Request(spec, None if sizes is None else str(sizes), name, tuple(only), given)


def _given(settings: Settings | None) -> tuple[str, ...]:
    return tuple(f"{name}={value}" for name, value in (settings or {}).items())


def _written(mm: float) -> str:
    """A length in mm as a body file has it."""
    return f"{mm:.6f}".rstrip("0").rstrip(".") + " mm"
