"""The tables read a text as lark reads it (lark 1.3 is the reference), or say that they can't."""

from pathlib import Path

import pytest

from garmentc.host import DiskHost
from garmentc.shipped import grammar_file
from garmentc.source import Source
from garmentc.syntax import slow
from garmentc.syntax.builder import TreeBuilder
from garmentc.syntax.lalr import whole_grammar
from garmentc.syntax.layout import join_lines
from garmentc.syntax.machine import Machine, Misfit, Unreadable
from garmentc.syntax.parser import Parser
from garmentc.syntax.tables import derived, tables
from tests.format.generate import Generator
from tests.support import MemoryHost

ROOT = Path(__file__).parents[2]
GRAMMAR = Path(grammar_file("garment.lark")).read_bytes()
LARK = whole_grammar(GRAMMAR.decode())
MACHINE = Machine(derived(LARK))
FILES = sorted([*ROOT.glob("specs/**/*.garment"), *ROOT.glob("garmentc/library/**/*.garment")])
GENERATOR = Generator(Parser(DiskHost()))


def both(text: str) -> tuple[object, object]:
    """What the tables and what lark make of a text; None where they find a fault."""
    source = Source("knot.garment", text)
    ready = join_lines(source.text + "\n")
    found: list[object] = []
    for read in (MACHINE.read, lambda *given: slow.read(LARK, *given)):
        try:
            found.append(read(ready, "start", TreeBuilder(source)))
        except (Unreadable, Misfit):
            found.append(None)
    return found[0], found[1]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_shipped_files(path: Path) -> None:
    quick, exact = both(path.read_text(encoding="utf-8"))
    assert quick == exact
    assert quick is not None


def test_generated_texts_by_tables_and_by_lark() -> None:
    unread = 0
    for seed in range(60):
        quick, exact = both(GENERATOR.text(seed))
        assert exact is not None
        assert quick in (exact, None)
        unread += quick is None
    assert unread <= 6


def test_faulty_texts_are_never_read() -> None:
    text = (ROOT / "specs/plover.garment").read_text(encoding="utf-8")
    for at in range(0, len(text), 37):
        quick, exact = both(text[:at] + text[at + 5 :])
        assert quick in (exact, None)


def test_tables_are_kept_and_made_again_when_they_are_damaged(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    made = tables(DiskHost(), GRAMMAR)
    (kept,) = tmp_path.rglob("tables-*.bin")
    whole = kept.read_bytes()
    assert tables(DiskHost(), GRAMMAR) == made
    for damage in (b"", whole[: len(whole) // 2], b"no tables", whole[:1]):
        kept.write_bytes(damage)
        assert tables(DiskHost(), GRAMMAR) == made
        assert kept.read_bytes() == whole


def test_nothing_is_kept_where_nothing_may_be() -> None:
    class Closed(MemoryHost):
        def cache_file(self, name: str) -> str | None:
            return None

    assert tables(Closed({}), GRAMMAR) == derived(LARK)
