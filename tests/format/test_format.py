"""One layout: what it looks like, that it is the same garment, that nothing changes the second time."""

import os
import re
from pathlib import Path

import pytest

from garmentc.diagnostics.finding import Findings
from garmentc.format import proof
from garmentc.format.layout import WIDTH
from garmentc.format.proof import Unproven, formatted, same_tree
from garmentc.host import DiskHost
from garmentc.source import Source
from garmentc.syntax.parser import Parser
from tests.format.generate import Generator

PARSER = Parser(DiskHost())
GENERATOR = Generator(PARSER)
FILES = sorted([*Path("specs").rglob("*.garment"), *Path("garmentc/library").rglob("*.garment")])
GENERATED = int(os.environ.get("GARMENTC_GENERATED", "20"))
"""How many made-up texts are tried; 2,000 before the layout or the grammar changes in a large way."""


def laid(text: str, width: int = WIDTH) -> str:
    findings = Findings()
    found = formatted(PARSER, Source("knot.garment", text), findings, width)
    assert found is not None, [one.headline for one in findings]
    return found


def squeezed(text: str) -> str:
    """What layout may not touch: everything but blanks, line ends and the signs between statements."""
    return re.sub(r"[\s;]", "", text)


@pytest.mark.parametrize("path", FILES, ids=str)
def test_files_of_the_repo(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    for width in (1, WIDTH, 200):
        assert squeezed(laid(text, width)) == squeezed(text)


@pytest.mark.parametrize("path", FILES, ids=str)
def test_specs_of_the_repo_are_laid_out(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert laid(text) == text, f"run: garmentc format {path}"


@pytest.mark.parametrize("seed", range(GENERATED))
def test_generated_texts(seed: int) -> None:
    text = GENERATOR.text(seed)
    for width in (1, 200):
        assert squeezed(laid(text, width)) == squeezed(text)


def test_generated_texts_know_the_words_of_the_language() -> None:
    text = "".join(GENERATOR.text(seed) for seed in range(300))
    words = {one.pattern.value for one in PARSER.lark.terminals if one.pattern.value.isalpha()}
    missing = {word for word in words if not re.search(rf"\b{word}\b", text)}
    assert len(missing) < len(words) / 5, missing


LAYOUTS = {
    "signs under each other": (
        "x=1 cm\nlonger = 2 cm\na_name_that_is_too_long=3cm\n\ny   =  4 cm",
        "x      = 1 cm\nlonger = 2 cm\na_name_that_is_too_long = 3cm\n\ny = 4 cm\n",
    ),
    "comments under each other": (
        "x = 1 cm # one\nlonger = 2 cm    # two\n                 # more of two\n# about z\nz = 1",
        "x      = 1 cm  # one\nlonger = 2 cm  # two\n               # more of two\n# about z\nz      = 1\n",
    ),
    "signs of a value": (
        "x = -  a+b*( c -d )/1 / 2\ny = max( a,b )  -front . side.length",
        "x = -a + b * (c - d) / 1 / 2\ny = max(a, b) - front.side.length\n",
    ),
    "a share of two numbers": ("x = a toward b by 1 / 4", "x = a toward b by 1/4\n"),
    "numbers and units": ("x = 1.50cm + 2 %", "x = 1.50cm + 2 %\n"),
    "a short block": ('strip s "S" {cut 2;length 9 cm }', 'strip s "S" { cut 2; length 9 cm }\n'),
    "an empty block": ('piece a "A" from b {\n}', 'piece a "A" from b { }\n'),
    "statements of one line": ("x = 1; y = 2", "x = 1\ny = 2\n"),
    "blank lines": ("\n\n\nx = 1\n\n\n\n# about y\n\ny = 2\n\n", "x = 1\n\n# about y\n\ny = 2\n"),
    "comments in a block": (
        'piece a "A" { # first\n\n # second\n cut 1 # third\n # fourth\n } # fifth',
        'piece a "A" {  # first\n  # second\n  cut 1  # third\n  # fourth\n}  # fifth\n',
    ),
    "comments in a statement": (
        "x = max(a, # first\n# second\nb)\nseam s joins a # third\n with b\n as plain",
        "x = max(a,  # first\n    # second\n    b)\nseam s joins a  # third\n    with b as plain\n",
    ),
    "nothing but a comment": ("  # a", "# a\n"),
    "nothing": ("\n \n", ""),
    "carriage returns": ("x = 1 # a\r\ny = 2\r\n", "x = 1  # a\ny = 2\n"),
}


@pytest.mark.parametrize("what", LAYOUTS)
def test_layout(what: str) -> None:
    before, after = LAYOUTS[what]
    assert laid(before) == after


def test_a_long_seam_is_broken_at_its_words() -> None:
    text = "seam top joins front.armhole then back.armhole with front_facing.armhole then back_facing.armhole as enclosed {\n  insert strap at tip\n}\n"
    assert laid(text, 60) == (
        "seam top\n"
        "    joins front.armhole then back.armhole\n"
        "    with front_facing.armhole then back_facing.armhole\n"
        "    as enclosed {\n"
        "  insert strap at tip\n"
        "}\n"
    )
    assert laid(laid(text, 60), 200) == text


def test_lists_are_filled() -> None:
    text = "finish a.b, c.d, e.f, g.h as pinked\nmeasure bust_girth, waist_girth, hip_girth"
    assert laid(text, 25) == (
        "finish a.b, c.d, e.f, g.h\n    as pinked\nmeasure bust_girth,\n    waist_girth,\n    hip_girth\n"
    )


def test_a_condition_is_broken_before_and() -> None:
    text = 'check "both" front.side.length >= 10 cm and back.side.length >= 10 cm\n'
    assert laid(text, 60) == ('check "both" front.side.length >= 10 cm\n    and back.side.length >= 10 cm\n')


def test_names_like_words_are_not_broken_before() -> None:
    text = "x = a.with + b.then + c.curve\n"
    assert "\n" not in laid(text, 1).replace("+\n", "").strip()


def test_faults_leave_a_text_alone() -> None:
    findings = Findings()
    assert formatted(PARSER, Source("knot.garment", "x = = 1\n"), findings) is None
    assert len(findings) == 1


def test_another_layout_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    source = Source("knot.garment", "x = 1 + 2 # why\n")
    for wrong in ("x = 1 - 2  # why\n", "x = 1 + 2\n", "x  = 1 + 2  # why\n"):
        real = proof.laid_out
        monkeypatch.setattr(proof, "laid_out", lambda marks, width, wrong=wrong: wrong)
        if wrong.startswith("x  "):
            answers = iter([wrong, "x = 1 + 2  # why\n"])
            monkeypatch.setattr(proof, "laid_out", lambda marks, width, answers=answers: next(answers))
        with pytest.raises(Unproven):
            formatted(PARSER, source, Findings())
        monkeypatch.setattr(proof, "laid_out", real)


def test_trees_that_differ() -> None:
    def tree(text: str) -> object:
        return PARSER.file(Source("knot.garment", text), Findings()).statements

    assert same_tree(tree("x = a - b - c"), tree("x=(a-b)-c"))
    assert not same_tree(tree("x = a - b - c"), tree("x = a - (b - c)"))
    assert not same_tree(tree("x = 1 cm"), tree("x = 10 mm"))
    assert not same_tree(tree("x = 1"), tree("x = 1; y = 2"))


def test_long_sums_are_laid_out_in_time() -> None:
    text = "x = " + " + ".join(["1 cm"] * 1_000) + "\ny = " + "- " * 1_000 + "1\nz = " + "not " * 1_000 + "a"
    assert squeezed(laid(text, 80)) == squeezed(text)
