"""The order of work: strips, flat edges, seams, hems; the maker's own steps where they are put."""

import pytest

from tests.language.small import assembled, found

SPEC = """garment knot "Knot"
edition 1
piece front "Front" { cut 1; grain straight
  a = (0 cm, 0 cm)
  outline { hem : a -> a right 20 cm; side : a right 20 cm -> a right 20 cm up 30 cm
    top : a right 20 cm up 30 cm -> a up 30 cm; other_side : a up 30 cm -> a } }
piece back "Back" from front { }
piece facing "Facing" { cut 1; grain straight
  outline { top : front.top; down : front.top.end -> front.top.end down 6 cm
    low : front.top.end down 6 cm -> front.top.start down 6 cm; up : front.top.start down 6 cm -> front.top.start } }
strip tie "Tie" { cut 1; length 30 cm; width 3 cm; make tube stitched 5 mm from edge }
finish front.hem, back.hem as turned_hem
finish back.top as overedged
finish facing.low, facing.up, facing.down as overedged
seam side joins front.side with back.side as plain
seam top joins front.top with facing.top as enclosed { insert tie at a }
seam other_side joins front.other_side with back.other_side as french
"""


def spec(below: str = "") -> str:
    return (
        SPEC.replace("insert tie at a }", "insert tie folded at corner }").replace(
            "  a = (0 cm, 0 cm)\n", "  a = (0 cm, 0 cm); corner = along(top, 50 %)\n"
        )
        + below
    )


def order(below: str = "") -> list[str]:
    steps = assembled(spec(below)).steps
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))
    return [step.name for step in steps]


PLAIN = [
    "tie",
    "finish facing.low, facing.up, facing.down",
    "side",
    "top",
    "other_side",
    "finish front.hem, back.hem",
    "finish back.top",
]


def test_strips_flat_edges_seams_hems() -> None:
    assert order() == PLAIN


AFTER = {
    'step own "a" after side': ["side", "own", "top"],
    'step own "a" after tie': ["tie", "own", "finish facing.low, facing.up, facing.down"],
    'step own "a"': ["finish back.top", "own"],
    'step one "a" after side\nstep two "b" after one': ["side", "one", "two", "top"],
    'step two "b" after one\nstep one "a" after side': ["side", "one", "two", "top"],
    'step one "a" after side\nstep two "b" after side': ["side", "one", "two", "top"],
    'step one "a" after side\nstep two "b" after side\nstep three "c" after one': ["side", "one", "three", "two"],
    'step one "a"\nstep two "b" after one\nstep three "c"': ["finish back.top", "one", "two", "three"],
}


@pytest.mark.parametrize("steps", AFTER)
def test_a_step_follows_its_anchor_at_once(steps: str) -> None:
    names = order(steps)
    at = names.index(AFTER[steps][0])
    assert names[at : at + len(AFTER[steps])] == AFTER[steps]
    assert [name for name in names if name in PLAIN] == PLAIN


BEFORE = {
    'step own "a" before top': ["own", "top"],
    'step own "a" before side': ["own", "side"],
    'step own "a" before tie': ["own", "tie"],
    'step one "a" before side\nstep two "b" before one': ["two", "one", "side"],
    'step one "a" before side\nstep two "b" before side': ["one", "two", "side"],
    'step one "a" before top\nstep two "b" after side': ["side", "two", "one", "top"],
    'step one "a" after side\nstep two "b" before one': ["side", "two", "one", "top"],
    'step one "a" after side\nstep two "b" before top\nstep three "c" after two': [
        "side",
        "one",
        "two",
        "three",
        "top",
    ],
}


@pytest.mark.parametrize("steps", BEFORE)
def test_a_step_stands_right_before_its_anchor(steps: str) -> None:
    names = order(steps)
    at = names.index(BEFORE[steps][0])
    assert names[at : at + len(BEFORE[steps])] == BEFORE[steps]


@pytest.mark.parametrize("steps", BEFORE)
def test_a_step_before_something_does_not_push_it_back(steps: str) -> None:
    """Seams are sewn as the spec lists them, with or without a step before one of them."""
    assert [name for name in order(steps) if name in PLAIN] == PLAIN


def test_steps_that_wait_for_each_other_are_told() -> None:
    below = 'step one "a" after two\nstep two "b" after three\nstep three "c" after one\n'
    (fault,) = found(spec(below))
    assert fault.slug == "order-ring"
    assert fault.notes == ("`one` waits for `two` waits for `three` waits for `one`",)
    assert len(fault.others) == 2


