"""Body files: what is read, and every fault at its line and column."""

from __future__ import annotations

import pytest

from garmentc.data.bodies import read_body
from garmentc.data.lengths import parse_length
from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost

ILSE = """\
body: "Ilse"
measures:
  bust_girth: 88 cm
  waist_girth: 28 1/2 in
  strap_path: '380 mm'
"""


def test_a_body_is_read_in_millimetres_with_the_place_and_unit_of_every_value(read):
    body, findings = read(read_body, ILSE)
    assert findings == []
    assert body.name == "Ilse"
    assert body.origin == "own measures"
    assert str(body.span) == "given.yaml:1:7"
    assert str(body.measures_span) == "given.yaml:2:1"
    assert {name: (one.mm, one.unit, one.span.line, one.span.text) for name, one in body.measures.items()} == {
        "bust_girth": (880.0, "cm", 3, "88 cm"),
        "waist_girth": (pytest.approx(723.9), "in", 4, "28 1/2 in"),
        "strap_path": (380.0, "mm", 5, "'380 mm'"),
    }


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_places_are_right_after_umlauts_pictographs_and_other_line_ends(read, places, line_end, mark):
    text = mark + '# Größe 🧵\nbody: "Åse 🪡"\nmeasures: {"bust_girth": 88, waist_girth: wide}\n'.replace(
        "\n", line_end
    )
    _, findings = read(read_body, text)
    assert places(findings) == [
        ("bad-length", 3, 26, "88"),
        ("bad-length", 3, 43, "wide"),
    ]


def test_a_note_is_the_origin_of_the_figures(read):
    body, _ = read(read_body, 'body: "Ilse"\nnote: >\n  over a\n  thin vest\nmeasures: {bust_girth: 88 cm}\n')
    assert body.origin == "over a thin vest"


def test_several_faults_are_found_in_one_run_each_at_its_own_place(read, places):
    text = """\
bodi: "Ilse"
note: 12
measures:
  bust_girth: 88
  waist_girth: 72 furlongs
  Hip Girth: 96 cm
  neck_girth: -3 cm
  wrist_girth:
  head_girth: [56 cm]
  height: 0 cm
  shoulder_length: 12,5 cm
  knee_girth: 36 cm
  knee_girth: 37 cm
"""
    body, findings = read(read_body, text)
    assert body is None
    assert places(findings) == [
        ("missing-field", 1, 1, "bodi"),
        ("unknown-field", 1, 1, "bodi"),
        ("wrong-kind", 2, 7, "12"),
        ("bad-length", 4, 15, "88"),
        ("bad-length", 5, 16, "72 furlongs"),
        ("bad-name", 6, 3, "Hip Girth"),
        ("bad-length", 7, 15, "-3 cm"),
        ("bad-length", 8, 3, "wrist_girth"),
        ("bad-length", 9, 3, "head_girth"),
        ("bad-length", 10, 11, "0 cm"),
        ("bad-length", 11, 20, "12,5 cm"),
        ("duplicate-key", 13, 3, "knee_girth"),
    ]
    by_slug = {finding.slug: finding for finding in findings}
    assert by_slug["unknown-field"].help == "did you mean `body`?"
    assert by_slug["missing-field"].headline == "the file has no `body`"
    assert by_slug["duplicate-key"].others[0].span.line == 12
    assert findings[3].headline == "`bust_girth` is the number 88, not a length with its unit"
    assert "88 cm" in findings[3].help
    assert findings[7].headline == "`wrist_girth` is empty, not a length with its unit"


@pytest.mark.parametrize(
    ("written", "reading"),
    [
        ("no", "a truth value"),
        ("Yes", "a truth value"),
        ("off", "a truth value"),
        ("12:30", "a number to base 60"),
        ("1_000", "a number in another notation"),
        ("010", "a number to base 8"),
        ("0o17", "a number to base 8"),
        ("0x1F", "a number to base 16"),
        ("0b11", "a number to base 2"),
        ("1e3", "a number in another notation"),
        (".inf", "a number without a value"),
        (".NaN", "a number without a value"),
        ("2024-05-01", "a date"),
    ],
)
def test_words_with_two_readings_are_refused_once_and_clearly(read, places, written, reading):
    _, findings = read(read_body, f"body: Ilse\nmeasures:\n  bust_girth: {written}\n")
    assert places(findings) == [("yaml-ambiguous", 3, 15, written)]
    assert reading in findings[0].label


def test_quotes_settle_the_reading(read):
    body, findings = read(read_body, 'body: "no"\nmeasures:\n  bust_girth: "88 cm"\n')
    assert (body.name, findings) == ("no", [])


