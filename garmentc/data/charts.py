"""A size chart: one column per measure, one body per size."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from garmentc.data.forms import (
    LONGEST_SIZE,
    LONGEST_TITLE,
    Form,
    NotOfForm,
    fields,
    items,
    label,
    matched,
    measure_table,
    positive,
    read_document,
    words,
)
from garmentc.data.model import Body, Measured
from garmentc.data.nodes import Entry, Items, Node, Table
from garmentc.data.words import count, quoted
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import did_you_mean
from garmentc.host import Host
from garmentc.numbers import MM_PER_UNIT
from garmentc.source import Span

_TIGHT_COMMA = re.compile(r"\d,\d")
_COMMA_NOTE = "a comma parts two values: decimals have a point, as in 88.5"


@dataclass(frozen=True, slots=True)
class Chart:
    """The sizes of a chart as bodies, in the order of the file.

    ``source_note`` says in words where the chart comes from and how sure that is; ``origins`` says it for
    every measure by name. ``span`` is where the file lists its sizes.
    """

    title: str
    source_note: str
    bodies: tuple[Body, ...]
    origins: Mapping[str, str]
    span: Span

    def only(self, names: Iterable[str], findings: Findings) -> Chart:
        """The chart cut down to the named sizes, in its own order; a name it lacks is an ``unknown-size``."""
        wanted = dict.fromkeys(names)
        known = [body.name for body in self.bodies]
        unknown = [name for name in wanted if name not in known]
        if unknown:
            guesses = [guess for name in unknown if (guess := did_you_mean(name, known))]
            findings.add(
                Finding(
                    "unknown-size",
                    f"`{self.title}` has no size {quoted(unknown)}",
                    self.span,
                    label="the sizes of this chart",
                    notes=(f"it has {quoted(known)}",),
                    help="; ".join(guesses) or "ask for sizes that the chart lists",
                )
            )
        return replace(self, bodies=tuple(body for body in self.bodies if body.name in wanted))


def read_chart(host: Host, path: str, findings: Findings) -> Chart | None:
    """A size chart from a YAML file of the shipped ``chart`` schema; None after at least one finding.

    Besides faults of form: ``values-per-size`` where a measure has not one value for each size.
    """
    return read_document(host, path, _FORM, findings)


@dataclass(frozen=True, slots=True)
class _Column:
    values: tuple[Measured, ...]
    origin: str


def _chart(root: Table) -> Chart:
    entries = fields(root, frozenset({"chart", "source", "sizes", "measures"}))
    title = label(entries["chart"].node, LONGEST_TITLE)
    sizes = {label(node, LONGEST_SIZE): node.span for node in items(entries["sizes"].node)}
    if len(sizes) < len(items(entries["sizes"].node)):
        raise NotOfForm
    measures = entries["measures"]
    columns = {name: _column(entry) for name, entry in measure_table(measures.node).items()}
    return Chart(
        title=title,
        source_note=words(entries["source"].node),
        bodies=tuple(
            Body(
                name=size,
                measures={name: column.values[at] for name, column in columns.items() if at < len(column.values)},
                span=span,
                measures_span=measures.key,
                origin=title,
                is_size=True,
            )
            for at, (size, span) in enumerate(sizes.items())
        ),
        origins={name: column.origin for name, column in columns.items()},
        span=entries["sizes"].key,
    )


def _column(entry: Entry) -> _Column:
    entries = fields(entry.node, frozenset({"unit", "values", "origin"}))
    unit = matched(entries["unit"].node, lambda text: text if text in MM_PER_UNIT else None)
    return _Column(
        values=tuple(
            Measured(positive(node) * MM_PER_UNIT[unit], node.span, unit, entry.key)
            for node in items(entries["values"].node)
        ),
        origin=words(entries["origin"].node),
    )


def _check_counts(root: Node, findings: Findings) -> None:
    """Every measure needs one value for each size, whatever else is wrong with the chart."""
    sizes = _list_at(root, "sizes")
    if sizes is None:
        return
    for name, entry in _table_at(root, "measures").items():
        values = _list_at(entry.node, "values")
        if values is None:
            continue
        wanted, given = len(sizes[1].nodes), len(values[1].nodes)
        if wanted != given:
            findings.add(
                Finding(
                    "values-per-size",
                    f"`{name}` has {count(given, 'value')} for {count(wanted, 'size')}",
                    values[0],
                    label=count(given, "value"),
                    others=(Label(sizes[0], count(wanted, "size")),),
                    notes=(_COMMA_NOTE,) if given > wanted and _holds_comma(values[1].span) else (),
                    help=f"give `{name}` one value for each size, in the order of the sizes",
                )
            )


def _holds_comma(opening: Span) -> bool:
    """Whether a list on one line parts two numbers without a space, as a decimal comma would look."""
    text = opening.source.text
    return bool(_TIGHT_COMMA.search(text, opening.start, text.find("]", opening.start) + 1 or len(text)))


def _table_at(node: Node, name: str) -> Mapping[str, Entry]:
    entry = node.entries.get(name) if isinstance(node, Table) else None
    return entry.node.entries if entry is not None and isinstance(entry.node, Table) else {}


def _list_at(node: Node, name: str) -> tuple[Span, Items] | None:
    entry = node.entries.get(name) if isinstance(node, Table) else None
    return (entry.key, entry.node) if entry is not None and isinstance(entry.node, Items) else None


_FORM = Form("chart.schema.json", "size chart", "--sizes", _chart, _check_counts)
