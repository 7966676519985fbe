"""Texts that the grammar allows, made by chance from its own rules: a new statement is tried without a word here."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from lark.grammar import NonTerminal, Rule, Symbol

from garmentc.syntax.parser import Parser
from garmentc.syntax.words import CONTINUING_WORDS

_ENDS = ("\n", "\n", "\n\n", "\n# a note\n", "  # beside\n", " # beside\n\n\n  # and below\n", "; ", ";\n", ";;\n\t\n")
_LETS_GO_ON = ("\n", "  # why\n    ", "\n\n  # why\n\n")
_SAMPLES = {
    "NAME": ("a", "b1", "front", "side_of_the_long_seam", "with_", "Top"),
    "NUMBER": ("0", "2", "1.50", "007"),
    "QUANTITY": ("1cm", "2.50 cm", "30   deg", "50%", "0.1 m"),
    "INCHES": ("1/2 in", "1  1/2in"),
    "TEXT": ('""', '"a # b"', '"one { two; three }"', '"Straße, (with) 5 % more"'),
    "COMPARE": ("==", "<=", ">"),
    "SIGN": ("+", "-"),
    "TIMES": ("*", "/"),
    "_ARROW": ("->",),
    "_COMMA": (",",),
    "_LPAR": ("(",),
    "_RPAR": (")",),
    "_SEP": ("\n",),
}
_OPEN_BEHIND = ("COMPARE", "SIGN", "TIMES", "_ARROW", "_COMMA", "_LPAR")
_DEEP, _DEEPEST = 6, 34
_LONGEST = 90


class Generator:
    """Derives texts from the rules of the grammar."""

    def __init__(self, parser: Parser) -> None:
        self._lark = parser.lark
        self._rules: dict[str, list[Rule]] = {}
        for rule in self._lark.rules:
            self._rules.setdefault(rule.origin.name, []).append(rule)
        tops = [*self._rules["_top_line"], *self._rules["_top_block"]]
        self._statements = [rule.expansion[0].name for rule in tops]
        self._least = self._least_depths()

    def text(self, seed: int) -> str:
        """One text; the same for the same seed."""
        chance = Random(seed)
        terminals: list[str] = []
        self._derive(self._statements[seed % len(self._statements)], chance, terminals)  # each has its turn
        terminals.append("_SEP")
        for _ in range(chance.randint(0, 3)):
            self._derive("_top", chance, terminals)
        return "".join(_written(terminals, [self._core(name, chance) for name in terminals], chance))

    def _derive(self, symbol: str, chance: Random, terminals: list[str]) -> None:
        longest = len(terminals) + _LONGEST
        waiting: list[tuple[Symbol, int]] = [(NonTerminal(symbol), 0)]
        while waiting:
            symbol, depth = waiting.pop()
            if symbol.is_term:
                terminals.append(symbol.name)
                continue
            rules = self._rules[symbol.name]
            tired = depth > _DEEP and chance.random() < 0.5
            if tired or depth > _DEEPEST or len(terminals) > longest:
                least = min(self._depth(rule) for rule in rules)
                rules = [rule for rule in rules if self._depth(rule) == least]
            waiting += [(one, depth + 1) for one in reversed(chance.choice(rules).expansion)]

    def _core(self, name: str, chance: Random) -> str:
        return chance.choice(_SAMPLES[name]) if name in _SAMPLES else self._lark.get_terminal(name).pattern.value

    def _depth(self, rule: Rule) -> int:
        return max((self._least[one.name] for one in rule.expansion if not one.is_term), default=0)

    def _least_depths(self) -> dict[str, int]:
        """How many rules deep each symbol goes at least."""
        least = dict.fromkeys(self._rules, 1_000)
        changed = True
        while changed:
            changed = False
            for name, rules in self._rules.items():
                found = 1 + min(
                    max((least[one.name] for one in rule.expansion if not one.is_term), default=0) for rule in rules
                )
                if found < least[name]:
                    least[name], changed = found, True
        return least


def _written(names: list[str], cores: list[str], chance: Random) -> Iterator[str]:
    """The tokens with blanks, line ends and comments wherever they may stand."""
    for i, (name, core) in enumerate(zip(names, cores, strict=True)):
        if name == "_SEP":
            yield chance.choice(_ENDS)
            continue
        goes_on = core in CONTINUING_WORDS and name != "NAME" and i + 1 < len(names) and cores[i + 1][0] not in "=:.("
        if (goes_on and chance.random() < 0.4) or (name == "_RPAR" and chance.random() < 0.2):
            yield chance.choice(_LETS_GO_ON)
        yield chance.choice((" ", " ", "  ", "\t")) + core
        if name in _OPEN_BEHIND and chance.random() < 0.3:
            yield chance.choice(_LETS_GO_ON)
