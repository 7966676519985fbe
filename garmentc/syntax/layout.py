"""Where statements begin and end, found without the grammar, so that one fault does not hide the next."""

from __future__ import annotations

import re
from typing import NamedTuple

from garmentc.source import Source, Span
from garmentc.syntax.words import ITEM_WORDS, STATEMENT_WORDS

_MARKS = re.compile(r'"[^"\n]*"?|#[^\n]*|[{}();\n]')
_OPENING_WORDS = re.compile(rf"(?:{'|'.join(STATEMENT_WORDS)})\b")
_DEFINES = re.compile(
    r"\s*(?:(?:piece|strip|seam|finish|param|ease|measure|step|finished|mark|guide|grow)\s+)?"
    r"(?:type\s+)?([A-Za-z_][A-Za-z0-9_]*)"
)
_SECOND_NAME = re.compile(r"[ \t]+([A-Za-z_][A-Za-z0-9_]*)[ \t]*[\"=:{]")  # behind a misspelt keyword


class Stretch(NamedTuple):
    """The text of one statement: its block, if it has one, starts at ``block``; ``inside`` are its statements."""

    start: int
    end: int
    block: int | None
    inside: tuple[Stretch, ...]

    def name(self, text: str) -> str | None:
        """The name that the statement seems to define."""
        found = _DEFINES.match(text, self.start, self.end)
        if found is None:
            return None
        after = _SECOND_NAME.match(text, found.end(), self.end)
        misspelt = found.start(1) == self.start and found.group(1) not in (*STATEMENT_WORDS, *ITEM_WORDS)
        return after.group(1) if after and misspelt else found.group(1)


class BraceFault(NamedTuple):
    """A brace without its partner; ``repair`` is where a ``}`` can stand in, for an opening one."""

    at: int
    opening: bool
    repair: int


def brace_faults(text: str) -> list[BraceFault]:
    """Braces without a partner.

    When the braces of a file don't balance, a word that opens a statement in the first column shows that the
    blocks before it should have been closed.
    """
    if not _unbalanced(text, trust_columns=False):
        return []
    return _unbalanced(text, trust_columns=True) or _unbalanced(text, trust_columns=False)


def _unbalanced(text: str, *, trust_columns: bool) -> list[BraceFault]:
    faults: list[BraceFault] = []
    open_braces: list[int] = []
    for mark in _MARKS.finditer(text):
        found = mark.group()
        if found == "{":
            open_braces.append(mark.start())
        elif found == "}":
            if open_braces:
                open_braces.pop()
            else:
                faults.append(BraceFault(mark.start(), False, mark.start()))
        elif found == "\n" and trust_columns and open_braces and _OPENING_WORDS.match(text, mark.end()):
            faults.extend(BraceFault(at, True, mark.start()) for at in open_braces)
            open_braces.clear()
    faults.extend(BraceFault(at, True, len(text)) for at in open_braces)
    return faults


def unclosed_texts(source: Source) -> list[Span]:
    """Quoted texts that their line does not close."""
    return [
        Span(source, mark.start(), mark.end())
        for mark in _MARKS.finditer(source.text)
        if mark.group()[0] == '"' and (len(mark.group()) == 1 or mark.group()[-1] != '"')
    ]


def nesting(text: str) -> tuple[int, int]:
    """The deepest nesting of parentheses and braces, and where it is reached."""
    depth = deepest = at = 0
    for mark in _MARKS.finditer(text):
        found = mark.group()
        if found in "({":
            depth += 1
            if depth > deepest:
                deepest, at = depth, mark.start()
        elif found in ")}":
            depth = max(0, depth - 1)
    return deepest, at


def statements(text: str) -> tuple[Stretch, ...]:
    """The statements of a file whose braces balance."""
    found: list[list[Stretch]] = [[]]
    begun: list[tuple[int, int]] = []  # start of the statement, start of its block
    start = 0
    parentheses = 0

    def finish(end: int, block: int | None, inside: tuple[Stretch, ...]) -> None:
        body = text[start:end]
        if body.strip():
            lead = len(body) - len(body.lstrip())
            found[-1].append(Stretch(start + lead, start + len(body.rstrip()), block, inside))

    for mark in _MARKS.finditer(text):
        sign = mark.group()
        if sign == "(":
            parentheses += 1
        elif sign == ")":
            parentheses = max(0, parentheses - 1)
        elif sign == "{":
            begun.append((start, mark.start()))
            found.append([])
            start = mark.end()
            parentheses = 0
        elif sign == "}":
            finish(mark.start(), None, ())
            if begun:
                inside = tuple(found.pop())
                start, block = begun.pop()
                finish(mark.end(), block, inside)
            start = mark.end()
            parentheses = 0
        elif (sign == "\n" and not (parentheses and _goes_on(text, mark.start()))) or sign == ";":
            finish(mark.start(), None, ())
            start = mark.end()
            parentheses = 0
        elif sign[0] == "#" and not text[start : mark.start()].strip():
            start = mark.end()
    finish(len(text), None, ())
    while begun:
        inside = tuple(found.pop())
        start, block = begun.pop()
        finish(len(text), block, inside)
    return tuple(found[0])


def _goes_on(text: str, line_end: int) -> bool:
    """Whether a line inside parentheses ends so that it must go on: after a comma, operator or opening mark."""
    line = text[text.rfind("\n", 0, line_end) + 1 : line_end].split("#", 1)[0].rstrip()
    return line.endswith((",", "(", "+", "-", "*", "/", "->", "=", "<", ">"))


def innermost(stretches: tuple[Stretch, ...], offset: int) -> tuple[Stretch, ...]:
    """The statements that hold an offset, outermost first; an offset between statements belongs to the one before."""
    before: Stretch | None = None
    for stretch in stretches:
        if stretch.start > offset:
            break
        before = stretch
    if before is None:
        return ()
    if before.block is not None and before.block < offset < before.end:
        return (before, *innermost(before.inside, offset))
    return (before,)
