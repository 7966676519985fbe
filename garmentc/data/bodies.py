"""Reads a body: the measures one person is drafted from."""

from __future__ import annotations

from garmentc.data.forms import (
    LONGEST_TITLE,
    Form,
    fields,
    label,
    matched,
    measure_table,
    read_document,
    words,
)
from garmentc.data.lengths import split_length
from garmentc.data.model import Body, Measured
from garmentc.data.nodes import Entry, Table
from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.numbers import MM_PER_UNIT


def read_body(host: Host, path: str, findings: Findings) -> Body | None:
    """One person's measures from a YAML file of the ``body`` schema; None after at least one finding."""
    return read_document(host, path, _FORM, findings)


def _body(root: Table) -> Body:
    entries = fields(root, frozenset({"body", "measures"}), frozenset({"note"}))
    title = entries["body"]
    measures = entries["measures"]
    return Body(
        name=label(title.node, LONGEST_TITLE),
        measures={name: _measured(entry) for name, entry in measure_table(measures.node).items()},
        span=title.span,
        measures_span=measures.key,
        origin=words(entries["note"].node) if "note" in entries else "own measures",
    )


def _measured(entry: Entry) -> Measured:
    number, unit = matched(entry.node, split_length)
    return Measured(number * MM_PER_UNIT[unit], entry.span, unit, entry.key)


_FORM = Form("body.schema.json", "body", "--body", _body)
