"""Every value and function against numbers worked out by hand."""

import math

import pytest

from garmentc.assembly.model import Assembly
from garmentc.design.functions import FUNCTIONS
from tests.language.small import PINKED, assembled, found, panel

NEAR = {"rel": 1e-9, "abs": 1e-7}


def value(expression: str, inside: str = "", below: str = "", size: str = "88") -> float:
    """A quantity in mm, mm², radians or as it is."""
    made = assembled(panel(inside, f"{below}\nfinished f = {expression}"), size=size)
    (finished,) = made.draft.finished
    return finished.value


AMPLE = PINKED.replace("pinked", "turned_hem { set hem = 20.04 cm }")
"""Allowances so wide that points around the panel still lie on its cloth."""


def marks(lines: str, below: str = "") -> dict[str, complex]:
    """Points of the panel in cm, by name: each ``mark NAME at …`` line."""
    made = assembled(panel(lines, below, AMPLE))
    return {mark.name: mark.at / 10 for mark in made.draft.piece("panel").marks}


def point(expression: str, inside: str = "", below: str = "") -> complex:
    return marks(f"{inside}\nmark it at {expression}", below)["it"]


def curve_lengths(expression: str, inside: str = "") -> float:
    return value("panel.drawn.length", f"{inside}\ndrawn = {expression}")


def near(expected: complex) -> object:
    return pytest.approx(expected, abs=1e-6)


# ---- numbers


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("1 cm + 2 mm * 3", 16.0),
        ("(1 cm + 2 mm) * 3", 36.0),
        ("10 cm - 2 cm - 3 cm", 50.0),
        ("12 cm / 2 / 3", 20.0),
        ("2 * pi * 3 cm", 60 * math.pi),
        ("12 cm / (2 / 3)", 180.0),
        ("-2 cm + 5 cm", 30.0),
        ("- - 2 cm", 20.0),
        ("1 1/2 in", 38.1),
        ("5/8 in", 15.875),
        ("2 3/4 inch + 1/4 in", 76.2),
        ("0.5 m", 500.0),
        ("50 % * 8 cm", 40.0),
        ("8 cm * 1.5", 120.0),
        ("3 cm * 4 cm", 1200.0),
        ("3 cm * 4 cm / 6 cm", 20.0),
        ("6 cm / 4 cm", 1.5),
        ("7 / 2", 3.5),
        ("90 deg", math.pi / 2),
        ("90 deg / 3", math.pi / 6),
        ("if 2 cm > 1 cm then 3 cm else 4 cm", 30.0),
        ("if 2 cm < 1 cm then 3 cm else 4 cm", 40.0),
        ("if 1 cm == 10 mm and not (1 in < 25.4 mm) then 1 cm else 2 cm", 10.0),
        ("if 1 cm != 10 mm or 3 cm >= 3 cm then 1 cm else 2 cm", 10.0),
        ("if 1 cm <= 0.9 cm then 1 cm else 2 cm", 20.0),
    ],
)
def test_arithmetic(expression: str, expected: float) -> None:
    assert value(expression) == pytest.approx(expected, **NEAR)


# ---- functions


