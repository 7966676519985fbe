"""Functions of a spec's own, and tables."""

import pytest

from garmentc.diagnostics.finding import Finding
from tests.language.small import assembled, found, panel

MEASURE = 'measure bust_girth\ncheck "a body" bust_girth > 1 cm\n'


def value(below: str) -> float:
    """The finished measurement `asked` of a garment for a bust girth of 88 cm: mm, or a plain number."""
    (one,) = [one for one in assembled(panel("", MEASURE + below)).draft.finished if one.name == "asked"]
    return one.value


def only(below: str) -> Finding:
    (one,) = found(panel("", MEASURE + below))
    return one


# ---- functions


def test_a_function_computes_from_what_is_handed_over() -> None:
    quarter = "function quarter(girth : length, ease : length) = (girth + ease) / 4\n"
    assert value(quarter + "finished asked = quarter(bust_girth, 4 cm)") == pytest.approx(230.0)
    twice = quarter + "function twice(girth : length) = quarter(girth, 0 cm) + quarter(girth, 8 cm)\n"
    assert value(twice + "finished asked = twice(bust_girth)") == pytest.approx(460.0)


@pytest.mark.parametrize(
    ("function", "call", "expected"),
    [
        ("f(a : angle) = cos(a) * 1 cm", "f(60 deg)", 5.0),
        ("f(a : length) = 2 * pi * a", "f(5 cm / pi)", 100.0),
        ("f(p : point, q : point) = p.x + q.y", "f((2 cm, 0 cm), (4 cm, 1 cm))", 30.0),
        ("f(n : count) = n * 1 cm", "f(3)", 30.0),
        ("f(a : area) = sqrt(a)", "f(4 cm * 9 cm)", 60.0),
        ("f(b : truth) = if b then 1 cm else 2 cm", "f(2 cm > 3 cm)", 20.0),
        ("f(c : curve) = c.end.x", "f(panel.lower)", 200.0),
        ("f(l : line) = distance((0 cm, 5 cm), l)", "f(panel.ending)", 200.0),
        ("f(l : line, p : point) = distance(p, mirror(p, l))", "f(plumb((4 cm, 0 cm)), (1 cm, 0 cm))", 60.0),
        ("f(c : curve, share : ratio) = distance((0 cm, 0 cm), along(c, share))", "f(panel.lower, 25 %)", 50.0),
        ("f() = 3 cm", "f()", 30.0),
    ],
)
def test_all_kinds_can_be_handed_over(function: str, call: str, expected: float) -> None:
    assert value(f"function {function}\nfinished asked = {call}") == pytest.approx(expected)


def test_a_function_may_give_a_point_or_a_curve() -> None:
    text = "function f(p : point, q : point) = p -> q curve leaving up\nfunction end(c : curve) = along(c, 100 %)\n"
    text += "drawn = f((0 cm, 0 cm), (0 cm, 9 cm))\nlast = end(drawn)\nfinished asked = drawn.length + last.y"
    assert value(text) == pytest.approx(180.0)


def test_a_parameter_may_be_called_like_something_of_the_garment() -> None:
    assert value("function f(bust_girth : length) = 2 * bust_girth\nfinished asked = f(bust_girth / 8)") == 220.0


@pytest.mark.parametrize("body", ["a + bust_girth", "a + ease.bust_girth", "a + panel.lower.length", "a + other"])
def test_a_function_reads_nothing_else(body: str) -> None:
    outside = body.removeprefix("a + ")
    one = only(
        f"ease bust_girth = 2 cm\nother = bust_girth + ease.bust_girth\nfunction f(a : length) = {body}\nx = f(other)"
    )
    assert (one.slug, one.span.text) == ("function-reads-outside", outside)
    assert outside in one.help


def test_a_ring_of_functions_shows_the_ring() -> None:
    one = only("function f(a : length) = g(a)\nfunction g(a : length) = f(a) + 1 cm\nx = g(bust_girth)")
    assert (one.slug, one.notes) == ("ring", ("`g` needs `f` needs `g`",))
    assert only("function f(a : length) = f(a / 2)\nx = f(bust_girth)").slug == "ring"


def test_kinds_are_checked_at_the_definition_without_any_body() -> None:
    (one,) = found(panel("", "function f(a : length) = a + 2 deg"), size=None)
    assert (one.slug, one.span.text) == ("unit-mismatch", "a + 2 deg")


@pytest.mark.parametrize(
    ("call", "slug", "at", "headline"),
    [
        ("f(3, 2)", "wrong-kind", "3", "`a` of `f` has to be a length"),
        ("f(3 cm)", "wrong-kind", "f(3 cm)", "`f` takes 2 values, and here is 1"),
        ("f(3 cm, 2 cm)", "wrong-kind", "2 cm", "`n` of `f` has to be a count"),
        ("fg(3 cm, 2)", "unknown-name", "fg", "there is no function `fg`"),
    ],
)
def test_kinds_are_checked_at_each_call_without_any_body(call: str, slug: str, at: str, headline: str) -> None:
    found_here = found(panel("", f"function f(a : length, n : count) = a * n\nx = {call}\ny = 2 * x"), size=None)
    told = [one for one in found_here if one.slug != "unused-name"]
    assert [(one.slug, one.span.text, one.headline) for one in told] == [(slug, at, headline)]


