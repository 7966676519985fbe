"""Which statements of a spec are not as they were, whatever lines and spaces they stand in."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from garmentc.comparison.model import Rewritten, Statement
from garmentc.format.proof import same_tree
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import File

_RULES = (nodes.Header, nodes.Edition, nodes.Measure, nodes.Check, nodes.Uneven, nodes.Lay, nodes.JoinType)
"""What changes a garment though none of its numbers may show it."""

_COMMENT = re.compile(r'("[^"\n]*")|#[^\n]*')


def rewritten(old: File, new: File) -> tuple[Rewritten, ...]:
    """The statements that differ, in the order of the new file, then what was dropped.

    Blocks and the garment that a file varies count as if they stood in it; the order of statements does not count.
    """
    before, after = _named(old), _named(new)
    pairs = [(before.get(name), one) for name, one in after.items()]
    dropped = [Rewritten(one, None, one.rule is not None) for name, one in before.items() if name not in after]
    return (*(one for pair in pairs for one in _differing(*pair)), *dropped)


def _differing(old: Statement | None, new: Statement) -> Iterator[Rewritten]:
    if old is None:
        yield Rewritten(None, new, new.rule is not None)
    elif not same_tree(old.tree, new.tree):
        yield Rewritten(old, new, not same_tree(old.rule, new.rule))


def _named(file: File) -> dict[str, Statement]:
    """All statements by name; of two with one name the second gets a number."""
    found: dict[str, Statement] = {}
    for one in _flat(file.statements, "", ""):
        name, number = one.name, 2
        while name in found:
            name, number = f"{one.name} ({number})", number + 1
        found[name] = one._replace(name=name)
    return found


def _flat(held: Iterable[object], inside: str, under: str) -> Iterator[Statement]:
    """Statements one by one; ``inside`` is the block they stand in and ``under`` the choice they depend on."""
    for one in held:
        if isinstance(one, nodes.When):
            yield from _flat(one.statements, inside, f"{under} when {_words(one.condition.span.text)}")
        elif isinstance(one, nodes.Piece):
            yield _statement(one, one._replace(items=()), inside, under)
            yield from _flat(one.items, f"piece {one.name.text}: ", under)
        elif isinstance(one, nodes.Outline):
            yield from _flat(one.edges, inside, under)
        else:
            yield _statement(one, one, inside, under)


def _statement(node: object, tree: object, inside: str, under: str) -> Statement:
    span: Span = node.span  # type: ignore[attr-defined]
    text = _words(span.text.partition("{")[0] if tree is not node else span.text)
    rule: object = None
    if isinstance(node, nodes.Param | nodes.Ease):
        rule = (node.range, node.description)
        value = node.given or node.value
        if value.span.source is not span.source:  # changed by the file that varies or uses this one
            text += f", set to {_words(value.span.text)} in {value.span.source.name}"
    elif isinstance(node, _RULES) or under:  # what a choice leaves out is in no number of the garment compared
        rule = tree
    return Statement(f"{inside}{_called(node)}{under}", text, tree, rule, span)


def _called(node: object) -> str:
    """What people call a statement: its keyword and its name, or what it is about."""
    word = type(node).__name__.lower()
    if isinstance(node, nodes.Header):
        return "garment"
    if isinstance(node, nodes.Define):
        return node.name.text
    if isinstance(node, nodes.Check):
        return f'{node.severity} "{node.text.text}"'
    if isinstance(node, nodes.Finish):
        return f"finish {', '.join(_words(edge.span.text) for edge in node.edges)}"
    if isinstance(node, nodes.Notch | nodes.Uneven):
        return f"{word} on {_words(node.edge.span.text)}"
    if isinstance(node, nodes.Solve):
        return f"solve {', '.join(one.text for one in node.unknowns)}"
    if isinstance(node, nodes.Lay):
        return f"lay {', '.join(one.text for one in node.names)}"
    if isinstance(node, nodes.Pivot):
        return f"pivot {node.dart.text}"
    name = getattr(node, "name", None)
    return f"{word} {name.text}" if isinstance(name, nodes.Word) else word


def _words(text: str) -> str:
    """Text on one line, without comments."""
    return " ".join(_COMMENT.sub(lambda found: found[1] or "", text).split())
