"""The grammar for editors (TextMate, as its manual describes the form) knows all words that the parser knows."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

GRAMMAR = json.loads(Path("grammar/editors/garment.tmLanguage.json").read_text(encoding="utf-8"))
SPECS = sorted(Path("specs").glob("*.garment")) + sorted(Path("specs/blocks").glob("*.garment"))
UNITS = {"mm", "cm", "m", "in", "inch", "deg"}


def keywords() -> set[str]:
    """The words of the language, from the grammar that the parser is made of."""
    text = re.sub(r"//.*", "", Path("grammar/garment.lark").read_text(encoding="utf-8"))
    return set(re.findall(r'"([a-z][a-z_]*)"', text)) - UNITS


def scopes(text: str) -> Iterator[tuple[str, str]]:
    """The tokens of a text with their scopes, as an editor finds them: the first rule that matches at a place."""
    rules = [GRAMMAR["repository"][one["include"][1:]] for one in GRAMMAR["patterns"]]
    at = 0
    while at < len(text):
        found = next(((rule, hit) for rule in rules if (hit := re.compile(rule["match"]).match(text, at))), None)
        if found is None:
            at += 1
            continue
        rule, hit = found
        for number, capture in rule.get("captures", {"0": rule}).items():
            if hit[int(number)]:
                yield hit[int(number)], capture["name"].removesuffix(".garment")
        at = hit.end()


def test_no_keyword_is_forgotten() -> None:
    listed = GRAMMAR["repository"]["keyword"]["match"]
    assert set(re.findall(r"[a-z_]{2,}", listed)) == keywords()


@pytest.mark.parametrize("spec", SPECS, ids=lambda path: path.stem)
def test_each_kind_of_word_has_its_scope(spec: Path) -> None:
    text = spec.read_text(encoding="utf-8")
    found = list(scopes(text))
    strings = [word for word, scope in found if scope == "string.quoted.double"]
    assert strings == [word for line in text.splitlines() for word in re.findall(r'"[^"]*"', line.split("#")[0])]
    assert len([word for word, scope in found if scope == "comment.line.number-sign"]) == text.count("#")
    known = keywords()
    for word, scope in found:
        if scope == "keyword.control":
            assert word in known
        elif scope == "keyword.other.unit":
            assert word in UNITS | {"%"}
        elif scope == "constant.numeric":
            assert re.fullmatch(r"[\d./ ]+", word)
        elif scope == "variable.other":
            assert word not in known


def test_a_line_of_every_kind() -> None:
    line = 'param side_length = 1 1/2 in from 8.5 cm to 40 % "under # arm" # a note 5 cm'
    assert list(scopes(line)) == [
        ("param", "keyword.control"),
        ("side_length", "variable.other"),
        ("=", "keyword.operator"),
        ("1 1/2", "constant.numeric"),
        ("in", "keyword.other.unit"),
        ("from", "keyword.control"),
        ("8.5", "constant.numeric"),
        ("cm", "keyword.other.unit"),
        ("to", "keyword.control"),
        ("40", "constant.numeric"),
        ("%", "keyword.other.unit"),
        ('"under # arm"', "string.quoted.double"),
        ("# a note 5 cm", "comment.line.number-sign"),
    ]
    assert ("length", "variable.other.member") in list(scopes("front.side.length"))
