"""Blocks from other files: what a garment takes, what it gives, and where findings in them are shown."""

import pytest

from garmentc.pipeline import Compiled, compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
RULES = """garment rules "Rules"
edition 1
function part(whole : length, number : count) = whole / number
table neck by bust_girth held { 80 cm : 7 cm; 96 cm : 8 cm }
measure bust_girth
"""
BODICE = """garment bodice "Bodice block"
edition 1
measure bust_girth, hip_girth
measure strap : length "over the shoulder"
use rules from "rules.garment"
param depth = 22 cm from 10 cm to 40 cm
param flare = 5 deg from 0 deg to 20 deg
param style : choice plain, deep = plain
param unheard = 3 cm
ease bust_girth = 6 cm
quarter = rules.part(bust_girth + ease.bust_girth, 4)
waist_line = level((0 cm, -depth))
when style is deep { lower = 4 cm }
when style is plain { lower = 1 cm }
piece front "Front" {
  cut 1 on fold centre
  grain straight
  tip = (quarter, -depth - lower)
  outline {
    hem    : (0 cm, -depth - lower) -> tip
    side   : tip -> (quarter, 0 cm)
    top    : (quarter, 0 cm) -> (0 cm, 0 cm)
    centre : (0 cm, 0 cm) -> (0 cm, -depth - lower)
  }
  notch on side at 50 %
}
piece slanted "Slanted" from front { keep above line((0 cm, -10 cm), (10 cm, -10 cm) down 10 cm * tan(flare)) as cut_off }
piece strap_piece "Strap" {
  cut 1
  grain straight
  outline {
    a : (0 cm, 0 cm) -> (strap, 0 cm)
    b : (strap, 0 cm) -> (hip_girth, 10 cm)
    c : (hip_girth, 10 cm) -> (0 cm, 0 cm)
  }
}
check "deep enough" depth >= 12 cm
check "strap long enough" strap_piece.a.length > 10 m
finish front.hem, front.side, front.top as pinked
step fit "Try it on."
"""
USE = 'use bodice from "blocks/bodice.garment"'
FRONT = 'piece front "Front" from bodice.front { }\nfinish front.hem, front.side, front.top as pinked\n'


def compiled(text: str, *, settings: tuple[str, ...] = (), every_choice: bool = False, **more: str) -> Compiled:
    """A garment compiled for a bust girth of 88 cm, beside its blocks: `bodice`, `rules` and what else is named."""
    files = {"bodice": BODICE, "rules": RULES, **more}
    texts = {f"blocks/{name}.garment": held for name, held in files.items()}
    texts["knot.garment"] = f'garment knot "Knot"\nedition 1\n{text}\n'
    return compile_spec(
        MemoryHost(texts), "knot.garment", sizes=CHART, only=["88"], settings=settings, every_choice=every_choice
    )


def told(made: Compiled) -> list[tuple[str, str, str]]:
    """Slug, file and faulty words of each finding."""
    return [(one.slug, one.span.source.name, one.span.text) for one in made.findings]


def bounds(made: Compiled, piece: str = "front") -> tuple[float, float, float, float]:
    assert [(one.slug, one.headline) for one in made.findings] == []
    return made.made[0].draft.piece(piece).outline.bounds()


# ---- what is taken


def test_a_piece_is_taken_with_what_it_depends_on_and_nothing_else() -> None:
    made = compiled(f"{USE}\n{FRONT}")
    assert bounds(made) == pytest.approx((0.0, -230.0, 235.0, 0.0))
    design, assembly = made.design, made.made[0]
    assert design is not None
    assert [piece.drafted.name for piece in assembly.pieces] == ["front"]
    assert list(design.measures) == ["bust_girth"]
    assert list(design.params) == ["bodice.depth", "bodice.ease.bust_girth"]
    assert [check.text for check in design.checks] == ["deep enough"]
    assert (design.seams, design.steps) == ({}, ())


def test_values_functions_tables_points_and_edges_of_a_block() -> None:
    asked = {
        "bodice.quarter": 235.0,
        "bodice.ease.bust_girth": 60.0,
        "bodice.front.tip.x": 235.0,
        "bodice.front.side.length": 230.0,
        "front.tip.y": -230.0,
        "bodice.rules.part(9 cm, 3)": 30.0,
        "bodice.rules.neck": 75.0,
        "distance(front.tip, bodice.waist_line)": 10.0,
        "width(bodice.front, bodice.waist_line)": 470.0,
    }
    lines = "\n".join(f"finished f{i} = {value}" for i, value in enumerate(asked))
    made = compiled(f"{USE}\n{FRONT}{lines}")
    assert not list(made.findings)
    assert [one.value for one in made.made[0].draft.finished] == pytest.approx(list(asked.values()))


