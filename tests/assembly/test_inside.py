"""Marks and guides that lie beyond the cut line of their piece."""

from __future__ import annotations

import pytest

from tests.language.small import PANEL, found

EDGES = "panel.lower, panel.ending, panel.upper, panel.opening"


def panel(line: str) -> str:
    return f"{PANEL}{line}\n}}\nfinish {EDGES} as turned_hem {{ set hem = 20 mm }}\n"


@pytest.mark.parametrize(
    ("line", "far"),
    [
        ("mark m at a left 3 cm", "10 mm"),
        ("mark m at a left 2.1 cm", "1 mm"),
        ("guide g : a left 6 cm -> b", "4 cm"),
        ("guide g : a -> b curve leaving down", ""),
    ],
)
def test_what_has_no_cloth_under_it_is_told(line: str, far: str) -> None:
    (fault,) = found(panel(line))
    assert (fault.slug, fault.span.text) == ("off-the-piece", line)
    assert far in fault.notes[0]


@pytest.mark.parametrize(
    "line", ["mark m at a", "mark m at a left 1.9 cm", "guide g : a left 2 cm -> b", "guide g : a -> b"]
)
def test_what_lies_in_an_allowance_is_on_the_cloth(line: str) -> None:
    assert found(panel(line)) == []
