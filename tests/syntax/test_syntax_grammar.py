"""The grammar is free of clashes, and nodes know the text they were read from."""

import math
from pathlib import Path

import pytest
from lark import Lark

from garmentc.diagnostics.finding import Findings
from garmentc.host import DiskHost
from garmentc.pipeline import compile_spec
from garmentc.shipped import grammar_file
from garmentc.source import Source, Span
from garmentc.syntax import nodes
from garmentc.syntax.parser import Parser
from garmentc.syntax.words import ITEM_WORDS, STATEMENT_WORDS
from tests.language.small import PINKED, panel
from tests.support import MemoryHost

PARSER = Parser(DiskHost())
GRAMMAR = Path(grammar_file("garment.lark")).read_text(encoding="utf-8")


def parsed(text: str) -> nodes.File:
    findings = Findings()
    file = PARSER.file(Source("knot.garment", text), findings)
    assert [finding.headline for finding in findings] == []
    return file


def value_of(text: str) -> nodes.Expr:
    (define,) = parsed(f"x = {text}").statements
    assert isinstance(define, nodes.Define)
    return define.value


def shape(value: object) -> object:
    """A value as nested tuples of what matters, without spans."""
    if isinstance(value, nodes.Quantity):
        return f"{value.span.text.strip()}"
    if isinstance(value, nodes.Ref):
        return ".".join(word.text for word in value.words)
    if isinstance(value, nodes.Word):
        return value.text
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        parts = zip(value._fields, value, strict=True)
        return (type(value).__name__, *(shape(part) for name, part in parts if name != "span"))
    if isinstance(value, tuple):
        return tuple(shape(one) for one in value)
    return value


def walk(value: object) -> list[object]:
    """Every node below a value, and itself."""
    if isinstance(value, Span) or not isinstance(value, tuple):
        return []
    found: list[object] = [value] if hasattr(value, "span") else []
    for part in value:
        found.extend(walk(part))
    return found


def test_no_two_terminals_clash() -> None:
    """Lark's strict mode proves that no text can be read as two tokens in one place."""
    Lark(
        GRAMMAR,
        parser="lalr",
        lexer="contextual",
        start=["start", "setting"],
        maybe_placeholders=True,
        propagate_positions=True,
        strict=True,
    )


def test_words_that_open_statements_are_those_of_the_grammar() -> None:
    for word in (*STATEMENT_WORDS, *ITEM_WORDS):
        assert f'"{word}"' in GRAMMAR, word


@pytest.mark.parametrize("spec", ["tern", "plover", "tern_tunic", "heron", "curlew"])
def test_spans_hold_what_was_written(spec: str) -> None:
    text = Path(f"specs/{spec}.garment").read_text(encoding="utf-8")
    for node in walk(parsed(text).statements):
        span = node.span  # type: ignore[attr-defined]
        assert span.text.strip() == span.text or isinstance(node, nodes.Quantity), node
        assert 0 <= span.start < span.end <= len(text)
        if isinstance(node, nodes.Word):
            assert span.text == node.text
        elif isinstance(node, nodes.Text):
            assert span.text == f'"{node.text}"'
        elif isinstance(node, nodes.Ref):
            assert span.text.replace(" ", "") == ".".join(word.text for word in node.words)
        elif isinstance(node, nodes.Call):
            assert span.text.startswith(node.function.text) and span.text.endswith(")")
        elif isinstance(node, nodes.Quantity):
            assert span.text.rstrip().endswith(node.unit)


@pytest.mark.parametrize("spec", ["tern", "plover"])
def test_spans_of_parts_lie_inside_those_of_the_whole(spec: str) -> None:
    text = Path(f"specs/{spec}.garment").read_text(encoding="utf-8")
    for node in walk(parsed(text).statements):
        for part in walk(tuple(node)[1:]):  # type: ignore[arg-type]
            assert node.span.start <= part.span.start  # type: ignore[attr-defined]
            assert part.span.end <= node.span.end  # type: ignore[attr-defined]


