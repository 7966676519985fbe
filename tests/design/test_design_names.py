"""Names: what is unknown, doubled, reserved, unused, chosen, set from outside, or defined by itself."""

from pathlib import Path

import pytest

from garmentc.design.functions import FUNCTIONS
from garmentc.diagnostics.finding import Severity
from garmentc.host import DiskHost
from garmentc.pipeline import compile_spec
from tests.language.small import CHART, PINKED, Fault, assembled, compiled, faults, found, panel

SPECS = sorted(path.stem for path in Path("specs").glob("*.garment"))


# ---- rings


RINGS = {
    "a value": ("", "x = x + 1 cm", ["x", "x"]),
    "two values": ("", "x = y\ny = x", ["x", "y", "x"]),
    "three values": ("", "x = y\ny = z\nz = x + 1 cm", ["x", "y", "z", "x"]),
    "points": ("p = q up 1 cm\nq = p up 1 cm", "", ["panel.p", "panel.q", "panel.p"]),
    "a point and an edge": (
        "p = along(scoop, 1 cm)\nscoop = p -> b",
        "",
        ["panel.p", "panel.scoop", "panel.p"],
    ),
}


@pytest.mark.parametrize("what", RINGS)
def test_rings_are_shown_link_by_link(what: str) -> None:
    inside, below, links = RINGS[what]
    (fault,) = found(panel(inside, below), size=None)
    assert fault.slug == "ring"
    assert fault.notes == (" needs ".join(f"`{link}`" for link in links),)
    assert len(fault.others) == len(links) - 2
    shown = [fault.span.text, *(label.span.text for label in fault.others)]
    assert shown == [link.rpartition(".")[2] for link in links[:-1]]


def test_what_needs_a_ring_is_not_reported() -> None:
    below = "u = x\nx = y\ny = x\nv = u + y\n" + 'check "c" v > 1 cm'
    assert [one.slug for one in found(panel(below=below))] == ["ring"]


def test_two_rings_are_two_findings() -> None:
    assert faults(panel(below="x = y\ny = x\nu = v\nv = u")) == [
        Fault("ring", 14, "x"),
        Fault("ring", 16, "u"),
    ]


@pytest.mark.parametrize(
    "below",
    [
        "param p = p + 1 cm",
        "param p = q + 1 cm\nparam q = p",
        "param p = x\nx = p + 1 cm",
        "ease hip_girth = ease.hip_girth",
    ],
)
def test_rings_of_params_are_found(below: str) -> None:
    slugs = [one.slug for one in found(panel(below=below)) if one.slug != "unused-name"]
    assert slugs == ["ring"]


@pytest.mark.parametrize("below", ["param p = q + 1 cm\nparam q = p", "param p = x\nx = p + 1 cm"])
def test_rings_of_params_are_shown_without_a_body(below: str) -> None:
    faults_found = [one for one in found(panel(below=below), size=None) if one.slug == "ring"]
    assert len(faults_found) == 1 and faults_found[0].notes and faults_found[0].others


SILENT = {
    "a strip as long as itself": ("", 'strip s "S" { cut 1; length s.length + 1 cm; width 2 cm; make flat }'),
    "two strips as long as each other": (
        "",
        'strip s "S" { cut 1; length r.length; width 2 cm; make flat }\n'
        'strip r "R" { cut 1; length s.length; width 2 cm; make flat }',
    ),
    "a piece cut by its own area": ("keep above level((0 cm, area(panel) / 100 cm)) as low", ""),
    "a piece cut by its own width": ("keep above level((0 cm, width(panel, level(c)) / 4)) as low", ""),
}


@pytest.mark.parametrize("what", SILENT)
def test_a_piece_that_needs_itself_is_reported(what: str) -> None:
    inside, below = SILENT[what]
    made = compiled(panel(inside, below))
    assert [one.slug for one in made.findings if one.severity is Severity.ERROR] == ["ring"]


def test_a_garment_either_compiles_or_says_why_not() -> None:
    """No finding and no garment may not happen together."""
    for inside, below in (("keep above level(a up 5 cm) as low", "finish panel.low as pinked\n"), ("", "x = 1 cm")):
        finish = PINKED.replace("panel.lower, ", "") if inside else PINKED
        assert len(compiled(panel(inside, below, finish)).made) == 1


def test_pieces_from_each_other() -> None:
    slugs = [one.slug for one in found(panel(below='piece q "Q" from q { }'), size=None)]
    assert slugs == ["ring"]


def test_two_pieces_from_each_other() -> None:
    below = 'piece q "Q" from r { }\npiece r "R" from q { }'
    assert [one.slug for one in found(panel(below=below), size=None)] == ["ring"]