def test_a_block_of_functions_alone() -> None:
    text = f'use rules from "blocks/rules.garment"\npanel = rules.part(84 cm, 4)\n{USE} (depth = panel)\n{FRONT}'
    assert bounds(compiled(text))[1] == -220.0


def test_arguments_are_values_of_the_garment() -> None:
    text = f"""{USE} (depth = long / 2, ease.bust_girth = 2 cm, style = deep)
param long = 60 cm from 50 cm to 70 cm
{FRONT}"""
    assert bounds(compiled(text)) == pytest.approx((0.0, -340.0, 225.0, 0.0))
    assert bounds(compiled(text, settings=("long=52cm",)))[1] == pytest.approx(-300.0)


def test_what_is_not_given_can_be_set_from_outside() -> None:
    text = f"{USE}\n{FRONT}"
    given = ("bodice.depth=30cm", "bodice.ease.bust_girth=2cm", "bodice.style=deep")
    assert bounds(compiled(text, settings=given)) == pytest.approx((0.0, -340.0, 225.0, 0.0))
    assert told(compiled(text, settings=("bodice.dept=30cm",))) == [("unknown-name", "--set", "bodice.dept")]


def test_a_block_taken_twice_with_other_values() -> None:
    text = f"""{USE}\n{FRONT}{USE.replace("use bodice", "use wide")} (ease.bust_girth = 14 cm)
piece back "Back" from wide.front {{ }}
finish back.hem, back.side, back.top as pinked"""
    made = compiled(text)
    assert (bounds(made)[2], bounds(made, "back")[2]) == pytest.approx((235.0, 255.0))


def test_a_piece_of_a_block_may_be_taken_from_a_piece_of_its_own_block() -> None:
    yoke = 'garment yoke "Yoke"\nedition 1\nuse bodice from "bodice.garment" (depth = high)\nparam high = 15 cm\n'
    yoke += 'piece yoke "Yoke" from bodice.front { keep above level((0 cm, -high)) as lower }\n'
    text = 'use top from "blocks/yoke.garment" (high = 18 cm)\npiece front "Front" from top.yoke { }\n'
    made = compiled(text + "finish front.lower, front.side, front.top as pinked", yoke=yoke)
    assert bounds(made) == pytest.approx((0.0, -180.0, 235.0, 0.0))
    assert bounds(compiled(text.replace(".yoke", ".bodice.front") + FRONT.split("\n")[1], yoke=yoke))[1] == -190.0


def test_a_measure_may_be_declared_by_the_garment_too() -> None:
    made = compiled(f"{USE}\n{FRONT}measure bust_girth\nfinished wide = bust_girth")
    assert bounds(made)[2] == 235.0
    assert made.design is not None
    assert made.design.measures["bust_girth"].span.source.name == "knot.garment"


@pytest.mark.parametrize("taken", ["round", "over"])
def test_a_measure_of_ones_own_is_one_measure_in_the_same_words(taken: str) -> None:
    strap = 'piece band "Band" from bodice.strap_piece { }\nfinish band.a, band.b, band.c as pinked\n'
    own = f'measure strap : length "{taken} the shoulder"\n'
    found = told(compiled(f"{USE}\n{strap}{own}"))
    if taken == "over":
        assert [one[0] for one in found] == ["missing-measures"]
    else:
        assert found == [("duplicate-name", "blocks/bodice.garment", "strap")]


def test_a_solve_comes_along_with_what_it_finds() -> None:
    block = BODICE + "solve depth so that front.side.length == 25 cm\n"
    assert bounds(compiled(f"{USE}\n{FRONT}", bodice=block))[1] == pytest.approx(-250.0, abs=0.02)
    found = compiled(f"{USE}\n{FRONT}solve bodice.depth so that front.side.length == 28 cm")
    assert bounds(found)[1] == pytest.approx(-280.0, abs=0.02)


