"""Edges copied, mirrored and moved from another piece keep its length."""

import pytest

from garmentc.draft.model import DraftedPiece
from tests.language.small import PINKED, assembled, found, panel

CURVED = "ending : b -> c curve through (26 cm, 12 cm), leaving heading 20 deg, arriving heading 150 deg"
OTHER = """piece other "Other" {{
  cut 1
  grain straight
  {before}
  outline {{
    taken : {taken}
    closing : taken.end -> taken.start
  }}
}}
finish other.taken, other.closing as pinked
"""


def pieces(taken: str, before: str = "", inside: str = "", finish: str = PINKED) -> tuple[DraftedPiece, DraftedPiece]:
    other = OTHER.format(taken=taken, before=before)
    draft = assembled(panel(inside, other, finish).replace("ending : b -> c", CURVED)).draft
    return draft.piece("panel"), draft.piece("other")


def length(piece: DraftedPiece, name: str) -> float:
    edge = piece.edge(name)
    assert edge is not None
    return edge.path.length


@pytest.mark.parametrize(
    "taken",
    [
        "panel.ending",
        "mirror(panel.ending, plumb(panel.b))",
        "mirror(panel.ending, line(panel.a, panel.c))",
        "mirror(panel.ending, panel.lower)",
        "reverse(mirror(panel.ending, level((0 cm, 3 cm))))",
        "turn(panel.ending, panel.c, 33 deg)",
        "shift(panel.ending, -panel.b.x, 4 cm)",
        "shift(turn(reverse(mirror(panel.ending, panel.upper)), panel.d, -12 deg), 1 cm, 2 cm)",
        "part(panel.ending, panel.b, panel.c)",
    ],
)
def test_a_moved_edge_is_as_long_as_the_first(taken: str) -> None:
    panel_piece, other = pieces(taken)
    assert length(other, "taken") == pytest.approx(length(panel_piece, "ending"), abs=1e-6)


def test_a_mirrored_edge_lies_on_the_other_side_point_by_point() -> None:
    panel_piece, other = pieces("mirror(panel.ending, plumb((5 cm, 0 cm)))")
    first, second = panel_piece.edge("ending"), other.edge("taken")
    assert first is not None and second is not None
    for share in (0.0, 0.2, 0.5, 0.9, 1.0):
        at = first.own_path.point_at(share * first.own_path.length)
        mirrored = second.own_path.point_at(share * second.own_path.length)
        assert abs(mirrored - complex(100.0 - at.real, at.imag)) < 1e-6


def test_an_edge_of_the_piece_itself_and_through_a_value() -> None:
    panel_piece, other = pieces("reverse(side_line)", "side_line = shift(panel.ending, 3 cm, 0 cm)")
    assert length(other, "taken") == pytest.approx(length(panel_piece, "ending"), abs=1e-6)
    text = panel().replace("opening : d -> a", "opening : reverse(shift(ending, -20 cm, 0 cm))")
    both = assembled(text.replace("ending : b -> c", CURVED, 1)).draft.piece("panel")
    assert length(both, "opening") == pytest.approx(length(both, "ending"), abs=1e-6)


def test_edges_stay_as_long_as_each_other_when_the_first_is_kept_short() -> None:
    panel_piece, other = pieces(
        "mirror(panel.ending, plumb(panel.b))",
        inside="keep below level((0 cm, 25 cm)) as top",
        finish="finish panel.lower, panel.ending, panel.top, panel.opening as pinked\n",
    )
    assert length(panel_piece, "ending") < 300.0
    assert length(other, "taken") == pytest.approx(length(panel_piece, "ending"), abs=1e-6)


def test_two_edges_that_need_each_other_are_a_ring() -> None:
    other = OTHER.format(taken="mirror(panel.ending, plumb((0 cm, 0 cm)))", before="")
    text = panel("", other).replace("ending : b -> c", "ending : mirror(other.taken, plumb((0 cm, 0 cm)))")
    assert [one.slug for one in found(text)] == ["ring"]
