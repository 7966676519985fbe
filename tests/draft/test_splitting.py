"""Pieces split along curves, bands along edges, and darts divided, shortened, closed or given by their legs."""

from __future__ import annotations

import math

import pytest

from tests.language.small import assembled, faults, found

HEAD = 'garment knot "Knot"\nedition 1\n'
PANEL = """draft whole "Whole" {{
  cut 1
  grain straight
  outline {{
    lower : (0 cm, 0 cm) -> (20 cm, 0 cm)
    ending : (20 cm, 0 cm) -> (20 cm, 30 cm)
    upper : (20 cm, 30 cm) -> (0 cm, 30 cm)
    opening : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
  {inside}
}}
"""


def split(inside: str, one: str, other: str, finish: str, below: str = "") -> str:
    return (
        f'{HEAD}{PANEL.format(inside=inside)}piece one "One" from whole {{ {one} }}\n'
        f'piece other "Other" from whole {{ {other} }}\nfinish {finish} as pinked\n{below}\n'
    )


ALL = "one.ending, one.upper, one.opening, other.lower, other.ending, other.opening"
SEWN = "seam joined joins one.cut_edge with other.cut_edge as plain"


def test_both_parts_of_a_split_share_one_curve() -> None:
    inside = "bow = (2 cm, 10 cm) -> (18 cm, 14 cm) curve through (9 cm, 16 cm)"
    made = assembled(split(inside, "keep above bow as cut_edge", "keep below bow as cut_edge", ALL, SEWN))
    one, other = (made.draft.piece(name) for name in ("one", "other"))
    cut, same = (piece.edge("cut_edge") for piece in (one, other))
    assert cut is not None and same is not None
    assert cut.own_path.start == pytest.approx(same.own_path.start)
    assert cut.own_path.start.real == pytest.approx(0.0)  # gone on straight to the edge
    assert cut.path.length == pytest.approx(same.path.length, abs=1e-6)
    assert one.outline.area + other.outline.area == pytest.approx(200 * 300, abs=1e-3)
    assert [piece.name for piece in made.draft.pieces] == ["one", "other"]  # the draft is not cut


@pytest.mark.parametrize(
    ("keep", "note"),
    [
        ("keep above bow as cut_edge", "this leaves the piece in more than one part"),
        ("keep left of bow as cut_edge", "this leaves the piece in more than one part"),
    ],
)
def test_a_curve_that_crosses_more_than_once_is_refused(keep: str, note: str) -> None:
    inside = "bow = (-2 cm, 20 cm) -> (22 cm, 20 cm) curve through (10 cm, 34 cm)"
    told = found(split(inside, keep, "keep below level((0 cm, 5 cm)) as cut_edge", ALL))
    assert [(one.slug, one.headline) for one in told if one.slug == "impossible-keep"] == [("impossible-keep", note)]


def test_a_curve_has_no_side_that_it_runs_toward() -> None:
    inside = "bow = (10 cm, -1 cm) -> (10 cm, 31 cm) curve through (12 cm, 15 cm)"
    told = found(split(inside, "keep above bow as cut_edge", "keep left bow as cut_edge", ALL))
    assert ("impossible-keep", "the line runs the way that is kept, so it has no such side") in [
        (one.slug, one.headline) for one in told
    ]


def test_a_band_along_edges_is_as_wide_as_asked() -> None:
    band = "keep within 4 cm of upper, ending as inner"
    made = assembled(
        split(
            "",
            band,
            "",
            "one.upper, one.ending, one.inner, one.lower, one.opening, other.lower,"
            " other.ending, other.upper, other.opening",
        )
    )
    one = made.draft.piece("one")
    assert one.outline.area == pytest.approx(200 * 40 + 260 * 40)
    inner = one.edge("inner")
    assert inner is not None and inner.path.length == pytest.approx(260 + 160)
    assert (inner.own_path.start, inner.own_path.end) == pytest.approx((160 + 0j, 260j))  # drawn as the others are


def test_edges_of_a_band_follow_each_other() -> None:
    told = faults(split("", "keep within 4 cm of upper, lower as inner", "", "other.lower, other.ending"))
    assert "impossible-keep" in [one.slug for one in told]


DART = "dart waist on upper at 50 % to (10 cm, 20 cm) taking 3 cm"


