"""What an unquoted YAML word stands for, and the words that tools disagree about."""

from __future__ import annotations

import re

Scalar = str | float | bool | None

_NUMBER = re.compile(r"[-+]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]*)?|\.[0-9]+)")
_WORDS: dict[str, bool | None] = {
    "": None,
    "~": None,
    **dict.fromkeys(("null", "Null", "NULL"), None),
    **dict.fromkeys(("true", "True", "TRUE"), True),
    **dict.fromkeys(("false", "False", "FALSE"), False),
}
_SUSPECT = re.compile(r"[-+.0-9_=<]|[yYnNoO].{0,2}$")
_TWO_READINGS = (
    (re.compile(r"(?i:yes|no|on|off)|[yYnN]"), "a truth value"),
    (re.compile(r"[-+]?[0-9][0-9_]*(?::[0-5]?[0-9])+(?:\.[0-9_]*)?"), "a number to base 60"),
    (re.compile(r"[-+]?0(?:o?[0-7_]+|[0-9_]+)(?:\.[0-9_]*)?"), "a number to base 8"),
    (re.compile(r"[-+]?0[xX][0-9a-fA-F_]+"), "a number to base 16"),
    (re.compile(r"[-+]?0[bB][01_]+"), "a number to base 2"),
    (
        re.compile(r"[-+]?(?=[0-9._]*[0-9])[0-9_]*\.?[0-9_]*(?:[eE][-+]?[0-9]+)?"),
        "a number in another notation",
    ),
    (re.compile(r"[-+]?\.(?i:inf)|\.(?i:nan)"), "a number without a value"),
    (re.compile(r"[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}(?:[Tt\s].*)?"), "a date"),
    (re.compile(r"=|<<"), "a mark of the format itself"),
)


def plain_value(text: str) -> Scalar:
    """The value of an unquoted word: nothing, a truth value, a number, or the text itself."""
    if text in _WORDS:
        return _WORDS[text]
    return float(text) if _NUMBER.fullmatch(text) else text


def other_reading(text: str) -> str | None:
    """What some YAML readers take an unquoted word for while others take it for text; None if all agree."""
    if not _SUSPECT.match(text) or _NUMBER.fullmatch(text):
        return None
    return next((reading for pattern, reading in _TWO_READINGS if pattern.fullmatch(text)), None)
