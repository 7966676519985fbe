"""Kinds and units are checked without any body: what may be computed with what, and what each thing takes."""

import pytest

from garmentc.design import kinds as k
from garmentc.design.functions import FUNCTIONS
from tests.language.small import Fault, faults, found, panel

VALUES = {
    "length": "3 cm",
    "area": "3 cm * 3 cm",
    "angle": "30 deg",
    "ratio": "1.5",
    "count": "2",
    "point": "panel.a",
    "line": "level(panel.a)",
    "curve": "drawn",
    "edge": "panel.lower",
    "truth": "(1 cm < 2 cm)",
    "piece": "panel",
    "strip": "tie",
    "choice": "q",
}
GIVEN = """param q : choice one, two = one
strip tie "Tie" { cut 1; length 20 cm; width 3 cm; make flat }
drawn = panel.a -> panel.c curve leaving up
"""


def slugs(expression: str, below: str = "") -> list[str]:
    """What is wrong with a value, without a body."""
    text = panel(below=f"{GIVEN}x = {expression}\n{below}")
    return [one.slug for one in found(text, size=None) if one.slug != "unused-name"]


def test_each_value_is_right_by_itself() -> None:
    for kind, expression in VALUES.items():
        if kind != "piece":
            assert slugs(expression) == [], expression


def test_a_piece_has_one_name() -> None:
    """A value that is a piece is refused, or is that piece; it may not end the run."""
    slugs("panel")


SUMS = {("length", "length"), ("area", "area"), ("angle", "angle")}
SUMS |= {(a, b) for a in ("ratio", "count") for b in ("ratio", "count")}
PRODUCTS = {
    *((a, b) for a in ("length", "area", "ratio", "count") for b in ("ratio", "count")),
    *((a, b) for b in ("length", "area") for a in ("ratio", "count")),
    *(("angle", b) for b in ("ratio", "count")),
    *((a, "angle") for a in ("ratio", "count")),
    ("length", "length"),
}
QUOTIENTS = {
    *((a, b) for a in ("length", "area", "angle", "ratio", "count") for b in ("ratio", "count")),
    ("length", "length"),
    ("area", "length"),
    ("area", "area"),
    ("angle", "angle"),
}
QUANTITIES = [kind.name for kind in k.QUANTITIES]


@pytest.mark.parametrize("left", VALUES)
@pytest.mark.parametrize("right", VALUES)
def test_what_can_be_computed_with_what(left: str, right: str) -> None:
    a, b = VALUES[left], VALUES[right]
    for sign, allowed in (("+", SUMS), ("-", SUMS), ("*", PRODUCTS), ("/", QUOTIENTS)):
        expected = [] if (left, right) in allowed else ["unit-mismatch"]
        assert slugs(f"({a}) {sign} ({b})") == expected, f"{left} {sign} {right}"


@pytest.mark.parametrize("left", QUANTITIES)
@pytest.mark.parametrize("right", QUANTITIES)
def test_what_can_be_compared(left: str, right: str) -> None:
    for sign in ("==", "!=", "<", "<=", ">", ">="):
        expected = [] if (left, right) in SUMS else ["unit-mismatch"]
        assert slugs(f"({VALUES[left]}) {sign} ({VALUES[right]})") == expected


@pytest.mark.parametrize("kind", [kind for kind in VALUES if kind not in QUANTITIES])
def test_only_quantities_are_compared_or_made_negative(kind: str) -> None:
    assert slugs(f"({VALUES[kind]}) < 1 cm") == ["wrong-kind"]
    assert slugs(f"-({VALUES[kind]})") == ["wrong-kind"]


