"""Where it is plain what a writer meant, the finding says what to write instead of listing words."""

import pytest

from garmentc.diagnostics.finding import Finding
from tests.language.small import PINKED, found, panel


def only(text: str) -> Finding:
    (finding,) = found(text, size=None)
    return finding


@pytest.mark.parametrize(
    ("written", "at", "meant"),
    [
        ("6 centimeters", "centimeters", "write `6 cm`"),
        ("6.5 centimetres", "centimetres", "write `6.5 cm`"),
        ("6 cms", "cms", "write `6 cm`"),
        ("6cms", "cms", "write `6 cm`"),
        ("60 millimetres", "millimetres", "write `60 mm`"),
        ("1 metre", "metre", "write `1 m`"),
        ("1/2 inches", "inches", "write `1/2 in`"),
        ("3 Inches", "Inches", "write `3 in`"),
        ("3″", "″", "write `3 in`"),
        ("30 degrees", "degrees", "write `30 deg`"),
        ("30°", "°", "write `30 deg`"),
        ("50 percent", "percent", "write `50 %`"),
        ("2 feet", "feet", "lengths are written in mm, cm, m or in"),
        ("b up 6 centimeters", "centimeters", "write `6 cm`"),
    ],
)
def test_units_in_full_are_told(written: str, at: str, meant: str) -> None:
    one = only(panel(f"v = {written}"))
    assert (one.slug, one.span.text, one.label, one.help) == ("unexpected-word", at, "a unit is due here", meant)


def test_inches_in_full_behind_a_mixed_number_are_told() -> None:
    one = only(panel("v = 1 1/2 inches"))
    assert (one.slug, one.help) == ("unexpected-word", "write `1 1/2 in`")


def test_inches_with_their_sign_are_told() -> None:
    one = only(panel(below='v = 6"'))
    assert (one.slug, one.help) == ("unclosed-text", "inches are written with `in`")


@pytest.mark.parametrize("width", ["hem = 3 cm", "allowance = 1 in + 2 mm"])
def test_a_width_is_changed_with_set(width: str) -> None:
    seam = f"seam s joins panel.lower with panel.upper as plain {{ {width}; ease 0 mm }}\n"
    for one in (
        only(panel(finish=PINKED.replace("pinked", f"double_turned_hem {{ {width} }}"))),
        only(panel(below=seam, finish="finish panel.ending, panel.opening as pinked\n")),
    ):
        assert (one.slug, one.span.text) == ("unexpected-word", width.split()[0])
        assert one.help == f"write `set {width}`"


def test_a_width_of_a_type_needs_no_set() -> None:
    below = 'finish type f "F" { hem = 3 cm; allowance hem; do "a" }\n'
    assert found(panel(below=below, finish=PINKED.replace("pinked", "f")), size=None) == []


@pytest.mark.parametrize(("place", "at"), [("5 cm", "5 cm"), ("along(lower, 5 cm)", "("), ("(1 cm, 0 cm)", "(")])
@pytest.mark.parametrize("how", ["insert tie", "insert tie folded"])
def test_insert_needs_a_named_point(how: str, place: str, at: str) -> None:
    below = 'strip tie "Tie" { cut 1; length 30 cm; width 3 cm; make flat }\n'
    below += f"seam s joins panel.lower with panel.upper as plain {{ {how} at {place} }}\n"
    one = only(panel(below=below, finish="finish panel.ending, panel.opening as pinked\n"))
    assert (one.slug, one.span.text, one.label) == ("unexpected-word", at, "a named point is due here")
    assert f"`{how} at place`" in one.help


def test_the_words_of_a_fold_are_told() -> None:
    one = only(panel().replace("cut 1", "cut 1 fold lower"))
    assert (one.span.text, one.help) == ("fold", "write `cut 1 on fold lower`")
    one = only(panel().replace("cut 1", "cut 1 on fold panel.lower"))
    assert (one.span.text, one.help) == (".", "name the edge of the fold without its piece")


def test_a_line_that_begins_with_a_sign_is_told() -> None:
    one = only(panel(below="v = 3 cm\n  + 4 cm"))
    assert (one.span.text, one.help) == ("+", "to go on with the line above, end that with `+`")


def test_a_statement_that_breaks_off_is_told_once() -> None:
    one = only(panel(below="seam s joins panel.lower with\n  panel.upper as plain"))
    assert one.headline == "the end of the line does not fit here"
    assert one.help.startswith("write it on one line")


def test_a_brace_is_put_in_before_a_comment() -> None:
    """The open outline is told, and the rest of its line, a comment, does not swallow what closes it."""
    text = panel().replace("opening : d -> a }", "\n opening : d -> a   # the last\n")
    assert [(one.slug, one.span.text) for one in found(text, size=None)] == [("unclosed-block", "{")]