@pytest.mark.parametrize("name", ["no", "true", "null", "on", "010"])
def test_names_with_two_readings_are_refused(read, places, name):
    _, findings = read(read_body, f"body: Ilse\nmeasures:\n  bust_girth: 88 cm\n  {name}: 3 cm\n")
    assert places(findings) == [("yaml-ambiguous", 4, 3, name)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("body: &a Ilse\nmeasures: {bust_girth: *a}\n", ("yaml-feature", 2, 24, "*a")),
        ("body: !!str Ilse\nmeasures: {bust_girth: 88 cm}\n", ("yaml-feature", 1, 7, "!!str")),
        ("body: Ilse\nmeasures: !thing\n  bust_girth: 88 cm\n", ("yaml-feature", 2, 11, "!thing")),
        ("body: Ilse\nmeasures: {bust_girth: 88 cm}\n---\nbody: Tove\n", ("yaml-feature", 3, 1, "---")),
        ("body: Ilse\nmeasures:\n  bust_girth: 88 cm\n  [a]: 3 cm\n", ("yaml-feature", 4, 3, "[")),
        ('body: "Il\\0se"\nmeasures: {bust_girth: 88 cm}\n', ("yaml-feature", 1, 7, '"Il\\0se"')),
        ("body: Ilse: tall\n", ("yaml-syntax", 1, 11, ":")),
        ("body: Ilse\nmeasures:\n\tbust_girth: 88 cm\n", ("yaml-syntax", 3, 1, "\t")),
        ("", ("wrong-kind", 1, 1, "")),
        ("# nothing yet\n", ("wrong-kind", 1, 1, "#")),
        ("- body\n", ("wrong-kind", 1, 1, "-")),
        ("body: Ilse\nmeasures: {}\n", ("bad-value", 2, 1, "measures")),
        ("chart: Women\nsizes: ['1']\nmeasures: {}\n", ("wrong-file", 1, 1, "chart")),
        ('body: "Il  se"\nmeasures: {bust_girth: 88 cm}\n', ("bad-value", 1, 7, '"Il  se"')),
        ('body: ""\nmeasures: {bust_girth: 88 cm}\n', ("bad-value", 1, 7, '""')),
        (f"body: {'e' * 81}\nmeasures: {{bust_girth: 88 cm}}\n", ("bad-value", 1, 7, "e" * 81)),
    ],
)
def test_every_malformed_kind_has_its_finding(read, places, text, expected):
    body, findings = read(read_body, text)
    assert body is None
    assert places(findings) == [expected]
    assert findings[0].help


@pytest.mark.parametrize(
    ("data", "slug", "line", "column"),
    [
        ("body: Åse".encode("latin-1"), "file-not-text", 1, 7),
        ("body: Ilse\n".encode("utf-16"), "file-not-text", 1, 1),
        (b"body: Ilse\nmeasures: \x00\x01\x02", "file-not-text", 2, 11),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "file-not-text", 1, 1),
        (b"# " + b"x" * 1_000_000, "file-too-large", 1, 1),
    ],
)
def test_files_that_are_no_text_or_too_large_are_refused(read, data, slug, line, column):
    body, findings = read(read_body, data)
    assert body is None
    assert [(f.slug, f.span.line, f.span.column) for f in findings] == [(slug, line, column)]


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        "{a: " * 50_000,
        "? " * 50_000,
        "- " * 50_000,
        "a: &a [x, x]\nb: &b [*a, *a]\nc: &c [*b, *b]\n" + "d: [*c, *c]\n" * 1000,
        "a: [" + "*a, " * 100_000 + "]",
    ],
)
def test_deep_nesting_and_alias_bombs_end_in_a_few_findings(read, text):
    body, findings = read(read_body, text)
    assert body is None
    assert 1 <= len(findings) <= 60
    assert findings[0].slug in {"yaml-feature", "yaml-syntax"}


def test_a_large_list_of_mixed_values_is_refused_quickly(read):
    text = "body: Ilse\nmeasures: [" + "1, {a: b}, x, " * 5_000 + "]\n"
    body, findings = read(read_body, text)
    assert body is None
    assert [f.slug for f in findings] == ["wrong-kind"]


def test_a_missing_file_and_a_folder_are_findings(tmp_path):
    for path in (tmp_path / "none.yaml", tmp_path):
        findings = Findings()
        assert read_body(DiskHost(), str(path), findings) is None
        assert [f.slug for f in findings] == ["file-unreadable"]


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("88 cm", 880.0),
        ("88cm", 880.0),
        ("0.88 m", 880.0),
        ("880 mm", 880.0),
        ("1 in", 25.4),
        ("34 1/2 in", 876.3),
        ("1/2 in", 12.7),
        ("5/8 inch", 15.875),
    ],
)
def test_lengths(text, mm):
    assert parse_length(text) == pytest.approx(mm, abs=1e-9)


@pytest.mark.parametrize(
    "text",
    [
        "88",
        "",
        "cm",
        "0 cm",
        "0.0 m",
        "-1 cm",
        "1/0 in",
        "0/2 in",
        "1e3 cm",
        "8,5 cm",
        "8 CM",
        "8  cm",
        "1 2 cm",
        " 8 cm",
        "1_0 cm",
        "٣ cm",
        "1234567 cm",
        "nan cm",
        "inf cm",
        "1/2/3 in",
        "8 ft",
        ".",
    ],
)
def test_what_is_no_length(text):
    assert parse_length(text) is None


@pytest.mark.parametrize(
    ("written", "meant"), [("88,5 cm", "88.5 cm"), ("88,5cm", "88.5cm"), ('"88,5 cm"', "88.5 cm"), ("88,5", "88.5")]
)
def test_a_decimal_comma_is_told(read, written, meant):
    _, (finding,) = read(read_body, f"body: Ilse\nmeasures:\n  bust_girth: {written}\n")
    assert (finding.slug, finding.help) == ("bad-length", f"decimals have a point: write {meant}")


def test_a_list_of_numbers_is_no_decimal_comma(read):
    _, (finding,) = read(read_body, "body: Ilse\nmeasures:\n  bust_girth: 88,5,3 cm\n")
    assert "decimals" not in finding.help


def test_a_garment_is_no_body(read):
    _, (finding,) = read(read_body, '# a top\ngarment ruff "Ruff"\nedition 1\nmeasure bust_girth\n')
    assert (finding.slug, finding.span.text, finding.span.line) == ("wrong-file", "garment", 2)
    assert finding.headline == "this file holds a garment, not a body"
    assert "`--body`" in finding.help
