"""What a text is cut into, and how far a rule of the grammar reaches in it."""

from __future__ import annotations

from typing import NamedTuple


class Token(str):
    """A word, number, sign or text as written; ``kind`` is the terminal of the grammar, offsets count signs."""

    __slots__ = ("end_pos", "kind", "start_pos")

    kind: str
    start_pos: int
    end_pos: int

    @classmethod
    def at(cls, text: str, kind: str, start: int) -> Token:
        """A token that starts at an offset."""
        token = cls(text)
        token.kind, token.start_pos, token.end_pos = kind, start, start + len(text)
        return token


class Extent(NamedTuple):
    """From where to where what a rule was read from reaches; None when that is nothing at all."""

    start_pos: int | None
    end_pos: int | None