# ---- unknown names


MEANT = {
    "a value": ("", "narrow = 1 cm\nx = narow + 1 cm", "narow", "narrow"),
    "a piece": ("", "x = pannel.lower.length", "pannel", "panel"),
    "an edge": ("notch on loewr at 1 cm", "", "loewr", "lower"),
    "an edge from outside": ("", "x = panel.loewr.length", "loewr", "lower"),
    "a function": ("", "x = fooot(panel.a, level(panel.b))", "fooot", "foot"),
    "a finish": ("", "finish panel.lower as pnked", "pnked", "pinked"),
    "a seam type": ("", "seam s joins panel.lower with panel.upper as frnch", "frnch", "french"),
    "a measure": ("", "measure bust_grith", "bust_grith", "bust_girth"),
    "an ease": ("", "ease bust_girth = 1 cm\nx = ease.bust_grith", "bust_grith", "bust_girth"),
    "an option": ("", "param q : choice plain, loops = plain\nx = if q is plian then 1 cm else 2 cm", "plian", "plain"),
    "the option of a when": (
        "",
        "param q : choice plain, loops = plain\nwhen q is plian { x = 1 cm }",
        "plian",
        "plain",
    ),
    "a strip": (
        "",
        'strip strap "S" { cut 1; length 9 cm; width 2 cm; make flat }\n'
        "seam s joins panel.lower with panel.upper as plain { insert starp at a }",
        "starp",
        "strap",
    ),
    "what a step follows": ("", 'step iron "a"\nstep fold "b" after irn', "irn", "iron"),
    "what a seam sets": (
        "",
        "seam s joins panel.lower with panel.upper as french { set frist = 8 mm }",
        "frist",
        "first",
    ),
    "a name in a text": (
        "",
        'finish type t "T" { allowance 0 mm; reach = 1 mm; do "Go {raech} far." }\nfinish panel.lower as t',
        '"Go {raech} far."',
        "reach",
    ),
    "a fold": ("", "", "opning", "opening"),
    "the edge grown across": ("grow facing across lwoer keep below level(a up 1 cm) as low", "", "lwoer", "lower"),
}


@pytest.mark.parametrize("what", MEANT)
def test_what_was_probably_meant(what: str) -> None:
    inside, below, wrong, meant = MEANT[what]
    text = panel(inside, below, finish="")
    if what == "a fold":
        text = text.replace("cut 1", "cut 1 on fold opning")
    (fault,) = [one for one in found(text, size=None) if one.severity is Severity.ERROR]
    assert fault.slug in ("unknown-name", "unknown-measure")
    assert fault.span.text == wrong
    assert fault.help == f"did you mean `{meant}`?"


def test_no_guess_where_nothing_is_near() -> None:
    (fault,) = found(panel(below="x = zigzag"), size=None)
    assert (fault.slug, fault.help) == ("unknown-name", "")


def test_a_piece_is_not_suggested_as_its_own_parent() -> None:
    (fault,) = found(panel(below='piece panels "P" from pannels { }'), size=None)
    assert fault.help == "did you mean `panel`?"


def test_members_that_are_there_are_told() -> None:
    (fault,) = found(panel(below="x = panel.lower.lenght"), size=None)
    assert fault.help == "it has length, sewn_length, start, end"


# ---- doubled and reserved names


@pytest.mark.parametrize(
    ("inside", "below", "doubled"),
    [
        ("", "x = 1 cm\nx = 2 cm", "x"),
        ("", "panel = 1 cm", "panel"),
        ("", "measure bust_girth, bust_girth", "bust_girth"),
        ("", "param p = 1 cm\nmeasure bust_girth\np = bust_girth", "p"),
        ("", "param q : choice a, b = a\nq = 1 cm", "q"),
        ("", "ease hip_girth = 1 cm\nease hip_girth = 2 cm", "hip_girth"),
        ("a = (1 cm, 1 cm)", "", "a"),
        ("lower = (1 cm, 1 cm)", "", "lower"),
        ("mark m at a\nmark m at b", "", "m"),
        ("guide g : a -> b\nguide g : b -> c", "", "g"),
        ("keep above level(a up 1 cm) as lower", "", "lower"),
        ("", 'piece panel "P" from panel { }', "panel"),
        ("", 'step s "a"\nstep s "b"', "s"),
        ("", "finished f = 1 cm\nfinished f = 2 cm", "f"),
        ("", 'finish type t "T" { do "a" }\nfinish type t "T" { do "b" }', "t"),
        ("", "seam s joins panel.lower with panel.upper as plain\n" + 'step s "a"', "s"),
    ],
)
def test_one_thing_has_one_name(inside: str, below: str, doubled: str) -> None:
    text = panel(inside, below)
    (fault,) = [one for one in found(text, size=None) if one.severity is Severity.ERROR]
    assert fault.slug == "duplicate-name"
    assert fault.span.text == doubled or text[: fault.span.end].endswith(doubled)
    (first,) = fault.others
    assert first.span != fault.span


