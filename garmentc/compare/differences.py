"""Lays the facts of two states beside each other and keeps what is not the same."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.model import Assembly
from garmentc.compare.facts import facts_of
from garmentc.compare.model import GROUPS, Change, Comparison, Fact, Value
from garmentc.compare.statements import rewritten
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
    """What has changed from one state to the other, in the sizes that both have."""
    before, after = _by_size(old), _by_size(new)
    sizes = tuple(name for name in after if name in before)
    changes = _changes([_facts(before[name]) for name in sizes], [_facts(after[name]) for name in sizes])
    return Comparison(
        new.design.name,
        new.design.title,
        old.file.source.name,
        new.file.source.name,
        sizes,
        tuple(sorted(changes, key=lambda change: GROUPS.index(change.group))),
        rewritten(old.file, new.file),
        old.file.source.text == new.file.source.text,
    )


def _by_size(side: Side) -> dict[str, Assembly]:
    return {assembly.draft.body.name: assembly for assembly in side.sizes}


def _facts(assembly: Assembly) -> dict[Key, Fact]:
    return {(fact.group, fact.thing, fact.quality): fact for fact in facts_of(assembly)}


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
