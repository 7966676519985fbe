"""``when`` inside pieces, outlines, strips, seams and finishes."""

import pytest

from tests.language.small import assembled, compiled, faults, found, panel

CHOICE = "param end : choice plain, wide = plain\n"


def piece(inside: str, outline: str = "ending : b -> c", below: str = "") -> str:
    return panel(inside, CHOICE + below).replace("ending : b -> c", outline)


def test_lines_of_a_piece() -> None:
    text = piece("when end is wide {\n  extra = (1 cm, 1 cm)\n  mark hole at extra\n  notch on lower at 50 %\n}")
    plain, wide = (assembled(text, settings=[f"end={end}"]).draft.piece("panel") for end in ("plain", "wide"))
    assert (len(plain.marks), len(plain.notches)) == (0, 0)
    assert (len(wide.marks), len(wide.notches)) == (1, 1)


def test_edges_of_an_outline_keep_their_place() -> None:
    text = piece(
        "",
        "when end is plain { ending : b -> c }; when end is wide { side : b -> (25 cm, 15 cm)\n ending : (25 cm, 15 cm) -> c }",
        "when end is wide { finish panel.side as pinked }\n",
    )
    plain, wide = (assembled(text, settings=[f"end={end}"]).draft.piece("panel") for end in ("plain", "wide"))
    assert [edge.name for edge in plain.edges] == ["lower", "ending", "upper", "opening"]
    assert [edge.name for edge in wide.edges] == ["lower", "side", "ending", "upper", "opening"]


def test_a_whole_outline_a_cut_and_when_in_when() -> None:
    text = piece("when end is plain { when not (end is wide) { guide g : a -> c } }")
    text = text.replace("  cut 1\n", "  when end is plain { cut 1 }\n  when end is wide { cut 2 }\n")
    plain, wide = (assembled(text, settings=[f"end={end}"]).draft.piece("panel") for end in ("plain", "wide"))
    assert (plain.number, len(plain.lines)) == (1, 1)
    assert (wide.number, len(wide.lines)) == (2, 0)


def test_lines_of_a_strip_a_seam_and_a_finish() -> None:
    below = """strip tie "Tie" { when end is plain { length 30 cm }; when end is wide { length 40 cm }
  cut 1; width 4 cm; make flat }
seam close joins panel.ending with panel.opening as plain {
  when end is wide { set allowance = 14 mm }
  insert tie at middle
}
finish tie.ends, tie.sides as overedged
finish panel.lower, panel.upper as turned_hem { when end is wide { set hem = 3 cm } }
"""
    text = panel("middle = along(ending, 50 %)", CHOICE + below, finish="")
    for end, expected in (("plain", (10.0, 20.0, 300.0)), ("wide", (14.0, 30.0, 400.0))):
        made = assembled(text, settings=[f"end={end}"])
        uses = made.pieces[0].uses
        making = made.draft.piece("tie").making
        assert making is not None
        found_here = (uses["ending"].allowance, uses["lower"].allowance, making.length)
        assert found_here == pytest.approx(expected)


@pytest.mark.parametrize("outline", ["when end is plain { ending : b -> c }", "when end is thin { ending : b -> c }"])
def test_what_is_left_out_is_missed(outline: str) -> None:
    slugs = {one.slug for one in found(piece("", outline), settings=["end=wide"])}
    assert slugs & {"unknown-name", "open-outline"}


def test_two_edges_of_one_name_that_both_stand() -> None:
    told = faults(piece("", "ending : b -> c; when end is plain { ending : b -> c }"))
    assert [one.slug for one in told] == ["duplicate-name"]


def test_conditions_inside_a_piece_are_about_choices() -> None:
    told = faults(piece("when 1 cm > 2 cm { mark hole at a }\nwhen end is wide { mark hole at a }"))
    assert [(one.slug, one.text) for one in told] == [("when-needs-choice", "1 cm > 2 cm")]


def test_every_choice_is_tried_and_names_used_only_there_are_used() -> None:
    text = piece("x = (1 cm, 1 cm)\nwhen end is wide { mark hole at x\n ring = (1 m, 1 m) toward (1 m, 1 m) by 2 cm }")
    told = compiled(text, every_choice=True).findings
    assert [(one.slug, one.notes[-1]) for one in told if one.slug != "unused-name"] == [
        ("impossible-construction", "with --set end=wide")
    ]
