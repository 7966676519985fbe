"""Names in statements: which there are, which are read, and the same statements with other names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Any

from garmentc.design.functions import CONSTANTS, FUNCTIONS
from garmentc.design.texts import ease_name
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Statement, Word
from garmentc.syntax.reuse import Held

Change = Callable[[tuple[Word, ...]], tuple[Word, ...]]
_OWN_EDGES: dict[type, tuple[str, ...]] = {
    nodes.Keep: ("edges",),
    nodes.Notch: ("edge",),
    nodes.Uneven: ("edge",),
    nodes.Dart: ("edge",),
    nodes.Tuck: ("edge",),
    nodes.Pleats: ("edge",),
    nodes.Pivot: ("edge",),
    nodes.Spread: ("first", "second"),
    nodes.Part: ("edge",),
}
_PLAIN = (Span, nodes.Word, nodes.Text, nodes.Quantity)


class Locals:
    """The names inside each piece, with those of the pieces it is taken from; they come before names of the garment."""

    def __init__(self, statements: Iterable[Statement]) -> None:
        self._own: dict[str, set[str]] = {}
        self._parents: dict[str, set[str]] = {}
        for one in flat(statements):
            if isinstance(one, nodes.Piece):
                self._own.setdefault(one.name.text, set()).update(names_inside(one))
                if one.parent is not None:
                    self._parents.setdefault(one.name.text, set()).add(one.parent.text)

    def of(self, piece: str) -> set[str]:
        """The names that stand for something inside a piece."""
        found: set[str] = set()
        seen: set[str] = set()
        waiting = [piece]
        while waiting:
            name = waiting.pop()
            if name not in seen:
                seen.add(name)
                found |= self._own.get(name, set())
                waiting += self._parents.get(name, ())
        return found


def names_inside(piece: nodes.Piece) -> Iterator[str]:
    """What stands for something inside a piece: its values, edges and grown parts."""
    for item in flat(piece.items):
        if isinstance(item, nodes.Outline):
            for edge in flat(item.edges):
                assert isinstance(edge, nodes.Edge)
                yield edge.name.text
        elif isinstance(item, nodes.Define | nodes.Grow | nodes.Keep | nodes.Part):
            yield item.name.text


def names_of(statements: Iterable[Statement]) -> set[str]:
    """What others can name: params, eases, choices, values, functions, pieces, strips."""
    found: set[str] = set()
    for one in flat(statements):
        if isinstance(one, nodes.Ease):
            found.add(ease_name(one.name.text))
        elif isinstance(one, nodes.Param | nodes.Choice | nodes.Define | nodes.Function | nodes.Piece | nodes.Strip):
            found.add(one.name.text)
    return found


def words_in(value: Any) -> frozenset[str]:
    """The first words of all names that a statement or value reads: values, functions, pieces it is taken from."""
    if isinstance(value, nodes.Use):
        return frozenset()
    if isinstance(value, nodes.Function):  # its parameters come from the call
        return words_in(value.value) - {one.name.text for one in value.parameters}
    found: set[str] = set()

    def note(words: tuple[Word, ...]) -> tuple[Word, ...]:
        found.add(words[0].text)
        return words

    _walked(value, frozenset(), note)
    return frozenset(found)


def rewritten(statement: Held, pieces: Locals, change: Change) -> Held:
    """A statement with its names changed; what stands for something inside a piece or function stays."""
    found: Any = statement
    if isinstance(found, nodes.When):
        condition = _walked(found.condition, frozenset(), change)
        inner = tuple(rewritten(one, pieces, change) for one in found.statements)
        found = found._replace(condition=condition, statements=inner)
    elif isinstance(found, nodes.Piece):
        found = _walked(found, pieces.of(found.name.text), change)
    elif isinstance(found, nodes.Function):
        found = _walked(found, {one.name.text for one in found.parameters}, change)
    elif isinstance(found, nodes.JoinType):
        found = _walked(found, {one.name.text for one in found.items if isinstance(one, nodes.Define)}, change)
    elif not isinstance(found, nodes.Use):
        found = _walked(found, frozenset(), change)
    result: Held = found
    return result


def prefixed(statements: tuple[Statement, ...], block: str) -> tuple[Statement, ...]:
    """The statements of a block under its name; measures are of the body and keep theirs, pieces are not made."""
    pieces = Locals(statements)
    measures = {one.name.text for one in flat(statements) if isinstance(one, nodes.Measure)}

    def under(words: tuple[Word, ...]) -> tuple[Word, ...]:
        first, *rest = words
        if first.text in measures or first.text in FUNCTIONS or first.text in CONSTANTS:
            return words
        if first.text == "ease" and rest:
            return Word(f"{block}.{ease_name(rest[0].text)}", first.span.to(rest[0].span)), *rest[1:]
        return _under(first), *rest

    def _under(word: Word) -> Word:
        return word._replace(text=f"{block}.{word.text}")

    def named(one: Statement) -> Statement:
        if isinstance(one, nodes.Ease):
            return one._replace(name=one.name._replace(text=f"{block}.{ease_name(one.name.text)}"))
        if isinstance(one, nodes.Piece | nodes.Strip):
            return one._replace(name=_under(one.name), made=False)
        if isinstance(one, nodes.Param | nodes.Choice | nodes.Define | nodes.Function):
            return one._replace(name=_under(one.name))
        return one

    return each(tuple(rewritten(one, pieces, under) for one in statements), named)


def _walked(value: Any, inside: frozenset[str] | set[str], change: Change) -> Any:
    """A value of the tree with its names changed, but for those inside."""
    if isinstance(value, _PLAIN) or not isinstance(value, tuple):
        return value
    if not hasattr(value, "_fields"):
        return tuple(_walked(one, inside, change) for one in value)
    if isinstance(value, nodes.Ref):
        return value if value.words[0].text in inside else value._replace(words=change(value.words))
    changed = {}
    for name, held in zip(value._fields, value, strict=True):
        if name in _OWN_EDGES.get(type(value), ()):
            continue
        new = _walked(held, inside, change)
        if new is not held:
            changed[name] = new
    if isinstance(value, nodes.Call):
        changed["function"] = change((value.function,))[0]
    elif isinstance(value, nodes.Piece) and value.parent is not None:
        changed["parent"] = change((value.parent,))[0]
    elif isinstance(value, nodes.Solve):
        changed["unknowns"] = tuple(change((word,))[0] for word in value.unknowns)
    return value._replace(**changed)  # type: ignore[attr-defined]


def flat(held: Iterable[Held]) -> Iterator[Held]:
    """Statements, lines or edges, those inside `when` too."""
    for one in held:
        if isinstance(one, nodes.When):
            yield from flat(one.statements)
        else:
            yield one


def each(held: Iterable[Held], change: Callable[[Held], Held | None]) -> tuple[Held, ...]:
    """All statements, lines or edges changed one by one, inside `when` too; None drops one."""
    found: list[Held] = []
    for one in held:
        if isinstance(one, nodes.When):
            inside: Any = one._replace(statements=each(one.statements, change))
            found.append(inside)
        elif (changed := change(one)) is not None:
            found.append(changed)
    return tuple(found)
