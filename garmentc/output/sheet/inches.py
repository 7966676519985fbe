"""A sheet with its lengths in inches, for those whose tape and ruler are marked so."""

from __future__ import annotations

import re
from typing import Any, TypeVar

from garmentc.output.sheet.document import Document
from garmentc.output.texts.speech import Voice

_LENGTH = re.compile(r"(?<![\w.,])(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? (mm|cm)\b")
_AREA = re.compile(r"(?<![\w.,])(\d+(?:\.\d+)?) cm²")
_MM = {"mm": 1.0, "cm": 10.0}
_SQUARE_INCH = 6.4516  # cm², exact
_VOICE = Voice(inches=True)

Whole = TypeVar("Whole")


def in_inches(document: Document) -> Document:
    """The same sheet, each length rounded to a sixteenth of an inch; thread stays in metres, as it is sold.

    A length with a hard space before its unit is left alone: what is drawn on the pattern is not converted.
    """
    return _converted(document)


def said_in_inches(text: str) -> str:
    """A text with its lengths and areas in inches."""
    text = _AREA.sub(lambda found: f"{float(found[1]) / _SQUARE_INCH:.0f} sq in", text)
    return _LENGTH.sub(_inches, text)


def _inches(found: re.Match[str]) -> str:
    least, most, unit = found.groups()
    if most is None:
        return _VOICE.length(float(least) * _MM[unit])
    first, second = (_VOICE.length(float(value) * _MM[unit]) for value in (least, most))
    return second if first == second else f"{first.rpartition(' ')[0]} to {second}"


def _converted(value: Whole) -> Whole:
    """A value with every text in it converted, however deep."""
    found: Any = value
    if isinstance(value, str):
        found = said_in_inches(value)
    elif isinstance(value, tuple):
        parts = map(_converted, value)
        found = type(value)(*parts) if hasattr(value, "_fields") else tuple(parts)
    return found  # type: ignore[no-any-return]
