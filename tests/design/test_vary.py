"""One garment as a variant of another."""

import pytest

from garmentc.pipeline import Compiled, compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
BASE = """garment stint "Stint"
edition 1
measure bust_girth
param height = 20 cm from 10 cm to 40 cm
param collar : choice none, band = none
ease bust_girth = 6 cm
half = (bust_girth + ease.bust_girth) / 4
piece front "Front" {
  cut 1 on fold centre
  grain straight
  low = (half, 0 cm)
  outline {
    hem    : (0 cm, 0 cm) -> low
    side   : low -> (half, height)
    top    : (half, height) -> (0 cm, height)
    centre : (0 cm, height) -> (0 cm, 0 cm)
  }
}
when collar is band {
  strip band "Band" { cut 1; length 40 cm; width 6 cm; make flat }
}
finish front.hem, front.side as overedged
finish front.top as pinked
check "not too short" height >= 12 cm
step label "Sew in the label."
"""


def compiled(variant: str, **more: str) -> Compiled:
    files = {
        "stint.garment": BASE,
        "knot.garment": f'garment knot "Knot" varies "stint.garment"\nedition 1\n{variant}',
        **more,
    }
    return compile_spec(MemoryHost(files), "knot.garment", sizes=CHART, only=["88"])


def width(found: Compiled) -> float:
    assert not list(found.findings), list(found.findings)
    return found.made[0].draft.piece("front").outline.bounds()[2]


def test_a_variant_without_changes_is_its_base_under_another_name() -> None:
    found = compiled("")
    assert width(found) == pytest.approx(235.0)
    assert found.design is not None
    assert (found.design.name, found.design.title) == ("knot", "Knot")


def test_set_changes_param_ease_and_choice() -> None:
    assert width(compiled("set ease.bust_girth = 10 cm")) == pytest.approx(245.0)
    found = compiled("set height = 30 cm\nset collar = band")
    assert found.made[0].draft.params["height"] == 300.0
    assert found.design is not None
    assert "band" in found.design.strips


def test_replace_a_definition_of_the_garment_of_a_piece_and_an_edge() -> None:
    assert width(compiled("replace half = bust_girth / 4 + ease.bust_girth")) == pytest.approx(280.0)
    found = compiled("replace front.low = (half + 5 cm, 0 cm)")
    assert width(found) == pytest.approx(285.0)
    found = compiled("replace front.top : (half, height) -> (0 cm, height) curve leaving up, arriving left")
    assert not found.made[0].draft.piece("front").outline.edges[2].is_straight()


def test_replace_a_whole_block() -> None:
    found = compiled('set collar = band\nreplace strip band "Band" { cut 2; length 41 cm; width 6 cm; make flat }')
    assert found.made[0].draft.piece("band").number == 2


def test_drop_and_add() -> None:
    found = compiled(
        'drop step label\ndrop check "not too short"\nset height = 11 cm\ndrop finish of front.top\n'
        "finish front.top as overedged\nadd to front { notch on side at 50 % }"
    )
    assert width(found)
    assembly = found.made[0]
    assert [step.about for step in assembly.steps].count("own") == 0
    assert len(assembly.draft.piece("front").notches) == 1


ORDERED = "finish front.side as overedged\nfinish front.hem as overedged\norder front.side before front.hem\n"


@pytest.mark.parametrize("written", ["front.hem after front.side", "front.side before front.hem"])
def test_an_order_of_the_base_is_dropped_however_it_is_written(written: str) -> None:
    base = BASE.replace("finish front.hem, front.side as overedged\n", ORDERED)
    turned = compiled(f"drop order {written}\norder front.hem before front.side", **{"stint.garment": base})
    assert width(turned)
    names = [step.name for step in turned.made[0].steps]
    assert names.index("finish front.hem") < names.index("finish front.side")


def test_an_order_that_the_base_does_not_ask_for_is_told_with_those_it_does() -> None:
    base = BASE.replace("finish front.hem, front.side as overedged\n", ORDERED)
    (finding,) = compiled("drop order front.side after front.hem", **{"stint.garment": base}).findings
    assert (finding.slug, finding.headline) == ("unknown-name", "the base asks for no such order")
    assert "front.side before front.hem" in finding.help


def test_variants_of_variants() -> None:
    middle = 'garment dunlin "Dunlin" varies "stint.garment"\nedition 1\nset height = 31 cm\nset ease.bust_girth = 8 cm'
    files = {
        "stint.garment": BASE,
        "dunlin.garment": middle,
        "knot.garment": 'garment knot "Knot" varies "dunlin.garment"\nedition 1\nset height = 32 cm',
    }
    found = compile_spec(MemoryHost(files), "knot.garment", sizes=CHART, only=["88"])
    assert width(found) == pytest.approx(240.0)
    assert found.made[0].draft.params["height"] == 320.0


@pytest.mark.parametrize(
    ("variant", "place", "help"),
    [
        ("set hieght = 3 cm", "hieght", "height"),
        ("set ease.bust_grith = 3 cm", "ease.bust_grith", "bust_girth"),
        ("replace hlaf = 3 cm", "hlaf", "half"),
        ("replace frnt.low = (0 cm, 0 cm)", "frnt", "front"),
        ("replace front.lwo = (0 cm, 0 cm)", "lwo", "low"),
        ("replace front.tpo : front.low -> front.low", "tpo", "top"),
        ("drop step labl", "labl", "label"),
        ("drop piece frnot", "frnot", "front"),
        ("add to frotn { notch on side at 50 % }", "frotn", "front"),
    ],
)
def test_what_the_base_does_not_have(variant: str, place: str, help: str) -> None:
    findings = list(compiled(variant).findings)
    assert [finding.slug for finding in findings] == ["unknown-name"]
    assert findings[0].span.text == place
    assert findings[0].span.source.name == "knot.garment"
    assert help in findings[0].help


def test_a_fault_in_the_base_is_found_in_the_base() -> None:
    found = compiled("", **{"stint.garment": BASE.replace("low -> (half, height)", "lwo -> (half, height)")})
    (finding,) = found.findings
    assert (finding.slug, finding.span.source.name) == ("unknown-name", "stint.garment")


def test_rings_missing_files_and_paths_outside() -> None:
    ring = compiled("", **{"stint.garment": 'garment stint "S" varies "knot.garment"\nedition 1\n'})
    assert [finding.slug for finding in ring.findings][:1] == ["variant-ring"]
    for path, slug in (("gone.garment", "file-unreadable"), ("../stint.garment", "outside-project")):
        host = MemoryHost({"knot.garment": f'garment knot "K" varies "{path}"\nedition 1\n'})
        findings = list(compile_spec(host, "knot.garment").findings)
        assert [finding.slug for finding in findings] == [slug], path
        assert findings[0].span.text == f'"{path}"'


def test_changes_need_a_base() -> None:
    host = MemoryHost({"stint.garment": BASE + "set height = 30 cm\n"})
    assert [finding.slug for finding in compile_spec(host, "stint.garment").findings] == ["nothing-to-vary"]
