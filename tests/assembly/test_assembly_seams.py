"""Seams: both sides measured, eased, counted; what is caught in them; the thread and binding they take."""

import pytest

from garmentc.assembly.model import JoinedSeam
from tests.language.small import Fault, assembled, faults, found, panel

JOINED = 'seam type joined "Joined" { allowance 1 cm; pass 1 cm stitch 301 "Stitch {first_side} to {second_side}: {length}." }\n'
RAIL = """piece rail "Rail" { cut 1; grain straight
  p = (0 cm, 0 cm)
  outline { near : p -> p right LENGTH; up : p right LENGTH -> p right LENGTH up 5 cm
    far : p right LENGTH up 5 cm -> p up 5 cm; down : p up 5 cm -> p } }
finish rail.up, rail.far, rail.down as pinked
"""
REST = "finish panel.ending, panel.upper, panel.opening as pinked\n"


def near(value: float) -> object:
    return pytest.approx(value, abs=1e-6)


def railed(length: str = "20 cm", more: str = "", below: str = "") -> str:
    """A panel whose lower edge is sewn to a rail of some length."""
    seam = f"seam s joins panel.lower with rail.near as joined {more}\n"
    return panel(below=RAIL.replace("LENGTH", length) + JOINED + seam + below, finish=REST)


def seam_of(text: str) -> JoinedSeam:
    (seam,) = assembled(text).seams
    return seam


# ---- lengths


@pytest.mark.parametrize(
    ("length", "more", "slugs"),
    [
        ("20 cm", "", []),
        ("20.1 cm", "", []),
        ("19.9 cm", "", []),
        ("20.11 cm", "", ["seam-lengths-differ"]),
        ("19.5 cm", "", ["seam-lengths-differ"]),
        ("19.5 cm", "{ ease 5 mm }", []),
        ("20.5 cm", "{ ease 5 mm }", ["seam-lengths-differ"]),
        ("20.5 cm", "{ ease -5 mm }", []),
        ("19.5 cm", "{ ease 4 mm within 0.5 mm }", ["seam-lengths-differ"]),
        ("19.5 cm", "{ ease 4 mm within 1.5 mm }", []),
        ("20.02 cm", "{ ease 0 mm within 0.1 mm }", ["seam-lengths-differ"]),
        ("20 cm", "{ ease 5 mm }", ["seam-lengths-differ"]),
    ],
)
def test_both_sides_are_as_long_as_the_ease_says(length: str, more: str, slugs: list[str]) -> None:
    """The first side may be longer by the ease, off by 1 mm where nothing is said: common practice, no source."""
    assert [one.slug for one in found(railed(length, more))] == slugs


def test_a_difference_is_told_with_both_lengths() -> None:
    (fault,) = found(railed("18 cm", "{ ease 5 mm within 2 mm }"))
    assert "differ by 2 cm" in fault.headline
    assert [label.text for label in fault.others] == ["`panel.lower` is 20 cm long", "`rail.near` is 18 cm long"]
    assert "2 mm" in fault.notes[0] and "5 mm" in fault.notes[0]


def test_a_difference_of_chains_is_told_with_each_edge() -> None:
    text = chained("panel.lower then panel.ending with rail.near", "49 cm")
    (fault,) = [one for one in found(text) if one.slug == "seam-lengths-differ"]
    assert fault.notes[0] == "`panel.lower` 20 cm + `panel.ending` 30 cm = 50 cm"
    assert [label.text for label in fault.others][2] == "`rail.near` is 49 cm long"


@pytest.mark.parametrize(
    ("length", "help"),
    [
        ("19.5 cm", "draw both sides by the same rule, or declare the difference: { ease 5 mm }"),
        ("20.25 cm", "draw both sides by the same rule, or declare the difference: { ease -2.5 mm }"),
        ("30 cm", "is `panel.lower` the right edge? `panel.ending`, which nothing uses, is 30 cm long"),
        ("25 cm", "one of the edges may be the wrong one; else draw both sides by the same rule"),
    ],
)
def test_ease_is_suggested_for_what_can_be_eased_in(length: str, help: str) -> None:
    """Below 5 % of the seam; more than that hints at a wrong edge."""
    text = railed(length).replace("finish panel.ending, panel.upper,", "finish panel.upper,")
    (fault,) = [one for one in found(text) if one.slug == "seam-lengths-differ"]
    assert fault.help == help