NUMBERS = {
    "min": [("min(3 cm, 12 mm, 1 in)", 12.0), ("min(2, 1.5)", 1.5)],
    "max": [("max(3 cm, 12 mm, 1 in)", 30.0), ("max(10 deg, 90 deg)", math.pi / 2)],
    "abs": [("abs(2 cm - 5 cm)", 30.0), ("abs(-30 deg)", math.pi / 6), ("abs(5 cm)", 50.0)],
    "round": [
        ("round(12.4 cm, 1 cm)", 120.0),
        ("round(12.5 cm, 1 cm)", 130.0),
        ("round(12.6 cm, 0.5 cm)", 125.0),
        ("round(1 in, 1/8 in)", 25.4),
        ("round(26 mm, 1/8 in)", 25.4),
        ("round(31 deg, 2 deg)", math.radians(32)),
        ("round(-12.5 cm, 1 cm)", -120.0),
        ("round(2.5, 1)", 3.0),
    ],
    "round_up": [("round_up(12.1 cm, 1 cm)", 130.0), ("round_up(12 cm, 1 cm)", 120.0), ("round_up(0.3 cm, 1 mm)", 3.0)],
    "round_down": [("round_down(12.9 cm, 1 cm)", 120.0), ("round_down(0.3 cm, 1 mm)", 3.0)],
    "sqrt": [("sqrt(9 cm * 4 cm)", 60.0), ("sqrt(2.25)", 1.5)],
    "hypot": [("hypot(3 cm, 4 cm)", 50.0)],
    "arc_radius": [("arc_radius(60 cm, 90 deg)", 1200 / math.pi)],  # a waist of 60 cm in a quarter circle
    "arc_length": [("arc_length(10 cm, 180 deg)", 100 * math.pi)],
    "sin": [("10 cm * sin(30 deg)", 50.0)],
    "cos": [("10 cm * cos(60 deg)", 50.0)],
    "tan": [("10 cm * tan(45 deg)", 100.0)],
    "asin": [("asin(0.5)", math.pi / 6)],
    "acos": [("acos(0.5)", math.pi / 3)],
    "atan": [("atan(1)", math.pi / 4)],
    "distance": [
        ("distance(panel.a, panel.c)", math.hypot(200, 300)),
        ("distance((5 cm, 9 cm), level(panel.a))", 90.0),
        ("distance((5 cm, 9 cm), panel.opening)", 50.0),
        ("distance((25 cm, 34 cm), panel.upper)", math.hypot(50, 40)),
    ],
    "heading": [
        ("heading(panel.a, panel.b)", 0.0),
        ("heading(panel.a, panel.d)", math.pi / 2),
        ("heading(panel.b, panel.a)", math.pi),
        ("heading(panel.d, panel.a)", -math.pi / 2),
    ],
    "width": [("width(panel, level((0 cm, 5 cm)))", 200.0), ("width(panel, plumb((5 cm, 0 cm)))", 300.0)],
    "area": [("area(panel)", 60_000.0)],
}
POINTS = {
    "mid": [("mid(a, c)", 10 + 15j)],
    "along": [
        ("along(lower, 5 cm)", 5 + 0j),
        ("along(lower, 25 %)", 5 + 0j),
        ("along(ending, 10 mm)", 20 + 1j),
        ("along(lower, 1)", 20 + 0j),
        ("along(lower, 0 cm)", 0j),
    ],
    "line": [("meet(line(a, c), line(b, d))", 10 + 15j)],
    "level": [("meet(level((0 cm, 5 cm)), ending)", 20 + 5j)],
    "plumb": [("meet(plumb((5 cm, 0 cm)), upper)", 5 + 30j)],
    "circle": [("meet(circle(a, 5 cm), line(a, (3 cm, 4 cm)), (9 cm, 9 cm))", 3 + 4j)],
    "meet": [
        ("meet(level((0 cm, 7 cm)), plumb((4 cm, 0 cm)))", 4 + 7j),
        ("meet(lower, ending)", 20 + 0j),
        ("meet(circle(a, 5 cm), level((0 cm, 3 cm)), c)", 4 + 3j),
        ("meet(circle(a, 5 cm), level((0 cm, 3 cm)), (-9 cm, 0 cm))", -4 + 3j),
    ],
    "touch": [
        # From 10 cm right of the centre of a circle of 6 cm: at distance 36/10 from it, half-chord 36*8/60.
        ("touch((10 cm, 0 cm), circle(a, 6 cm), (0 cm, 9 cm))", 3.6 + 4.8j),
        ("touch((10 cm, 0 cm), circle(a, 6 cm), (0 cm, -9 cm))", 3.6 - 4.8j),
    ],
    "foot": [
        ("foot((3 cm, 4 cm), lower)", 3 + 0j),
        ("foot((4 cm, 0 cm), line(a, (1 cm, 1 cm)))", 2 + 2j),
        ("foot((-3 cm, 5 cm), lower)", 0j),
    ],
    "mirror": [
        ("mirror((3 cm, 4 cm), level((0 cm, 1 cm)))", 3 - 2j),
        ("mirror((3 cm, 0 cm), line(a, (1 cm, 1 cm)))", 3j),
        ("mirror((3 cm, 4 cm), opening)", -3 + 4j),
    ],
    "turn": [
        ("turn((3 cm, 0 cm), a, 90 deg)", 3j),
        ("turn((3 cm, 1 cm), (1 cm, 1 cm), 180 deg)", -1 + 1j),
        ("turn((3 cm, 0 cm), a, -90 deg)", -3j),
    ],
    "shift": [("shift((3 cm, 1 cm), 2 cm, -4 cm)", 5 - 3j), ("shift((3 cm, 1 cm), a, c)", 23 + 31j)],
}
CURVES = {
    "circle": [("circle(a, 5 cm)", 100 * math.pi), ("circle(a, b, c)", math.pi * math.hypot(200, 300))],
    "mirror": [("mirror(lower, plumb(a))", 200.0)],
    "turn": [("turn(ending, a, 30 deg)", 300.0)],
    "shift": [("shift(lower, 2 cm, 1 cm)", 200.0)],
    "reverse": [("reverse(lower)", 200.0)],
    "part": [("part(circle(a, 5 cm), (5 cm, 0 cm), (0 cm, 5 cm))", 25 * math.pi)],
    "beside": [
        ("beside(circle(a, 5 cm), 1 cm)", 80 * math.pi),
        ("beside(circle(a, 5 cm), -1 cm)", 120 * math.pi),
        ("beside(lower, 3 cm)", 200.0),
    ],
}


