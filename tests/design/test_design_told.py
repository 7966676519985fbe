"""What a first-time writer gets wrong is told at its place, with what to write instead."""

import pytest

from garmentc.diagnostics.finding import Finding
from garmentc.pipeline import compile_spec
from tests.language.small import CHART, PINKED, compiled, found, panel
from tests.support import MemoryHost


def only(text: str, **options: list[str]) -> Finding:
    (finding,) = found(text, size=None, **options)
    return finding


def everything(text: str) -> list[tuple[str, str]]:
    return [(one.headline, one.span.text) for one in compiled(text, size=None).findings]


# ---- units


@pytest.mark.parametrize(
    ("number", "limits", "meant"),
    [
        ("55", "35 cm to 90 cm", "write 55 cm"),
        ("55", "1/2 in to 90 cm", "write 55 in"),
        ("5.5", "2 mm to 90 mm", "write 5.5 mm"),
        ("9", "5 deg to 20 deg", "write 9 deg"),
    ],
)
def test_a_param_without_a_unit_is_told_by_its_range(number: str, limits: str, meant: str) -> None:
    below = f'param x = {number} from {limits} "words"\nfinished y = x\n'
    one = only(panel(below=below))
    assert (one.slug, one.span.text) == ("wrong-kind", number)
    assert one.label.endswith("needs a unit")
    assert meant in one.help


def test_a_count_may_have_a_range() -> None:
    assert found(panel(below="param x = 5 from 2 to 9\nfinished z = x"), size=None) == []


# ---- names


def test_a_fold_on_no_edge_lists_the_edges() -> None:
    one = only(panel().replace("cut 1", "cut 1 on fold centre"))
    assert (one.slug, one.span.text) == ("unknown-name", "centre")
    assert one.help == "there are `lower`, `ending`, `upper`, `opening`"
    assert only(panel().replace("cut 1", "cut 1 on fold openning")).help == "did you mean `opening`?"


@pytest.mark.parametrize(
    ("written", "help"),
    [
        ("opening", "write the piece too: `panel.opening`"),
        ("uper", "write the piece too: `panel.upper`"),
        ("pannel", "did you mean `panel`?"),
        ("zzzzz", "there is `panel`"),
    ],
)
def test_an_edge_is_named_with_its_piece(written: str, help: str) -> None:
    one = only(panel(finish=PINKED.replace("panel.opening", written)))
    assert (one.slug, one.span.text, one.help) == ("unknown-name", written, help)


def test_all_pieces_with_such_an_edge_are_named() -> None:
    below = 'piece other "Other" from panel { }\nfinish other.lower, other.ending, upper, other.opening as pinked\n'
    assert only(panel(below=below)).help == "write the piece too: `panel.upper` or `other.upper`"


def test_what_can_be_set_is_listed() -> None:
    base = panel(below="param height = 3 cm\nease hip_girth = 2 cm\nfinished x = height + ease.hip_girth")

    def told(change: str) -> list[str]:
        variant = f'garment ruff "Ruff" varies "knot.garment"\nedition 1\n{change}\n'
        host = MemoryHost({"knot.garment": base, "ruff.garment": variant})
        return [one.help for one in compile_spec(host, "ruff.garment", sizes=CHART, only=("88",)).findings]

    assert told("set depth = 3 cm") == ["there are `height`, `ease.hip_girth`"]
    assert told("set heigth = 3 cm") == ["did you mean `height`?"]
    assert told("set ease.hip = 3 cm") == ["there is `hip_girth`"]
    assert only(base, settings=["depth=3cm"]).help == "there are `height`, `ease.hip_girth`"


def test_what_a_type_has_to_set_is_listed() -> None:
    one = only(panel(finish=PINKED.replace("pinked", "turned_hem { set depth = 3 cm }")))
    assert one.help == "there are `hem`, `stitch_in`, `reach`, `allowance`"


