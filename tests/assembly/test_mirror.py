"""Edges sewn to their own mirror image: how often, how long, in which words, and where there is none."""

import pytest

from tests.language.small import PANEL, assembled, found, panel

JOINED = 'seam type joined "Joined" { allowance 1 cm; pass 1 cm stitch 301 "Stitch {first_side} to {second_side}: {length}." }\n'


def mirrored(cut: str, edges: str = "panel.ending", rest: str = "panel.lower, panel.upper, panel.opening") -> str:
    return (
        PANEL.replace("cut 1", cut)
        + f"}}\n{JOINED}seam s joins {edges} with its mirror as joined\nfinish {rest} as pinked\n"
    )


@pytest.mark.parametrize(
    ("cut", "rest"),
    [
        ("cut pair", "panel.lower, panel.upper, panel.opening"),
        ("cut 1 on fold opening", "panel.lower, panel.upper"),
    ],
)
def test_left_and_right_are_sewn_once(cut: str, rest: str) -> None:
    made = assembled(mirrored(cut, rest=rest))
    (seam,) = made.seams
    assert (seam.times, seam.mirrored, seam.first_length, seam.second_length) == (1, True, 300.0, 300.0)
    assert [(use.stitch.code, use.sewn) for use in made.thread] == [("301", 300.0)]
    assert made.pieces[0].uses["ending"].by == "s"
    step = next(one for one in made.steps if one.about == "seam")
    assert step.lines == (
        "Notches meet: single at 12 cm, along the sewing line from the lower end.",
        "Stitch the ending of the Panel to its mirror image: 30 cm.",
        "Press it before anything is sewn across it.",
    )


def test_a_piece_cut_twice_on_the_fold_is_sewn_twice() -> None:
    made = assembled(mirrored("cut 2 on fold opening", rest="panel.lower, panel.upper"))
    assert made.seams[0].times == 2


def test_a_chain_is_sewn_to_the_mirror_image_of_all_its_edges() -> None:
    made = assembled(mirrored("cut pair", "panel.lower then panel.ending", "panel.upper, panel.opening"))
    step = next(one for one in made.steps if one.about == "seam")
    assert made.seams[0].first_length == 500.0
    assert "to their mirror image" in " ".join(step.lines)


@pytest.mark.parametrize("cut", ["cut 1", "cut 2"])
def test_a_piece_without_a_mirror_image(cut: str) -> None:
    (fault,) = found(mirrored(cut))
    assert (fault.slug, fault.span.text) == ("no-mirror", "panel.ending")


def test_a_piece_from_another_is_mirrored_as_that_is() -> None:
    text = (
        mirrored("cut pair")
        + 'piece other "Other" from panel { }\nseam t joins other.ending with its mirror as joined\n'
    )
    assembled(text + "finish other.lower, other.upper, other.opening as pinked\n")


def test_an_edge_sewn_to_its_mirror_is_used_up() -> None:
    faults = found(mirrored("cut pair", rest="panel.lower, panel.upper, panel.opening, panel.ending"))
    assert [(one.slug, one.span.text) for one in faults] == [("edge-used-twice", "panel.ending")]


@pytest.mark.parametrize(
    ("cut", "rest", "headline", "help"),
    [
        (
            "cut pair",
            ", panel.opening",
            "joins the left `panel.ending` to the left one",
            "panel.ending with its mirror",
        ),
        ("cut 1 on fold opening", "", "joins the left `panel.ending` to the left one", "panel.ending with its mirror"),
        ("cut 2", ", panel.opening", "joins `panel.ending` to itself", "from panel { }"),
        ("cut 1", ", panel.opening", "joins `panel.ending` to itself", "from panel { }"),
    ],
)
def test_an_edge_is_not_sewn_to_itself(cut: str, rest: str, headline: str, help: str) -> None:
    finish = f"finish panel.lower, panel.upper{rest} as pinked\n"
    seam = "seam s joins panel.ending with panel.ending as plain"
    text = panel(below=seam, finish=finish).replace("  cut 1\n", f"  {cut}\n")
    (fault,) = found(text)
    assert (fault.slug, fault.span.text) == ("seam-to-itself", "panel.ending")
    assert headline in fault.headline and help in fault.help
    assert [label.span.start < fault.span.start for label in fault.others] == [True]
