"""Cuts a text into words, numbers and signs.

Lark's contextual lexer compiles one pattern for each set of tokens that may come next, about a hundred of them for any
garment, and that is a sixth of a run. Only words are told apart by their context here, so that one pattern does.
"""

from __future__ import annotations

from collections.abc import Iterator
from copy import copy
from typing import Any

from lark import Token
from lark.common import LexerConf
from lark.exceptions import UnexpectedCharacters
from lark.lexer import BasicLexer, ContextualLexer, LexerState, Scanner

_WORD = "NAME"


class WordLexer(BasicLexer):
    """A keyword where the parser can take it, and a name everywhere else.

    It gives what the contextual lexer gives, since both try the tokens in the same order. Where its first match is
    none that the parser can take, that one goes on with the text: it knows what was expected.
    """

    __future_interface__ = 2

    def __init__(self, conf: LexerConf) -> None:
        self._keywords = {
            one.pattern.value: one.name
            for one in conf.terminals
            if one.pattern.type == "str" and one.pattern.value.isidentifier()
        }
        self._conf = copy(conf)
        self._conf.skip_validation = True  # the grammar is ours and fixed
        others = copy(self._conf)
        others.terminals = [one for one in conf.terminals if one.name not in self._keywords.values()]
        super().__init__(others)
        self._accepted: dict[str, Any] = {}
        self._exact: ContextualLexer | None = None

    def _build_scanner(self) -> Scanner:
        self.callback = {}
        return Scanner(self.terminals, self.g_regex_flags, self.re, self.use_bytes)  # type: ignore[no-untyped-call]

    def match(self, text: Any, pos: int) -> tuple[str, str] | None:
        """The token at a place, and its type; None when the parser can't take it."""
        found: tuple[str, str] | None = super().match(text, pos)  # type: ignore[no-untyped-call]
        if found is None:
            return None
        value, type_ = found
        if type_ == _WORD and (keyword := self._keywords.get(value)) in self._accepted:
            return value, str(keyword)
        return found if type_ in self._accepted or type_ in self.ignore_types else None

    def lex(self, state: LexerState, parser_state: Any) -> Iterator[Token]:
        """The tokens of a text, each cut off when the parser stands where it takes it."""
        states = parser_state.parse_conf.states
        try:
            while True:
                self._accepted = states[parser_state.position]
                yield self.next_token(state, parser_state)
        except EOFError:
            return
        except UnexpectedCharacters:
            if self._exact is None:
                self._exact = ContextualLexer(self._conf, states)
        yield from self._exact.lex(state, parser_state)