@pytest.mark.parametrize(("expression", "expected"), [case for cases in NUMBERS.values() for case in cases])
def test_functions_that_give_numbers(expression: str, expected: float) -> None:
    assert value(expression) == pytest.approx(expected, **NEAR)


def test_rounding_to_eighths_of_an_inch() -> None:
    """27 mm is 8.504 eighths: nine of them. 26.9 mm is 8.472: eight."""
    assert value("round(27 mm, 1/8 in)") == pytest.approx(9 * 3.175)
    assert value("round(26.9 mm, 1/8 in)") == pytest.approx(8 * 3.175)


@pytest.mark.parametrize(("expression", "expected"), [case for cases in POINTS.values() for case in cases])
def test_functions_that_give_points(expression: str, expected: complex) -> None:
    assert point(expression) == near(expected)


@pytest.mark.parametrize(("expression", "expected"), [case for cases in CURVES.values() for case in cases])
def test_functions_that_give_curves(expression: str, expected: float) -> None:
    assert curve_lengths(expression) == pytest.approx(expected, rel=1e-6)


def test_where_curves_of_functions_lie() -> None:
    inside = """
q = circle(a, 5 cm)
quarter = part(q, (5 cm, 0 cm), (0 cm, 5 cm))
back_again = part(q, (0 cm, 5 cm), (5 cm, 0 cm))
left_of = beside(lower, 3 cm)
turned = turn(lower, a, 90 deg)
other_way = reverse(lower)
moved = shift(lower, 1 cm, 2 cm)
over = mirror(lower, plumb(a))
mark m1 at quarter.start
mark m2 at quarter.end
mark m3 at back_again.start
mark m4 at along(quarter, 50 %)
mark m5 at left_of.start
mark m6 at turned.end
mark m7 at other_way.start
mark m8 at moved.end
mark m9 at over.end
"""
    half = 5 * math.cos(math.pi / 4)
    assert list(marks(inside).values()) == [
        near(one) for one in (5 + 0j, 5j, 5j, half + half * 1j, 3j, 20j, 20 + 0j, 21 + 2j, -20 + 0j)
    ]


def test_every_function_is_held_against_a_number() -> None:
    assert set(FUNCTIONS) == {*NUMBERS, *POINTS, *CURVES, "girth"}  # girths: tests/assembly


IMPOSSIBLE = {
    "asin(2) * 1": "no-value",
    "acos(-1.5) * 1": "no-value",
    "sqrt(1 cm * 1 cm - 2 cm * 1 cm)": "no-value",
    "1 cm / 0": "no-value",
    "1 cm / (1 cm - 10 mm)": "no-value",
    "round(1 cm, 0 cm)": "no-value",
    "tan(89 deg) * 0": None,
    "distance(panel.a, foot(panel.c, line(panel.a, (0 cm, 0 cm))))": "impossible-construction",
    "meet(level(panel.a), level(panel.c)).x": "impossible-construction",
    "meet(panel.lower, panel.upper).x": "impossible-construction",
    "meet(circle(panel.a, 5 cm), level(panel.a)).x": "impossible-construction",
    "along(panel.lower, 21 cm).x": "impossible-construction",
    "along(panel.lower, 101 %).x": "impossible-construction",
    "along(panel.lower, -1 mm).x": "impossible-construction",
    "heading(panel.a, panel.a)": "impossible-construction",
    "(panel.a toward (0 cm, 0 cm) by 1 cm).x": "impossible-construction",
    "mirror(panel.a, circle(panel.b, 2 cm)).x": "impossible-construction",
    "circle(panel.a, 0 cm).length": "impossible-construction",
    "touch(panel.a, circle(panel.a, 5 cm), panel.b).x": "impossible-construction",
    "part(panel.lower, panel.a, panel.c).length": "impossible-construction",
    "part(panel.lower, panel.a, panel.a).length": "impossible-construction",
    "beside(circle(panel.a, 2 cm), 3 cm).length": "impossible-construction",
}


@pytest.mark.parametrize("expression", IMPOSSIBLE)
def test_what_has_no_value_is_told_at_its_place(expression: str) -> None:
    slug = IMPOSSIBLE[expression]
    # members stand after names only, so a call gets a name first
    below = f"finished f = {expression}"
    for member in (".x", ".length"):
        if expression.endswith(member):
            below = f"it = {expression.removesuffix(member)}\nfinished f = it{member}"
    faults_found = found(panel(below=below))
    assert [one.slug for one in faults_found] == ([] if slug is None else [slug])
    for one in faults_found:
        assert one.sizes == ("88",)
        assert one.span.text in below