def test_steps_that_each_come_before_the_next_are_told() -> None:
    below = 'step one "a" before two\nstep two "b" before three\nstep three "c" before one\n'
    (fault,) = found(spec(below))
    assert fault.notes == ("`one` waits for `three` waits for `two` waits for `one`",)


@pytest.mark.parametrize(
    ("steps", "names"),
    [
        ('step one "a" before two\nstep two "b" after one', ["one", "two"]),
        ('step one "a" before two\nstep two "b" before three\nstep three "c" after one', ["one", "two", "three"]),
        ('step three "c" after one\nstep one "a" before two\nstep two "b" before three', ["one", "two", "three"]),
        ('step one "a" before two\nstep three "c" after two\nstep two "b" after one', ["one", "two", "three"]),
        ('step four "d" after one\nstep one "a" before two\nstep two "b" after one', ["one", "four", "two"]),
    ],
)
def test_steps_that_lean_on_each_other_without_waiting_come_last(steps: str, names: list[str]) -> None:
    made = order(steps)
    assert made[: len(PLAIN)] == PLAIN
    assert [name for name in made if name in names] == names


def test_a_strip_is_made_before_the_seam_that_catches_it() -> None:
    names = order('step wait "a" before tie')
    assert names.index("wait") < names.index("tie") < names.index("top")


def test_lines_of_a_step_say_how_often_and_what_is_caught() -> None:
    steps = {step.name: step for step in assembled(spec()).steps}
    text = " ".join(steps["top"].lines)
    assert "Tie" in text and "corner" in text
    pinned = next(i for i, line in enumerate(steps["top"].lines) if line.startswith("Lay"))
    assert "Tie" in steps["top"].lines[pinned - 1]
    assert not any("times" in line for line in steps["side"].lines)
    twice = spec().replace("{ cut 1; grain", "{ cut 2; grain").replace("{ cut 1; length", "{ cut 2; length")
    again = {step.name: step for step in assembled(twice).steps}
    assert "2 times" in again["side"].lines[0]


def test_ease_is_told_after_pinning() -> None:
    text = spec().replace('piece back "Back" from front { }', BACK)
    text = text.replace("as plain\n", "as plain { ease 5 mm }\n").replace(
        "back.other_side as french", "back.other_side as french"
    )
    steps = {step.name: step for step in assembled(text).steps}
    lines = steps["side"].lines
    (at,) = [i for i, line in enumerate(lines) if line.startswith("Ease in the side of the Front by 5 mm:")]
    assert any(line.startswith("Lay") for line in lines[:at])


BACK = """piece back "Back" { cut 1; grain straight
  outline { hem : front.a -> front.a right 20 cm; side : front.a right 20 cm -> front.a right 20 cm up 29.5 cm
    top : front.a right 20 cm up 29.5 cm -> front.a up 30 cm; other_side : front.a up 30 cm -> front.a } }"""


def test_two_runs_give_the_same_order() -> None:
    below = "\n".join(f'step s{i} "x" after side' for i in range(12))
    assert order(below) == order(below)


def test_each_step_knows_what_it_makes() -> None:
    for step in assembled(spec('step own "a"')).steps:
        assert (step.thing is None) == (step.about == "own")
    abouts = [step.about for step in assembled(spec('step own "a"')).steps]
    assert abouts == ["strip", "finish", "seam", "seam", "seam", "finish", "finish", "own"]


BANDED = """garment knot "Knot, an apron with a band"
edition 1
piece skirt "Skirt" { cut 1; grain straight
  outline { hem : (0 cm, 0 cm) -> (40 cm, 0 cm); one_side : (40 cm, 0 cm) -> (40 cm, 30 cm)
    waist : (40 cm, 30 cm) -> (0 cm, 30 cm); other_side : (0 cm, 30 cm) -> (0 cm, 0 cm) } }
piece band "Band" { cut 1; grain straight
  outline { lower : (0 cm, 0 cm) -> (40 cm, 0 cm); one_end : (40 cm, 0 cm) -> (40 cm, 5 cm)
    upper : (40 cm, 5 cm) -> (0 cm, 5 cm); other_end : (0 cm, 5 cm) -> (0 cm, 0 cm) } }
piece inside "Inner band" from band { }
seam waist joins skirt.waist with band.lower as plain_closed
seam round joins band.one_end then band.upper then band.other_end
  with inside.one_end then inside.upper then inside.other_end as enclosed
finish skirt.one_side, skirt.other_side as double_turned_hem
finish skirt.hem as turned_hem
finish inside.lower as double_turned_hem
"""


