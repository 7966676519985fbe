"""Reads a text without faults by the tables of the grammar, and hands what it reduces to a builder."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import Any

from garmentc.syntax.tables import Tables
from garmentc.syntax.tokens import Extent, Token

Method = Callable[[Extent, list[Any]], Any]
Rule = tuple[int, str, "Method | None", bool, Any, int]
_WORD = "NAME"


class Unreadable(Exception):
    """The text does not follow the grammar, or needs what lark knows to see that it does."""


class Misfit(Exception):
    """A fault of writing: from where to where, the kind of token that stands there (empty when it is none at all), and
    the kinds that were expected in its place."""

    def __init__(self, start: int, end: int, kind: str = "", expected: Iterable[str] = ()) -> None:
        super().__init__(start, end, kind)
        self.start, self.end, self.kind, self.expected = start, end, kind, frozenset(expected)


class Machine:
    """The tables of a grammar at work.

    A word is a keyword where the parser can take it, and a name everywhere else. All other tokens are cut off as the
    first that match, in lark's order; where that is none that the parser can take, ``Unreadable`` is raised, and
    lark's contextual lexer may know better.
    """

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._match = re.compile(tables.pattern).match

    def read(self, text: str, start: str, builder: object) -> Any:
        """What the methods of a builder make of a text, from a start of the grammar; raises ``Unreadable``."""
        tables = self._tables
        rules: dict[int, Rule] = {}
        keywords, ignored, states, match = tables.keywords, tables.ignored, tables.states, self._match
        end, size = states[tables.ends[start]], len(text)
        at, actions = 0, states[tables.starts[start]]
        line: list[tuple[Any, Any, int | None, int | None]] = []  # state to go back to, value, extent
        while True:
            if at < size:
                found = match(text, at)
                if found is None:
                    raise Unreadable
                kind = found.lastgroup or ""
                if kind in ignored:
                    at = found.end()
                    continue
                written = found[0]
                if kind == _WORD and (word := keywords.get(written)) in actions:
                    kind = word or kind
                begins, ends = at, found.end()
            else:
                kind, written, begins, ends = "$END", "", at, at
            while True:
                action = actions.get(kind)
                if action is None:
                    raise Unreadable
                if action >= 0:
                    break
                rule = rules.get(action) or self._ready(rules, action, builder)
                taken, symbol = rule[0], rule[1]
                parts = line[-taken:] if taken else []
                if taken:
                    actions = parts[0][0]
                    del line[-taken:]
                first = next((part[2] for part in parts if part[2] is not None), None)
                last = next((part[3] for part in reversed(parts) if part[3] is not None), None)
                line.append((actions, _reduced(rule, parts, first, last), first, last))
                actions = states[actions[symbol]]
                if actions is end and kind == "$END":
                    return line[-1][1]
            line.append((actions, Token.at(written, kind, begins), begins, ends))
            actions = states[action]
            at = ends

    def _ready(self, rules: dict[int, Rule], action: int, builder: object) -> Rule:
        taken, symbol, name, alone, plan, behind = self._tables.rules[-1 - action]
        method: Method | None = None
        if name:  # of a rule that only chooses among others nothing is built
            method = getattr(builder, name, None) if alone else getattr(builder, name)
        rules[action] = (taken, symbol, method, alone, plan, behind)
        return rules[action]


def _reduced(rule: Rule, parts: list[tuple[Any, Any, Any, Any]], first: int | None, last: int | None) -> Any:
    _, _, method, alone, plan, behind = rule
    children: list[Any] = []
    for place, spread, left_out in plan:
        if left_out:
            children += [None] * left_out
        if spread:
            children += parts[place][1]
        else:
            children.append(parts[place][1])
    if behind:
        children += [None] * behind
    if alone and len(children) == 1:
        return children[0]
    return children if method is None else method(Extent(first, last), children)
