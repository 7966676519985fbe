"""Lays the facts of two states beside each other and keeps what is not the same."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from garmentc.assembly.model import Assembly
from garmentc.comparison.facts import facts_of, step_name
from garmentc.comparison.model import EDGE, GROUPS, PIECE, SEAM, STEP, STRIP, Change, Comparison, Fact, Renamed, Value
from garmentc.comparison.moves import bends, moves, overlays
from garmentc.comparison.pairs import AS_THEY_ARE, Names, paired_names
from garmentc.comparison.shapes import shapes_of
from garmentc.comparison.statements import rewritten
from garmentc.design import kinds as k
from garmentc.design.model import Design
from garmentc.record import Record
from garmentc.syntax.nodes import File

_NEAR = {k.LENGTH: 0.01, k.AREA: 5.0, k.ANGLE: 1e-5, k.RATIO: 1e-6, k.COUNT: 1e-6}
"""By how much (mm, mm², radians, plain) two numbers may differ that count as the same."""

Key = tuple[str, str, str]


class Side(Record):
    """One state of a garment: what its spec says, and what became of it in each size."""

    file: File
    design: Design
    sizes: tuple[Assembly, ...]


def differences(old: Side, new: Side) -> Comparison:
    """What has changed from one state to the other, in the sizes that both have.

    What is called otherwise is recognised in the first of these sizes.
    """
    before, after = _by_size(old), _by_size(new)
    sizes = tuple(name for name in after if name in before)
    shapes = [(shapes_of(before[name]), shapes_of(after[name])) for name in sizes]
    names = AS_THEY_ARE
    if sizes:
        names = paired_names(before[sizes[0]], shapes[0][0], after[sizes[0]], shapes[0][1])
    old_facts = [_facts(facts_of(before[name], names)) for name in sizes]
    changes = list(_changes(old_facts, [_facts(facts_of(after[name])) for name in sizes]))
    if sizes:
        changes += _reordered(before[sizes[0]], after[sizes[0]], names, len(sizes))
    return Comparison(
        new.design.name,
        new.design.title,
        old.file.source.name,
        new.file.source.name,
        sizes,
        tuple(_renamed(names, new)),
        tuple(sorted(changes, key=lambda change: GROUPS.index(change.group))),
        tuple(moves(names, shapes)),
        tuple(bends(names, shapes)),
        tuple(overlays(names, shapes, len(sizes) // 2)) if sizes else (),
        rewritten(old.file, new.file),
        old.file.source.text == new.file.source.text,
    )


def _by_size(side: Side) -> dict[str, Assembly]:
    return {assembly.draft.body.name: assembly for assembly in side.sizes}


def _facts(facts: Iterable[Fact]) -> dict[Key, Fact]:
    return {(fact.group, fact.thing, fact.quality): fact for fact in facts}


def _renamed(names: Names, new: Side) -> Iterator[Renamed]:
    for old_name, name in names.pieces.items():
        if old_name != name:
            yield Renamed(STRIP if name in new.design.strips else PIECE, old_name, name)
    for (piece, edge), now in names.edges.items():
        if edge != now:
            yield Renamed(EDGE, f"{piece}.{edge}", names.edge(piece, edge))
    for old_name, name in names.seams.items():
        if old_name != name:
            yield Renamed(SEAM, old_name, name)


def _reordered(old: Assembly, new: Assembly, names: Names, sizes: int) -> Iterator[Change]:
    """The steps that stand elsewhere in the order of work; as few as can be said to have moved."""
    from difflib import SequenceMatcher

    before = [step_name(step, names) for step in old.steps]
    after = [step_name(step, AS_THEY_ARE) for step in new.steps]
    common = [[name for name in names_of if name in others] for names_of, others in ((before, after), (after, before))]
    blocks = SequenceMatcher(None, common[0], common[1], autojunk=False).get_matching_blocks()
    stayed = {name for block in blocks for name in common[0][block.a : block.a + block.size]}
    for name in common[1]:
        if name not in stayed:
            places = [_after(name, steps) for steps in (before, after)]
            yield Change(STEP, name, "comes", None, (places[0],) * sizes, (places[1],) * sizes)


def _after(name: str, steps: Sequence[str]) -> str:
    at = steps.index(name)
    return f"after {steps[at - 1]}" if at else "first"


def _changes(old: Sequence[dict[Key, Fact]], new: Sequence[dict[Key, Fact]]) -> Iterator[Change]:
    keys = dict.fromkeys(key for facts in (*new, *old) for key in facts)
    had = {key[:2] for facts in old for key in facts}
    have = {key[:2] for facts in new for key in facts}
    told: set[tuple[str, str]] = set()
    for key in keys:
        thing = key[:2]
        is_whole = thing in had and thing in have
        if thing in told and not is_whole:
            continue
        told.add(thing)
        before, after = [facts.get(key) for facts in old], [facts.get(key) for facts in new]
        if not is_whole or not all(_same(a, b) for a, b in zip(before, after, strict=True)):
            kind = next(fact.kind for fact in (*after, *before) if fact is not None)
            yield Change(*key, kind, tuple(map(_value, before)), tuple(map(_value, after)))


def _value(fact: Fact | None) -> Value | None:
    return None if fact is None else fact.value


def _same(old: Fact | None, new: Fact | None) -> bool:
    if old is None or new is None:
        return old is new
    if old.kind is None or new.kind is None or old.kind != new.kind:
        return old.value == new.value and old.kind == new.kind
    assert isinstance(old.value, float | int)
    assert isinstance(new.value, float | int)
    return abs(old.value - new.value) <= _NEAR.get(old.kind, 0.0)
