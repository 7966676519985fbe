"""Probes of the order of work: what follows from the garment holds however the spec is written, and little else moves."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Sequence

import pytest

from tests.assembly.wrong import BAG, PATCHES, TOP
from tests.language.small import assembled

LINES = re.split(r"(?m)^(?=piece|strip|seam|finish)", TOP)
SEAMS = [line for line in LINES if line.startswith("seam")]


def order(text: str) -> list[str]:
    return [step.name for step in assembled(text).steps]


def moved(before: Sequence[str], after: Sequence[str]) -> int:
    """How many of the steps that both have stand elsewhere: all but the longest row of them that kept its order."""
    places = [before.index(name) for name in after if name in before]
    return len(places) - longest(places)


def longest(places: Sequence[int]) -> int:
    """The length of the longest rising row among places, by patience sorting."""
    ends: list[int] = []
    for place in places:
        at = bisect_left(ends, place)
        ends[at : at + 1] = [place]
    return len(ends)


BEFORE = order(TOP)
NEEDED = [
    ("tie", "side"),
    ("loop", "side"),
    ("tie", "finish tie.ends"),
    ("front.bust", "side"),
    ("centre", "neck"),
    ("shoulder", "neck"),
    ("facing_shoulder", "neck"),
    ("facing_shoulder", "finish front_facing.outer, back_facing.outer"),
    ("finish front_facing.outer, back_facing.outer", "neck"),
    ("shoulder", "armhole"),
    ("side", "armhole"),
    ("under", "armhole"),
    ("under", "finish sleeve.cuff"),
    ("side", "finish front.hem, back.hem"),
    ("centre", "finish front.hem, back.hem"),
]
"""What comes before what in this garment, said by hand: closed before crossed, caught before sewn, flat before shut in."""


def holds(steps: Sequence[str]) -> None:
    late = [pair for pair in NEEDED if steps.index(pair[0]) > steps.index(pair[1])]
    assert late == []


def test_counting_what_moved() -> None:
    assert moved("abcdef", "abcdef") == moved("abcdef", "abxcdef") == moved("abcdef", "abdef") == 0
    assert moved("abcdef", "bcdefa") == moved("abcdef", "fabcde") == 1
    assert moved("abcdef", "fedcba") == 5


@pytest.mark.parametrize("text", [TOP, "".join([LINES[0], *reversed(LINES[1:])])], ids=["as written", "backward"])
def test_what_is_needed_comes_first_however_the_spec_is_written(text: str) -> None:
    holds(order(text))


@pytest.mark.parametrize("line", SEAMS, ids=[line.split()[1] for line in SEAMS])
def test_a_seam_written_last_moves_with_what_needs_it(line: str) -> None:
    """Sewn later it moves alone, and what has to wait for it follows at once."""
    steps = order(TOP.replace(line, "") + line)
    holds(steps)
    name = line.split()[1]
    behind = {later for earlier, later in NEEDED if earlier == name}
    assert moved(BEFORE, steps) <= 1 + len(behind)


@pytest.mark.parametrize("at", range(len(SEAMS) - 1))
def test_two_seams_swapped_swap_two_steps_at_most(at: int) -> None:
    swapped = TOP.replace(SEAMS[at], "@").replace(SEAMS[at + 1], SEAMS[at]).replace("@", SEAMS[at + 1])
    steps = order(swapped)
    holds(steps)
    assert moved(BEFORE, steps) <= 1


def test_pieces_and_finishes_elsewhere_move_no_seam() -> None:
    pieces = [line for line in LINES if line.startswith("piece")]
    rest = [line for line in LINES[1:] if line not in pieces]
    assert order("".join([LINES[0], *rest, *reversed(pieces)])) == BEFORE
    finishes = [line for line in rest if line.startswith("finish")]
    others = [line for line in rest if line not in finishes]
    steps = order("".join([LINES[0], *finishes, *pieces, *others]))
    assert steps == BEFORE


SMALL = {
    "another width": ("as flat_felled", "as flat_felled { set fell = 7 mm }", 0),
    "another type": (
        "joins sleeve.front_arm with sleeve.back_arm as plain",
        "joins sleeve.front_arm with sleeve.back_arm as french",
        0,
    ),
    "another finish": ("finish sleeve.cuff as turned_hem", "finish sleeve.cuff as double_turned_hem", 0),
    "a longer tie": ("length 60 cm", "length 75 cm", 0),
    "a strip less": (
        'strip loop "Loop" { cut 2; length 6 cm; width 2.5 cm; make tube stitched 5 mm from edge }\n',
        "",
        0,
    ),
    "a dart more": (
        "dart bust on side",
        "dart waist on hem at 12 cm to (12 cm, 14 cm) taking 1 cm\n  dart bust on side",
        0,
    ),
    "a step of one's own": ("finish tie.ends", 'step fit "Try it on." after side\nfinish tie.ends', 0),
    "an order that holds anyway": ("finish tie.ends", "order armhole after shoulder\nfinish tie.ends", 0),
    "one seam asked for later": ("finish tie.ends", "order centre after facing_shoulder\nfinish tie.ends", 1),
    "one seam asked for earlier": ("finish tie.ends", "order under before shoulder\nfinish tie.ends", 1),
    "a hem asked for earlier": ("finish tie.ends", "order sleeve.cuff before armhole\nfinish tie.ends", 1),
    "a hem before the seam across it": ("finish tie.ends", "order sleeve.cuff before under\nfinish tie.ends", 1),
}


@pytest.mark.parametrize("what", SMALL)
def test_a_small_change_moves_few_steps(what: str) -> None:
    right, wrong, most = SMALL[what]
    assert TOP.count(right) == 1
    text = TOP.replace(right, wrong)
    if what == "a strip less":
        text = text.replace("  insert loop folded at high_place\n", "")
    assert moved(BEFORE, order(text)) == most


def test_a_part_of_the_garment_more_moves_nothing() -> None:
    pocket = """piece pocket "Pocket" {
  cut 2
  grain straight
  outline { low : (0 cm, 0 cm) -> (12 cm, 0 cm); right_side : (12 cm, 0 cm) -> (12 cm, 14 cm)
    high : (12 cm, 14 cm) -> (0 cm, 14 cm); left_side : (0 cm, 14 cm) -> (0 cm, 0 cm) }
}
finish pocket.low, pocket.right_side, pocket.left_side as overedged
finish pocket.high as turned_hem
"""
    steps = order(LINES[0] + pocket + "".join(LINES[1:]))
    assert moved(BEFORE, steps) == 0
    assert len(steps) == len(BEFORE) + 2


def test_a_thing_asked_to_come_first_stands_right_before_the_other() -> None:
    steps = order(TOP + "order front.hem before armhole\n")
    assert steps.index("armhole") - steps.index("finish front.hem, back.hem") == 1
    steps = order(TOP + "order shoulder after front.bust\norder shoulder after under\n")
    assert steps.index("shoulder") - steps.index("under") == 1
    holds(steps)


def test_a_step_of_ones_own_may_be_ordered_by() -> None:
    """A step leans on a seam; what is ordered after the step comes after that seam, and the step stays beside it."""
    steps = order(TOP + 'step fit "Try it on." after side\norder shoulder after fit\n')
    assert steps.index("side") + 1 == steps.index("fit") < steps.index("shoulder")
    steps = order(TOP + 'step last "Take a picture."\nstep cuffs "Turn up the cuffs." after sleeve.cuff\n')
    assert steps.index("cuffs") == steps.index("finish sleeve.cuff") + 1
    assert steps[-1] == "last"


def test_an_opening_is_closed_after_all_else() -> None:
    pinned = BAG + "finish inner_face.rest, inner_rear.rest as pinked\n"
    pinned = pinned.replace(
        "inner_face.rest then inner_face.right_side with inner_rear.rest then inner_rear.right_side",
        "inner_face.right_side with inner_rear.right_side",
    )
    steps = order(pinned)
    assert steps[-1] == "opening"
    assert steps.index("bag") < steps.index("rim")


def test_patches_are_joined_in_rows_first() -> None:
    backward = "".join(reversed(re.split(r"(?m)^(?=seam|finish)", PATCHES)[1:]))
    head = re.split(r"(?m)^(?=seam|finish)", PATCHES)[0]
    steps = order(head + backward)
    assert steps.index("middle") > max(steps.index("north"), steps.index("south"))


def test_a_sleeve_may_be_set_in_flat() -> None:
    """Where the side runs on down the sleeve, the armhole is sewn before it, though custom would close rings first."""
    flat = TOP.replace(
        "joins front.side with back.side as plain",
        "joins front.side then sleeve.front_arm with back.side then sleeve.back_arm as plain",
    )
    flat = flat.replace("seam under joins sleeve.front_arm with sleeve.back_arm as plain\n", "")
    steps = order(flat)
    assert steps.index("shoulder") < steps.index("armhole") < steps.index("side")
