"""Tables of bodies as spreadsheets save them."""

from __future__ import annotations

import csv
import io

import pytest

from garmentc.data.model import Body
from garmentc.data.tables import read_table, repeated
from garmentc.diagnostics.finding import Findings
from tests.support import MemoryHost


def bodies(text: str) -> tuple[list[Body | None], list[str]]:
    """The bodies of a table, and where it has which finding, as ``line:column slug``."""
    findings = Findings()
    table = read_table(MemoryHost({"bodies.csv": text}), "bodies.csv", findings)
    found = [] if table is None else [table.body(row, findings) for row in table.rows]
    return found, [f"{one.span.line}:{one.span.column} {one.slug}" for one in findings]


def test_units_stand_with_the_column_or_in_the_cell() -> None:
    (one, two), faults = bodies(
        "body,bust_girth cm,strap_path (in),waist_girth\nAda,88.5,15 3/4,70 cm\nBea,34 1/2 in,16,690 mm\n"
    )
    assert faults == []
    assert one is not None
    assert two is not None
    assert {name: measured.mm for name, measured in one.measures.items()} == pytest.approx(
        {"bust_girth": 885.0, "strap_path": 15.75 * 25.4, "waist_girth": 700.0}
    )
    assert two.measures["bust_girth"].mm == pytest.approx(34.5 * 25.4)
    assert two.measures["waist_girth"].span.text == "690 mm"


@pytest.mark.parametrize("part", [";", "\t"])
def test_other_separators_and_decimal_commas(part: str) -> None:
    (one,), faults = bodies(
        part.join(["body", "note", "bust_girth cm"]) + "\r\n" + part.join(["Ada", "", "88,5"]) + "\r\n"
    )
    assert faults == []
    assert one is not None
    assert one.measures["bust_girth"].mm == pytest.approx(885.0)


def test_what_the_csv_module_of_python_writes_is_read() -> None:
    names = ['Ada, "the tall one"', "Bea; c/o Ruth", "  Cleo"]
    stream = io.StringIO()
    csv.writer(stream).writerows([["body", "bust_girth cm", "note"], *([name, "88", "a, b"] for name in names)])
    found, faults = bodies(stream.getvalue())
    assert faults == []
    assert [body.name for body in found if body] == [name.strip() for name in names]
    assert [body.origin for body in found if body] == ["a, b"] * 3


def test_an_empty_cell_is_a_measure_not_taken_and_an_empty_line_is_nothing() -> None:
    found, faults = bodies("body,bust_girth cm,hip_girth cm,,\n\nAda,88,,,\n,,,,\n")
    assert faults == []
    assert [list(body.measures) for body in found if body] == [["bust_girth"]]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "1:1 bad-table"),
        ("body,bust_girth cm\n", "1:1 bad-table"),
        ("name_of,bust_girth cm\nAda,88\n", "1:1 bad-table"),
        ("body,note\nAda,tall\n", "1:1 bad-table"),
        ("body,Bust Girth\nAda,88\n", "1:6 bad-name"),
        ("body,,bust_girth cm\nAda,,88\n", "1:1 bad-name"),
        ("body,bust_girth cm,bust_girth in\nAda,88,34\n", "1:20 bad-table"),
        ("body,bust_girth cm\nAda,92,5\n", "2:8 bad-table"),
        ("body,bust_girth cm,hip_girth cm\nAda,92\n", "2:1 bad-table"),
        ("body,bust_girth cm\n,92\n", "2:1 bad-table"),
        ('body,bust_girth cm\n"Ada,92\n', "2:1 bad-table"),
        ("body,bust_girth\nAda,92\n", "2:5 bad-length"),
        ("body,bust_girth cm\nAda,0\n", "2:5 bad-length"),
        ("body,bust_girth cm\nAda,-3\n", "2:5 bad-length"),
        ('body,bust_girth mm\nAda,"1,200"\n', "2:6 bad-length"),
        ('garment tern "Tern"\n', "1:1 wrong-file"),
        ("# a note\nbody: Ada\n", "2:1 wrong-file"),
    ],
)
def test_faults_are_found_at_their_place(text: str, fault: str) -> None:
    found, faults = bodies(text)
    assert faults == [fault]
    assert not any(found)


def test_a_name_may_be_given_once() -> None:
    findings = Findings()
    table = read_table(MemoryHost({"t.csv": "body,bust_girth cm\nAda,88\nBea,90\nAda,91\n"}), "t.csv", findings)
    assert table is not None
    assert [(at, fault.span.line) for at, fault in repeated(table)] == [(2, 4)]