@pytest.mark.parametrize("spec", ["tern", "plover"])
def test_spans_of_statements_begin_with_their_word(spec: str) -> None:
    text = Path(f"specs/{spec}.garment").read_text(encoding="utf-8")
    words = {
        nodes.Header: "garment",
        nodes.Edition: "edition",
        nodes.Param: "param",
        nodes.Ease: "ease",
        nodes.Piece: "piece",
        nodes.Strip: "strip",
        nodes.Seam: "seam",
        nodes.Finish: "finish",
        nodes.Finished: "finished",
        nodes.When: "when",
        nodes.Outline: "outline",
        nodes.Notch: "notch",
        nodes.Grow: "grow",
    }
    seen = set()
    for node in walk(parsed(text).statements):
        word = words.get(type(node))
        if word is not None:
            seen.add(type(node))
            assert node.span.text.split()[0] == word  # type: ignore[attr-defined]
    assert len(seen) >= 10


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("12 mm", 12.0),
        ("4.5 cm", 45.0),
        ("4.5cm", 45.0),
        ("1.2 m", 1200.0),
        ("3 in", 76.2),
        ("3 inch", 76.2),
        ("1/2 in", 12.7),
        ("1 1/2 in", 38.1),
        ("2 5/8 inch", 66.675),
        ("1 1/8in", 28.575),
        ("50 %", 0.5),
        ("7", 7.0),
        ("0.25", 0.25),
        ("180 deg", math.pi),
    ],
)
def test_quantities_in_base_units(text: str, mm: float) -> None:
    value = value_of(text)
    assert isinstance(value, nodes.Quantity)
    assert value.value == pytest.approx(mm, rel=1e-12)
    assert value.span.text == text


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("a + b * c", "a + (b * c)"),
        ("a - b - c", "(a - b) - c"),
        ("a / b / c", "(a / b) / c"),
        ("-a * b", "(-a) * b"),
        ("a up b + c", "a up (b + c)"),
        ("a up b left c", "(a up b) left c"),
        ("a toward b by c down d", "(a toward b by c) down d"),
        ("a heading b + c by d", "a heading (b + c) by d"),
        ("not a < b and c", "(not (a < b)) and c"),
        ("a or b and c", "a or (b and c)"),
        ("a is b or c is d", "(a is b) or (c is d)"),
        ("if a then b else c + d", "if a then b else (c + d)"),
        ("if a then if b then c else d else e", "if a then (if b then c else d) else e"),
        ("+a", "a"),
    ],
)
def test_what_binds_tighter(text: str, same: str) -> None:
    assert shape(value_of(text)) == shape(value_of(same))


def test_brackets_change_what_binds() -> None:
    assert shape(value_of("(a + b) * c")) != shape(value_of("a + b * c"))


@pytest.mark.parametrize(
    "text",
    [
        "x = a +\n  b",
        "x = a *  # why\n\n  # more\n  b",
        "x = min(\n  a,\n  b\n)",
        "x = a ->\n b",
        "x = a <=\n b",
        "x = (\n a + b\n )",
        "measure bust_girth,\n  hip_girth",
        "x = 1 cm; y = 2 cm",
        "\n\n# only a comment\nx = 1 cm # and one behind\n\n",
        "x = 1 cm\r\ny = 2 cm\r\n",
        "seam a joins b.c\n  with d.e\n  as plain",
        "seam a\n  joins b.c # one\n\n  # the other\n  then b.f\n  with d.e\n  as plain { ease 1 cm }",
        'param p = 5 cm\n  from 1 cm to 9 cm "words # not a comment"',
        "finish b.c,\n b.d\n as plain",
        "x = if a > b\n  then c\n  else d",
        'piece p "P"\r\n  from q { }',
        "from = 1 cm\nas = 2 cm",
        'piece p "P" { outline { a : b -> c\n then : c -> d\n with : d -> b } }',
        'strip tie "Tie" { cut 2; length 5 cm\n width 2 cm; make flat }',
        'piece p "P" { cut 1; grain bias; outline { a : b -> c; d : c -> b } }',
        'piece p "P" { }',
        "when a is b { x = 1 cm }",
        "",
        "#",
        ";;;",
    ],
)
def test_line_rules(text: str) -> None:
    parsed(text)


@pytest.mark.parametrize("text", ["x = a\n  + b", "x = min(a\n, b)", "seam\na joins b.c with d.e as plain"])
def test_lines_do_not_go_on_by_themselves(text: str) -> None:
    findings = Findings()
    PARSER.file(Source("knot.garment", text), findings)
    assert len(findings) >= 1


def test_columns_count_characters_not_bytes() -> None:
    file = parsed('garment ruff "Möwe é 𝄞"; x = 1 cm')
    define = file.statements[1]
    assert isinstance(define, nodes.Define)
    assert (define.span.line, define.span.column) == (1, 26)


def test_a_byte_order_mark_and_line_ends_of_other_systems_are_read() -> None:
    text = panel(finish=PINKED).replace("\n", "\r\n").encode("utf-8-sig")
    assert list(compile_spec(MemoryHost({"knot.garment": text}), "knot.garment").findings) == []
