"""What is sewn right sides together and turned needs an opening."""

import pytest

from tests.language.small import found, panel

LAYERS = 'piece other "Other" from panel { }\n'
ROUND = "panel.lower then panel.ending then panel.upper then panel.opening"


def sewn(seams: str, open_edges: str = "", layers: str = LAYERS, cut: str = "cut 1") -> str:
    finish = f"finish {open_edges} as pinked\n" if open_edges else ""
    return panel(below=layers + seams, finish=finish).replace("cut 1", cut)


def both(edges: str, kind: str = "enclosed", name: str = "s") -> str:
    return f"seam {name} joins {edges} with {edges.replace('panel', 'other')} as {kind}\n"


@pytest.mark.parametrize(
    ("text", "slugs"),
    [
        (sewn(both(ROUND)), ["no-way-to-turn"]),
        (sewn(both("panel.lower then panel.ending then panel.upper"), "panel.opening, other.opening"), []),
        (sewn(both("panel.ending then panel.upper then panel.opening"), "panel.lower, other.lower"), []),
        (
            sewn(both("panel.lower then panel.ending then panel.upper") + both("panel.opening", "plain", "t")),
            ["no-way-to-turn"],
        ),
        (
            sewn(both("panel.lower then panel.ending then panel.upper") + both("panel.opening", "enclosed", "t")),
            ["no-way-to-turn"],
        ),
        (sewn(both(ROUND, "flat_felled")), []),
        (
            sewn(both("panel.lower then panel.ending then panel.upper"), cut="cut 1 on fold opening"),
            ["no-way-to-turn"],
        ),
        (
            sewn(both("panel.lower then panel.ending"), "panel.upper, other.upper", cut="cut 1 on fold opening"),
            [],
        ),
    ],
)
def test_what_is_turned_has_an_opening(text: str, slugs: list[str]) -> None:
    told = found(text)
    assert [one.slug for one in told] == slugs
    for one in told:
        assert len(one.others) == 2


def test_a_piece_folded_onto_itself_needs_an_opening_too() -> None:
    """Mirrored over its upper edge, up to 1 cm above the lower one, the panel is a bag with a fold at the top."""
    grown = "grow rear across upper keep above level(a up 1 cm) as low"
    sides = "".join(
        f"seam {edge} joins panel.{edge} with panel.rear.{edge} as enclosed {{ ease 1 cm }}\n"
        for edge in ("ending", "opening")
    )
    last = "seam last joins panel.lower with panel.rear.low as enclosed\n"
    open_edges = "finish panel.lower, panel.rear.low as pinked\n"
    assert found(panel(grown, below=sides, finish=open_edges)) == []
    assert [one.slug for one in found(panel(grown, below=sides + last, finish=""))] == ["no-way-to-turn"]


def test_a_lined_bag_needs_an_opening_in_its_lining() -> None:
    """A bag and its lining, both sewn up, joined round the top: the lining has to stay open somewhere."""
    more = "".join(
        f'piece {name} "{name.capitalize()}" from panel {{ }}\n' for name in ("other", "lining", "back_lining")
    )
    bag = "seam bag joins panel.ending then panel.lower then panel.opening with other.ending then other.lower then other.opening as plain\n"
    lining = bag.replace("bag", "inner").replace("panel.", "lining.").replace("other.", "back_lining.")
    rim = "seam rim joins panel.upper then other.upper with lining.upper then back_lining.upper as enclosed\n"
    (fault,) = found(sewn(bag + lining + rim, layers=more))
    assert (fault.slug, len(fault.others)) == ("no-way-to-turn", 4)
    short = lining.replace(
        "lining.ending then lining.lower then lining.opening", "lining.ending then lining.lower"
    ).replace(
        "back_lining.ending then back_lining.lower then back_lining.opening",
        "back_lining.ending then back_lining.lower",
    )
    open_edges = "lining.opening, back_lining.opening"
    assert found(sewn(bag + short + rim, open_edges, layers=more)) == []


def cushion(middle: float, kind: str = "enclosed", closing: str = "seam last joins GAPS as hand_closed") -> str:
    """Two panels of 40 by 40 cm sewn all round, but for a stretch of the lower edge."""
    ends = [20 - middle / 2, 20 + middle / 2]
    outline = "".join(
        f"{name} : ({a} cm, {b} cm) -> ({c} cm, {d} cm)\n"
        for name, a, b, c, d in (
            ("one", 0, 0, ends[0], 0),
            ("gap", ends[0], 0, ends[1], 0),
            ("two", ends[1], 0, 40, 0),
            ("right_side", 40, 0, 40, 40),
            ("upper", 40, 40, 0, 40),
            ("left_side", 0, 40, 0, 0),
        )
    )
    piece = 'piece {} "{}" {{ cut 1; grain straight\noutline {{\n' + outline.replace("{", "{{") + "}} }}\n"
    names = ["two", "right_side", "upper", "left_side", "one"]
    sides = [" then ".join(f"{of}.{name}" for name in names) for of in ("a", "b")]
    return (
        'garment knot "Knot"\nedition 1\n'
        + piece.format("a", "Front")
        + piece.format("b", "Back")
        + f"seam round joins {sides[0]} with {sides[1]} as {kind}\n"
        + closing.replace("GAPS", "a.gap with b.gap")
        + "\n"
    )


@pytest.mark.parametrize(
    ("middle", "slugs"), [(4, ["opening-too-small"]), (7.8, ["opening-too-small"]), (8, []), (20, [])]
)
def test_an_opening_lets_a_hand_through(middle: float, slugs: list[str]) -> None:
    assert [one.slug for one in found(cushion(middle))] == slugs


def test_both_lips_of_an_opening_may_be_finished_instead() -> None:
    assert found(cushion(12, closing="finish a.gap, b.gap as pinked")) == []
    (told,) = found(cushion(4, closing="finish a.gap, b.gap as pinked"))
    assert "40 mm" in told.headline or "4 cm" in told.headline


def test_a_narrow_tie_is_turned_through_its_open_end() -> None:
    """4 cm wide and 30 cm long: the whole end is as wide as the work, though no hand fits in."""
    narrow = sewn(both("panel.lower then panel.ending then panel.upper"), "panel.opening, other.opening")
    assert found(narrow.replace("20 cm", "30 cm").replace(", 30 cm)", ", 4 cm)")) == []


OWN = """seam type bagged "Bagged out" {
  encloses
  allowance 8 mm
  pass allowance stitch 301 "Stitch {allowance} from the edge."
  turn "Turn it out."
}
seam type topped "Closed from outside" {
  closes
  allowance 8 mm
  pass 2 mm stitch 301 "Turn both edges in and stitch close to the fold."
}
"""


def test_types_of_the_spec_turn_and_close_like_the_shipped_ones() -> None:
    closing = OWN + "seam last joins GAPS as topped"
    assert found(cushion(12, "bagged", closing)) == []
    assert [one.slug for one in found(cushion(3, "bagged", closing))] == ["opening-too-small"]
    assert [one.slug for one in found(cushion(12, "bagged", OWN + "seam last joins GAPS as plain"))] == [
        "no-way-to-turn"
    ]