def test_a_fault_in_a_value_is_told_once_and_stops_what_needs_it() -> None:
    inside = "p = meet(level(a), level(c))\nq = p up 1 cm\nmark m at q\nguide g : q -> a"
    assert [one.slug for one in found(panel(inside, 'x = panel.q.x\ncheck "c" x > 1 cm'))] == [
        "impossible-construction"
    ]


# ---- points and moves


@pytest.mark.parametrize(
    ("expression", "expected"),
    [
        ("(3 cm, -2 cm)", 3 - 2j),
        ("b up 3 cm", 20 + 3j),
        ("b down 3 cm", 20 - 3j),
        ("b left 3 cm", 17 + 0j),
        ("b right 3 cm", 23 + 0j),
        ("b up 3 cm left 2 cm down 1 cm", 18 + 2j),
        ("b up -3 cm", 20 - 3j),
        ("a toward c by 10 %", 2 + 3j),
        ("a toward (3 cm, 4 cm) by 10 cm", 6 + 8j),
        ("a toward (3 cm, 4 cm) by -5 cm", -3 - 4j),
        ("a toward b by 1/4", 5 + 0j),
        ("a heading 0 deg by 5 cm", 5 + 0j),
        ("a heading 90 deg by 5 cm", 5j),
        ("a heading -90 deg by 5 cm", -5j),
        ("a heading 60 deg by 10 cm", 5 + 10 * math.sin(math.pi / 3) * 1j),
        ("a heading heading(a, c) by distance(a, c)", 20 + 30j),
        ("if 1 cm < 2 cm then a else c", 0j),
        ("b square to lower by 3 cm", 20 + 3j),
        ("b square to lower by -3 cm", 20 - 3j),
        ("(4 cm, 9 cm) along ending by 2 cm", 4 + 11j),
        ("(12 cm, 9 cm) along upper by 2 cm square to opening by 1 cm", 11 + 9j),
        ("lower.end", 20 + 0j),
        ("(c.x, c.y / 2)", 20 + 15j),
    ],
)
def test_points(expression: str, expected: complex) -> None:
    assert point(expression) == near(expected)


@pytest.mark.parametrize("line", ["mark it at panel.lower.start", "guide it : panel.lower.start -> panel.upper.start"])
def test_a_piece_may_name_itself_inside(line: str) -> None:
    piece = assembled(panel(line)).draft.piece("panel")
    assert [one.name for one in (*piece.marks, *piece.lines)] == ["it"]


# ---- bodies


def bust(size: str) -> Assembly:
    below = """measure bust_girth
piece front "Front" { cut 1; grain straight
  outline { lower : (0 cm, 0 cm) -> (bust_girth / 4 + 2 cm, 0 cm)
    ending : (bust_girth / 4 + 2 cm, 0 cm) -> (0 cm, 9 cm); opening : (0 cm, 9 cm) -> (0 cm, 0 cm) } }
piece back "Back" { cut 1; grain straight
  outline { lower : (0 cm, 0 cm) -> (bust_girth / 4, 0 cm)
    ending : (bust_girth / 4, 0 cm) -> (0 cm, 9 cm); opening : (0 cm, 9 cm) -> (0 cm, 0 cm) } }
finish front.lower, front.ending, front.opening, back.lower, back.ending, back.opening as pinked
finished front = front.lower.length
finished back = back.lower.length"""
    return assembled(panel(below=below), size=size)


@pytest.mark.parametrize(("size", "front", "back"), [("88", 240.0, 220.0), ("76", 210.0, 190.0), ("110", 295.0, 275.0)])
def test_front_a_quarter_of_the_bust_and_two_centimetres(size: str, front: float, back: float) -> None:
    """Front a quarter of the bust plus 2 cm, back a quarter: common practice, no source."""
    assert [one.value for one in bust(size).draft.finished] == [pytest.approx(front), pytest.approx(back)]


def test_each_size_is_drafted_from_its_own_measures() -> None:
    """No scaling: only what depends on the bust changes with it."""
    small, large = bust("76"), bust("128")
    for made in (small, large):
        ending = made.draft.piece("back").edge("opening")
        assert ending is not None and ending.path.length == pytest.approx(90.0)


def test_a_move_by_a_curve_follows_it_where_it_lies_nearest() -> None:
    inside = "round = circle((10 cm, 10 cm), 4 cm)"
    assert point("(16 cm, 10 cm) along round by 2 cm", inside) == near(16 + 12j)
    assert point("(10 cm, 3 cm) square to round by 5 cm", inside) == near(10 + 8j)
