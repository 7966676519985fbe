"""Strips caught in seams: where they lie, how many there are, what becomes of their ends."""

import pytest

from garmentc.assembly.model import Assembly
from garmentc.diagnostics.finding import Severity
from tests.language.small import assembled, found, panel

TIE = 'strip tie "Tie" { cut 1; length 30 cm; width 3 cm; make tube stitched 5 mm from edge }\n'
"""It finishes 1 cm wide."""
LOOSE = "finish tie.ends as tucked_in\n"
RAIL = """piece rail "Rail" { cut 1; grain straight
  p = (0 cm, 0 cm)
  outline { near : p -> p right 20 cm; up : p right 20 cm -> p right 20 cm up 5 cm
    far : p right 20 cm up 5 cm -> p up 5 cm; down : p up 5 cm -> p } }
"""


def sewn(
    inserts: str,
    below: str = TIE,
    points: str = "",
    sides: str = "panel.lower with rail.near",
    cut: str = "cut 1",
    rail_cut: str = "",
) -> str:
    """A panel of 20 by 30 cm sewn to a rail of 20 by 5 cm, with strips in the seam."""
    edges = [f"{piece}.{edge}" for piece, names in NAMES.items() for edge in names.split()]
    folds = [
        f"{piece}.{how.split()[-1]}" for piece, how in (("panel", cut), ("rail", rail_cut or cut)) if "fold" in how
    ]
    rest = [edge for edge in edges if edge not in [*sides.split(), *folds]]
    seam = f"seam s joins {sides} as plain {{ {inserts} }}\n"
    text = panel(points, below=RAIL.replace("cut 1", rail_cut or cut) + seam + below, finish="")
    return text.replace("  cut 1\n", f"  {cut}\n") + f"finish {', '.join(rest)} as pinked\n"


NAMES = {"panel": "lower ending upper opening", "rail": "near up far down"}


def slugs(text: str) -> list[str]:
    """What is found besides points that only some of the tests use."""
    return [one.slug for one in found(text) if one.slug != "unused-name"]


# ---- where


@pytest.mark.parametrize(
    ("point", "told"),
    [
        ("on_seam", []),
        ("nearly", []),
        ("beside", ["insert-off-seam"]),
        ("c", ["insert-off-seam"]),
        ("panel.on_seam", []),
        ("rail.middle", []),
        ("rail.top", ["insert-off-seam"]),
        ("rail.up.end", ["insert-off-seam"]),
    ],
)
def test_a_strip_is_caught_where_the_seam_runs(point: str, told: list[str]) -> None:
    points = "on_seam = a right 5 cm; nearly = on_seam up 0.9 mm; beside = on_seam up 1.1 mm"
    text = sewn(f"insert tie folded at {point}", points=points)
    text = text.replace("  p = (0 cm, 0 cm)\n", "  p = (0 cm, 0 cm); top = p up 5 cm; middle = p right 5 cm\n")
    assert slugs(text) == told
    for one in found(text):
        assert one.slug == "unused-name" or one.span.text == f"insert tie folded at {point}"


def test_a_piece_that_is_not_in_the_seam_is_told() -> None:
    other = 'piece other "O" from panel { cut 1 }\n'
    other += "finish other.lower, other.ending, other.upper, other.opening as pinked\n"
    (fault,) = found(sewn("insert tie at other.a", below=TIE + other))
    assert (fault.slug, fault.notes) == ("insert-off-seam", ("`other` is not in this seam",))


@pytest.mark.parametrize(
    ("place", "told"),
    [
        ("a", ["insert-no-room"]),
        ("b", ["insert-no-room"]),
        ("a right 4.9 mm", ["insert-no-room"]),
        ("a right 5 mm", []),
        ("b left 5 mm", []),
        ("b left 4.9 mm", ["insert-no-room"]),
    ],
)
def test_half_a_strip_fits_before_the_end_of_the_seam(place: str, told: list[str]) -> None:
    assert slugs(sewn("insert tie folded at place", points=f"place = {place}")) == told


def test_how_much_room_lacks_is_told() -> None:
    (fault,) = found(sewn("insert tie folded at place", points="place = a right 2 mm"))
    assert fault.headline == "strip `tie` has no room at the place of the Panel"
    assert "2 mm from the end of the seam" in fault.notes[0] and "5 mm" in fault.notes[0]
    assert "by 3 mm or more" in fault.help