def test_choices_of_a_block_are_tried_one_at_a_time() -> None:
    made = compiled(f'{USE}\n{FRONT}check "short" bodice.front.side.length < 25 cm', every_choice=True)
    assert [(one.slug, one.notes[-1]) for one in made.findings] == [("check-fails", "with --set bodice.style=deep")]


# ---- faults at the use


@pytest.mark.parametrize(
    ("given", "slug", "at", "help"),
    [
        ("depht = 30 cm", "unknown-name", "depht", "`depth`"),
        ("ease.bust = 3 cm", "unknown-name", "ease.bust", "`ease.bust_girth`"),
        ("flare = 3 cm", "wrong-kind", "3 cm", ""),
        ("depth = bust", "unknown-name", "bust", ""),
        ("style = dep", "unknown-name", "dep", "`deep`"),
        ("style = 3 cm", "wrong-kind", "3 cm", "`plain`, `deep`"),
        ("depth = 30 cm, depth = 31 cm", "said-twice", "depth", ""),
        ("quarter = 30 cm", "wrong-kind", "quarter", ""),
        ("depth = 50 cm", "out-of-range", "50 cm", ""),
        ("depth = 11 cm", "check-fails", 'check "deep enough" depth >= 12 cm', ""),
    ],
)
def test_wrong_arguments(given: str, slug: str, at: str, help: str) -> None:
    (one,) = compiled(f"{USE} ({given})\n{FRONT}").findings
    assert (one.slug, one.span.text) == (slug, at)
    assert help in one.help


@pytest.mark.parametrize(
    ("line", "slug", "at", "help"),
    [
        ("x = bodice.quater\ny = x + 1 cm", "unknown-name", "quater", "did you mean `quarter`?"),
        ("x = bodice.front.tipp", "unknown-name", "tipp", "did you mean `tip`?"),
        ("x = bodice.rules.prt(3 cm, 2)", "unknown-name", "bodice.rules.prt", ""),
        ("x = bodice", "unknown-name", "bodice", "name something in it"),
        ('piece b "B" from bodice.fron { }\nfinish b.hem as pinked', "unknown-name", "bodice.fron", "`front`"),
        ("finish bodice.front.top as bound", "not-taken", "bodice.front.top", "from bodice.front { }"),
        ("bodice = 3 cm", "duplicate-name", "bodice", ""),
        (USE, "duplicate-name", "bodice", ""),
    ],
)
def test_wrong_names(line: str, slug: str, at: str, help: str) -> None:
    found = [one for one in compiled(f"{USE}\n{FRONT}{line}").findings if one.slug != "unused-name"]
    assert [(one.slug, one.span.text) for one in found] == [(slug, at)]
    assert help in found[0].help


def test_a_block_that_nothing_is_taken_from_is_told() -> None:
    text = f'{USE}\nuse rules from "blocks/rules.garment"\n{FRONT}'
    assert told(compiled(text)) == [("unused-name", "knot.garment", "rules")]


def test_names_of_the_garment_do_not_leak_into_a_block() -> None:
    made = compiled(f'half = 9 cm\n{USE}\n{FRONT}check "" half > 1 cm', bodice=BODICE.replace("(quarter,", "(half,"))
    assert set(told(made)) == {("unknown-name", "blocks/bodice.garment", "half")}


def test_use_stands_outside_when() -> None:
    text = f"param a : choice x, y = x\nwhen a is x {{ {USE} }}\n{FRONT}"
    assert told(compiled(text)) == [("use-in-when", "knot.garment", USE)]


# ---- files


@pytest.mark.parametrize(
    ("path", "slug"),
    [
        ("blocks/bodce.garment", "file-unreadable"),
        ("../bodice.garment", "outside-project"),
        ("/etc/bodice.garment", "outside-project"),
        ("blocks/../../bodice.garment", "outside-project"),
    ],
)
def test_files_that_are_not_to_be_had(path: str, slug: str) -> None:
    made = compiled(f'use bodice from "{path}"\n{FRONT}x = bodice.quarter')
    assert told(made) == [(slug, "knot.garment", f'"{path}"')]


def test_a_block_may_name_a_file_above_it_inside_the_project() -> None:
    text = BODICE.replace('"rules.garment"', '"../blocks/rules.garment"')
    assert bounds(compiled(f"{USE}\n{FRONT}", bodice=text))[2] == 235.0
    outside = compiled(f"{USE}\n{FRONT}", bodice=BODICE.replace('"rules.garment"', '"../../rules.garment"'))
    assert told(outside) == [("outside-project", "blocks/bodice.garment", '"../../rules.garment"')]


