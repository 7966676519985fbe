"""One drafting mistake at a time in the demo specs: nearly all are told at the changed statement or at what it breaks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from garmentc.diagnostics.finding import Finding
from garmentc.pipeline import compile_spec
from tests.mutations.mistakes import MISTAKES, Mistake
from tests.mutations.mistakes_blocks import BLOCK_MISTAKES
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
BLOCKS = ("bodice", "camisole", "circle_skirt", "straight_skirt", "trousers")
BASES = ("tern", "plover", "curlew", "heron", "tern_tunic", "avocet", *(f"blocks/{one}" for one in BLOCKS))
TEXTS = {name: Path(f"specs/{name}.garment").read_text(encoding="utf-8") for name in BASES}
ALL_MISTAKES = [*MISTAKES, *BLOCK_MISTAKES]
DUE = 0.95
"""The share of mistakes whose first finding has to point at the right place."""


def findings(spec: str, text: str) -> list[Finding]:
    files = {f"{name}.garment": TEXTS[name] for name in BASES} | {f"{spec}.garment": text}
    return list(compile_spec(MemoryHost(files), f"{spec}.garment", sizes=CHART, only=["88"]).findings)


def is_told(mistake: Mistake) -> bool:
    """Whether the first finding points at a changed line, or at a statement that the mistake breaks."""
    text = TEXTS[mistake.spec]
    looked_for = re.compile(r" +".join(re.escape(word) for word in re.split(" +", mistake.right)))
    right = looked_for.search(text, text.index(mistake.within))
    assert right is not None, mistake.right
    begin = right.start()
    changed = text[:begin] + mistake.wrong + text[right.end() :]
    found = findings(mistake.spec, changed)
    if not found:
        return False
    first = found[0]
    lines = changed[: begin + len(mistake.wrong)].count("\n") + 1
    touched = range(changed[:begin].count("\n") + 1, lines + 1)
    own = first.span.source.name == f"{mistake.spec}.garment"
    if own and first.span.line in touched:
        return True
    statement = first.span.source.line_text(first.span.line).strip()
    return any(statement.startswith(words) or words in first.span.text for words in mistake.breaks)


def test_there_are_enough_mistakes() -> None:
    assert len(ALL_MISTAKES) >= 60
    assert len({(one.spec, one.right, one.wrong, one.within) for one in ALL_MISTAKES}) == len(ALL_MISTAKES)
    assert {one.spec for one in ALL_MISTAKES} == set(BASES)


@pytest.mark.parametrize("spec", BASES)
def test_without_a_mistake_nothing_is_told(spec: str) -> None:
    assert findings(spec, TEXTS[spec]) == []


def test_nearly_all_mistakes_are_told_at_their_place() -> None:
    missed = [f"{one.spec}: {one.wrong.strip()[:80]!r}" for one in ALL_MISTAKES if not is_told(one)]
    assert len(missed) <= (1 - DUE) * len(ALL_MISTAKES), "\n".join(missed)
