"""Renamed things are recognised by their shape, and points by how far they moved."""

from __future__ import annotations

import pytest

from garmentc.comparison import model as m
from garmentc.comparison.model import Renamed
from garmentc.output.compare.text import comparison_text
from tests.comparison.small import DUNLIN, changed, compared


def test_a_renamed_edge_is_the_same_edge() -> None:
    comparison = compared(changed(("mouth ", "opening "), ("pocket.mouth", "pocket.opening")))
    assert comparison.renamed == (Renamed(m.EDGE, "pocket.mouth", "pocket.opening"),)
    assert not comparison.changes
    assert not comparison.moves
    assert "edge pocket.mouth to pocket.opening" in comparison_text(comparison)


def test_a_renamed_piece_is_the_same_piece_though_it_changed_a_little() -> None:
    renamed = changed(("piece pocket", "piece pouch"), ("pocket.", "pouch."), ('"Pocket"', '"Pouch"'))
    comparison = compared(renamed)
    assert comparison.renamed == (Renamed(m.PIECE, "pocket", "pouch"),)
    assert {one.group for one in comparison.changes} == {m.PIECE}  # its title
    grown = compared(changed(("14 cm)", "14.5 cm)"), text=renamed))
    assert grown.renamed == (Renamed(m.PIECE, "pocket", "pouch"),)
    right = next(one for one in grown.changes if one.thing == "pouch.right" and one.group == m.EDGE)
    assert (right.old[0], right.new[0]) == pytest.approx((140.0, 145.0))


def test_another_piece_is_not_taken_for_a_renamed_one() -> None:
    other = changed(("piece pocket", "piece flap"), ("pocket.", "flap."), ("(12 cm, 14 cm)", "(30 cm, 3 cm)"))
    comparison = compared(other)
    assert not comparison.renamed
    whole = {(one.thing, one.is_added, one.is_dropped) for one in comparison.changes if one.group == m.PIECE}
    assert whole == {("flap", True, False), ("pocket", False, True)}


def test_names_that_are_swapped_are_told_as_such() -> None:
    swapped = changed(("bottom  :", "x :"), ("right   :", "bottom :"), ("x :", "right :"))
    comparison = compared(swapped)
    assert set(comparison.renamed) == {
        Renamed(m.EDGE, "pocket.bottom", "pocket.right"),
        Renamed(m.EDGE, "pocket.right", "pocket.bottom"),
    }
    assert not comparison.moves


def test_a_piece_drawn_elsewhere_is_the_same_piece() -> None:
    moved = changed(
        ("(0 cm, 0 cm) -> (far.x, 0 cm)", "near -> (far.x, near.y)"),
        ("(far.x, 0 cm) -> far", "(far.x, near.y) -> far"),
        ("far -> (0 cm, far.y)", "far -> (near.x, far.y)"),
        ("(0 cm, far.y) -> (0 cm, 0 cm)\n  }\n}\n\nfinish", "(near.x, far.y) -> near\n  }\n}\n\nfinish"),
        ("far = (12 cm, 14 cm)", "near = (5 cm, 7 cm)\n  far = (17 cm, 21 cm)"),
    )
    comparison = compared(moved)
    assert not comparison.moves
    assert not comparison.bends
    assert comparison.is_same


def test_points_move_as_far_as_the_spec_says() -> None:
    comparison = compared(
        changed(("deep = 30 cm", "deep = 31 cm"), ("ease bust_girth = 2 cm", "ease bust_girth = 5 cm"))
    )
    moves = {f"{one.piece}.{one.point}": one.ways for one in comparison.moves}
    assert moves["bib.corner"] == pytest.approx((7.5, 7.5))
    assert moves["bib.upper"] == pytest.approx((7.5 + 10j, 7.5 + 10j))
    assert moves["bib.pocket_place"] == pytest.approx((3.75 + 5j, 3.75 + 5j))
    assert "bib.other/lower" not in moves
    text = comparison_text(comparison)
    assert "bib.corner: 7.5 mm to the right" in text
    assert "bib.upper: 12.5 mm (7.5 to the right, 10.0 up)" in text


def test_an_edge_of_the_same_ends_that_bends_otherwise() -> None:
    """An arc over a chord of 120 mm with a bulge of 6 % of it rises 7.2 mm, with 5 % 6 mm."""
    comparison = compared(changed(("bulge 6 %", "bulge 5 %")))
    assert not comparison.moves
    (bend,) = comparison.bends
    assert bend.edge == "pocket.mouth"
    assert bend.off == pytest.approx((1.2, 1.2), abs=0.01)


def test_an_edge_cut_in_two_keeps_the_others() -> None:
    cut = changed(
        ("    right   : (far.x, 0 cm) -> far\n", "    right : (far.x, 0 cm) -> half\n    upper : half -> far\n"),
        ("far = (12 cm, 14 cm)", "far = (12 cm, 14 cm)\n  half = (12 cm, 7 cm)"),
        ("pocket.mouth,", "pocket.mouth, pocket.upper,"),
    )
    comparison = compared(cut, DUNLIN)
    assert not comparison.renamed
    edges = {one.thing: one for one in comparison.changes if one.group == m.EDGE}
    assert edges["pocket.upper"].is_added
    assert (edges["pocket.right"].old[0], edges["pocket.right"].new[0]) == pytest.approx((140.0, 70.0))
