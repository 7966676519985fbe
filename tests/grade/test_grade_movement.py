"""Corners and edges from size to size, against movements worked out by hand."""

from itertools import pairwise

import pytest

from garmentc.grade.model import moves, steps
from tests.grade.small import BUST, SIZES, bib, corner, edge, graded, piece

STEPS = [b - a for a, b in pairwise(BUST)]


def test_a_corner_moves_by_its_share_of_each_step_of_the_measure() -> None:
    grade, findings = graded(bib())
    assert findings == []
    assert grade.sizes == SIZES
    far = corner(piece(grade), "far")
    assert moves(far.at) == pytest.approx([complex(step / 4, step / 8) for step in STEPS])
    assert moves(corner(piece(grade), "near").at) == pytest.approx([complex(step / 4, 0) for step in STEPS])
    assert moves(corner(piece(grade), "opening/lower").at) == pytest.approx([0j] * 11)


def test_an_edge_grows_by_its_share_of_each_step() -> None:
    ending = edge(piece(graded(bib())[0]), "ending")
    assert ending.lengths == pytest.approx([bust / 8 + 30 for bust in BUST])
    assert steps(ending.lengths) == pytest.approx([step / 8 for step in STEPS])


def test_aligned_at_a_corner_the_others_move_from_it() -> None:
    grade, _ = graded(bib(), align=["bib.far"])
    shown = piece(grade)
    assert shown.aligned == "far"
    assert moves(corner(shown, "far").at) == pytest.approx([0j] * 11)
    assert moves(corner(shown, "opening/lower").at) == pytest.approx([complex(-step / 4, -step / 8) for step in STEPS])
    assert edge(shown, "ending").paths[5].end == pytest.approx(0j)


def test_each_size_is_compared_with_the_one_before_it_among_those_taken() -> None:
    grade, _ = graded(bib(), only=["128", "76", "88"])
    assert grade.sizes == ("76", "88", "128")
    assert moves(corner(piece(grade), "near").at) == pytest.approx([30 + 0j, 100 + 0j])


def test_a_point_names_the_corner_where_a_spread_took_it() -> None:
    opened = bib(more="  spread flare from lower at 50 % to upper at 50 % by 4 cm")
    far = corner(piece(graded(opened)[0]), "far")
    assert far.at[0].imag == pytest.approx(BUST[0] / 8 + 30)
    assert moves(far.at) == pytest.approx([complex(step / 4, step / 8) for step in STEPS])
    assert edge(piece(graded(opened)[0]), "lower").lengths == pytest.approx([bust / 4 + 40 for bust in BUST])


def test_the_sewn_length_leaves_out_what_a_tuck_takes() -> None:
    lower = edge(piece(graded(bib(more="  tuck low on lower at 50 % deep 1 cm long 4 cm"))[0]), "lower")
    assert lower.lengths == pytest.approx([bust / 4 for bust in BUST])
    assert lower.sewn_lengths == pytest.approx([bust / 4 - 20 for bust in BUST])


def test_darts_move_with_the_point_that_the_sizes_are_aligned_at() -> None:
    text = bib(more="  dart low on lower at 5 cm to (5 cm, 6 cm) taking 2 cm")
    plain, aligned = (piece(graded(text, align=align)[0]) for align in ([], ["bib.far"]))
    assert [leg.end for leg in plain.inside[0]] == pytest.approx([50 + 60j] * 2)
    far = complex(BUST[0] / 4, BUST[0] / 8 + 30)
    assert [leg.end for leg in aligned.inside[0]] == pytest.approx([50 + 60j - far] * 2)


def test_a_strip_has_its_length_and_width() -> None:
    text = bib(more="  half = along(lower, 50 %)")
    text += 'strip tie "Tie" { cut 1; length bust_girth / 2; width 4 cm; make flat }\n'
    text += "seam join joins bib.lower with bib.upper as plain { insert tie at half }\n"
    text = text.replace("finish bib.lower, bib.ending, bib.upper, bib.opening", "finish bib.ending, bib.opening")
    tie = piece(graded(text)[0], "tie")
    assert tie.is_strip
    assert edge(tie, "side").lengths == pytest.approx([bust / 2 for bust in BUST])
    assert edge(tie, "end").lengths == pytest.approx([40.0] * 12)


FACED = """garment knot "Knot, a bib with its facing"
edition 1
measure bust_girth
piece bib "Bib" {
  cut 1 on fold centre
  grain straight
  side_low = (bust_girth / 4, 0 cm)
  side_high = side_low up bust_girth / 8
  outline {
    hem : (0 cm, 0 cm) -> side_low
    side : side_low -> side_high
    top : side_high -> (0 cm, side_high.y)
    centre : (0 cm, side_high.y) -> (0 cm, 0 cm)
  }
  grow facing across top keep above level(side_high down 4 cm) as lower
}
finish bib.hem, bib.side, bib.facing.side, bib.facing.lower as pinked
"""


def test_the_corners_of_a_facing_grown_on_are_called_after_their_edges() -> None:
    grade, findings = graded(FACED)
    assert findings == []
    low = corner(piece(grade), "facing.side/lower")
    assert moves(low.at) == pytest.approx([complex(step / 4, step / 8) for step in STEPS])
    assert edge(piece(grade), "facing.side").lengths == pytest.approx([40.0] * 12)
