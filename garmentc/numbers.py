"""The one place where numbers become text."""

from __future__ import annotations

import math

MM_PER_UNIT = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "inch": 25.4}


def decimal(value: float, places: int = 3) -> str:
    """Fixed notation with at most ``places`` decimals, no trailing zeros, no exponent, no minus zero."""
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def fixed(value: float, places: int) -> str:
    """Fixed notation with all its decimals, for columns of numbers; no minus zero."""
    text = f"{value:.{places}f}"
    return text.removeprefix("-") if not text.strip("-0.") else text


def exact(value: float) -> float:
    """A number for machines: rounded to a millionth, and never minus zero."""
    return round(value, 6) + 0.0


def length(mm: float) -> str:
    """A length for people: millimetres below 2 cm, centimetres above, to a tenth of a millimetre."""
    if abs(mm) < 20.0:
        return f"{decimal(mm, 1)} mm"
    return f"{decimal(mm / 10.0, 2)} cm"


def degrees(radians: float) -> str:
    """An angle for people, to a tenth of a degree."""
    return f"{decimal(math.degrees(radians), 1)} deg"


def area(square_mm: float) -> str:
    """An area for people, in square centimetres."""
    return f"{decimal(square_mm / 100.0, 1)} cm²"


def percent(ratio: float) -> str:
    """A share for people, to a tenth of a percent."""
    return f"{decimal(ratio * 100.0, 1)} %"
