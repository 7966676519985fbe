"""One drafting mistake at a time in the demo specs: nearly all are told at the changed statement or at what it breaks."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from garmentc.diagnostics.finding import Finding
from garmentc.pipeline import compile_spec
from tests.mutations.mistakes import MISTAKES, Mistake
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
BASES = ("tern", "plover", "curlew", "heron")
TEXTS = {name: Path(f"specs/{name}.garment").read_text(encoding="utf-8") for name in BASES}
DUE = 0.95
"""The share of mistakes whose first finding has to point at the right place."""


def findings(spec: str, text: str) -> list[Finding]:
    files = {f"{name}.garment": TEXTS[name] for name in BASES} | {f"{spec}.garment": text}
    return list(compile_spec(MemoryHost(files), f"{spec}.garment", sizes=CHART, only=["88"]).findings)


def is_told(mistake: Mistake) -> bool:
    """Whether the first finding points at a changed line, or at a statement that the mistake breaks."""
    text = TEXTS[mistake.spec]
    right = re.search(r"\s+".join(re.escape(word) for word in mistake.right.split(" ") if word), text)
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
    assert len(MISTAKES) >= 60
    assert len({(one.spec, one.right, one.wrong) for one in MISTAKES}) == len(MISTAKES)


@pytest.mark.parametrize("spec", BASES)
def test_without_a_mistake_nothing_is_told(spec: str) -> None:
    assert findings(spec, TEXTS[spec]) == []


def test_nearly_all_mistakes_are_told_at_their_place() -> None:
    missed = [f"{one.spec}: {one.wrong.strip()[:80]!r}" for one in MISTAKES if not is_told(one)]
    assert len(missed) <= (1 - DUE) * len(MISTAKES), "\n".join(missed)