def chained(sides: str, length: str = "20 cm", more: str = "", below: str = "") -> str:
    """A panel and a rail joined by one seam; what it leaves over is pinked."""
    rest = [
        name
        for name in (
            "panel.lower",
            "panel.ending",
            "panel.upper",
            "panel.opening",
            "rail.near",
            "rail.up",
            "rail.far",
            "rail.down",
        )
        if name not in sides.split()
    ]
    rail = RAIL.replace("LENGTH", length).replace("finish rail.up, rail.far, rail.down as pinked\n", "")
    seam = f"seam s joins {sides} as joined {more}\n"
    return panel(below=rail + JOINED + seam + below, finish=f"finish {', '.join(rest)} as pinked\n")


def test_a_side_may_be_a_chain_of_edges() -> None:
    made = seam_of(chained("panel.lower then panel.ending with rail.near", "50 cm"))
    assert (made.first_length, made.second_length) == (near(500.0), near(500.0))
    assert [name.text for name in made.first] == ["panel.lower", "panel.ending"]


@pytest.mark.parametrize(
    ("sides", "length", "more", "slugs"),
    [
        ("panel.lower then panel.ending with rail.far then rail.down", "20 cm", "{ ease 25 cm }", []),
        ("panel.lower then panel.ending with rail.far then rail.down", "45 cm", "", ["joints-apart"]),
        ("panel.lower then panel.ending with rail.down then rail.near", "45 cm", "", ["joints-apart"]),
        ("panel.ending then panel.lower with rail.near then rail.up", "45 cm", "", ["joints-apart"]),
        ("panel.lower then panel.ending with rail.down then rail.near then rail.up", "40 cm", "", []),
    ],
)
def test_chains_agree_joint_by_joint(sides: str, length: str, more: str, slugs: list[str]) -> None:
    """45 + 5 cm are as long as 20 + 30 cm, but the joints do not meet; of unequal chains only the sum counts."""
    assert [one.slug for one in found(chained(sides, length, more))] == slugs


@pytest.mark.parametrize(
    ("slip", "ease", "slugs"),
    [
        ("1 mm", "0 mm", []),
        ("1.1 mm", "0 mm", ["joints-apart"]),
        ("1.1 mm", "-5 mm", ["joints-apart"]),
        ("6 mm", "5 mm", []),
        ("6.1 mm", "5 mm", ["joints-apart"]),
        ("-1 mm", "5 mm", []),
        ("-1.1 mm", "5 mm", ["joints-apart"]),
    ],
)
def test_ease_may_lie_on_either_side_of_a_joint(slip: str, ease: str, slugs: list[str]) -> None:
    """The first side is longer before its joint by a slip, and as a whole by the ease."""
    text = chained(
        "panel.lower then panel.ending with rail.near then rail.up", f"20 cm - ({slip})", f"{{ ease {ease} }}"
    )
    text = text.replace("up 5 cm", f"up (30 cm + ({slip}) - ({ease}))")
    assert [one.slug for one in found(text)] == slugs


def test_joints_that_miss_each_other_are_told_with_both_lengths() -> None:
    (fault,) = found(chained("panel.lower then panel.ending with rail.near then rail.up", "45 cm"))
    assert (fault.headline, fault.span.text) == ("the joints of seam `s` miss each other by 25 cm", "panel.ending")
    assert "`panel.lower` ends after 20 cm, `rail.near` after 45 cm" in fault.notes[0]


def test_a_side_named_from_its_other_end_is_told() -> None:
    (fault,) = found(
        chained("panel.lower then panel.ending with rail.up then rail.near", "20 cm").replace("up 5 cm", "up 30 cm")
    )
    assert fault.help == "name the second side from its other end: rail.near then rail.up"


@pytest.mark.parametrize(
    ("side", "slugs"),
    [
        ("panel.lower then panel.ending", []),
        ("panel.ending then panel.lower", []),
        ("panel.opening then panel.lower then panel.ending", []),
        ("panel.upper then panel.ending then panel.lower then panel.opening", []),
        ("panel.lower then panel.upper", ["chain-broken"]),
        ("panel.lower then panel.opening then panel.ending", ["chain-broken"]),
        ("panel.ending then rail.down", ["chain-broken"]),
    ],
)
def test_each_edge_of_a_chain_goes_on_from_the_one_before(side: str, slugs: list[str]) -> None:
    told = found(chained(f"{side} with rail.near", "50 cm", "{ ease 0 cm within 1 m }"))
    assert [one.slug for one in told] == slugs


CROSSED = """piece other "Other" from panel { }
seam across joins ACROSS as plain
finish other.upper, other.lower as pinked
"""


