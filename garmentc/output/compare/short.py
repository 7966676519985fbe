"""What has changed in a few lines that fit into the message of a commit."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence

from garmentc.comparison import model as m
from garmentc.comparison.model import Change, Comparison
from garmentc.design import kinds as k
from garmentc.output.compare.text import from_to, number, places_for, signed, unit

_WIDE = 72  # characters: what git shows of a message without breaking lines (its own documentation of commit)
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=[mc]m|deg|%)")
_HARD_SPACE = "\u00a0"
_MOST = 6  # things told of one kind; of more only the number is told


def comparison_short(comparison: Comparison) -> str:
    """A line or two for each kind of change, without a line end at the end."""
    lines = list(_lines(comparison))
    if not lines:
        told = "not changed" if comparison.is_same_text else "the same garment, written differently"
        return f"{comparison.name}: {told}"
    sizes = comparison.sizes
    of = f", sizes {sizes[0]} to {sizes[-1]}" if len(sizes) > 1 else f", {sizes[0]}" if sizes else ""
    return "\n".join([f"{comparison.name}{of}", *map(_wrapped, lines)])


def _wrapped(line: str) -> str:
    """A line broken where it is too wide, but not between a number and its unit."""
    held = _BEFORE_UNIT.sub(_HARD_SPACE, line)
    return textwrap.fill(held, _WIDE, subsequent_indent="  ", break_on_hyphens=False).replace(_HARD_SPACE, " ")


def _lines(comparison: Comparison) -> Iterator[str]:
    changes = comparison.changes
    params = [one for one in changes if one.group == m.PARAM and _is_both(one)]
    if params:
        yield f"set: {_few([f'{one.thing} {_briefly(one)}' for one in params])}"
    if comparison.renamed:
        yield f"renamed: {_few([f'{one.group} {one.old} to {one.new}' for one in comparison.renamed])}"
    for word, told in (("added", True), ("dropped", False)):
        whole = [one for one in changes if (one.is_added if told else one.is_dropped)]
        inside = {one.thing for one in whole if one.group in (m.PIECE, m.STRIP)}
        names = [f"{one.group} {one.thing}" for one in whole if one.thing.partition(".")[0] not in inside]
        names = [f"{group} {name}" for group in (m.PIECE, m.STRIP) for name in _of(whole, group)] + names
        if names:
            yield f"{word}: {_few(names)}"
    yield from _pieces(comparison)
    finished = [one for one in changes if one.group == m.FINISHED and one.kind is not None and _is_both(one)]
    if finished:
        yield f"finished: {_few([f'{one.thing} {_step(one)}' for one in finished])}"
    ways = [f"{one.group} {one.thing} {one.quality}" for one in changes if one.kind is None and _is_both(one)]
    ways = [way for way in ways if not way.startswith(m.PARAM)]
    if ways:
        yield f"otherwise: {_few(ways)}"
    cloth = [_step(one) for one in changes if one.group == m.CLOTH]
    if cloth:
        yield f"cloth: {cloth[0]}"
    paper = [f"{one.thing} {_step(one)}" for one in changes if one.group == m.PAPER]
    if paper:
        yield f"paper: {_few(paper)}"
    rules = [one.name for one in comparison.rewritten if one.is_rule or not comparison.sizes]
    if rules:
        yield f"statements: {_few(rules)}"


def _pieces(comparison: Comparison) -> Iterator[str]:
    """For each piece the edges whose length has changed, and how many of its points have moved."""
    by_piece: dict[str, list[str]] = {}
    for one in comparison.changes:
        if one.group == m.EDGE and one.quality == "" and _is_both(one):
            piece, _, edge = one.thing.partition(".")
            by_piece.setdefault(piece, []).append(f"{edge} {_step(one)}")
    for bend in comparison.bends:
        piece, _, edge = bend.edge.partition(".")
        if not any(told.startswith(f"{edge} ") for told in by_piece.get(piece, [])):
            by_piece.setdefault(piece, []).append(f"{edge} bends otherwise")
    for piece in dict.fromkeys(move.piece for move in comparison.moves):
        by_piece.setdefault(piece, [])
    for piece, edges in by_piece.items():
        points = sum(move.piece == piece for move in comparison.moves)
        moved = [f"{points} point{'' if points == 1 else 's'} moved"] if points else []
        yield f"{piece}: {'; '.join([_few(edges)] * bool(edges) + moved)}"


def _is_both(change: Change) -> bool:
    return not change.is_added and not change.is_dropped


def _of(changes: Sequence[Change], group: str) -> list[str]:
    return [one.thing for one in changes if one.group == group]


def _few(words: Sequence[str]) -> str:
    shown = list(words[:_MOST])
    return ", ".join(shown + [f"{len(words) - _MOST} more"] * (len(words) > _MOST))


def _briefly(change: Change) -> str:
    pairs = list(dict.fromkeys(zip(change.old, change.new, strict=True)))
    return from_to(*pairs[0], change.kind).partition(" (")[0] if len(pairs) == 1 else _step(change)


def _step(change: Change) -> str:
    """By how much a number has changed, from the least to the most of all sizes."""
    kind = change.kind or k.COUNT
    both = zip(change.old, change.new, strict=True)
    pairs = [(a, b) for a, b in both if isinstance(a, float) and isinstance(b, float)]
    if not pairs:
        return "otherwise"
    places = places_for(pairs, kind)
    steps = sorted({b - a for a, b in pairs})
    low, high = signed(number(steps[0], kind, places)), signed(number(steps[-1], kind, places))
    return f"{low if low == high else f'{low} to {high}'}{unit(kind)}"