def test_seams_and_finishes_may_share_names_with_edges_and_types() -> None:
    below = "seam lower joins panel.lower with panel.upper as plain\n"
    finish = "finish panel.ending, panel.opening as pinked\n"
    assert [one.slug for one in found(panel(below=below, finish=finish), size=None)] == []


@pytest.mark.parametrize("name", FUNCTIONS)
def test_names_of_functions_are_reserved(name: str) -> None:
    slugs = [one.slug for one in found(panel(below=f"{name} = 1 cm"), size=None)]
    assert slugs in (["reserved-name"], ["unexpected-word"])


def test_a_second_garment_line_outline_or_cut_is_reported() -> None:
    assert [one.slug for one in found(panel(below='garment ruff "Ruff"'), size=None)] == ["duplicate-name"]
    assert [one.slug for one in found(panel("outline { x : a -> b; y : b -> a }"), size=None)] == ["two-outlines"]
    assert [one.slug for one in found(panel("cut 2"), size=None)] == ["said-twice"]
    assert [one.slug for one in found(panel("grain bias"), size=None)] == ["said-twice"]


@pytest.mark.parametrize(
    ("drop", "slug"),
    [
        ("  cut 1\n", "no-cut"),
        ("  grain straight\n", "no-grain"),
        ("  outline { lower : a -> b; ending : b -> c; upper : c -> d; opening : d -> a }\n", "no-outline"),
        ("edition 1\n", "no-edition"),
        ('garment knot "Knot"\n', "no-header"),
    ],
)
def test_what_must_not_be_left_out(drop: str, slug: str) -> None:
    text = panel(finish="").replace(drop, "")
    assert [one.slug for one in found(text, size=None)] == [slug]


@pytest.mark.parametrize("count", ["0", "1.5"])
def test_a_piece_is_cut_a_whole_number_of_times(count: str) -> None:
    text = panel(finish="").replace("cut 1", f"cut {count}")
    assert [one.slug for one in found(text, size=None)] == ["no-cut"]


@pytest.mark.parametrize("count", ["0", "1.5"])
def test_a_strip_is_cut_a_whole_number_of_times(count: str) -> None:
    below = f'strip s "S" {{ cut {count}; length 9 cm; width 2 cm; make flat }}'
    slugs = [one.slug for one in found(panel(below=below), size=None) if one.slug != "unused-name"]
    assert slugs == ["no-cut"]


@pytest.mark.parametrize("line", ["cut 1 on fold side", "notch on side at 50 %", "grain bias along panel.lower"])
def test_nothing_said_of_a_strip_is_dropped_silently(line: str) -> None:
    cut = "" if line.startswith("cut") else "cut 1; "
    below = f'strip s "S" {{ {cut}length 9 cm; width 2 cm; make flat; {line} }}'
    errors = [one for one in found(panel(below=below)) if one.slug != "unused-name"]
    assert errors != []


@pytest.mark.parametrize("edition", ["2", "0", "1.0", "10"])
def test_editions_that_are_not_known(edition: str) -> None:
    (fault,) = found(panel().replace("edition 1", f"edition {edition}"), size=None)
    assert (fault.slug, fault.span.text) == ("unknown-edition", f"edition {edition}")


def test_a_second_edition_is_reported() -> None:
    assert [one.slug for one in found(panel(below="edition 1"), size=None)] != []


# ---- unused names


@pytest.mark.parametrize(
    ("below", "name"),
    [
        ("measure bust_girth", "bust_girth"),
        ("param p = 1 cm", "param p = 1 cm"),
        ("ease hip_girth = 1 cm", "ease hip_girth = 1 cm"),
        ('strip s "S" { cut 1; length 9 cm; width 2 cm; make flat }', 'strip s "S"'),
    ],
)
def test_what_nothing_uses_is_a_warning(below: str, name: str) -> None:
    (fault,) = found(panel(below=below))
    assert (fault.slug, fault.severity, fault.span.text) == ("unused-name", Severity.WARNING, name)
    assert len(compiled(panel(below=below)).made) == 1


def test_what_only_an_unused_param_uses_is_used() -> None:
    below = "measure bust_girth\nparam p = bust_girth / 4"
    assert [one.span.text for one in found(panel(below=below))] == ["param p = bust_girth / 4"]