def test_a_ring_of_files_shows_the_ring() -> None:
    (one,) = compiled(f"{USE}\n{FRONT}", rules=RULES + 'use back from "bodice.garment"\n').findings
    assert (one.slug, one.span.source.name) == ("use-ring", "blocks/rules.garment")
    assert one.notes == ("knot.garment uses bodice.garment uses rules.garment uses bodice.garment",)
    assert [label.span.text for label in one.others] == [USE, 'use rules from "rules.garment"']
    (one,) = compiled(f'use knot from "knot.garment"\n{FRONT.replace("bodice", "knot")}').findings
    assert (one.slug, one.notes) == ("use-ring", ("knot.garment uses knot.garment",))


def test_a_ring_through_a_variant() -> None:
    rules = 'garment rules "Rules" varies "bodice.garment"\nedition 1\n'
    (one,) = compiled(f"{USE}\n{FRONT}", rules=rules).findings
    assert (one.slug, one.span.source.name) == ("variant-ring", "blocks/rules.garment")
    assert one.notes == ("knot.garment uses bodice.garment uses rules.garment varies bodice.garment",)


def test_a_block_says_what_it_is_in_its_first_lines() -> None:
    made = compiled(f"{USE}\n{FRONT}", bodice=BODICE.replace("edition 1", "edition 7"))
    assert told(made) == [("unknown-edition", "blocks/bodice.garment", "edition 7")]
    made = compiled(f"{USE}\n{FRONT}", rules="function part(a : length, b : count) = a / b\n")
    assert told(made) == [("no-header", "blocks/rules.garment", "f")]


# ---- faults in the block

CHAIN = [
    ("blocks/bodice.garment", 'use rules from "rules.garment"', "brought in here as `rules`"),
    ("knot.garment", USE, "brought in here as `bodice`"),
]


@pytest.mark.parametrize(
    ("body", "slug", "at"),
    [
        ("whole / 0", "no-value", "whole / 0"),
        ("whole / nuber", "function-reads-outside", "nuber"),
        ("whole + number", "unit-mismatch", "whole + number"),
        ("whole / )", "unexpected-word", ")"),
    ],
)
def test_a_fault_is_shown_in_the_block_with_the_chain_of_uses(body: str, slug: str, at: str) -> None:
    rules = RULES.replace("whole / number", body)
    (one,) = [one for one in compiled(f"{USE}\n{FRONT}", rules=rules).findings if one.slug != "unused-name"]
    assert (one.slug, one.span.source.name, one.span.text) == (slug, "blocks/rules.garment", at)
    shown = [(label.span.source.name, label.span.text, label.text) for label in one.others]
    assert [label for label in shown if label[2].startswith("brought in")] == CHAIN


def test_a_fault_of_a_piece_as_drafted_is_shown_in_the_block() -> None:
    made = compiled(f"{USE}\n{FRONT}", bodice=BODICE.replace("tip -> (quarter, 0 cm)", "tip -> (quarter, 1 cm)"))
    (one,) = made.findings
    assert (one.slug, one.span.source.name) == ("open-outline", "blocks/bodice.garment")
    assert one.others[-1].span.text == USE


def test_a_name_hidden_in_a_piece_of_the_block_is_told_there() -> None:
    made = compiled(f"{USE}\n{FRONT}", bodice=BODICE.replace("  tip =", "  depth = 3 cm\n  tip ="))
    assert [one[:2] for one in told(made)] == [("hidden-name", "blocks/bodice.garment")]


def test_what_a_block_leaves_unused_is_its_own_affair() -> None:
    assert not list(compiled(f"{USE}\n{FRONT}", bodice=BODICE + "idle = 3 cm\nparam lone = 2 cm\n").findings)
    broken = BODICE + "idle = 3 cm + 2 deg\n"
    assert not list(compiled(f"{USE}\n{FRONT}", bodice=broken).findings)


# ---- with a variant

BASE = f"""garment base "Base"
edition 1
{USE.replace("blocks/", "")} (depth = 20 cm)
function twice(a : length) = 2 * a
table reach by bodice.quarter held {{ 10 cm : 1 cm; 90 cm : 2 cm }}
param flap : choice off, on = off
{FRONT.replace("{ }", "{ spot = (twice(2 cm), -reach); when flap is off { mark m at spot; low = (3 cm, -3 cm) } }")}
check "low" front.spot.x > 1 cm
"""


