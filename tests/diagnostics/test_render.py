"""Findings as people, editors and machines read them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from garmentc.diagnostics.finding import Finding, Label, Severity
from garmentc.diagnostics.render import FORMS, render, summary
from garmentc.shipped import grammar_file
from garmentc.source import Source, Span

SPEC = Source(
    "knot.garment",
    'garment knot "Knot"\nedition 1\n\npiece bib "Bib" {\n  cut 1\n  grain straight\n}\n'
    "seam side joins a.b with c.d as plain\n",
)


def at(source: Source, text: str, end: str | None = None) -> Span:
    start = source.text.index(text)
    last = source.text.index(end) + len(end) if end else start + len(text)
    return Span(source, start, last)


def checked(findings: list[Finding]) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(render(findings, "json"))
    schema = json.loads(Path(grammar_file("schemas/finding.schema.json")).read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(document, schema)
    return document


WHOLE = Finding(
    "seam-lengths-differ",
    "the two sides of seam `side` differ by 14.5 mm",
    at(SPEC, "seam side joins a.b with c.d as plain"),
    "off",
    (Label(at(SPEC, "c.d"), "59.75 cm here"), Label(at(SPEC, "cut 1"), "cut here")),
    ("they may differ by 1 mm",),
    "draw both edges by the same rule",
    sizes=("76", "80"),
)


def test_full() -> None:
    assert render([WHOLE], "full") == (
        "error[seam-lengths-differ]: the two sides of seam `side` differ by 14.5 mm\n"
        " --> knot.garment:8:1\n"
        "  |\n"
        "5 |   cut 1\n"
        "  |   ----- cut here\n"
        "...\n"
        "8 | seam side joins a.b with c.d as plain\n"
        "  | ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ off\n"
        "  |                          --- 59.75 cm here\n"
        "  |\n"
        "  = note: they may differ by 1 mm\n"
        "  = note: in sizes 76, 80\n"
        "  = help: draw both edges by the same rule\n"
        "  = see: garmentc explain seam-lengths-differ"
    )


def test_plain() -> None:
    assert render([WHOLE], "plain") == (
        "knot.garment:8:1: error[seam-lengths-differ]: the two sides of seam `side` differ by 14.5 mm (off); "
        "they may differ by 1 mm; draw both edges by the same rule; in sizes 76, 80"
    )


def test_json() -> None:
    document = checked([WHOLE])
    assert (document["version"], document["errors"], document["warnings"]) == (1, 1, 0)
    assert document["findings"] == [
        {
            "slug": "seam-lengths-differ",
            "severity": "error",
            "headline": "the two sides of seam `side` differ by 14.5 mm",
            "file": "knot.garment",
            "line": 8,
            "column": 1,
            "end_line": 8,
            "end_column": 38,
            "label": "off",
            "related": [
                {
                    "file": "knot.garment",
                    "line": 8,
                    "column": 26,
                    "end_line": 8,
                    "end_column": 29,
                    "label": "59.75 cm here",
                },
                {
                    "file": "knot.garment",
                    "line": 5,
                    "column": 3,
                    "end_line": 5,
                    "end_column": 8,
                    "label": "cut here",
                },
            ],
            "notes": ["they may differ by 1 mm"],
            "help": "draw both edges by the same rule",
            "sizes": ["76", "80"],
            "page": "garmentc explain seam-lengths-differ",
        }
    ]


def test_several_findings() -> None:
    warning = Finding("unused-name", "unused", at(SPEC, "edition 1"), severity=Severity.WARNING)
    both = [WHOLE, warning]
    assert render(both, "full") == f"{render([WHOLE], 'full')}\n\n{render([warning], 'full')}"
    assert len(render(both, "plain").splitlines()) == 2
    assert checked(both)["warnings"] == 1
    assert summary(both) == "1 error, 1 warning"
    assert summary([WHOLE, WHOLE]) == "2 errors"
    assert summary([]) == "no errors, no warnings"


def test_no_findings() -> None:
    assert render([], "full") == render([], "plain") == ""
    assert checked([])["findings"] == []


def test_an_unknown_form() -> None:
    with pytest.raises(ValueError, match="full, plain, json"):
        render([], "loud")


def excerpt_of(source: Source, span: Span, label: str = "here") -> list[str]:
    """The lines between the two empty margins."""
    lines = render([Finding("ring", "x", span, label)], "full").splitlines()
    bars = [i for i, line in enumerate(lines) if line.strip() == "|"]
    return lines[bars[0] + 1 : bars[-1]]


def test_a_stretch_over_several_lines() -> None:
    assert excerpt_of(SPEC, at(SPEC, 'piece bib "Bib" {', "}")) == [
        '4 | piece bib "Bib" {',
        "  | ^^^^^^^^^^^^^^^^^ from here",
        "...",
        "7 | }",
        "  | ^ to here: here",
    ]
    assert excerpt_of(SPEC, at(SPEC, "cut 1", "straight"), "") == [
        "5 |   cut 1",
        "  |   ^^^^^ from here",
        "6 |   grain straight",
        "  |   ^^^^^^^^^^^^^^ to here",
    ]


def test_a_line_between_two_marks_is_shown() -> None:
    finding = Finding("ring", "x", at(SPEC, "cut 1"), "one", (Label(at(SPEC, "piece bib"), "other"),))
    near = Finding("ring", "x", at(SPEC, "grain"), "one", (Label(at(SPEC, "piece bib"), "other"),))
    assert "..." not in render([finding], "full")
    assert "5 |   cut 1\n6 |   grain straight" in render([near], "full")


@pytest.mark.parametrize("text", ["", "\n", "ab", "ab\n", "ab\r\n", "\r\n\r\n"])
@pytest.mark.parametrize("form", FORMS)
def test_places_at_the_end_of_a_file(text: str, form: str) -> None:
    source = Source("heron.garment", text)
    for start in range(len(text) + 1):
        for end in range(start, len(text) + 1):
            shown = render([Finding("ring", "x", Span(source, start, end), "here")], form)
            assert "x" in shown
            assert "here" in shown
            assert "\r" not in shown


def test_an_empty_file_has_no_lines_to_show() -> None:
    source = Source("heron.garment", "")
    assert render([Finding("no-header", "nothing here", source.whole(), "empty")], "full") == (
        "error[no-header]: nothing here\n --> heron.garment:1:1\n  = note: empty\n  = see: garmentc explain no-header"
    )


def test_the_end_of_a_text_is_marked_after_its_last_character() -> None:
    source = Source("heron.garment", "seam a")
    assert excerpt_of(source, Span(source, 6, 6)) == ["1 | seam a", "  |       ^ here"]


def test_line_ends_of_two_characters() -> None:
    source = Source("heron.garment", "edition 1\r\nseam a b\r\n")
    assert excerpt_of(source, at(source, "a b")) == ["2 | seam a b", "  |      ^^^ here"]
    assert excerpt_of(source, at(source, "1\r\nseam")) == [
        "1 | edition 1",
        "  |         ^ from here",
        "2 | seam a b",
        "  | ^^^^ to here: here",
    ]


@pytest.mark.parametrize(
    ("line", "underline"),
    [
        ('title "é" cut', "          ^^^ here"),
        ('title "e\u0301" cut', "          ^^^ here"),
        ('title "布地" cut', "             ^^^ here"),
        ('title "🧵" cut', "           ^^^ here"),
        ("title\tcut", "        ^^^ here"),
        ("\tcut", "    ^^^ here"),
    ],
)
def test_columns_on_the_screen(line: str, underline: str) -> None:
    source = Source("heron.garment", line)
    assert excerpt_of(source, at(source, "cut")) == [f"1 | {line}".replace("\t", _stop(line)), f"  | {underline}"]


def _stop(line: str) -> str:
    return " " * (4 - line.index("\t") % 4) if "\t" in line else ""


def test_json_counts_code_points() -> None:
    source = Source("heron.garment", 'a "布地🧵é" cut')
    place = checked([Finding("ring", "x", at(source, "cut"))])["findings"][0]
    assert (place["column"], place["end_column"]) == (10, 13)


def test_long_lines_are_cut_round_the_place() -> None:
    source = Source("heron.garment", "a" * 300 + " cut " + "b" * 300)
    shown = excerpt_of(source, at(source, "cut"))
    assert all(len(line) <= 110 for line in shown)
    assert shown[0].startswith("1 | …")
    assert shown[0].endswith("…")
    column = shown[0].index("cut")
    assert shown[1].index("^^^") == column
    whole = excerpt_of(source, Span(source, 0, 605))
    assert max(map(len, whole)) <= 120


def test_what_a_terminal_would_obey_is_not_sent_to_it() -> None:
    source = Source("a\x1b[2Jb.garment", "cut \x1b[31m\u202e\ud800 one")
    finding = Finding("ring", "a\nb \x07", at(source, "one"), "c\rd", (), ("e\x1bf",), "g\nh", sizes=("\x1b8",))
    for form in ("full", "plain"):
        shown = render([finding], form)
        assert not any(mark in shown for mark in "\x1b\r\x07\u202e\ud800")
        shown.encode()
    assert len(render([finding], "plain").splitlines()) == 1
    checked([finding])


def test_places_in_another_file() -> None:
    body = Source("body.yaml", "body: Kari\nmeasures:\n")
    finding = Finding("missing-measures", "x", at(body, "measures"), "add", (Label(at(SPEC, "bib"), "declared here"),))
    assert render([finding], "full") == (
        "error[missing-measures]: x\n"
        " --> body.yaml:2:1\n"
        "  |\n"
        "2 | measures:\n"
        "  | ^^^^^^^^ add\n"
        "  |\n"
        " ::: knot.garment:4:7\n"
        "  |\n"
        '4 | piece bib "Bib" {\n'
        "  |       --- declared here\n"
        "  |\n"
        "  = see: garmentc explain missing-measures"
    )


@pytest.mark.parametrize(
    ("sizes", "looked_at", "words"),
    [
        (("88",), 1, "in size 88"),
        (("Ilse",), 1, "for Ilse"),
        (("S", "M"), 2, "in sizes S, M"),
        (("S", "M", "L"), 3, "in all 3 sizes"),
        (("S", "M", "L"), 4, "in sizes S, M, L"),
        (tuple(map(str, range(1, 11))), 12, "in sizes 1, 2, 3, 4, 5, 6, 7, 8 and 2 more"),
    ],
)
def test_sizes_in_words(sizes: tuple[str, ...], looked_at: int, words: str) -> None:
    shown = render([Finding("ring", "x", at(SPEC, "cut 1"), sizes=sizes, of_sizes=looked_at)], "full")
    assert f"= note: {words}\n" in shown


def test_a_form_is_loaded_when_it_is_asked_for() -> None:
    program = (
        "import sys; from garmentc.diagnostics.render import render;"
        "print(sorted(m for m in sys.modules if m.startswith('garmentc.diagnostics.render.')))"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
