"""Where statements begin and end, found without the grammar, so that one fault does not hide the next."""

from __future__ import annotations

import re

from garmentc.diagnostics.suggest import closest
from garmentc.record import Record
from garmentc.source import Source, Span
from garmentc.syntax.words import CONTINUING_WORDS, ITEM_WORDS, STATEMENT_WORDS

_MARKS = re.compile(r'"[^"\n]*"?|#[^\n]*|[{}();\n]')
_OPENING_WORDS = re.compile(rf"(?:{'|'.join(STATEMENT_WORDS)})\b")
_CONTINUES = re.compile(rf"[ \t]*(?!joins[ \t]+[0-9])(?:{'|'.join(CONTINUING_WORDS)})\b(?![ \t]*[=:.(])")
_PIECE_LINE = re.compile(rf"[ \t]*(?:{'|'.join(ITEM_WORDS)})[ \t]+[A-Za-z0-9{{]")
_CLOSING_LINE = re.compile(r"([ \t]*)\}")
_OUTLINE = re.compile(r"\boutline[ \t]*$")
_DEFINES = re.compile(
    r"\s*(?:(?:piece|draft|strip|seam|finish|param|ease|measure|step|finished|mark|guide|lengthen|buttons|buttonholes"
    r"|grow|function|table|use)\s+)?"
    r"(?:type\s+)?([A-Za-z_][A-Za-z0-9_]*)"
)
_SECOND_NAME = re.compile(r"[ \t]+([A-Za-z_][A-Za-z0-9_]*)[ \t]*[\"=:{]")  # behind a misspelt keyword
_NOTHING = re.compile(r"[ \t\r]*(?:#[^\n]*)?\n")
_WORD = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_LISTED = re.compile(r"(?:^|,)\s*([A-Za-z_][A-Za-z0-9_]*)")


class Stretch(Record):
    """The text of one statement: its block, if it has one, starts at ``block``; ``inside`` are its statements."""

    start: int
    end: int
    block: int | None
    inside: tuple[Stretch, ...]

    def names(self, text: str) -> tuple[str, ...]:
        """The names that the statement seems to define; a misspelt keyword in front of them is seen through."""
        first = _WORD.match(text, self.start, self.end)
        word = first.group() if first else ""
        misspelt = word not in (*STATEMENT_WORDS, *ITEM_WORDS)
        if first and (word == "measure" or (misspelt and closest(word, STATEMENT_WORDS)[:1] == ("measure",))):
            bare = _MARKS.sub("", text[first.end() : self.end])
            if listed := _LISTED.findall(bare):
                return tuple(listed)
        found = _DEFINES.match(text, self.start, self.end)
        if found is None:
            return ()
        after = _SECOND_NAME.match(text, found.end(), self.end)
        behind = misspelt and found.start(1) == self.start
        return (after.group(1) if after and behind else found.group(1),)


class BraceFault(Record):
    """A brace without its partner; ``repair`` is where a ``}`` can stand in, for an opening one."""

    at: int
    opening: bool
    repair: int


def join_lines(text: str) -> str:
    """The text with blanks for the line ends (and comments) that a word like ``joins`` goes on after."""
    joined = list(text)
    comment = -1
    ahead = 0  # where the next line with something on it begins
    for mark in _MARKS.finditer(text):
        sign = mark.group()
        if sign[0] == "#":
            comment = mark.start()
            continue
        if sign == "\n":
            start = mark.start() if comment < 0 else comment
            if mark.end() > ahead:
                ahead = _next_line(text, mark.end())
            if _CONTINUES.match(text, ahead):
                joined[start : mark.end()] = " " * (mark.end() - start)
        comment = -1
    return "".join(joined)


def goes_on_before(text: str, start: int) -> bool:
    """Whether a line that began at an offset would belong to the line before."""
    return _CONTINUES.match(text, start) is not None


def _next_line(text: str, start: int) -> int:
    """Where the next line begins that is not blank and not a comment."""
    while (found := _NOTHING.match(text, start)) is not None:
        start = found.end()
    return start


def brace_faults(text: str) -> list[BraceFault]:
    """Braces without a partner.

    When the braces of a file don't balance, the way it is laid out shows which block should have been closed: a word
    that opens a statement in the first column, a line of a piece inside an outline, a ``}`` further left than the
    line of the brace it would close.
    """
    if not _unbalanced(text, trust_layout=False):
        return []
    return _unbalanced(text, trust_layout=True) or _unbalanced(text, trust_layout=False)


def _unbalanced(text: str, *, trust_layout: bool) -> list[BraceFault]:
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
        elif found == "\n" and trust_layout and open_braces:
            unclosed = _left_open(text, mark.end(), open_braces)
            faults.extend(BraceFault(at, True, mark.start()) for at in open_braces[len(open_braces) - unclosed :])
            del open_braces[len(open_braces) - unclosed :]
    faults.extend(BraceFault(at, True, len(text)) for at in open_braces)
    return faults


def _left_open(text: str, line: int, open_braces: list[int]) -> int:
    """How many of the open blocks, counted from the innermost, should have been closed before a line."""
    if _OPENING_WORDS.match(text, line):
        return len(open_braces)
    inner = open_braces[-1]
    if _OUTLINE.search(text, 0, inner) and _PIECE_LINE.match(text, line):
        return 1
    closing = _CLOSING_LINE.match(text, line)
    if closing is None:
        return 0
    deeper = [at for at in open_braces if _indent(text, at) > len(closing[1])]
    return len(deeper) if len(deeper) < len(open_braces) else 0


def comment_start(text: str, start: int, end: int) -> int:
    """Where the comment of a line begins, or the end of the line."""
    return next((mark.start() for mark in _MARKS.finditer(text, start, end) if mark.group()[0] == "#"), end)


def _indent(text: str, at: int) -> int:
    """How far the line of an offset is indented."""
    start = text.rfind("\n", 0, at) + 1
    return len(text[start:at]) - len(text[start:at].lstrip(" \t"))


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


def sibling(stretches: tuple[Stretch, ...], start: int) -> Stretch | None:
    """The statement behind the one that begins at an offset, in the same block."""
    for at, one in enumerate(stretches):
        if one.start == start:
            return stretches[at + 1] if at + 1 < len(stretches) else None
        if one.start < start < one.end:
            return sibling(one.inside, start)
    return None


def is_rest(text: str, stretch: Stretch) -> bool:
    """Whether a statement can only be the rest of the one before: it begins as none does."""
    first = _WORD.match(text, stretch.start, stretch.end)
    if first is None:
        return True
    words = (*STATEMENT_WORDS, *ITEM_WORDS)
    after = text[first.end() : stretch.end].lstrip()
    return first.group() not in words and after[:1] not in ("=", ":") and not closest(first.group(), words)


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