@pytest.mark.parametrize(
    ("turn", "told"),
    [
        ("(40 cm, 0 cm)", []),
        ("(40 cm, 7 cm)", []),
        ("(40 cm, 8 cm)", ["insert-no-room"]),
        ("(40 cm, -7 cm)", []),
        ("(40 cm, -8 cm)", ["insert-no-room"]),
        ("(20 cm, 12 cm)", ["insert-no-room"]),
    ],
)
def test_no_strip_lies_across_a_sharp_corner(turn: str, told: list[str]) -> None:
    """Over a joint that bends by 20 degrees, or 7.3 cm on 20, a strip lies flat."""
    text = sewn("insert tie folded at b; ease 0 cm within 1 m", sides="panel.lower then panel.more with rail.near")
    text = text.replace("ending : b -> c", "more : b -> e; ending : e -> c")
    assert slugs(text.replace("c = (20 cm, 30 cm)", f"c = (40 cm, 30 cm); e = {turn}")) == told


@pytest.mark.parametrize(
    ("place", "number", "told"),
    [
        ("a", 1, []),
        ("a", 2, ["strips-unlike-places"]),
        ("a right 4 mm", 2, ["insert-no-room"]),
        ("a right 6 mm", 2, []),
    ],
)
def test_on_the_fold_one_strip_lies_on_both_halves(place: str, number: int, told: list[str]) -> None:
    text = sewn(
        "insert tie folded at place",
        below=TIE.replace("cut 1", f"cut {number}"),
        points=f"place = {place}",
        cut="cut 1 on fold opening",
        rail_cut="cut 1 on fold down",
    )
    assert slugs(text) == told


def test_a_seam_that_ends_askew_on_the_fold_has_a_corner_there() -> None:
    text = sewn(
        "insert tie folded at a; ease 0 cm within 1 m",
        cut="cut 1 on fold opening",
        rail_cut="cut 1 on fold down",
    ).replace("a = (0 cm, 0 cm)", "a = (0 cm, 5 cm)")
    (fault,) = found(text)
    assert (fault.slug, "a corner on the fold" in fault.notes[0]) == ("insert-no-room", True)


@pytest.mark.parametrize(
    ("gap", "told"), [("0 mm", ["inserts-overlap"]), ("9.9 mm", ["inserts-overlap"]), ("10 mm", []), ("5 cm", [])]
)
@pytest.mark.parametrize("other", ["insert tie at panel.second", "insert tie at rail.second"])
def test_strips_lie_side_by_side(gap: str, told: list[str], other: str) -> None:
    text = sewn(f"insert tie at first; {other}", below=TIE.replace("cut 1", "cut 2") + LOOSE)
    text = text.replace(
        "  a = (0 cm, 0 cm)\n", f"  a = (0 cm, 0 cm); first = a right 8 cm; second = first right {gap}\n"
    )
    text = text.replace("  p = (0 cm, 0 cm)\n", f"  p = (0 cm, 0 cm); second = p right 12 cm left {gap}\n")
    assert slugs(text) == told


def test_what_is_inserted_is_known_to_the_seam() -> None:
    two = TIE.replace("cut 1", "cut 2") + "finish tie.ends as tucked_in\n"
    made = assembled(
        sewn("insert tie at one; insert tie folded at two", below=two, points="one = a right 2 cm; two = b left 2 cm")
    )
    (seam,) = made.seams
    assert [(one.strip_title, one.point_name, one.folded, one.at, one.places, one.run) for one in seam.inserts] == [
        ("Tie", "one", False, 20 + 0j, 1, 20.0),
        ("Tie", "two", True, 180 + 0j, 1, 180.0),
    ]


# ---- how many


ONE = "insert tie at one"
BOTH = "insert tie at one; insert tie at two"
FOLDED = "insert tie folded at one"


@pytest.mark.parametrize(
    ("inserts", "cut", "numbers"),
    [
        (ONE, "cut 1", {1}),
        (ONE, "cut 2", {2}),
        (ONE, "cut pair", {2}),
        (ONE, "cut 1 on fold FOLD", {2}),
        (FOLDED, "cut 1", {1}),
        (FOLDED, "cut 2", {2}),
        (BOTH, "cut 1", {1, 2}),
        (BOTH, "cut 2", {2, 4}),
        (BOTH, "cut 2 on fold FOLD", {4, 8}),
        (f"{FOLDED}; insert tie at two", "cut 1", {2}),
        (f"{BOTH}; insert tie at three", "cut 1", {3}),
        (f"{BOTH}; insert tie folded at three", "cut 1", {2, 3}),
    ],
)
def test_as_many_strips_are_cut_as_are_caught(inserts: str, cut: str, numbers: set[int]) -> None:
    """One at each place, or half as many where both ends are caught."""
    points = "one = a right 4 cm; two = a right 8 cm; three = a right 12 cm"
    for number in range(1, 9):
        text = sewn(
            inserts,
            TIE.replace("cut 1", f"cut {number}"),
            points,
            cut=cut.replace("FOLD", "opening"),
            rail_cut=cut.replace("FOLD", "down"),
        )
        told = [one for one in slugs(text) if one != "raw-strip"]
        assert told == ([] if number in numbers else ["strips-unlike-places"]), number