def test_what_a_step_can_follow_is_listed() -> None:
    below = "seam middle joins panel.lower with panel.upper as plain\n"
    finish = "finish panel.ending, panel.opening as pinked\n"
    one = only(panel(below=below + 'step try "Try it on." after hem', finish=finish))
    assert (one.slug, one.span.text) == ("unknown-name", "hem")
    assert one.help == "there are `middle`, `panel.ending`, `panel.opening`, `panel.lower`, `panel.upper`"
    assert (
        only(panel(below=below + 'step try "Try it on." after midle', finish=finish)).help == "did you mean `middle`?"
    )


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("bust", "`bust_girth`"),
        ("hips", "`hip_girth`"),
        ("waist_length", "`waist_girth`"),
        ("crotch", "`total_crotch_length`"),
        ("wiast_girth", "`waist_girth`"),
    ],
)
def test_a_measure_is_known_by_a_word_of_its_name(written: str, meant: str) -> None:
    right = meant.strip("`")
    (one,) = compiled(panel(below=f"measure {written}\nfinished x = {right}"), size=None).findings
    assert (one.slug, one.span.text) == ("unknown-measure", written)
    assert one.help.startswith("did you mean ") and meant in one.help


def test_a_measure_with_no_such_word_is_to_be_described() -> None:
    one = only(panel(below="measure strap_length"))
    assert "describe how it is taken" in one.help


# ---- what nothing uses


def test_a_value_that_nothing_uses_is_a_warning() -> None:
    text = panel(inside="e = mid(b, c); f = e up 1 cm", below="x = 3 cm\ny = x")
    used = panel(inside="e = mid(b, c); f = e up 1 cm; mark m at f", below="x = 3 cm\ny = x\nfinished z = y")
    assert everything(text) == [("nothing uses the value `f`", "f"), ("nothing uses the value `y`", "y")]
    assert everything(used) == []


def test_a_value_used_under_another_choice_is_used() -> None:
    below = "param q : choice a, b = a\nparam p = 1 cm\nease hip_girth = 1 cm\nx = 2 cm\n"
    below += "when q is b { finished y = x + p + ease.hip_girth; finished at = distance(panel.e, panel.a) }"
    assert everything(panel(inside="e = mid(b, c)", below=below)) == []


def test_a_variant_answers_for_its_own_values() -> None:
    base = panel(below="x = 3 cm\nfinished y = x")
    variant = 'garment ruff "Ruff" varies "knot.garment"\nedition 1\ndrop finished y\nz = 1 cm\n'
    host = MemoryHost({"knot.garment": base, "ruff.garment": variant})
    assert [one.span.text for one in compile_spec(host, "ruff.garment").findings] == ["z"]


def test_a_misspelt_use_is_not_told_as_unused_too() -> None:
    assert [one for one, _ in everything(panel(below="param depth = 3 cm\nfinished x = dpeth"))] == [
        "nothing here is called `dpeth`"
    ]


# ---- said twice, tolerances


@pytest.mark.parametrize("below", ["solve p, p so that p == 1 cm and p == 2 cm", "solve p so that p == 1 cm\n" * 2])
def test_a_param_is_solved_once(below: str) -> None:
    one = only(panel(below="param p = 1 cm from 0 cm to 3 cm\n" + below))
    assert (one.slug, one.span.text, one.headline) == ("said-twice", "p", "`p` is solved for twice")


def test_a_width_of_a_type_has_a_name_of_its_own() -> None:
    below = 'finish type f "F" { hem = 1 cm; allowance hem; hem = 2 cm; do "a" }\n'
    one = only(panel(below=below, finish=PINKED.replace("pinked", "f")))
    assert (one.slug, one.span.text) == ("duplicate-name", "hem")


@pytest.mark.parametrize(
    "below",
    [
        'check "x" panel.lower.length == panel.upper.length within -1 mm',
        "param p = 1 cm from 0 cm to 3 cm\nsolve p so that p == 2 cm within -1 mm",
    ],
)
def test_a_tolerance_is_not_negative(below: str) -> None:
    one = only(panel(below=below))
    assert (one.slug, one.span.text) == ("negative-tolerance", "-1 mm")


def test_the_tolerance_of_a_seam_is_not_negative() -> None:
    below = "seam s joins panel.lower with panel.upper as plain { ease 0 mm within -1 mm }\n"
    assert (
        only(panel(below=below, finish="finish panel.ending, panel.opening as pinked\n")).slug == "negative-tolerance"
    )
