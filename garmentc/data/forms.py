"""Reading documents of a known form: a well-formed one to its value, any other to all its faults."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from garmentc.data.nodes import Entry, Items, Leaf, Node, Table
from garmentc.data.yaml_text import read_nodes
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.host import Host
from garmentc.reading import read_text

T = TypeVar("T")

# The shipped schemas carry the same patterns and limits; a test holds the two together.
LABEL_PATTERN = r"^\S+(?: \S+)*$(?!\n)"
MEASURE_NAME_PATTERN = r"^[a-z][a-z0-9_]{0,59}$(?!\n)"
LONGEST_TITLE = 80
LONGEST_SIZE = 24
LONGEST_WORDS = 2000
LARGEST_NUMBER = 100_000

_LABEL = re.compile(LABEL_PATTERN)
_MEASURE_NAME = re.compile(MEASURE_NAME_PATTERN)
_GARMENT = re.compile(r'^(garment)[ \t]+(\w|")', re.MULTILINE)


class NotOfForm(Exception):
    """A document is not of the expected form; the schema will say where and why."""


@dataclass(frozen=True, slots=True)
class Form(Generic[T]):
    """A kind of document: its schema file, what people call it, the option that takes it, how to read a
    well-formed one, and what no schema can say.

    ``read`` raises ``NotOfForm`` for exactly the documents that the schema refuses. ``check`` reports faults
    that a schema can't express; it is given any document, well-formed or not.
    """

    schema: str
    what: str
    option: str
    read: Callable[[Table], T]
    check: Callable[[Node, Findings], None] = lambda _root, _findings: None


def read_document(host: Host, path: str, form: Form[T], findings: Findings) -> T | None:
    """The value of a document, or None after at least one finding."""
    source = read_text(host, path, findings)
    if source is None:
        return None
    garment = _GARMENT.search(source.text)
    if garment is not None:
        findings.add(
            Finding(
                "wrong-file",
                f"this file holds a garment, not a {form.what}",
                source.span(*garment.span(1)),
                help=f"name the garment first; `{form.option}` takes a YAML file",
            )
        )
        return None
    own = Findings()
    root = read_nodes(source, own)
    value = None
    if root is not None:
        form.check(root, own)
        try:
            value = form.read(as_table(root))
        except NotOfForm:
            from garmentc.data.faults import report_faults  # jsonschema is slow to load and rarely needed

            report_faults(root, form.schema, own)
    for finding in own:
        findings.add(finding)
    return None if own.has_errors else value


def as_table(node: Node) -> Table:
    """The node as a table."""
    if not isinstance(node, Table):
        raise NotOfForm
    return node


def fields(node: Node, required: frozenset[str], optional: frozenset[str] = frozenset()) -> Mapping[str, Entry]:
    """The entries of a table that has all required names and no others than the optional ones."""
    entries = as_table(node).entries
    if not required <= entries.keys() <= required | optional:
        raise NotOfForm
    return entries


def measure_table(node: Node) -> Mapping[str, Entry]:
    """The entries of a table with at least one name, all of them names of measures."""
    entries = as_table(node).entries
    if not entries or not all(map(_MEASURE_NAME.search, entries)):
        raise NotOfForm
    return entries


def items(node: Node) -> tuple[Node, ...]:
    """The nodes of a list that is not empty."""
    if not isinstance(node, Items) or not node.nodes:
        raise NotOfForm
    return node.nodes


def label(node: Node, longest: int) -> str:
    """One line of visible text, words parted by single spaces."""
    text = _text(node)
    if len(text) > longest or not _LABEL.search(text):
        raise NotOfForm
    return text


def words(node: Node) -> str:
    """Free text that is not blank, without blanks at its ends."""
    text = _text(node)
    if len(text) > LONGEST_WORDS or not text.strip():
        raise NotOfForm
    return text.strip()


def matched(node: Node, read: Callable[[str], T | None]) -> T:
    """What ``read`` makes of a text; None from it means that the text is not of the form."""
    value = read(_text(node))
    if value is None:
        raise NotOfForm
    return value


def positive(node: Node) -> float:
    """A number above zero, at most 100 000."""
    value = node.value if isinstance(node, Leaf) else None
    if not isinstance(value, float) or not 0.0 < value <= LARGEST_NUMBER:
        raise NotOfForm
    return value


def _text(node: Node) -> str:
    if not isinstance(node, Leaf) or not isinstance(node.value, str):
        raise NotOfForm
    return node.value