def test_a_choice_that_nothing_asks_is_told() -> None:
    assert [one.slug for one in found(panel(below="param q : choice a, b = a"))] == ["unused-name"]


# ---- choices, when, settings


CHOICE = "param q : choice plain, loops = plain\n"


def test_a_choice_switches_values_and_statements() -> None:
    below = (
        CHOICE
        + "x = if q is loops then 3 cm else 2 cm\n"
        + "when q is loops { finished two = x * 2 }\nwhen not q is loops { finished one = x }\n"
        + "when q is loops or q is plain { finished both = x * 3 }\n"
        + "when q is loops and q is plain { finished none = x }\n"
    )
    plain = assembled(panel(below=below))
    loops = assembled(panel(below=below), settings=["q=loops"])
    assert [(one.name, one.value) for one in plain.draft.finished] == [("one", 20.0), ("both", 60.0)]
    assert [(one.name, one.value) for one in loops.draft.finished] == [("two", 60.0), ("both", 90.0)]


def test_when_can_stand_in_when() -> None:
    below = CHOICE + "param r : choice a, b = b\nwhen q is plain { when r is b { finished f = 1 cm } }"
    assert len(assembled(panel(below=below)).draft.finished) == 1
    assert assembled(panel(below=below), settings=["r=a"]).draft.finished == ()


@pytest.mark.parametrize(
    "condition", ["bust_girth > 90 cm", "q", "panel", "1 cm == 1 cm", "not p", "q is plain and p", "p is plain"]
)
def test_when_asks_only_about_choices(condition: str) -> None:
    below = f"measure bust_girth\nparam p = 1 cm\n{CHOICE}when {condition} {{ x = 1 cm }}\ny = p + bust_girth"
    slugs = [one.slug for one in found(panel(below=below), size=None)]
    assert slugs == ["when-needs-choice"]


def test_a_choice_inside_when_is_refused() -> None:
    below = CHOICE + "when q is plain { param r : choice a, b = a }"
    assert [one.slug for one in found(panel(below=below), size=None)] == ["when-needs-choice"]


def test_the_other_option_is_checked_on_demand() -> None:
    below = CHOICE + "when q is loops { x = 1 cm + 1 deg }"
    assert [one.slug for one in found(panel(below=below))] == []
    made = compiled(panel(below=below), every_choice=True)
    (fault,) = made.findings
    assert fault.slug == "unit-mismatch"
    assert fault.notes[-1] == "with --set q=loops"
    assert len(made.made) == 1


@pytest.mark.parametrize("spec", SPECS)
def test_every_option_of_the_demo_garments_compiles(spec: str) -> None:
    made = compile_spec(DiskHost(), f"specs/{spec}.garment", sizes=CHART, every_choice=True)
    assert [(one.slug, str(one.span), one.notes) for one in made.findings] == []
    assert len(made.made) == 12


@pytest.mark.parametrize(
    ("setting", "slug", "at"),
    [
        ("q=lops", "unknown-name", "lops"),
        ("pp=3cm", "unknown-name", "pp"),
        ("ease.hip=3cm", "unknown-name", "ease.hip"),
        ("p=3", "wrong-kind", "3"),
        ("p=3deg", "wrong-kind", "3deg"),
        ("p=panel", "wrong-kind", "panel"),
        ("p=nothing", "unknown-name", "nothing"),
        ("p=9cm", "out-of-range", "9cm"),
        ("p=", "unreadable-setting", "p="),
        ("p", "unreadable-setting", "p"),
        ("=3cm", "unreadable-setting", "=3cm"),
        ("p=3,5cm", "unexpected-word", ","),
        ("p=1cm 2cm", "unexpected-word", "2cm"),
    ],
)
def test_settings_that_do_not_fit(setting: str, slug: str, at: str) -> None:
    below = CHOICE + "param p = 1 cm from 0 cm to 5 cm\nease hip_girth = 2 cm\n"
    below += "x = if q is loops then p else ease.hip_girth"
    (fault,) = found(panel(below=below), settings=[setting])
    assert (fault.slug, fault.span.text, fault.span.source.name) == (slug, at, "--set")


def test_settings_change_values() -> None:
    below = "measure bust_girth\nparam p = 1 cm\nease bust_girth = 2 cm\nfinished f = p + ease.bust_girth + bust_girth"
    made = assembled(panel(below=below), settings=["p = 3 cm", "ease.bust_girth=1 1/2 in", "p=bust_girth / 8"])
    assert made.draft.finished[0].value == pytest.approx(110.0 + 38.1 + 880.0)
    assert made.draft.params == {"p": pytest.approx(110.0), "ease.bust_girth": pytest.approx(38.1)}
