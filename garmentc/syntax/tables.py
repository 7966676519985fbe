"""The tables of the parser as plain values: lark derives them from the grammar, and later runs read them from a file.

Lark's own form of them takes half of a run to load, for everything it also can do with a grammar.
"""

from __future__ import annotations

import marshal
import sys
import zlib
from collections.abc import Mapping, Sequence
from contextlib import suppress
from typing import TYPE_CHECKING, Any

from garmentc.host import Host
from garmentc.record import Record
from garmentc.syntax.lalr import whole_grammar

if TYPE_CHECKING:
    from lark import Lark
    from lark.grammar import Rule

_LAYOUT = 1
"""Of what is kept in the file; raise it with any change of ``Tables``."""

Plan = Sequence[tuple[int, bool, int]]


class Tables(Record):
    """What a text is cut by and reduced by.

    ``pattern`` has a named group for each terminal but the keywords; ``keywords`` gives the terminal of each.
    A rule is how many symbols it takes off, the symbol it gives, the name of its builder method (empty when its parts
    go to the rule above), whether a single part stands for itself, which of the symbols are its parts (place, whether
    to spread it, how many that were left out go before it) and how many left out go at the end. ``states`` holds what
    to do at each symbol: go on to a state, or reduce by the rule ``-1 - number``.
    """

    pattern: str
    ignored: Sequence[str]
    keywords: Mapping[str, str]
    rules: Sequence[tuple[int, str, str, bool, Plan, int]]
    states: Sequence[Mapping[str, int]]
    starts: Mapping[str, int]
    ends: Mapping[str, int]


def tables(host: Host, grammar: bytes) -> Tables:
    """The tables of a grammar: read from where they were kept, or derived and kept there."""
    # Named after the grammar, so that two checkouts with different ones don't derive them in turn.
    kept = host.cache_file(f"tables-{_LAYOUT}-{sys.implementation.cache_tag}-{zlib.crc32(grammar):08x}.bin")
    if kept is not None:
        with suppress(OSError, ValueError, EOFError, TypeError):
            return Tables(*marshal.loads(host.read(kept)))
    made = derived(whole_grammar(grammar.decode()))
    if kept is not None:
        with suppress(OSError):
            host.write(kept, marshal.dumps([*made]))
    return made


def derived(lark: Lark) -> Tables:
    """The tables out of what lark made of a grammar."""
    from lark.lexer import BasicLexer
    from lark.parsers.lalr_analysis import Shift

    keywords = {
        str(one.pattern.value): str(one.name)
        for one in lark.terminals
        if one.pattern.type == "str" and one.pattern.value.isidentifier()
    }
    conf = lark.lexer_conf
    conf.skip_validation = True
    ordered = [one for one in BasicLexer(conf).terminals if one.name not in keywords.values()]
    table: Any = lark.parser.parser._parse_table
    numbers = {state: number for number, state in enumerate(table.states)}
    rules = {rule: number for number, rule in enumerate(lark.rules)}
    for actions in table.states.values():
        for _, (action, rule) in actions.items():
            if action is not Shift:
                rules.setdefault(rule, len(rules))
    states = [
        {str(symbol): numbers[to] if action is Shift else -1 - rules[to] for symbol, (action, to) in actions.items()}
        for actions in table.states.values()
    ]
    return Tables(
        "|".join(f"(?P<{one.name}>{one.pattern.to_regexp()})" for one in ordered),
        tuple(map(str, lark.ignore_tokens)),
        keywords,
        [_rule(rule) for rule in rules],
        states,
        {start: numbers[state] for start, state in table.start_states.items()},
        {start: numbers[state] for start, state in table.end_states.items()},
    )


def _rule(rule: Rule) -> tuple[int, str, str, bool, Plan, int]:
    name = str(rule.alias or rule.origin.name)
    options = rule.options
    gaps = [len(ones) for ones in "".join(str(int(bit)) for bit in options.empty_indices).split("0")]
    if not options.empty_indices:
        gaps = [0] * (len(rule.expansion) + 1)
    plan, left_out = [], 0
    symbol: Any
    for place, symbol in enumerate(rule.expansion):
        left_out += gaps[place]
        if not (symbol.is_term and symbol.filter_out):
            plan.append((place, not symbol.is_term and symbol.name.startswith("_"), left_out))
            left_out = 0
    inline = name.startswith("_")
    alone = bool(options.expand1 and not rule.alias)
    return (
        len(rule.expansion),
        str(rule.origin.name),
        "" if inline else name,
        alone,
        tuple(plan),
        left_out + gaps[len(rule.expansion)],
    )
