"""Names of points: letters for the draft, numbers for the cut line."""

from __future__ import annotations

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"  # I and O are too much like numbers


def letter_name(number: int) -> str:
    """A, B, C and so on, then AA."""
    before, at = divmod(number, len(_LETTERS))
    return (letter_name(before - 1) if before else "") + _LETTERS[at]
