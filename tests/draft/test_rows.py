"""Rows of buttons and buttonholes: where they lie, how many there are, and which are refused."""

from __future__ import annotations

import pytest

from garmentc.assembly.rows import made_of
from tests.language.small import PINKED, assembled, found, panel

BUTTONS = "buttons closing from (2 cm, 27 cm) to (2 cm, 3 cm) as {n} wide {wide}"
HOLES = "buttonholes closing from (18 cm, 27 cm) to (18 cm, {low}) as {n} long 2 cm"


def test_places_are_at_equal_distances_and_slits_reach_beyond_them() -> None:
    made = assembled(panel(BUTTONS.format(n=5, wide="15 mm") + "\n" + HOLES.format(n=5, low="3 cm")))
    buttons, holes = made.draft.piece("panel").rows
    assert buttons.places == pytest.approx([20 + 270j, 20 + 210j, 20 + 150j, 20 + 90j, 20 + 30j])
    assert buttons.apart == pytest.approx(60)
    slit = holes.slits[0]
    assert (slit.start, slit.end) == pytest.approx((183 + 270j, 163 + 270j))  # 3 mm toward the right edge, 2 cm long
    marks = {mark.name: mark.at for mark in made.draft.piece("panel").marks}
    assert marks["closing_2"] == pytest.approx(20 + 210j)
    titles = [step.title for step in made.steps]
    assert titles[-2:] == ["Panel: buttonholes, closing", "Panel: buttons, closing"]


def test_buttonholes_lengthwise_have_their_middle_at_the_place() -> None:
    row = "buttonholes tab from (10 cm, 10 cm) to (10 cm, 20 cm) as 2 long 2 cm lengthwise"
    slits = assembled(panel(row)).draft.piece("panel").rows[0].slits
    assert [end for slit in slits for end in (slit.start, slit.end)] == pytest.approx(
        [100 + 90j, 100 + 110j, 100 + 190j, 100 + 210j]
    )


@pytest.mark.parametrize(
    ("row", "note"),
    [
        (BUTTONS.format(n=0, wide="15 mm"), "their number is 0: a whole number from 1 to 200 is due"),
        (BUTTONS.format(n="5 / 2", wide="15 mm"), "their number is 2.5: a whole number from 1 to 200 is due"),
        (BUTTONS.format(n=5, wide="0 mm"), "their size is 0 mm"),
        (BUTTONS.format(n=5, wide="8 cm"), "they are 8 cm each, and 6 cm from one to the next"),
        ("buttons a from (2 cm, 2 cm) to (2 cm, 31 cm) as 2 wide 1 cm", "(2 cm, 31 cm) lies outside the piece"),
    ],
)
def test_rows_that_are_refused(row: str, note: str) -> None:
    (fault,) = found(panel(row))
    assert (fault.slug, fault.notes) == ("impossible-row", (note,))


@pytest.mark.parametrize(
    ("n", "low", "note"),
    [
        (4, "3 cm", "5 buttons, 4 buttonholes"),
        (5, "4 cm", "buttons 6 cm apart, buttonholes 5.75 cm apart"),
    ],
)
def test_buttonholes_have_to_fit_their_buttons(n: int, low: str, note: str) -> None:
    (fault,) = found(panel(BUTTONS.format(n=5, wide="15 mm") + "\n" + HOLES.format(n=n, low=low)))
    assert (fault.slug, fault.notes) == ("rows-differ", (note,))


@pytest.mark.parametrize(
    ("cut", "at", "count"),
    [
        ("cut 2", "2 cm", 6),
        ("cut pair", "2 cm", 3),
        ("cut 1 on fold opening", "2 cm", 6),
        ("cut 1 on fold opening", "0 cm", 3),
    ],
)
def test_a_pair_has_its_buttons_once_and_a_fold_those_beside_it_twice(cut: str, at: str, count: int) -> None:
    finish = PINKED if "fold" not in cut else PINKED.replace(", panel.opening", "")
    text = panel(f"buttons a from ({at}, 27 cm) to ({at}, 3 cm) as 3 wide 15 mm", finish=finish).replace(
        "cut 1\n", f"{cut}\n"
    )
    piece = assembled(text).draft.piece("panel")
    assert made_of(piece, piece.rows[0]) == count
