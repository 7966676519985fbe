"""Words about values, as the findings of data files use them."""

from __future__ import annotations

from collections.abc import Iterable

_LONGEST_QUOTE = 40


def short(text: str) -> str:
    """A text on one line, cut after 40 characters."""
    line = " ".join(text.split())
    return line if len(line) <= _LONGEST_QUOTE else f"{line[:_LONGEST_QUOTE]}…"


def quoted(names: Iterable[str]) -> str:
    """Names in quotes, parted by commas."""
    return ", ".join(f"`{short(name)}`" for name in names)


def count(number: int, thing: str) -> str:
    """A number of things: ``1 value``, ``3 values``."""
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"
