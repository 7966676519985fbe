"""How much space words take, for any common sans-serif font, and which characters may be written."""

from __future__ import annotations

from functools import lru_cache

CAPITALS = 0.72
"""Height of capitals as a share of the font size."""

HARD_SPACE = "\u00a0"

_LINE = 1.65  # from one line to the next, as a share of the height of capitals
_MEAN = 0.64
# Widths as shares of the font size, those of a wide font, so that narrower ones leave a little air.
_WIDTHS = {
    char: width
    for chars, width in (
        ("ijl'|", 0.28),
        (" \u00a0.,:;!fI", 0.35),
        ('()[]rt-/"', 0.41),
        ("acskvxyzJ?", 0.6),
        ("ABCEFKLPSTVXYZ", 0.69),
        ("DGHNRU", 0.77),
        ("OQw", 0.82),
        ("Mm", 0.98),
        ("W%@", 1.0),
    )
    for char in chars
}


def text_width(text: str, height: float) -> float:
    """About how long a line of text is (mm) when its capitals are ``height`` high."""
    return _width(text) * height / CAPITALS


@lru_cache(maxsize=4096)
def _width(text: str) -> float:
    return sum([_WIDTHS.get(char, _MEAN if char < "\u2e80" else 1.0) for char in text])


def line_step(height: float) -> float:
    """From one line of text to the next (mm)."""
    return _LINE * height


@lru_cache(maxsize=4096)
def wrapped(text: str, height: float, widest: float) -> tuple[str, ...]:
    """Text broken at its spaces into lines no longer than ``widest`` (mm); a single long word stays whole."""
    room, space = widest * CAPITALS / height, _WIDTHS[" "]
    lines: list[str] = []
    used = 0.0
    for word in text.split(" "):
        wide = _width(word)
        if lines and used + space + wide <= room:
            lines[-1] += f" {word}"
            used += space + wide
        else:
            lines.append(word)
            used = wide
    return tuple(lines)


def plain(text: str) -> str:
    """Text without the characters that a drawing can't hold: control characters and halves of pairs."""
    if text.replace(HARD_SPACE, " ").isprintable():
        return text
    return "".join([char if char.isprintable() or char == HARD_SPACE else " " for char in text])


def unbroken(text: str) -> str:
    """Text that stays on one line, such as a number with its unit."""
    return text.replace(" ", HARD_SPACE)
