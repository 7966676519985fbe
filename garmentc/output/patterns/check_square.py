"""The square by which a print is checked before anything is cut."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.output.patterns.scene import Stroke, Words, polyline

SIDE = 50.0
"""mm"""

_TALL, _SMALL = 4.5, 2.6


def check_strokes() -> Iterator[Stroke]:
    """The four sides, each a stroke of its own, from (0, 0) up to the right."""
    corners = (0j, SIDE + 0j, complex(SIDE, SIDE), complex(0, SIDE))
    for i, name in enumerate(("bottom", "right", "top", "left")):
        yield Stroke("check", "narrow", polyline(corners[i], corners[(i + 1) % 4]), name)


def check_words() -> Iterator[Words]:
    """Its size along two sides, and what it is for."""
    middle = SIDE / 2
    yield Words("check", "5 cm", complex(middle, 3.0), 1 + 0j, _TALL, True)
    yield Words("check", "5 cm", complex(3.0 + _TALL, middle), 1j, _TALL, True)
    for i, text in enumerate(("measure both", "sides before", "you cut")):
        yield Words("check", text, complex(middle + 4.0, middle + 5.0 - 5.0 * i), 1 + 0j, _SMALL, True)
