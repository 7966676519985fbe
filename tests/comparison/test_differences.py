"""What is told to have changed is what was changed, in the numbers of each size."""

from __future__ import annotations

import pytest

from garmentc.comparison import model as m
from garmentc.output.compare.text import comparison_text
from tests.comparison.small import DUNLIN, change, changed, compared


def test_the_same_text_is_the_same_garment() -> None:
    comparison = compared(DUNLIN)
    assert comparison.is_same
    assert not comparison.changes
    assert "nothing has changed in 2 sizes" in comparison_text(comparison)


def test_another_layout_is_no_change() -> None:
    other = changed(
        ("measure bust_girth\n", "measure   bust_girth # all round\n\n\n"),
        ("(wide / 2, deep / 2)", "(wide/2,\n   deep/2)"),
        ("  grain cross\n", "grain cross;"),
    )
    comparison = compared(other)
    assert comparison.is_same
    assert not comparison.rewritten
    assert "the same garment in 2 sizes; only the layout or the comments differ" in comparison_text(comparison)


def test_other_words_for_the_same_numbers_are_told_and_no_change() -> None:
    comparison = compared(changed(("far = (12 cm, 14 cm)", "far = (120 mm, 14 cm)")))
    assert comparison.is_same
    assert "written differently: piece pocket: far" in comparison_text(comparison)


def test_an_edge_longer_by_a_fifth_of_a_millimetre_is_found() -> None:
    comparison = compared(
        changed(
            ("(far.x, 0 cm) -> far", "(far.x, 0 cm) -> far up 0.2 mm"), ("mouth   : far", "mouth   : far up 0.2 mm")
        )
    )
    assert not comparison.is_same
    right = change(comparison, m.EDGE, "pocket.right")
    assert right.old == pytest.approx((140.0, 140.0))
    assert right.new == pytest.approx((140.2, 140.2))
    assert "pocket.right: 140.0 to 140.2 mm (+0.2)" in comparison_text(comparison)
    edges = {one.thing for one in comparison.changes if one.group == m.EDGE}
    assert edges == {"pocket.right"}


def test_an_ease_changes_what_depends_on_it_and_nothing_else() -> None:
    comparison = compared(changed(("ease bust_girth = 2 cm", "ease bust_girth = 4.6 cm")))
    assert change(comparison, m.PARAM, "ease.bust_girth").new == pytest.approx((46.0, 46.0))
    lower = change(comparison, m.EDGE, "bib.lower")
    assert lower.old == pytest.approx(((840 + 20) / 4, (880 + 20) / 4))
    assert lower.new == pytest.approx(((840 + 46) / 4, (880 + 46) / 4))
    width = change(comparison, m.FINISHED, "width")
    assert width.new == pytest.approx(lower.new)
    assert not [one for one in comparison.changes if "pocket" in one.thing.split(".")[0]]
    text = comparison_text(comparison)
    assert "width mm, +6.5 in each size" in text
    assert "215.0  225.0" in text
    assert "221.5  231.5" in text


def test_cloth_grows_by_what_the_piece_grows() -> None:
    """A pinked edge has no allowance, so that cloth is plain width times height."""
    comparison = compared(changed(("deep = 30 cm", "deep = 31 cm")))
    cloth = change(comparison, m.CLOTH, "all pieces", "as cut")
    grown = [b - a for a, b in zip(cloth.old, cloth.new, strict=True) if isinstance(a, float) and isinstance(b, float)]
    assert grown == pytest.approx([10 * 215, 10 * 225])


def test_pieces_seams_and_steps_are_added_and_dropped() -> None:
    less = DUNLIN.replace(DUNLIN[DUNLIN.index("piece pocket") : DUNLIN.index("finish bib")], "").replace(
        "finish pocket.bottom, pocket.right, pocket.mouth, pocket.left as pinked\n", ""
    )
    dropped = compared(less)
    assert change(dropped, m.PIECE, "pocket", "cloth as cut").is_dropped
    assert {one.thing for one in dropped.changes if one.is_dropped and one.group == m.EDGE} == {
        f"pocket.{edge}" for edge in ("bottom", "right", "mouth", "left")
    }
    added = compared(DUNLIN, less)
    assert change(added, m.PIECE, "pocket", "cloth as cut").is_added
    assert "added: pocket" in comparison_text(added)
    steps = compared(changed(("step iron", 'step fold "Fold the bib."\nstep iron')))
    (step,) = (one for one in steps.changes if one.group == m.STEP)
    assert step.is_added


def test_how_an_edge_is_finished_and_how_a_piece_is_cut() -> None:
    comparison = compared(
        changed(
            ("pocket.left as pinked", "pocket.left as overedged"), ("  cut 1\n  grain cross", "  cut 2\n  grain bias")
        )
    )
    used = change(comparison, m.EDGE, "pocket.mouth", "used")
    assert (used.old[0], used.new[0]) == ("finish as pinked", "finish as overedged")
    assert change(comparison, m.PIECE, "pocket", "grain").new[0] == "bias"
    assert change(comparison, m.PIECE, "pocket", "cut").old[0] == "1 single"


def test_a_rule_is_a_change_though_no_number_shows_it() -> None:
    for old, new in (
        ("deep >= 10 cm", "deep >= 12 cm"),
        ("from 10 cm to 60 cm", "from 10 cm to 50 cm"),
        ('check "the bib covers" deep >= 10 cm\n', ""),
    ):
        comparison = compared(changed((old, new)))
        assert not comparison.changes
        assert not comparison.is_same


def test_a_branch_that_is_not_chosen_is_told() -> None:
    more = changed(("ease bust", "param pocket_in : choice yes, no = yes\nease bust"))
    extra = 'when pocket_in is no {\n  step bare "Leave it bare."\n}\n'
    comparison = compared(more + extra, more)
    assert [one.name for one in comparison.rewritten] == ["step bare when pocket_in is no"]
    assert not comparison.changes
    assert not comparison.is_same


def test_steps_in_another_order_and_in_other_words() -> None:
    two = changed(("step iron", 'step fold "Fold the bib."\nstep iron'))
    order = compared(two.replace('bib flat."', 'bib flat." before fold'), two)
    (moved,) = (one for one in order.changes if one.group == m.STEP)
    assert moved.quality == "comes"
    assert {moved.thing, moved.old[0], moved.new[0]} & {"step iron", "step fold"}
    words = compared(changed(("bib flat.", "bib dry.")))
    (said,) = (one for one in words.changes if one.group == m.STEP)
    assert (said.old[0], said.new[0]) == ("Iron the bib flat.", "Iron the bib dry.")