def test_a_wrong_number_is_told_with_what_catches_the_strips() -> None:
    (fault,) = found(
        sewn(BOTH, TIE.replace("cut 1", "cut 3"), "one = a right 4 cm; two = a right 8 cm", cut="cut pair")
    )
    assert fault.headline == "strip `tie` is cut 3 times, but 4 are needed, or 2 when each is caught by both ends"
    assert [label.text for label in fault.others] == ["caught 2 times, at each copy of the Panel"] * 2
    assert fault.help == "write `cut 2` or `cut 4`"


def test_a_strip_that_lies_wrong_is_not_counted_too() -> None:
    assert slugs(sewn("insert tie at c", TIE.replace("cut 1", "cut 5"))) == ["insert-off-seam"]


# ---- how it is told


def caught(made: Assembly) -> list[str]:
    return [line for step in made.steps for line in step.lines if "Tie on the edge" in line or "Fold a Tie" in line]


def test_the_ends_of_straps_are_told_one_after_the_other() -> None:
    points = "one = a right 4 cm; two = a right 8 cm"
    each = caught(assembled(sewn(BOTH, TIE, points)))
    assert [line.split(" on the edge")[0] for line in each] == [
        "Lay one end of the Tie",
        "Lay the other end of the Tie",
    ]
    apart = caught(assembled(sewn(BOTH, TIE.replace("cut 1", "cut 2") + LOOSE, points)))
    assert [line.split(" on the edge")[0] for line in apart] == ["Lay the raw end of a Tie"] * 2


# ---- raw ends and sides


FLAT = 'strip tie "Tie" { cut 1; length 30 cm; width 1 cm; make flat }\n'


@pytest.mark.parametrize(
    ("inserts", "below", "headlines"),
    [
        (ONE, TIE, ["an end of strip `tie` is left raw"]),
        (ONE, TIE + LOOSE, []),
        (BOTH, TIE, []),
        (BOTH, TIE.replace("cut 1", "cut 2"), ["2 ends of strip `tie` are left raw"]),
        (FOLDED, TIE, []),
        (FOLDED, FLAT, ["the sides of strip `tie` are left raw"]),
        (FOLDED, FLAT + "finish tie.sides as overedged\n", []),
        (ONE, FLAT, ["an end of strip `tie` is left raw", "the sides of strip `tie` are left raw"]),
        (ONE, FLAT + "finish tie.sides, tie.ends as pinked\n", []),
        ("", TIE + LOOSE, []),
    ],
)
def test_what_no_seam_catches_of_a_strip_is_finished(inserts: str, below: str, headlines: list[str]) -> None:
    told = [
        one
        for one in found(sewn(inserts, below, "one = a right 4 cm; two = a right 8 cm"))
        if one.slug != "unused-name"
    ]
    assert [(one.slug, one.headline, one.severity) for one in told] == [
        ("raw-strip", headline, Severity.WARNING) for headline in headlines
    ]


@pytest.mark.parametrize(
    ("inserts", "finish", "told"),
    [
        (FOLDED, "tie.ends", "edge-used-twice"),
        (ONE, "tie.ends, tie.ends", "edge-used-twice"),
        (ONE, "tie.ends, tie.sides", "edge-used-twice"),
        (ONE, "tie.ends, tie.side", "unknown-name"),
        (ONE, "tie.ends, tie", "unknown-name"),
    ],
)
def test_only_what_is_raw_is_finished(inserts: str, finish: str, told: str) -> None:
    text = sewn(inserts, TIE + f"finish {finish} as tucked_in\n", "one = a right 4 cm")
    (fault,) = found(text)
    assert (fault.slug, fault.span.text) == (told, finish.split(", ")[-1])


def test_thread_and_binding_follow_the_raw_parts_of_strips() -> None:
    """Two ties, 1 cm wide, each with one end free; a tape of 30 cm with two sides."""
    two = TIE.replace("cut 1", "cut 2") + "finish tie.ends as overedged\n"
    made = assembled(sewn(ONE, two, "one = a right 4 cm", cut="cut pair"))
    assert {one.words: one.length for one in made.finishes}["one end of each Tie"] == pytest.approx(20.0)
    flat = assembled(sewn(FOLDED, FLAT + "finish tie.sides as bound\n", "one = a right 4 cm"))
    assert {one.words: one.length for one in flat.finishes}["the sides of the Tie"] == pytest.approx(600.0)
