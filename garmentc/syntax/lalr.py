"""Lark with the grammar: it derives the tables of the parser, and knows what was expected where a text has a fault."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from lark import Lark

STARTS = ("start", "setting")


@lru_cache(maxsize=1)
def whole_grammar(grammar: str) -> Lark:
    """The grammar in lark's hands. Loading lark and building this takes longer than compiling a garment."""
    from lark import Lark

    return Lark(grammar, parser="lalr", start=list(STARTS), maybe_placeholders=True, propagate_positions=True)
