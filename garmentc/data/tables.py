"""A table of bodies, as a spreadsheet saves it: one body in each row, one measure in each column.

The first row names the columns. ``body`` holds the names, ``note`` (not needed) words about them, ``set NAME`` what a
param, ease or choice of the garment is set to for this body, and every other column a measure, with its unit behind its
name (``bust_girth cm``) or in each cell (``88 cm``). Columns are parted by commas, semicolons or tabs.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from garmentc.data.forms import LABEL_PATTERN, LONGEST_TITLE, MEASURE_NAME_PATTERN
from garmentc.data.lengths import split_length
from garmentc.data.model import Body, Measured
from garmentc.data.words import count, short
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.host import Host
from garmentc.numbers import MM_PER_UNIT
from garmentc.reading import read_text
from garmentc.record import Record
from garmentc.source import Source, Span

NAME, NOTE = "body", "note"
_MOST_BYTES = 20_000_000
_HEADING = re.compile(r"(.*?)(?:\s+(mm|cm|m|in|inch)|\s*[(\[]\s*(mm|cm|m|in|inch)\s*[)\]])?")
_SETTING = re.compile(r"set\s+([A-Za-z_][\w.]*)")
_DECIMAL_COMMA = re.compile(r"(\d+),(\d{1,2})(?!\d)")
_LABEL, _MEASURE_NAME = re.compile(LABEL_PATTERN), re.compile(MEASURE_NAME_PATTERN)
_OTHER = re.compile(r'^(garment(?=[ \t]+[\w"])|(?:body|chart|cloth)(?=[ \t]*:))', re.MULTILINE)
_KINDS = {"garment": "a garment", "body": "one body", "chart": "a size chart", "cloth": "a cloth"}
_PARTS = (";", "\t", ",")


class Cell(Record):
    """What a cell holds, without quotes and outer blanks, and where it stands."""

    text: str
    span: Span


class Column(Record):
    """A column by the name of its measure; ``unit`` is that of cells that have none of their own.

    ``sets`` names the param, ease or choice that its cells set; then it holds no measure.
    """

    name: str
    unit: str
    span: Span
    sets: str = ""


class BodyTable(Record):
    """The rows of a table by where they stand; each is read when it is asked for."""

    source: Source
    part: str
    columns: tuple[Column, ...]
    rows: tuple[Span, ...]

    def body(self, row: Span, findings: Findings) -> Body | None:
        """The body of a row; None after a finding: ``bad-table``, ``bad-length``."""
        faults = Findings()
        cells = list(_cells(row, self.part, faults))
        if len(faults):
            findings.add(next(iter(faults)))
            return None
        spare = [cell for cell in cells[len(self.columns) :] if cell.text]
        if len(cells) < len(self.columns) or spare:
            told = f"this row has {count(len(cells), 'cell')} for {count(len(self.columns), 'column')}"
            help = "give each column a cell, empty where nothing is known"
            if self.part == "," and len(cells) > len(self.columns):
                help += "; a comma parts two cells, so decimals have a point, as in 88.5"
            findings.add(_fault(told, spare[0].span if spare else row, help=help))
            return None
        named = {column.name: cell for column, cell in zip(self.columns, cells, strict=False)}
        name = named[NAME]
        if len(name.text) > LONGEST_TITLE or not _LABEL.search(name.text):
            help = f"give each body a name of 1 to {LONGEST_TITLE} characters: its files go into a folder named so"
            findings.add(_fault("this row does not name its body", name.span if name.text else row, help=help))
            return None
        measures: dict[str, Measured] = {}
        for column, cell in zip(self.columns, cells, strict=False):
            if column.name not in (NAME, NOTE) and not column.sets and cell.text:
                length = _length(cell, column)
                if length is None:
                    faults.add(_not_a_length(cell, column))
                else:
                    measures[column.name] = Measured(
                        length[0] * MM_PER_UNIT[length[1]], cell.span, length[1], column.span
                    )
        for fault in faults:
            findings.add(fault)
        note = named[NOTE].text if NOTE in named else ""
        return None if len(faults) else Body(name.text, measures, name.span, name.span, note or "own measures")

    def settings(self, row: Span) -> dict[str, Cell]:
        """What a row that can be read sets, by the name of the param, ease or choice."""
        cells = _cells(row, self.part, Findings())
        return {one.sets: cell for one, cell in zip(self.columns, cells, strict=False) if one.sets and cell.text}

    def name(self, row: Span) -> Cell:
        """The cell with the name of the body of a row, empty where there is none."""
        at = next(i for i, column in enumerate(self.columns) if column.name == NAME)
        cells = list(_cells(row, self.part, Findings()))
        return cells[at] if at < len(cells) else Cell("", row)


def read_table(host: Host, path: str, findings: Findings) -> BodyTable | None:
    """A table of bodies from a CSV file; None after a finding: ``bad-table``, ``bad-name``, ``wrong-file``."""
    source = read_text(host, path, findings, most=_MOST_BYTES)
    if source is None:
        return None
    other = _OTHER.search(source.text)
    if other is not None:
        told = f"this file holds {_KINDS[other[1]]}, not a table of bodies"
        help = "`--bodies` takes a CSV file; `--body` takes one person's measures, `--sizes` a chart"
        findings.add(Finding("wrong-file", told, source.span(*other.span(1)), help=help))
        return None
    lines = list(_lines(source))
    if not lines:
        findings.add(_fault("this table is empty", source.whole(), help=_FORM))
        return None
    heading, *rows = lines
    part = max(_PARTS, key=heading.text.count)
    own = Findings()
    columns = _columns(heading, part, own)
    if not rows and not own.has_errors:
        own.add(
            _fault("this table has no body, only the names of its columns", heading, help="add a row for each body")
        )
    for finding in own:
        findings.add(finding)
    return None if own.has_errors else BodyTable(source, part, columns, tuple(rows))


def repeated(table: BodyTable) -> Iterator[tuple[int, Finding]]:
    """The rows (by number from 0) whose body has a name that an earlier row has given away."""
    first: dict[str, Cell] = {}
    for at, row in enumerate(table.rows):
        name = table.name(row)
        known = first.setdefault(name.text, name)
        if known is not name and name.text:
            help = "give the second another name: its files go into a folder named so"
            others = (Label(known.span, "the first"),)
            yield (
                at,
                Finding(
                    "repeated-item",
                    f"there are two bodies named `{short(name.text)}`",
                    name.span,
                    "",
                    others,
                    help=help,
                ),
            )


_FORM = "begin with a row such as `body,bust_girth cm,waist_girth cm`, and give each body a row below it"


def _columns(heading: Span, part: str, findings: Findings) -> tuple[Column, ...]:
    cells = list(_cells(heading, part, findings))
    while cells and not cells[-1].text:
        cells.pop()
    columns: dict[str, Column] = {}
    for cell in cells:
        found, sets = _HEADING.fullmatch(cell.text), _SETTING.fullmatch(cell.text)
        assert found is not None
        name, unit = found[1], found[2] or found[3] or ""
        if sets is not None:
            name, unit = f"set {sets[1]}", ""
        elif not _MEASURE_NAME.search(name):
            told = f"`{short(name)}` can't be the name of a measure" if name else "a column has no name"
            help = "write small letters, digits and `_`, as in `bust_girth cm`"
            findings.add(Finding("bad-name", told, cell.span if name else heading, help=help))
        if name in columns:
            others = (Label(columns[name].span, "the first"),)
            findings.add(_fault(f"two columns are named `{name}`", cell.span, others=others, help="keep one of them"))
        columns.setdefault(name, Column(name, unit, cell.span, sets[1] if sets else ""))
    if NAME not in columns and not findings.has_errors:
        findings.add(_fault(f"no column is named `{NAME}`", heading, help=_FORM))
    if all(name in (NAME, NOTE) or one.sets for name, one in columns.items()) and not findings.has_errors:
        findings.add(_fault("no column holds a measure", heading, help=_FORM))
    return tuple(columns.values())


def _length(cell: Cell, column: Column) -> tuple[float, str] | None:
    text = _DECIMAL_COMMA.sub(r"\1.\2", cell.text)
    return split_length(text) or (split_length(f"{text} {column.unit}") if column.unit else None)


def _not_a_length(cell: Cell, column: Column) -> Finding:
    bare = column.unit == "" and split_length(f"{cell.text} mm") is not None
    help = "write a positive number and its unit, mm, cm, m or in: 88 cm, 88.5 cm, 34 1/2 in"
    if bare:
        help = f"name its unit here, `{cell.text} cm`, or once for the column: `{column.name} cm`"
    elif column.unit:
        help = f"write a positive number of {column.unit}, or one with another unit: 88.5, 34 1/2 in"
    return Finding(
        "bad-length", f"`{column.name}` is `{short(cell.text)}`, not a length with its unit", cell.span, help=help
    )


def _fault(headline: str, span: Span, *, others: tuple[Label, ...] = (), help: str) -> Finding:
    return Finding("bad-table", headline, span, "", others, help=help)


def _lines(source: Source) -> Iterator[Span]:
    """The lines that hold anything but separators and blanks."""
    start = 0
    for line in source.text.split("\n"):
        text = line.rstrip("\r")
        if text.strip(" \t,;"):
            yield source.span(start, start + len(text))
        start += len(line) + 1


def _cells(line: Span, part: str, findings: Findings) -> Iterator[Cell]:
    """The cells of a line; one in quotes may hold what parts cells, and a quote as two."""
    text, at, parts = line.text, 0, re.escape(part)
    pattern = re.compile(rf'[ ]*"((?:[^"]|"")*)"[^{parts}]*|([^{parts}]*)')
    while at <= len(text):
        found = pattern.match(text, at)
        assert found is not None
        group = 1 if found[1] is not None else 2
        raw = found[group]
        start = line.start + found.start(group) + len(raw) - len(raw.lstrip())
        span = Span(line.source, start, max(start + len(raw.strip()), start))
        if group == 2 and raw.lstrip().startswith('"'):
            help = "end the cell with a quote on the same line"
            findings.add(_fault("this cell begins with a quote and does not end with one", span, help=help))
        yield Cell(raw.strip().replace('""', '"'), span)
        at = found.end() + 1