@pytest.mark.parametrize(
    ("across", "slugs"),
    [
        ("panel.ending with other.opening", []),
        ("other.ending with panel.opening", []),
        ("panel.upper with other.upper", ["chain-broken"]),
    ],
)
def test_edges_of_two_pieces_follow_each_other_across_a_seam(across: str, slugs: list[str]) -> None:
    """The lower edges of two panels make one long edge once a side of the one is sewn to a side of the other."""
    names = [f"{piece}.{edge}" for piece in ("panel", "other") for edge in ("ending", "upper", "opening")]
    rest = [name for name in names if name not in across.split()]
    text = railed("40 cm").replace("joins panel.lower with", "joins panel.lower then other.lower with")
    text = text.replace(REST, f"finish {', '.join(rest)} as pinked\n")
    text += CROSSED.replace("ACROSS", across).replace("finish other.upper, other.lower as pinked\n", "")
    assert [one.slug for one in found(text)] == slugs


def test_curved_edges_are_measured_along_the_stitching_line() -> None:
    """A quarter circle of 20 cm radius is 31.416 cm long, whatever the cut line measures."""
    text = railed("31.416 cm", "{ ease 0 mm within 0.01 mm }")
    text = text.replace("b = (20 cm, 0 cm)", "b = (20 cm, -20 cm)").replace(
        "lower : a -> b", "lower : a -> b arc bulge radius 20 cm"
    )
    assert seam_of(text).first_length == pytest.approx(314.159, abs=0.001)


def test_a_missing_edge_of_a_seam_is_told_once() -> None:
    text = railed().replace("rail.near as", "rail.nera as")
    assert faults(text)[0] == Fault("unknown-name", faults(text)[0].line, "rail.nera")
    assert len(faults(text)) == 1


# ---- copies


@pytest.mark.parametrize(
    ("panels", "rails", "slugs", "times"),
    [
        ("cut 1", "cut 1", [], 1),
        ("cut 2", "cut 2", [], 2),
        ("cut pair", "cut 2", [], 2),
        ("cut pair", "cut 1 on fold far", [], 2),
        ("cut pair", "cut 1", ["unequal-copies"], 0),
        ("cut 1", "cut 3", ["unequal-copies"], 0),
        ("cut 2 on fold upper", "cut 2 on fold far", [], 4),
    ],
)
def test_both_sides_exist_equally_often(panels: str, rails: str, slugs: list[str], times: int) -> None:
    text = railed().replace("  cut 1\n", f"  {panels}\n").replace("{ cut 1;", f"{{ {rails};")
    if "fold" in panels:
        text = text.replace("finish panel.ending, panel.upper,", "finish panel.ending,")
    if "fold" in rails:
        text = text.replace("finish rail.up, rail.far, rail.down", "finish rail.up, rail.down")
    assert [one.slug for one in found(text)] == slugs
    if not slugs:
        assert seam_of(text).times == times


def test_unequal_copies_are_told_with_both_numbers() -> None:
    (fault,) = found(railed().replace("{ cut 1;", "{ cut 3;"))
    assert fault.headline == "seam `s` joins 1 edge with 3"
    assert [label.span.text for label in fault.others] == ["panel.lower", "rail.near"]


def test_edges_of_one_chain_exist_equally_often() -> None:
    """The lower edge exists twice, the ends of the rail once: one lower edge stays unsewn."""
    text = railed(
        "20 cm",
        below='piece other "Other" from panel { cut 2 }\nseam t joins panel.ending with other.opening as plain\nfinish other.upper, other.ending as pinked\n',
    )
    text = text.replace("joins panel.lower with rail.near", "joins panel.lower then other.lower with rail.near")
    text = (
        text.replace("LENGTH", "40 cm")
        .replace("p right 20 cm", "p right 40 cm")
        .replace("finish panel.ending, panel.upper", "finish panel.upper")
    )
    told = found(text)
    assert [one.slug for one in told] == ["unequal-copies", "unequal-copies"]
    assert told[0].headline == "seam `s` joins edges that do not exist equally often"
    assert [label.text for label in told[0].others] == ["cut once", "cut 2 times", "cut once"]


def test_a_seam_across_the_fold_is_sewn_once_over_both_halves() -> None:
    text = railed().replace("  cut 1\n", "  cut 1 on fold opening\n").replace("{ cut 1;", "{ cut 1 on fold down;")
    text = text.replace("panel.upper, panel.opening as", "panel.upper as").replace(
        "rail.far, rail.down as", "rail.far as"
    )
    made = seam_of(text)
    assert (made.times, made.first_length, made.second_length) == (1, near(400.0), near(400.0))


