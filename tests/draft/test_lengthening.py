"""Lines to lengthen at: where they run, and which are refused."""

from __future__ import annotations

import pytest

from tests.language.small import assembled, found

HEAD = 'garment avocet "Avocet"\nedition 1\n'
PIECE = """piece {name} "{name}" {{
  cut {cut}
  grain straight
  outline {{
    lower : (0 cm, 0 cm) -> (30 cm, 0 cm)
    right_end : (30 cm, 0 cm) -> (20 cm, 40 cm)
    upper : (20 cm, 40 cm) -> (0 cm, 30 cm)
    left_end : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
  {line}
}}
"""


def shift(line: str, back: str = "", fold: str = "") -> str:
    finished = "" if fold else "front.left_end, back.left_end, "
    return (
        HEAD
        + PIECE.format(name="front", line=line, cut=f"1{fold}" if fold else "pair")
        + PIECE.format(name="back", line=back, cut=f"1{fold}" if fold else "pair")
        + f"seam side joins front.right_end with back.right_end as plain\nfinish {finished}front.lower, back.lower, "
        "front.upper, back.upper as pinked\n"
    )


@pytest.mark.parametrize(
    "at", ["level((0 cm, 20 cm))", "level((-90 cm, 20 cm))", "level(meet(right_end, level((0 cm, 20 cm))))"]
)
def test_a_line_runs_from_edge_to_edge(at: str) -> None:
    made = assembled(shift(f"lengthen body at {at}", f"lengthen body at {at}"))
    (line,) = made.draft.piece("front").lines
    ends = sorted((line.path.start, line.path.end), key=lambda p: p.real)
    assert ends == pytest.approx([200j, 250 + 200j])
    assert (line.kind, line.name, line.text) == ("lengthen", "body", "")


@pytest.mark.parametrize(
    ("at", "places"), [("level((0 cm, 50 cm))", "0"), ("level((20 cm, 40 cm))", "1"), ("plumb((40 cm, 0 cm))", "0")]
)
def test_a_line_that_does_not_part_the_piece_is_refused(at: str, places: str) -> None:
    (fault,) = found(shift(f"lengthen body at {at}"))
    assert (fault.slug, fault.span.text) == ("unclear-lengthening", at)
    assert fault.notes[0] == f"places where the line meets the outline: {places}; two are due"


def test_a_line_crosses_a_fold_at_a_right_angle() -> None:
    level = "lengthen body at level((0 cm, 20 cm))"
    assert found(shift(level, level, " on fold left_end")) == []
    (fault,) = found(shift("lengthen body at line((0 cm, 20 cm), (20 cm, 21 cm))", level, " on fold left_end"))[:1]
    assert fault.slug == "unclear-lengthening"
    assert "2.9 deg" in fault.notes[0]  # the angle whose tangent is 1 / 20


def test_seams_of_which_one_side_would_grow_are_told() -> None:
    level = "level((0 cm, 20 cm))"
    (told,) = found(shift(f"lengthen body at {level}"))
    assert (told.slug, told.span.text) == ("lengthens-one-side", f"lengthen body at {level}")
    assert [one.slug for one in found(shift(f"lengthen body at {level}", f"lengthen skirt at {level}"))] == [
        "lengthens-one-side"
    ]