@pytest.mark.parametrize("kind", VALUES)
def test_places_that_take_one_kind(kind: str) -> None:
    """Every place, filled with a value of every kind: a fault unless the kind is one that the place takes."""
    value = VALUES[kind]
    places = {
        f"({value}, 1 cm)": {"length"},
        f"(1 cm, {value})": {"length"},
        f"({value}) up 1 cm": {"point"},
        f"panel.a up ({value})": {"length"},
        f"panel.a toward ({value}) by 1 cm": {"point"},
        f"panel.a toward panel.b by ({value})": {"length", "ratio", "count"},
        f"panel.a heading ({value}) by 1 cm": {"angle"},
        f"panel.a heading 1 deg by ({value})": {"length"},
        f"if {value} then 1 cm else 2 cm": {"truth"},
        f"not {value}": {"truth"},
        f"{value} or 1 cm < 2 cm": {"truth"},
        f"({value}) -> panel.b": {"point"},
        f"panel.a -> panel.b curve through ({value})": {"point"},
        f"panel.a -> panel.b curve leaving heading ({value})": {"angle"},
        f"panel.a -> panel.b curve leaving toward ({value})": {"point"},
        f"panel.a -> panel.b arc through ({value})": {"point"},
        f"({value}) is one": {"choice"},
    }
    for expression, takes in places.items():
        expected = [] if kind in takes else ["wrong-kind"]
        assert slugs(expression) == expected, expression


@pytest.mark.parametrize("kind", VALUES)
def test_statements_that_take_one_kind(kind: str) -> None:
    value = VALUES[kind]
    places = {
        f'check "c" {value}': {"truth"},
        f"finished f = {value}": set(QUANTITIES),
        f'strip s "S" {{ cut 1; length {value}; width 2 cm; make flat }}': {"length"},
        f'strip s "S" {{ cut 1; length 9 cm; width {value}; make flat }}': {"length"},
        f'strip s "S" {{ cut 1; length 9 cm; width 2 cm; make tube stitched {value} from edge }}': {"length"},
        f"ease hip_girth = {value}": {"length"},
        f"ease hip_girth = 1 cm from {value} to 3 cm": {"length"},
        f'check "c" 1 cm == 1 cm within {value}': {"length"},
        f'stitch 999 "S" thread {value}': {"ratio", "count"},
    }
    for statement, takes in places.items():
        expected = [] if kind in takes else ["wrong-kind"]
        if statement.startswith("stitch"):
            statement += '\nfinish type t "T" { pass 1 mm stitch 999 "p" }'
            rest = "finish panel.ending, panel.upper, panel.opening as pinked\n"
            text = panel(below=GIVEN + statement, finish=f"finish panel.lower as t\n{rest}")
            got = [one.slug for one in found(text, size=None) if one.slug != "unused-name"]
        else:
            got = slugs("1 cm", statement)
        assert got == expected, statement


@pytest.mark.parametrize("kind", VALUES)
def test_lines_of_a_piece_that_take_one_kind(kind: str) -> None:
    value = VALUES[kind]
    places = {
        f"notch on lower at {value}": {"length", "ratio", "count"},
        f"mark m at {value}": {"point"},
        f"guide g : {value}": {"curve", "edge"},
        f"keep above {value} as cut_edge": {"line", "curve", "edge"},
    }
    for line, takes in places.items():
        text = panel(inside=line, below=GIVEN)
        got = [one.slug for one in found(text, size=None) if one.slug != "unused-name"]
        ring = kind == "edge" and line.startswith("keep")
        assert got == ([] if kind in takes else ["wrong-kind"]) or ring, line


@pytest.mark.parametrize("name", sorted(FUNCTIONS.keys() - {"girth"}))  # of what is sewn: tests/assembly
def test_functions_take_what_they_say(name: str) -> None:
    """Every function, called with every kind in its first place, and once too few and too many."""
    signatures = FUNCTIONS[name]
    by_kind = {kind.name: VALUES[kind.name] for kind in (*k.QUANTITIES, k.POINT, k.LINE, k.CURVE, k.EDGE, k.PIECE)}
    for signature in signatures:
        rest = [by_kind[wanted[0].name] for wanted in signature.takes[1:]]
        for kind, value in by_kind.items():
            call = f"{name}({', '.join([value, *([value] if signature.alike else rest)])})"
            if signature.alike and len(signature.takes) == 1:
                continue
            kinds = tuple(
                k.Kind(one)
                for one in ([kind, kind] if signature.alike else [kind, *(w[0].name for w in signature.takes[1:])])
            )
            expected = [] if any(one.accepts(kinds) for one in signatures) else ["wrong-kind"]
            assert slugs(call) == expected, call
    assert slugs(f"{name}()") == ["wrong-kind"]
    assert slugs(f"{name}({', '.join(['q'] * 6)})") == ["wrong-kind"]