# ---- texts, thread, binding


def test_texts_are_filled_in() -> None:
    join = seam_of(railed()).join
    assert [work.text for work in join.work] == ["Stitch the lower of the Panel to the near of the Rail: 20 cm."]
    assert [work.stitch.code for work in join.work if work.stitch is not None] == ["301"]


def test_what_is_eased_is_stitched_over_the_shorter_side() -> None:
    (work,) = seam_of(railed("19.5 cm", "{ ease 5 mm }")).join.work
    assert work.text.endswith(": 19.5 cm.")


def test_a_text_asks_for_the_widths_of_its_type() -> None:
    below = 'finish type edged "E" { reach = 7 mm; allowance 2 * reach; binding 5 * reach; do "{reach}, {allowance}, {binding}, {length}, {edges}" }\n'
    made = assembled(panel(below=below, finish=REST + "finish panel.lower as edged { set reach = 1/2 in }\n"))
    (edged,) = [one for one in made.finishes if one.join.name == "edged"]
    assert edged.join.work[0].text == "12.7 mm, 2.54 cm, 6.35 cm, 20 cm, the lower of the Panel"


def test_thread_is_length_sewn_times_the_ratio_of_the_stitch() -> None:
    below = """stitch 301 "Lockstitch" thread 2
stitch 777 "Own" thread 1000 %
seam type rows "Rows" { allowance 1 cm; pass 1 cm stitch 301 "a"; pass 2 mm stitch 301 "b"; pass 3 mm stitch 777 "c" }
finish type row "Row" { allowance 0 mm; pass 1 mm stitch 777 "a" }
strip tube "Tube" { cut 2; length 30 cm; width 3 cm; make tube stitched 5 mm from edge }
strip band "Band" { cut 3; length 10 cm; width 4 cm; make quartered }
strip tape "Tape" { cut 3; length 10 cm; width 1 cm; make flat }
finish type left "Left as it is" { do "Leave {edges}." }
finish tube.ends, band.ends, tape.ends, tape.sides as left
"""
    text = railed("20 cm", below=below)
    text = text.replace("as joined", "as rows").replace("finish panel.ending,", "finish panel.ending as row\nfinish")
    used = {one.stitch.code: (one.sewn, one.thread) for one in assembled(text).thread}
    sewn = 2 * 200.0 + 2 * 300.0 + 2 * 3 * 100.0
    assert used["301"] == (near(sewn), near(2 * sewn))
    assert used["777"] == (near(200.0 + 300.0), near(5000.0))


def test_thread_counts_every_copy() -> None:
    text = railed().replace("  cut 1\n", "  cut 3\n").replace("{ cut 1;", "{ cut 3;")
    (used,) = assembled(text).thread
    assert used.sewn == near(3 * 200.0)


def test_the_longer_side_takes_the_thread() -> None:
    (used,) = assembled(railed("19.5 cm", "{ ease 5 mm }")).thread
    assert used.sewn == near(200.0)


def test_bias_strip_for_bound_edges() -> None:
    below = 'finish type taped "Taped" { binding 26 mm; do "Bind." }\n'
    text = panel(
        below=below, finish="finish panel.lower, panel.upper, panel.ending as taped\nfinish panel.opening as pinked\n"
    )
    (used,) = assembled(text.replace("cut 1", "cut 2")).bindings
    assert (used.width, used.length) == (near(26.0), near(2 * (200.0 + 200.0 + 300.0)))


def test_tools_are_listed_once() -> None:
    below = (
        'finish type combed "C" { tools "comb", "chalk"; do "a" }\nfinish type chalked "D" { tools "chalk"; do "a" }\n'
    )
    finish = (
        "finish panel.lower as combed\nfinish panel.upper as chalked\nfinish panel.ending, panel.opening as combed\n"
    )
    assert assembled(panel(below=below, finish=finish)).tools == ("comb", "chalk")


def test_a_type_of_ones_own_comes_before_a_shipped_one() -> None:
    below = 'finish type pinked "My pinking" { allowance 4 mm; do "Pink." }\n'
    assert {one.join.title for one in assembled(panel(below=below)).finishes} == {"My pinking"}


def test_a_stitch_that_is_not_declared_is_told() -> None:
    below = 'finish type sewn "S" { pass 1 mm stitch 999 "a" }\nfinish panel.lower as sewn\n'
    (fault,) = found(panel(below=below, finish=REST))
    assert (fault.slug, fault.span.text) == ("unknown-name", "999")


