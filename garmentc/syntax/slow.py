"""Reads by lark what the tables alone could not: it cuts texts with more care, and says what a fault expected."""

from __future__ import annotations

from typing import Any

from lark import Lark, Token, Tree, UnexpectedInput, UnexpectedToken
from lark.exceptions import UnexpectedCharacters
from lark.tree import Meta

from garmentc.syntax import tokens
from garmentc.syntax.machine import Misfit


def read(lark: Lark, text: str, start: str, builder: object) -> Any:
    """What the methods of a builder make of a text; raises ``Misfit`` at its first fault."""
    try:
        tree = lark.parse(text, start=start, on_error=_probe)
    except UnexpectedInput as fault:
        raise _misfit(fault, text) from None
    return _built(tree, builder)


def _probe(fault: UnexpectedInput) -> bool:
    if isinstance(fault, UnexpectedToken):
        fault.expected = fault.accepts or fault.expected
    return False


def _misfit(fault: UnexpectedInput, text: str) -> Misfit:
    if isinstance(fault, UnexpectedToken) and isinstance(fault.token, Token) and fault.token.type != "$END":
        start = fault.token.start_pos or 0
        return Misfit(start, start + max(1, len(fault.token.rstrip() or " ")), fault.token.type, fault.expected)
    if isinstance(fault, UnexpectedCharacters):
        start = fault.pos_in_stream or 0
        return Misfit(start, start + 1)
    return Misfit(len(text), len(text), "$END", fault.expected if isinstance(fault, UnexpectedToken) else ())


def _built(tree: Tree[Token], builder: object) -> Any:
    made: dict[int, Any] = {}
    for part in tree.iter_subtrees():
        children = [made[id(one)] if isinstance(one, Tree) else _token(one) for one in part.children]
        made[id(part)] = getattr(builder, part.data)(_extent(part.meta), children)
    return made[id(tree)]


def _token(token: Token | None) -> tokens.Token | None:
    return None if token is None else tokens.Token.at(str(token), token.type, token.start_pos or 0)


def _extent(meta: Meta) -> tokens.Extent:
    return tokens.Extent(None, None) if meta.empty else tokens.Extent(meta.start_pos, meta.end_pos)