def test_a_hem_whose_end_a_seam_takes_in_is_sewn_just_before_it() -> None:
    """The band goes on beyond the sides of the skirt: once it is on, their hems can't be turned at its ends."""
    names = [step.name for step in assembled(BANDED).steps]
    assert names == [
        "finish skirt.one_side, skirt.other_side",
        "waist",
        "round",
        "finish skirt.hem",
        "finish inside.lower",
    ]


def test_a_hem_can_not_be_put_after_the_seam_that_takes_in_its_end() -> None:
    (told,) = found(f"{BANDED}order skirt.one_side after waist\n")
    assert told.slug == "out-of-reach"
    assert any("it takes in the end of this" in note for note in told.notes)


def test_a_hem_that_goes_on_beyond_a_seam_comes_after_it() -> None:
    names = order()
    assert names.index("side") < names.index("finish front.hem, back.hem")


def lines(text: str, name: str) -> tuple[str, ...]:
    return next(step.lines for step in assembled(text).steps if step.name == name)


def test_a_seam_that_takes_in_finished_ends_begins_and_ends_at_them() -> None:
    told = lines(BANDED, "waist")
    assert any("right sides together, notches meeting; pin." in line for line in told)
    ends = "At the one side of the Skirt and at the other side of the Skirt, finished already, "
    assert any(line.startswith(ends) and "begin and end exactly at the finished edge" in line for line in told)


def test_allowances_go_toward_the_back_only_between_front_and_back() -> None:
    assert "Press both allowances to one side." in lines(BANDED, "waist")
    closed = spec().replace("back.side as plain", "back.side as plain_closed")
    assert "Press both allowances toward the back." in lines(closed, "side")


SLIT = """garment knot "Knot, a boxy top"
edition 1
piece front "Front" { cut 1 on fold centre; grain straight
  outline { centre : (0 cm, 0 cm) -> (0 cm, 50 cm); neck : (0 cm, 50 cm) -> (12 cm, 50 cm)
    shoulder : (12 cm, 50 cm) -> (25 cm, 50 cm); armhole : (25 cm, 50 cm) -> (25 cm, 30 cm)
    side : (25 cm, 30 cm) -> (25 cm, 0 cm); hem : (25 cm, 0 cm) -> (0 cm, 0 cm) } }
piece back "Back" from front { }
seam shoulder joins front.shoulder with back.shoulder as plain
seam side joins front.side with back.side as plain { set allowance = 18 mm }
finish front.neck, back.neck as bound
finish front.armhole, back.armhole as slit_hem
finish front.hem, back.hem as turned_hem
"""


def test_a_seam_that_ends_on_a_straight_edge_is_notched_there_and_says_where_to_stop() -> None:
    made = assembled(SLIT)
    for name in ("front", "back"):
        (piece,) = (one for one in made.pieces if one.drafted.name == name)
        (end,) = (one for one in piece.notches if one.edge == "side" and min(one.along, abs(one.along - 300)) < 0.1)
        assert (end.seam, end.slits) == ("side", 1)
    told = lines(SLIT, "side")
    assert sum(line.startswith("Stop exactly at the notch where the armhole of the Front begins") for line in told) == 1
    assert not any("single at 0" in line for line in told)
    stops = [line for line in lines(SLIT, "shoulder") if line.startswith("Stop exactly")]
    assert len(stops) == 1  # where the straight neck begins; at the armhole there is a corner
    assert "neck of the Front" in stops[0]


def test_rings_are_begun_beside_a_seam_only_once_they_are_closed() -> None:
    hem = "finish front.hem, back.hem"
    begin = "The edge closes into a ring: begin beside a seam, and go 2 cm over the start."
    assert begin in lines(SLIT, hem)
    assert "There are 2 rings: begin beside a seam, and go 2 cm over the start." in lines(
        SLIT, "finish front.armhole, back.armhole"
    )
    apart = SLIT.replace("finish front.hem, back.hem as", "finish front.hem as").replace(
        "turned_hem\n", "turned_hem\nfinish back.hem as turned_hem\norder front.hem before side\n"
    )
    assert begin not in lines(apart, "finish front.hem")


def test_an_edge_finished_twice_is_told_and_does_not_stop_the_order() -> None:
    told = [one.slug for one in found(spec("finish front.hem as pinked\n"))]
    assert told == ["edge-used-twice"]
    twice = spec().replace("finish front.hem, back.hem as turned_hem", "finish front.hem, back.hem as turned_hem\n" * 2)
    assert {one.slug for one in found(twice)} == {"edge-used-twice"}
