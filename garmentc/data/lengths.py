"""Lengths as people write them in data files."""

from __future__ import annotations

import re

from garmentc.numbers import MM_PER_UNIT

LENGTH_PATTERN = (
    r"^(?:(?=[0-9.]*[1-9])[0-9]{1,6}(?:\.[0-9]{1,6})?|(?:[1-9][0-9]{0,5} )?[1-9][0-9]{0,5}/[1-9][0-9]{0,5})"
    r" ?(?:mm|cm|m|in|inch)$(?!\n)"
)
"""A positive number or vulgar fraction and its unit; the shipped schemas carry the same pattern."""

_LENGTH = re.compile(LENGTH_PATTERN)
_PARTS = re.compile(r"(.*?) ?([a-z]+)")


def split_length(text: str) -> tuple[float, str] | None:
    """The number and the unit of a positive length such as ``88 cm`` or ``34 1/2 in``; None if it is none."""
    parts = _PARTS.fullmatch(text) if _LENGTH.search(text) else None
    if parts is None:
        return None
    *whole, last = parts[1].split(" ")
    above, _, below = last.partition("/")
    return sum(map(float, whole)) + float(above) / float(below or 1), parts[2]


def parse_length(text: str) -> float | None:
    """Millimetres of a positive length such as ``88 cm``, ``0.88 m`` or ``34 1/2 in``; None if it is none."""
    found = split_length(text)
    return None if found is None else found[0] * MM_PER_UNIT[found[1]]
