"""The files a new project begins with: a garment that compiles, a body to fill in, a chart, the workshop."""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterator

from garmentc.data.charts import read_chart
from garmentc.data.measures import known_measures
from garmentc.data.model import Body
from garmentc.design.model import Design
from garmentc.diagnostics.finding import Findings
from garmentc.doors import Overlay
from garmentc.host import Host
from garmentc.numbers import decimal
from garmentc.pipeline import compile_spec
from garmentc.record import Record
from garmentc.shipped import grammar_file, library_file, sizes_file

_CHART = "women-en13402.yaml"
_SCHEMAS = ("body", "chart", "cloth", "workshop")
_ANNOUNCED = re.compile(r"^(# yaml-language-server: \$schema=).*$", re.MULTILINE)
_NAME = re.compile(r"[a-z][a-z0-9_]{0,39}")
_SIZE = "88"  # whose measures stand in the body until it is filled in
_EIGHTH = 25.4 / 8.0


class Wishes(Record):
    """What a project is to be like; ``title`` is shown to people, ``maker`` may be empty."""

    name: str
    title: str
    maker: str
    unit: str
    paper: str
    language: str


def garment_name(text: str) -> str:
    """The name of a garment for a folder of this name; ValueError when none can be made of it."""
    name = re.sub(r"[^a-z0-9]+", "_", text.lower()).strip("_")
    if not _NAME.fullmatch(name):
        raise ValueError(f"'{text}' can't be the name of a garment: letters, digits and _, a letter first, at most 40")
    return name


def project_files(host: Host, wishes: Wishes) -> list[tuple[str, bytes]]:
    """All files of a new project by their path in its folder; ValueError when its garment would not compile."""
    spec = f"{wishes.name}.garment"
    texts = {spec: _filled(host, "top.garment", wishes)}
    chart = host.read(sizes_file(_CHART)).decode()
    texts["sizes/women.yaml"] = _ANNOUNCED.sub(r"\1../.schemas/chart.schema.json", chart)
    door = Overlay(host, texts)
    compiled = compile_spec(door, spec, sizes="sizes/women.yaml")
    if len(compiled.findings) or compiled.design is None:
        first = next(iter(compiled.findings))
        raise ValueError(f"no garment can be started with this name or title: {first.headline}")
    sized = read_chart(door, "sizes/women.yaml", Findings())
    assert sized is not None
    body = next(body for body in sized.bodies if body.name == _SIZE)
    texts["bodies/me.yaml"] = _body(compiled.design, body, wishes.unit)
    texts["workshop.yaml"] = _filled(host, "workshop.yaml", wishes)
    for name in ("README.md", "licence.txt"):
        texts[name] = _filled(host, name, wishes)
    for name in ("gitattributes", "gitignore", "pre-commit-config.yaml"):
        texts[f".{name}"] = _filled(host, name, wishes)
    for name in _SCHEMAS:
        file = f"{name}.schema.json"
        texts[f".schemas/{file}"] = host.read(grammar_file(f"schemas/{file}")).decode()
    return [(path, text.encode()) for path, text in texts.items()]


def _filled(host: Host, name: str, wishes: Wishes) -> str:
    """A shipped text with the wishes filled in for its words in capitals."""
    text = host.read(library_file(f"project/{name}")).decode()
    maker = f"maker: {_quoted(wishes.maker)}" if wishes.maker else '# maker: "Your name"'
    words = {
        "NAME": wishes.name,
        "TITLE": wishes.title,
        "WORKSHOP": _quoted(wishes.title),
        "MAKER": maker,
        "UNIT": wishes.unit,
        "PAPER": wishes.paper,
        "LANGUAGE": wishes.language,
    }
    return re.sub(r"\b(?:NAME|TITLE|WORKSHOP|MAKER|UNIT|PAPER|LANGUAGE)\b", lambda found: words[found[0]], text)


def _body(design: Design, body: Body, unit: str) -> str:
    lines = [
        "# yaml-language-server: $schema=../.schemas/body.schema.json",
        *_comment(f"Put your own measures in place of those of size {_SIZE}, with their unit: 88 cm, 34 1/2 in."),
        *_comment("Measure over what is worn beneath, the tape snug and level; let somebody else take the back."),
        'body: "me"',
        "measures:",
    ]
    for name in design.measures:
        lines += [f"  {line}" for line in _how(name)]
        lines.append(f"  {name}: {_length(body.measures[name].mm, unit)}")
    return "\n".join(lines) + "\n"


def _how(name: str) -> Iterator[str]:
    known = known_measures()[name]
    return _comment(f"{known.term}: {known.definition}")


def _comment(text: str) -> Iterator[str]:
    return (f"# {line}" for line in textwrap.wrap(text, 100))


def _length(mm: float, unit: str) -> str:
    if unit == "cm":
        return f"{decimal(mm / 10.0, 1)} cm"
    inches, eighths = divmod(round(mm / _EIGHTH), 8)
    above, below = eighths, 8
    while above and above % 2 == 0:
        above, below = above // 2, below // 2
    return f"{inches} {above}/{below} in" if above else f"{inches} in"


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