def test_a_fault_inside_points_at_the_body_and_shows_every_call() -> None:
    text = "function root(a : length) = sqrt(a / 1 cm)\nfunction less(a : length) = root(a - 2 m)\nx = less(bust_girth)"
    one = only(text)
    assert (one.slug, one.span.text) == ("no-value", "sqrt(a / 1 cm)")
    assert [(label.span.text, label.text) for label in one.others] == [
        ("root(a - 2 m)", "in `root`, which is called here"),
        ("less(bust_girth)", "in `less`, which is called here"),
    ]


def test_two_calls_with_one_fault_are_both_told() -> None:
    several = found(panel("", "function root(a : ratio) = sqrt(a)\nx = root(-1)\ny = root(-2)\nz = root(4)"))
    assert [one.others[0].span.text for one in several if one.slug == "no-value"] == ["root(-1)", "root(-2)"]


def test_a_curve_handed_over_as_a_line_is_told_where_it_is_handed_over() -> None:
    one = only("function f(l : line) = distance((0 cm, 0 cm), l)\nx = f(circle((0 cm, 0 cm), 3 cm))")
    assert (one.slug, one.span.text) == ("impossible-construction", "circle((0 cm, 0 cm), 3 cm)")


def test_names_of_functions_and_parameters() -> None:
    assert only("function min(a : length) = a").slug == "reserved-name"
    assert only("function f(a : length, a : length) = a\nx = f(1 cm, 2 cm)").slug == "duplicate-name"
    assert only("f = bust_girth\nfunction f(a : length) = a").slug == "duplicate-name"


def test_what_nothing_uses_is_told() -> None:
    several = found(panel("", "function f(a : length, b : length) = a"))
    told = [(one.span.text, one.headline) for one in several if one.slug == "unused-name"]
    assert told == [("f", "nothing uses the function `f`"), ("b : length", "nothing uses the parameter `b`")]


# ---- tables

TABLE = "table loose by bust_girth {how} {{ 80 cm : 4 cm; 84 cm : 5 cm; 92 cm : 9 cm }}\nfinished asked = loose\n"


@pytest.mark.parametrize(("how", "expected"), [("", 70.0), ("stepped", 50.0), ("held", 70.0), ("stepped held", 50.0)])
def test_a_table_between_its_rows(how: str, expected: float) -> None:
    assert value(TABLE.format(how=how)) == pytest.approx(expected)


@pytest.mark.parametrize(("by", "expected"), [("80 cm", 40.0), ("84 cm", 50.0), ("92 cm", 90.0), ("83.99 cm", 49.975)])
def test_a_table_at_its_rows(by: str, expected: float) -> None:
    assert value(TABLE.format(how="").replace("bust_girth", by)) == pytest.approx(expected)


@pytest.mark.parametrize("how", ["", "stepped"])
@pytest.mark.parametrize("by", ["bust_girth - 20 cm", "bust_girth + 20 cm"])
def test_beyond_the_table_is_an_error_with_the_numbers(how: str, by: str) -> None:
    one = only(TABLE.format(how=how).replace("bust_girth", by))
    assert (one.slug, one.span.text) == ("beyond-the-table", by)
    assert one.notes == ("its rows go from 80 cm to 92 cm",)
    assert one.headline.startswith(f"`{by}` is {'68' if '-' in by else '108'} cm")


@pytest.mark.parametrize(("by", "expected"), [("bust_girth - 20 cm", 40.0), ("bust_girth + 20 cm", 90.0)])
@pytest.mark.parametrize("how", ["held", "stepped held"])
def test_held_counts_the_ends_beyond_them(how: str, by: str, expected: float) -> None:
    assert value(TABLE.format(how=how).replace("bust_girth", by)) == expected


@pytest.mark.parametrize(
    ("rows", "slug", "at"),
    [
        ("80 cm : 4 cm; 80 cm : 5 cm", "table-rows", "80 cm"),
        ("90 cm : 4 cm; 80 cm : 5 cm", "table-rows", "80 cm"),
        ("80 cm : 4 cm", "table-rows", None),
        ("", "table-rows", None),
        ("80 cm + 1 cm : 4 cm; 90 cm : 4 cm", "unexpected-word", "+"),
        ("80 : 4 cm; 90 cm : 4 cm", "wrong-kind", "80"),
        ("80 cm : 4 cm; 90 cm : 4 deg", "wrong-kind", "4 deg"),
        ("80 cm : (1 cm, 2 cm); 90 cm : 4 cm", "wrong-kind", "(1 cm, 2 cm)"),
    ],
)
def test_rows_are_checked_without_any_body(rows: str, slug: str, at: str | None) -> None:
    text = panel("", MEASURE + f'table t by bust_girth {{ {rows} }}\nx = t + 1 cm\ncheck "" x > 0 cm')
    (one,) = found(text, size=None)
    assert one.slug == slug
    assert at is None or one.span.text == at


def test_keys_and_values_of_any_kind() -> None:
    assert value("table t by bust_girth stepped { 80 cm : 5; 90 cm : 6 }\nfinished asked = t") == 5.0
    assert value("table t by bust_girth / 88 cm { -1 : 0 cm; 3 : 4 cm }\nfinished asked = t") == pytest.approx(20.0)
    assert value("x = bust_girth\ntable t by x { 0 cm : x / 4; 176 cm : 0 cm }\nfinished asked = t") == 110.0


def test_a_count_between_two_rows_is_no_whole_number() -> None:
    text = panel(
        "", MEASURE + "function f(n : count) = n * 1 cm\ntable t by bust_girth { 80 cm : 5; 90 cm : 6 }\nx = f(t)"
    )
    assert [(one.slug, one.span.text) for one in found(text, size=None) if one.slug != "unused-name"] == [
        ("wrong-kind", "t")
    ]
