"""A workshop file: defaults for all garments of a folder and of those below it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from pathlib import PurePosixPath

from garmentc.data.forms import LONGEST_TITLE, Form, fields, label, matched, read_document
from garmentc.data.nodes import Node, Table
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.record import Record
from garmentc.source import Span

UNITS = ("cm", "inch")
PAPER_PATTERN = r"^(?:[a-z][a-z0-9]{1,15}|roll:[0-9.]{1,8}(?:mm|cm|m|in|inch))$(?!\n)"
LANGUAGE_PATTERN = r"^[a-z]{2}(?:,[a-z]{2})?$(?!\n)"
PATH_PATTERN = r"^[^\s/\\](?:[^\n\\]*\S)?$(?!\n)"
LONGEST_PATH = 200


class Workshop(Record):
    """What holds where a command says nothing else; what is not said is empty.

    ``chart`` and ``licence_file`` are paths as a command would be given them. ``licence`` is a few words for the print.
    ``places`` says where each thing is said.
    """

    name: str
    maker: str = ""
    licence: str = ""
    licence_file: str = ""
    chart: str = ""
    unit: str = ""
    paper: str = ""
    language: str = ""
    places: Mapping[str, Span] = {}


def read_workshop(host: Host, path: str, findings: Findings) -> Workshop | None:
    """The defaults of a workshop file; None after at least one finding."""
    workshop = read_document(host, path, _FORM, findings)
    if workshop is None:
        return None
    folder = PurePosixPath(path).parent
    return workshop._replace(
        chart=str(folder / workshop.chart) if workshop.chart else "",
        licence_file=str(folder / workshop.licence_file) if workshop.licence_file else "",
    )


def _workshop(root: Table) -> Workshop:
    entries = fields(root, frozenset({"workshop"}), frozenset(_READ))
    said = {name: _READ[name](entry.node) for name, entry in entries.items() if name != "workshop"}
    places = {name: entry.span for name, entry in entries.items()}
    return Workshop(_line(entries["workshop"].node), **said, places=places)


def _line(node: Node) -> str:
    return label(node, LONGEST_TITLE)


def _like(pattern: str, longest: int = LONGEST_PATH) -> Callable[[Node], str]:
    return lambda node: matched(node, lambda text: text if len(text) <= longest and re.search(pattern, text) else None)


_READ: dict[str, Callable[[Node], str]] = {
    "maker": _line,
    "licence": _line,
    "licence_file": _like(PATH_PATTERN),
    "chart": _like(PATH_PATTERN),
    "unit": _like(rf"^(?:{'|'.join(UNITS)})$(?!\n)"),
    "paper": _like(PAPER_PATTERN),
    "language": _like(LANGUAGE_PATTERN),
}
_FORM = Form("workshop.schema.json", "workshop", "workshop.yaml", _workshop)
