"""Marks gathered into statements and blocks, with the comments that belong to them."""

from __future__ import annotations

from garmentc.format.marks import Comment, Gap, Marks
from garmentc.record import Record


class Statement(Record):
    """A statement: its marks from ``first`` up to ``end``, and its block, if it has one."""

    first: int
    end: int
    block: Block | None
    blank_before: bool
    beside: str
    below: tuple[str, ...]
    """Comments under the one beside it, that go on with it."""


class Block(Record):
    """What stands between braces, or the whole file. ``beside`` is the comment behind the opening brace."""

    entries: tuple[Statement | Comment, ...]
    beside: str
    on_one_line: bool


def gather(marks: Marks) -> Block:
    """The statements of a text."""
    return _Gatherer(marks).block(0)[0]


class _Gatherer:
    def __init__(self, marks: Marks) -> None:
        self._marks, self._gaps = marks

    def block(self, at: int) -> tuple[Block, int]:
        """The block whose first mark is at a number, and the number of its ``}`` (or of the end)."""
        entries: list[Statement | Comment] = []
        gap = self._gaps[at]
        beside, on_one_line = gap.beside, not gap.newline
        entries += gap.above
        while at < len(self._marks) and self._marks[at].kind != "RBRACE":
            first, blank = at, gap.blank
            at += 1
            while at < len(self._marks) and not self._marks[at].begins:
                at += 1
            end, block = at, None
            if self._marks[at - 1].kind == "LBRACE":
                block, at = self.block(at)
                at += 1
            gap = self._gaps[at]
            on_one_line = on_one_line and not gap.newline and (block is None or block.on_one_line)
            on_one_line = on_one_line and not any(self._gaps[i].newline for i in range(first + 1, end))
            below, rest = _below(gap)
            entries.append(Statement(first, end, block, blank, gap.beside, below))
            entries += rest
        return Block(tuple(entries), beside, on_one_line), at


def _below(gap: Gap) -> tuple[tuple[str, ...], tuple[Comment, ...]]:
    """The comments that stand right under the one beside a statement, and the others."""
    count = 0
    if gap.beside and gap.beside_column:
        while count < len(gap.above):
            comment = gap.above[count]
            if comment.blank_before or comment.column != gap.beside_column:
                break
            count += 1
    return tuple(comment.text for comment in gap.above[:count]), gap.above[count:]