def test_a_dart_moves_into_a_seam_when_the_piece_is_split_at_its_tip() -> None:
    text = split(
        DART,
        "keep above level((0 cm, 20 cm)) as cut_edge; close waist",
        "keep below level((0 cm, 20 cm)) as cut_edge",
        ALL,
        SEWN,
    )
    made = assembled(text)
    one = made.draft.piece("one")
    upper, cut = one.edge("upper"), one.edge("cut_edge")
    assert upper is not None and cut is not None
    assert one.takeups == ()
    assert upper.path.length == pytest.approx(200 - 30, abs=0.5)  # its legs come out equal, so the edge moved a little
    assert cut.path.length == pytest.approx(200)
    turned = cut.path.end_direction() / cut.path.start_direction()
    assert abs(math.atan2(turned.imag, turned.real)) == pytest.approx(2 * math.asin(15 / abs(15 + 100j)))


def test_a_dart_without_its_tip_has_to_be_closed() -> None:
    text = split(
        DART, "keep above level((0 cm, 24 cm)) as cut_edge", "keep below level((0 cm, 20 cm)) as cut_edge", ALL
    )
    (told,) = [one for one in found(text) if one.slug == "dart-cut-through"]
    assert told.help == "lay it together in the paper: close waist"
    low = split(DART, "keep below level((0 cm, 24 cm)) as cut_edge", "keep below level((0 cm, 20 cm)) as cut_edge", ALL)
    assert [one.notes[0] for one in found(low) if one.slug == "dart-cut-through"] == [
        "its mouth is cut away, and its tip is left"
    ]


def test_a_wedge_from_edge_to_edge_is_laid_together() -> None:
    """The wedge is a trapezium: 4 / 10 of the dart's height cut off leaves 1 - 0.6 ** 2 of its area."""
    text = split(
        DART,
        "keep above level((0 cm, 24 cm)) as cut_edge; close waist",
        "keep below level((0 cm, 20 cm)) as cut_edge",
        ALL,
    ).replace(" as pinked", ", one.cut_edge, other.cut_edge as pinked")
    one = assembled(text).draft.piece("one")
    cut = one.edge("cut_edge")
    assert cut is not None and cut.path.length == pytest.approx(200 - 0.4 * 30)
    assert one.outline.area == pytest.approx(200 * 60 - 30 * 60 * 0.7, abs=1.0)


def test_a_dart_by_its_legs() -> None:
    inside = "dart waist on upper between 8 cm and 11 cm to (10.5 cm, 18 cm)"
    whole = "one.lower, one.ending, one.upper, one.opening, " + ALL.replace("one.ending, one.upper, one.opening, ", "")
    text = split(inside, "", "keep below level((0 cm, 10 cm)) as cut_edge", f"{whole}, other.cut_edge")
    (dart,) = assembled(text).draft.piece("one").takeups
    assert (dart.first, dart.second) == pytest.approx((120 + 300j, 90 + 300j))
    (told,) = faults(text.replace("10.5 cm, 18", "8 cm, 18"))
    assert (told.slug, told.text) == ("impossible-shaping", inside.replace("10.5 cm, 18", "8 cm, 18"))


def test_darts_divided_and_shortened() -> None:
    inside = f"{DART}\n  divide waist by 5 cm as second\n  shorten second by 2 cm"
    whole = "one.lower, one.ending, one.upper, one.opening, " + ALL.replace("one.ending, one.upper, one.opening, ", "")
    text = split(inside, "", "keep below level((0 cm, 10 cm)) as cut_edge", f"{whole}, other.cut_edge")
    piece = assembled(text).draft.piece("one")
    first, second = piece.takeups
    assert (first.name, second.name) == ("waist", "second")
    assert first.tip == pytest.approx(125 + 200j, abs=0.02)  # drawn from the right: the first lies there
    assert second.tip == pytest.approx(75 + 220j, abs=0.2)
    assert [abs(one.first - one.second) for one in (first, second)] == pytest.approx([15, 15], abs=0.02)
    assert [abs(one.first - one.tip) - abs(one.second - one.tip) for one in (first, second)] == pytest.approx(
        [0, 0], abs=1e-9
    )
    (told,) = faults(text.replace("by 5 cm", "by 1 cm"))
    assert (told.slug, told.text) == ("impossible-shaping", "1 cm")