def varied(lines: str, base: str = BASE) -> Compiled:
    """A variant, in the folder of the blocks."""
    texts = {"base.garment": base, "bodice.garment": BODICE, "rules.garment": RULES}
    texts["knot.garment"] = f'garment knot "Knot" varies "base.garment"\nedition 1\n{lines}\n'
    return compile_spec(MemoryHost(texts), "knot.garment", sizes=CHART, only=["88"])


@pytest.mark.parametrize(
    ("lines", "low", "wide"),
    [
        ("replace front.low = (1 cm, -1 cm)", -210.0, 235.0),
        ("set bodice.depth = 25 cm\nreplace front.low = (1 cm, -1 cm)", -260.0, 235.0),
        ("set bodice.ease.bust_girth = 10 cm", -210.0, 245.0),
        ("set bodice.style = deep", -240.0, 235.0),
        ('replace use bodice from "bodice.garment"', -230.0, 235.0),
        ("replace function twice(a : length) = 3 * a", -210.0, 235.0),
        ("replace table reach by bodice.quarter held { 1 cm : 1 cm; 2 cm : 2 cm }", -210.0, 235.0),
        ('replace reach = 2 cm\ndrop check "low"', -210.0, 235.0),
        ("set flap = on", -210.0, 235.0),
        (
            'use more from "bodice.garment"\nreplace piece front "F" from more.front { spot = (twice(1 cm), -reach) }',
            -230.0,
            235.0,
        ),
        ("add to front { when flap is off { mark n at (2 cm, -2 cm) } }", -210.0, 235.0),
    ],
)
def test_a_variant_of_a_garment_with_blocks(lines: str, low: float, wide: float) -> None:
    made = varied(lines)
    assert [one.slug for one in made.findings if one.slug != "unused-name"] == []
    box = made.made[0].draft.piece("front").outline.bounds()
    assert (box[1], box[2]) == pytest.approx((low, wide))


@pytest.mark.parametrize(
    ("lines", "slug", "at"),
    [
        ("drop function twice", "unknown-name", "twice"),
        ("drop table reach", "unknown-name", "reach"),
        ("drop use bodice", "unknown-name", "bodice.front"),
        ("drop table twice", "unknown-name", "twice"),
        ("drop function twise", "unknown-name", "twise"),
        ("drop use bodise", "unknown-name", "bodise"),
        ("set bodice.dept = 3 cm", "unknown-name", "dept"),
        ("set bodise.depth = 3 cm", "unknown-name", "bodise.depth"),
        ('replace use rules from "rules.garment"', "unknown-name", "rules"),
    ],
)
def test_what_a_variant_drops_is_gone_and_what_is_not_there_is_told(lines: str, slug: str, at: str) -> None:
    found = [(one.slug, one.span.text) for one in varied(lines).findings]
    assert (slug, at) in found


def test_replace_reaches_every_branch_of_a_when() -> None:
    base = BASE.replace("finish", "when flap is on { finish", 1).replace("as pinked\n", "as pinked }\n", 1)
    base = base.replace(
        "low = (3 cm, -3 cm) } }", "low = (3 cm, -3 cm); mark q at low }; when flap is on { low = (4 cm, -4 cm) } }"
    )
    made = varied("finish front.hem, front.side, front.top as pinked\nreplace front.low = (1 cm, -2 cm)", base)
    (at,) = [mark.at for mark in made.made[0].draft.piece("front").marks if mark.name == "q"]
    assert at == pytest.approx(complex(10.0, -20.0))


def test_a_block_that_is_a_variant() -> None:
    wide = 'garment wide "Wide" varies "bodice.garment"\nedition 1\nset ease.bust_girth = 14 cm\n'
    text = f'use wide from "blocks/wide.garment"\n{FRONT.replace("bodice", "wide")}'
    assert bounds(compiled(text, wide=wide))[2] == pytest.approx(255.0)
    broken = compiled(text, wide=wide, bodice=BODICE.replace("ease bust_girth = 6 cm", "ease bust_girth = 6 cm 3"))
    assert ("unexpected-word", "blocks/bodice.garment", "3") in told(broken)
    (one,) = [one for one in broken.findings if one.slug == "unexpected-word"]
    assert [label.text for label in one.others] == ["which is varied from here", "brought in here as `wide`"]
