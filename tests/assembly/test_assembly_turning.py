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