def test_a_computed_function_has_the_kind_it_says() -> None:
    for expression, kind in {
        "sqrt(4 cm * 9 cm)": "length",
        "sqrt(2)": "ratio",
        "area(panel)": "area",
        "atan(1)": "angle",
        "max(1 cm, 2 mm)": "length",
        "round(31 deg, 2 deg)": "angle",
        "width(panel, level(panel.a))": "length",
        "panel.lower.length": "length",
        "panel.a.x": "length",
        "tie.cut_width": "length",
    }.items():
        (fault,) = found(panel(below=f"{GIVEN}x = ({expression}) < panel.a"), size=None)[-1:]
        assert slugs(f"({expression}) + ({VALUES[kind]})") == [], expression
        assert fault.slug == "wrong-kind"


def test_numbers_and_their_places_are_told() -> None:
    text = panel(below="x = 1 cm + 30 deg")
    (fault,) = found(text, size=None)
    assert fault.headline == "can't add an angle to a length"
    assert fault.span.text == "1 cm + 30 deg"
    assert [(label.span.text, label.text) for label in fault.others] == [
        ("1 cm", "a length"),
        ("30 deg", "an angle"),
    ]


@pytest.mark.parametrize("text", ["1 cm + 2", "1 + 2 cm", "max(1 cm, 2 cm) - 2"])
def test_a_missing_unit_is_advised(text: str) -> None:
    (fault,) = found(panel(below=f"x = {text}"), size=None)
    assert fault.help == "write the unit: mm, cm, m or in"


def test_one_fault_is_told_once_however_often_it_is_used() -> None:
    below = "x = 1 cm + 1 deg\ny = x + 1 cm\nz = y * x / (x + y)\n" + 'check "c" z < y\nfinished f = z'
    assert faults(panel(below=below), size=None) == [Fault("unit-mismatch", 14, "1 cm + 1 deg")]


@pytest.mark.parametrize(
    ("value", "kind"),
    [("5 cm", "2 cm"), ("5 deg", "2 deg"), ("50 %", "2"), ("0.5", "2"), ("-5 cm", "2 mm"), ("5", "2")],
)
def test_a_param_has_the_kind_of_its_value(value: str, kind: str) -> None:
    assert [one.slug for one in found(panel(below=f"param p = {value}\nx = p + {kind}"), size=None)] == []
    wrong = "2 deg" if "cm" in value else "2 cm"
    assert [one.slug for one in found(panel(below=f"param p = {value}\nx = p + {wrong}"), size=None)] == [
        "unit-mismatch"
    ]


def test_a_param_keeps_its_kind_when_set_from_outside() -> None:
    text = panel(below="param p = 5 cm\nx = p + 1 cm")
    assert faults(text, settings=["p=7cm"], size=None) == []
    (fault,) = found(text, settings=["p=7deg"], size=None)
    assert (fault.slug, fault.span.source.name, fault.span.text) == ("wrong-kind", "--set", "7deg")


@pytest.mark.parametrize("kind", ["angle", "ratio", "count"])
def test_a_measure_that_no_body_can_give_is_refused(kind: str) -> None:
    text = panel(below=f'measure bust_girth : {kind} "as it comes"\nx = bust_girth * 2')
    assert [one.slug for one in found(text)] != []


def test_bulge_has_no_meaning_outside_an_outline() -> None:
    for shape in ("arc bulge 1 cm", "arc hollow 5 %", "arc bulge radius 30 cm"):
        assert slugs(f"panel.a -> panel.b {shape}") == ["bow-without-outline"]


def test_within_goes_with_equals() -> None:
    assert slugs("1 cm", 'check "c" 1 cm < 2 cm within 1 mm') == ["wrong-kind"]
    assert slugs("1 cm", 'check "c" 1 cm == 2 cm within 1 mm') == []
