"""Reads the examples of the pages, and runs them as a reader would.

The convention for pages: the title is ``# SLUG: what it means``; then prose; then ``## Fails`` and ``## Mended``, each
with fenced blocks. A ``garment`` block is a whole spec, saved as NAME.garment after the name in its garment line; of
several the last one is compiled. A ``csv`` block is a table of bodies, all of which are drafted. A ``yaml`` block is a body, a chart,
a cloth or a plan kept for size 88 of ruff on that cloth, saved as body.yaml, chart.yaml, cloth.yaml or under the name of such a plan. A ``console``
block is the command that is run; without one it is a check for size 88 of the shipped chart, or for the page's own
chart or body. A section has all files of the section before that it does not show again; a page that shows no
garment gets the small one below.
"""

from __future__ import annotations

import re
import shlex
from typing import NamedTuple

from garmentc.batch import MADE, Order, ready
from garmentc.cloth.finder import Limits
from garmentc.design.lays import MAIN
from garmentc.diagnostics.finding import Findings
from garmentc.laying import lay_on
from garmentc.output.paper.characters import check_characters
from garmentc.output.paper.fonts import Fonts
from garmentc.pipeline import Compiled, Request, compile_grade, compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
_PLAIN_GARMENT = """\
garment ruff "Ruff, a neckerchief"
edition 1
measure bust_girth
piece scarf "Scarf" {
  cut 1
  grain straight
  outline {
    hem   : (0 cm, 0 cm) -> (bust_girth, 0 cm)
    slope : (bust_girth, 0 cm) -> (0 cm, 60 cm)
    side  : (0 cm, 60 cm) -> (0 cm, 0 cm)
  }
}
finish scarf.hem, scarf.slope, scarf.side as overedged
"""
_BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_NAME = re.compile(r"^garment (\w+) ", re.MULTILINE)


class Example(NamedTuple):
    """The files of a section, and what is asked of the compiler."""

    files: dict[str, str]
    spec: str
    sizes: str | None
    body: str | None
    only: tuple[str, ...]
    settings: tuple[str, ...]
    verb: str = "check"
    cloth: str | None = None
    table: bool = False


def sections(page: str) -> dict[str, str]:
    """The sections below a page's title and prose, by heading."""
    _, *rest = re.split(r"^## ", page, flags=re.MULTILINE)
    return {heading: body for heading, _, body in (part.partition("\n") for part in rest)}


def examples(page: str) -> dict[str, Example]:
    """The example of each section of a page."""
    files: dict[str, str] = {}
    spec = "ruff.garment"
    found: dict[str, Example] = {}
    for heading, section in sections(page).items():
        command = ""
        for language, text in _BLOCK.findall(section):
            if language == "console":
                command = text
            else:
                name = _file_name(language, text)
                spec = name if language == "garment" else spec
                files = {**files, name: text}
        found[heading] = _example({"ruff.garment": _PLAIN_GARMENT, **files}, spec, command)
    return found


def run(example: Example) -> Compiled:
    """What the compiler makes of an example."""
    host = MemoryHost(dict(example.files))
    if example.table:
        return _run_table(host, example.spec)
    if example.verb == "grade":
        grade, findings = compile_grade(host, Request(example.spec, example.sizes))
        return Compiled(None, () if grade is None else (grade,), findings)
    compiled = compile_spec(
        host,
        example.spec,
        sizes=example.sizes,
        body=example.body,
        only=example.only,
        settings=example.settings,
    )
    if example.cloth is not None:
        laid = lay_on(host, example.spec, compiled.made[0], MAIN, example.cloth, Limits(200), compiled.findings)
        return compiled._replace(made=() if laid is None or laid.laying.plan is None else compiled.made)
    if example.verb == "print":
        check_characters(compiled.made[0], Fonts(host), compiled.findings)
    return compiled


def _run_table(host: MemoryHost, spec: str) -> Compiled:
    findings = Findings()
    batch = ready(host, Order(spec, "bodies.csv", "out"), findings)
    outcomes = [] if batch is None else list(batch.run())
    for outcome in outcomes:
        for finding in outcome.findings:
            findings.add(finding)
    return Compiled(None, tuple(outcome for outcome in outcomes if outcome.state == MADE), findings)


def _file_name(language: str, text: str) -> str:
    if language == "csv":
        return "bodies.csv"
    if language == "yaml" and text.startswith("cloth:"):
        return "cloth.yaml"
    if language == "yaml" and text.startswith("plan:"):
        return "ruff-88-cloth.plan.yaml"
    if language == "yaml":
        return "chart.yaml" if "values:" in text or "sizes:" in text else "body.yaml"
    name = _NAME.search(text)
    return f"{name[1] if name else 'sample'}.garment"


def _example(files: dict[str, str], spec: str, command: str) -> Example:
    chart, body = ("chart.yaml" in files), ("body.yaml" in files)
    if not command and "bodies.csv" in files:
        return Example(files, spec, None, None, (), (), table=True)
    if not command:
        return Example(
            files,
            spec,
            "chart.yaml" if chart else None if body else CHART,
            "body.yaml" if body and not chart else None,
            () if chart or body else ("88",),
            (),
        )
    program, verb, spec, *options = shlex.split(command.strip())
    assert program == "garmentc", command
    assert verb in ("check", "grade", "lay", "print"), command
    given: dict[str, list[str]] = {}
    for option, value in zip(options[::2], options[1::2], strict=True):
        given.setdefault(option, []).append(value)
    assert not given.keys() - {"--set", "--only", "--sizes", "--body", "--cloth", "--size"}, command
    sizes, bodies = given.get("--sizes"), given.get("--body")
    only = given["--only"][0].split(",") if "--only" in given else []
    if sizes is None and bodies is None:
        sizes, only = [CHART], ["88"]
    return Example(
        files,
        spec,
        sizes[0] if sizes else None,
        bodies[0] if bodies else None,
        tuple(only),
        tuple(given.get("--set", ())),
        verb,
        given["--cloth"][0] if verb == "lay" else None,
    )
