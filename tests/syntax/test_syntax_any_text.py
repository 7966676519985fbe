"""Whatever a text holds, reading and checking it ends in findings or a result, never in a Python fault."""

import json
from collections.abc import Iterable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.design.library import Library
from garmentc.design.project import Project
from garmentc.design.resolve import resolve
from garmentc.design.settings import read_settings
from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost
from garmentc.pipeline import compile_spec
from garmentc.source import Source
from garmentc.syntax.parser import Parser
from tests.language.small import compiled, faults, panel
from tests.support import MemoryHost

HOST = DiskHost()
PARSER = Parser(HOST)
LIBRARY = Library(HOST, PARSER)
TERN = Path("specs/tern.garment").read_text(encoding="utf-8")
PLOVER = Path("specs/plover.garment").read_text(encoding="utf-8")
WORDS = sorted({*json.dumps(TERN + PLOVER).replace('\\"', '"').split(), "{", "}", "(", ")", '"', "\n", ";", "->"})


def checked(text: str) -> Findings:
    """A text read and checked as far as no body is needed; places have to lie inside it."""
    findings = Findings()
    source = Source("knot.garment", text)
    file = Project(MemoryHost({}), PARSER).file(source, findings)
    design = resolve(file, LIBRARY, {}, findings)
    assert (design is None) == findings.has_errors
    for finding in findings:
        for span in (finding.span, *(label.span for label in finding.others)):
            assert 0 <= span.start <= span.end <= len(span.source.text) + 1
            assert span.line <= span.source.line_count
        assert finding.headline and finding.slug
    return findings


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.text(max_size=300))
def test_any_text(text: str) -> None:
    assert len(checked(text)) > 0


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(st.sampled_from(WORDS), max_size=80))
def test_any_words_of_the_language(words: list[str]) -> None:
    checked(" ".join(words))


@settings(max_examples=100, deadline=None, derandomize=True)
@given(st.binary(max_size=400))
def test_any_bytes(data: bytes) -> None:
    made = compile_spec(MemoryHost({"knot.garment": data}), "knot.garment")
    assert made.design is None and len(made.findings) > 0


@settings(max_examples=120, deadline=None, derandomize=True)
@given(data=st.data())
def test_slices_left_out_doubled_and_swapped(data: st.DataObject) -> None:
    text = data.draw(st.sampled_from([TERN, PLOVER]))
    for _ in range(data.draw(st.integers(1, 3))):
        cuts = sorted(data.draw(st.integers(0, len(text))) for _ in range(4))
        a, b, c, d = cuts
        how = data.draw(st.sampled_from(["out", "double", "swap", "sign"]))
        if how == "out":
            text = text[:a] + text[min(b, a + 40) :]
        elif how == "double":
            text = text[:a] + 2 * text[a:b] + text[b:]
        elif how == "swap":
            text = text[:a] + text[c:d] + text[b:c] + text[a:b] + text[d:]
        else:
            text = text[:a] + data.draw(st.sampled_from(list('{}()";,=:->#\n 5'))) + text[a:]
    checked(text)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(data=st.data())
def test_lines_left_out_doubled_and_swapped(data: st.DataObject) -> None:
    """Whole lines moved: most of these are read, and fail in their meaning, so drafting is tried as well."""
    lines = data.draw(st.sampled_from([TERN, PLOVER])).splitlines(keepends=True)
    i, j = (data.draw(st.integers(0, len(lines) - 1)) for _ in range(2))
    how = data.draw(st.sampled_from(["out", "double", "swap"]))
    if how == "out":
        del lines[i]
    elif how == "double":
        lines.insert(j, lines[i])
    else:
        lines[i], lines[j] = lines[j], lines[i]
    made = compiled("".join(lines))
    assert made.made or len(made.findings) > 0


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.lists(st.text(max_size=60), max_size=4))
def test_any_setting(texts: list[str]) -> None:
    read_settings(texts, PARSER, Findings())
    read_settings([f"q={text}" for text in texts], PARSER, Findings())


# ---- much of one thing


DEEP = 20_000


@pytest.mark.parametrize(
    "text",
    [
        "x = " + "(" * DEEP + "1 cm" + ")" * DEEP,
        "x = " + "(" * DEEP,
        "x = " + "min(" * DEEP + "1 cm" + ")" * DEEP,
        "when a is b { " * DEEP + "}" * DEEP,
        "{" * DEEP,
        "x = (1 cm, " * DEEP,
    ],
    ids=["brackets", "open brackets", "calls", "when", "open braces", "points"],
)
def test_deep_nesting_is_refused_in_words(text: str) -> None:
    assert "nested-too-deep" in [one.slug for one in checked(text)]


def test_nesting_has_no_consequences() -> None:
    assert [one.slug for one in faults(panel(below="x = " + "(" * 200 + "1 cm" + ")" * 200))] == ["nested-too-deep"]