# ---- what can't be meant


OPENED = "finish panel.ending, panel.opening as pinked\n"


@pytest.mark.parametrize(
    ("item", "text"),
    [
        ('pass -1 mm stitch 301 "a"', "-1 mm"),
        ('pass 2 mm - 3 mm stitch 301 "a"', "2 mm - 3 mm"),
        ('binding -1 mm; do "a"', "-1 mm"),
        ('reach = -1 mm; pass reach stitch 301 "a"', "-1 mm"),
        ('pass 1 mm stitch 901 "a"', "-2"),
        ('pass 1 mm stitch 902 "a"', "0"),
    ],
)
def test_widths_and_ratios_are_not_negative(item: str, text: str) -> None:
    below = f'stitch 901 "Odd" thread -2\nstitch 902 "None" thread 0\nfinish type f "F" {{ {item} }}\n'
    finish = "finish panel.lower, panel.ending, panel.upper, panel.opening as f\n"
    told = found(panel(below=below, finish=finish))
    assert [(one.slug, one.span.text) for one in told] == [("less-than-nothing", text)]


def test_a_width_is_not_set_below_nothing() -> None:
    finish = "finish panel.lower as overedged { set reach = 1 mm - 2 mm }\n"
    finish += "finish panel.ending, panel.upper, panel.opening as pinked\n"
    (fault,) = found(panel(finish=finish))
    assert (fault.slug, fault.span.text) == ("less-than-nothing", "set reach = 1 mm - 2 mm")
    assert "-1 mm" in fault.headline


def test_no_finish_of_ones_own_takes_the_place_of_the_cloths_own_edge() -> None:
    below = 'finish type found "F" { allowance 1 cm; do "a" }\n'
    assert [(one.slug, one.span.text) for one in found(panel(below=below))] == [("reserved-name", "found")]


@pytest.mark.parametrize(
    "items",
    [
        "allowance 1 mm; allowance 2 mm",
        "corner square; corner mitred",
        'class "1.01"; class "2.01"',
        "allowance 3 mm; folds 2 mm; folds 3 mm",
        "binding 2 cm; binding 3 cm",
    ],
)
def test_a_type_says_each_thing_once(items: str) -> None:
    below = f'finish type f "F" {{ {items}; do "a" }}\n'
    finish = "finish panel.lower, panel.ending, panel.upper, panel.opening as f\n"
    assert [one.slug for one in found(panel(below=below, finish=finish))] == ["said-twice"]


def test_a_seam_has_one_ease() -> None:
    seam = "seam s joins panel.lower with panel.upper as plain { ease 0 mm; ease 5 mm }\n"
    assert [one.slug for one in found(panel(below=seam, finish=OPENED))] == ["said-twice"]


def test_a_stitch_is_declared_once() -> None:
    below = 'stitch 901 "One" thread 2\nstitch 901 "Two" thread 3\n'
    below += 'finish type f "F" { pass 1 mm stitch 901 "a" }\nfinish panel.lower, panel.upper as f\n'
    assert [one.slug for one in found(panel(below=below, finish=OPENED))] == ["duplicate-name"]


@pytest.mark.parametrize(("stitched", "told"), [("stitched 3 mm from edge", "3 mm"), ("", "2 mm")])
def test_the_stitching_of_a_quartered_strip_is_what_is_said(stitched: str, told: str) -> None:
    below = f'strip tape "Tape" {{ cut 1; length 30 cm; width 4 cm; make quartered {stitched} }}\n'
    steps = assembled(railed(below=below + "finish tape.ends as tucked_in\n")).steps
    (tape,) = [step for step in steps if step.name == "tape"]
    assert f"Stitch {told} from both long edges" in " ".join(tape.lines)


@pytest.mark.parametrize(
    ("making", "slug", "text"),
    [("flat stitched 5 mm", "wrong-kind", "5 mm"), ("quartered stitched 1 cm", "strip-too-small", "1 cm")],
)
def test_a_strip_has_room_for_its_stitching(making: str, slug: str, text: str) -> None:
    """A strip cut 4 cm wide and quartered is 1 cm wide; a flat one has no stitching."""
    below = f'strip tape "Tape" {{ cut 1; length 30 cm; width 4 cm; make {making} from edge }}\n'
    told = found(railed(below=below + "finish tape.ends as tucked_in\n"))
    assert [(one.slug, one.span.text) for one in told] == [(slug, text)]