def test_nesting_that_is_allowed_is_read() -> None:
    assert faults(panel(below="x = " + "(" * 60 + "1 cm" + ")" * 60)) == []
    choice = "param q : choice a, b = a\n"
    assert faults(panel(below=choice + "when q is a { " * 60 + "x = 1 cm" + "}" * 60)) == []


LONG = {
    "sums": "x = " + " + ".join(["1 cm"] * 10_000),
    "products": "x = 1 cm * " + " * ".join(["1"] * 10_000),
    "nots": "x = " + "not " * 10_000 + "1 cm < 2 cm",
    "minus signs": "x = " + "- " * 10_000 + "1 cm",
    "ors": "x = " + " or ".join(["1 cm < 2 cm"] * 5_000),
    "moves": "x = (0 cm, 0 cm)" + " up 1 cm" * 10_000,
    "ifs": "x = " + "if 1 cm < 2 cm then 1 cm else " * 5_000 + "1 cm",
    "values that need each other": "\n".join(f"v{i} = v{i + 1}" for i in range(5_000)) + "\nv5000 = 1 cm",
    "pieces from pieces": "\n".join(f'piece p{i} "P" from p{i + 1} {{ }}' for i in range(2_000))
    + '\npiece p2000 "P" from panel { }',
    "conditions of when": "param q : choice a, b = a\nwhen " + " and ".join(["q is a"] * 5_000) + " { x = 1 cm }",
    "arguments": "x = min(" + ", ".join(["1 cm"] * 10_000) + ")",
    "members": "x = panel.lower.length" + ".length" * 10_000,
    "measures": "measure " + ", ".join(["bust_girth"] * 5_000),
    "options": "param q : choice " + ", ".join(f"a{i}" for i in range(5_000)) + " = a0",
    "statements": "\n".join(f"v{i} = {i} cm" for i in range(5_000)),
    "blocks": "\n".join(f'strip s{i} "S" {{ cut 1; length 9 cm; width 2 cm; make flat }}' for i in range(1_000)),
    "steps": "\n".join(f'step s{i} "x"' + (f" after s{i - 1}" if i else "") for i in range(2_000)),
    "comments": "# note\n" * 20_000,
    "line ends": "\n" * 50_000,
    "semicolons": ";" * 50_000,
    "digits of a length": "x = " + "9" * 5_000 + " cm",
    "digits of an edition": "edition " + "9" * 5_000,
    "letters of a name": "a" * 50_000 + " = 1 cm",
    "faulty lines": "x 1 cm\n" * 3_000,
    "open texts": 'x = "\n' * 300,
    "stray braces": "}\n" * 300,
}


@pytest.mark.parametrize("what", LONG)
def test_much_of_one_thing(what: str) -> None:
    made = compiled(panel(below=LONG[what]))
    assert made.made or len(made.findings) > 0


@pytest.mark.parametrize("count", [100, 150])
def test_long_values_that_are_allowed(count: int) -> None:
    """Nobody adds up more than a hundred terms; these have to be computed, not refused."""
    spec = panel(below="x = " + " + ".join(["1 cm"] * count) + f'\ncheck "sum" x == {count} cm')
    assert faults(spec) == []


def test_files_up_to_a_megabyte_are_read() -> None:
    line = "# a note on how the cloth came to the studio, and what was on it\n"
    assert faults(panel() + line * (990_000 // len(line))) == []
    (fault,) = faults(panel() + line * (1_100_000 // len(line)))
    assert fault.slug == "file-too-large"


def test_a_megabyte_of_one_thing() -> None:
    for text in ("x" * 999_000, '"' * 999_000, "{" * 999_000, "\u00e4" * 499_000, "=" * 999_000):
        assert len(checked(text)) > 0


NUMBERS = {
    "a length beyond all numbers": ("", "x = " + "9" * 400 + " cm", ()),
    "a length beyond all numbers in a point": ("x = (" + "9" * 400 + " cm, 0 cm)", "", ()),
    "a length beyond all numbers in an edge": ("mark m at a up " + "9" * 400 + " cm", "", ()),
    "a count beyond all numbers": ("", "x = " + "9" * 400, ()),
    "a fraction of nothing": ("", "x = 1/" + "9" * 400 + " in", ()),
    "an endless number of pieces": ("", "PIECES", ()),
    "an endless sum from outside": ("", "param q = 1 cm", ("q=" + "+".join(["1cm"] * 3000),)),
    "endless signs from outside": ("", "param q = 1 cm", ("q=" + "-" * 5000 + "1cm",)),
    "endless brackets from outside": ("", "param q = 1 cm", ("q=" + "(" * 5000 + "1cm" + ")" * 5000,)),
}


def number_case(what: str) -> tuple[str, Iterable[str]]:
    inside, below, settings_given = NUMBERS[what]
    if below == "PIECES":
        return panel().replace("cut 1", "cut " + "9" * 5000), ()
    return panel(inside, below), settings_given


@pytest.mark.parametrize("what", NUMBERS)
def test_numbers_beyond_all_measure(what: str) -> None:
    spec, given_settings = number_case(what)
    made = compiled(spec, settings=given_settings)
    assert made.made or len(made.findings) > 0
