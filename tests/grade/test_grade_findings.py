"""Planted unevenness is found at its line, once; what the spec declares is silent; the specs of the studio are clean."""

from pathlib import Path

import pytest

from garmentc.diagnostics.finding import Severity
from garmentc.host import DiskHost
from garmentc.pipeline import Request, compile_grade
from tests.grade.small import CHART, bib, faults, graded
from tests.grade.test_grade_movement import FACED
from tests.language.test_language_reference import PARTS, framed, pinked
from tests.support import MemoryHost

ROOT = Path(__file__).parents[2]
OWN = {"length-turns-back", "uneven-step", "sizes-cross", "needless-uneven"}
STEPPED = "(if bust_girth > 98 cm then 3 cm else 0 cm)"
TURNING = "(if bust_girth < 98 cm then bust_girth / 8 else 24.5 cm - bust_girth / 8)"
CURVED = bib().replace("ending : near -> far", "ending : near -> far arc bulge DEPTH")


@pytest.mark.parametrize("spec", sorted(str(one.relative_to(ROOT)) for one in (ROOT / "specs").rglob("*.garment")))
def test_the_studio_has_even_sizes(spec: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    grade, findings = compile_grade(DiskHost(), Request(spec, CHART))
    assert grade is not None
    assert [(one.slug, one.headline) for one in findings if one.slug in OWN] == []


def test_a_wrong_rule_of_a_point_is_found_at_the_point() -> None:
    assert faults(bib(wide=f"bust_girth / 4 + {STEPPED}")) == [
        ("uneven-step", 7, f"near = (bust_girth / 4 + {STEPPED}, 0 cm)")
    ]
    (finding,) = graded(bib(wide=f"bust_girth / 4 + {STEPPED}"))[1]
    assert finding.severity is Severity.WARNING
    assert finding.headline == "point `near` of piece `bib` makes an uneven step from size 96 to 100"
    assert finding.notes == (
        "`bib.lower` changes by 4 cm from size 96 to 100; the measures explain 10 mm",
        "`bib.upper` changes by 4 cm from size 96 to 100; the measures explain 10 mm",
    )
    assert finding.sizes == ("96", "100")
    assert '`uneven lower "why"` and `uneven upper "why"`' in finding.help


def test_a_length_that_turns_back_is_found_at_the_point() -> None:
    assert faults(bib(deep=TURNING)) == [("length-turns-back", 8, f"far  = near up {TURNING}")]
    (finding,) = graded(bib(deep=TURNING))[1]
    assert finding.headline == "point `far` of piece `bib` moves one way up to size 100, then back"
    assert "`bib.ending` is 12 cm in size 96, 12 cm in size 100, 11.5 cm in size 104" in finding.notes


def test_an_edge_whose_own_shape_is_uneven_is_found_at_the_edge() -> None:
    stepped = CURVED.replace("DEPTH", "1 cm + (if bust_girth > 98 cm then 4 cm else 0 cm)")
    assert [one[:2] for one in faults(stepped)] == [("uneven-step", 11)]
    turning = CURVED.replace("DEPTH", "(if bust_girth < 98 cm then bust_girth / 20 else 20 cm - bust_girth / 7)")
    (finding,) = graded(turning)[1]
    assert (finding.slug, finding.span.line) == ("length-turns-back", 11)
    assert finding.headline.startswith("edge `ending` of piece `bib` grows up to size 100, then shrinks")


def test_lines_that_cross_are_found_at_the_edge() -> None:
    slanted = bib().replace("far  = near up bust_girth / 8 + 3 cm", "far  = (18 cm - bust_girth / 8, 20 cm)")
    (finding,) = graded(slanted)[1]
    assert (finding.slug, finding.span.line, finding.span.text) == ("sizes-cross", 11, "ending : near -> far")
    assert finding.headline == "the lines of edge `ending` of piece `bib` cross in sizes 76 and 80"
    # near moves right by 1 cm and far left by 0.5 cm from 76 to 80: they meet two thirds of the way up and along.
    assert finding.notes == (
        "with the sizes aligned at its origin (0, 0), they cross 12 cm to the right of it and 13.33 cm above it",
    )
    assert len(finding.sizes) == 12


def test_sizes_that_cross_at_the_origin_may_not_cross_at_a_point_they_share() -> None:
    slanted = bib().replace("far  = near up bust_girth / 8 + 3 cm", "far  = (18 cm - bust_girth / 8, 20 cm)")
    assert faults(slanted, align=["bib.near"]) == []


def test_one_cause_in_several_pieces_is_one_finding() -> None:
    text = bib(wide=f"bust_girth / 4 + {STEPPED}")
    text += """piece back "Back" from bib { }
piece other "Other" {
  cut 1
  grain straight
  corner_here = bib.near
  outline {
    lower : (0 cm, 0 cm) -> corner_here
    ending : corner_here -> (0 cm, 9 cm)
    opening : (0 cm, 9 cm) -> (0 cm, 0 cm)
  }
}
finish back.lower, back.ending, back.upper, back.opening, other.lower, other.ending, other.opening as pinked
"""
    (finding,) = graded(text)[1]
    assert finding.span.line == 7
    assert [(label.span.text, label.text) for label in finding.others] == [
        ("far  = near up bust_girth / 8 + 3 cm", "the same in piece `bib`"),
        ("corner_here = bib.near", "the same in piece `other`"),
    ]


def test_two_causes_are_two_findings() -> None:
    found = faults(bib(wide=f"bust_girth / 4 + {STEPPED}", deep=TURNING))
    assert [(slug, line) for slug, line, _ in found] == [("uneven-step", 7), ("length-turns-back", 8)]


def test_what_the_chart_steps_is_even() -> None:
    both = "bust_girth / 4 + hip_girth / 8 - waist_girth / 16"
    text = bib(wide=both, deep="hip_girth / 2 - waist_girth / 4", measures=", hip_girth, waist_girth")
    assert faults(text) == []


def test_a_slip_in_the_chart_shows() -> None:
    chart = Path(ROOT / CHART).read_text(encoding="utf-8").replace("[76, 80, 84, 88,", "[76, 80, 88, 84,")
    found = graded(bib(), chart=chart)[1]
    assert {one.slug for one in found} == {"length-turns-back"}


def test_declared_edges_are_silent_and_the_others_not() -> None:
    text = bib(wide=f"bust_girth / 4 + {STEPPED}", more='  uneven lower "for the large napkins"')
    (finding,) = graded(text)[1]
    assert finding.help.endswith('that it is meant: `uneven upper "why"`')
    assert faults(bib(wide=f"bust_girth / 4 + {STEPPED}", more='  uneven lower "a"\n  uneven upper "b"')) == []


def test_a_declaration_that_silences_nothing_is_told_when_all_sizes_are_there() -> None:
    text = bib(more='  uneven lower "as the napkin"')
    assert faults(text) == [("needless-uneven", 15, 'uneven lower "as the napkin"')]
    assert faults(text, only=["76", "80", "84"]) == []


def test_a_declaration_holds_for_pieces_taken_from_it_and_for_mirror_images() -> None:
    uneven = bib(wide=f"bust_girth / 4 + {STEPPED}", more='  uneven lower "a"\n  uneven upper "b"')
    taken = (
        uneven + 'piece back "Back" from bib { }\nfinish back.lower, back.ending, back.upper, back.opening as pinked\n'
    )
    assert faults(taken) == []
    stepped = FACED.replace("side_high down 4 cm", f"side_high down 4 cm + {STEPPED}")
    assert {one[0] for one in faults(stepped)} == {"uneven-step"}
    mirrored = stepped.replace("  grow facing", '  uneven facing.side "a"\n  uneven centre "b"\n  grow facing')
    assert faults(mirrored) == []


def test_a_variant_leaves_the_declarations_of_its_base_alone() -> None:
    base = bib(more='  uneven lower "as the napkin"')
    files = {
        "knot.garment": base,
        "knot_long.garment": 'garment knot_long "Knot, long" varies "knot.garment"\nedition 1\n',
    }
    grade, findings = compile_grade(MemoryHost(files), Request("knot_long.garment", CHART))
    assert grade is not None
    assert list(findings) == []


def test_a_variant_can_declare() -> None:
    base = bib(wide=f"bust_girth / 4 + {STEPPED}")
    variant = 'garment knot_long "Knot, long" varies "knot.garment"\nedition 1\nadd to bib {\n  uneven lower "a"\n  uneven upper "b"\n}\n'
    files = {"knot.garment": base, "knot_long.garment": variant}
    _, findings = compile_grade(MemoryHost(files), Request("knot_long.garment", CHART))
    assert list(findings) == []


@pytest.mark.parametrize(
    ("more", "slug", "text"),
    [
        ('  uneven lowre "why"', "unknown-name", "lowre"),
        ('  uneven lower "a"\n  uneven lower "b"', "said-twice", 'uneven lower "b"'),
        ("  uneven lower", "unexpected-word", ""),
    ],
)
def test_a_faulty_declaration_stops_the_run(more: str, slug: str, text: str) -> None:
    grade, findings = compile_grade(MemoryHost({"knot.garment": bib(more=more)}), Request("knot.garment", CHART))
    assert grade is None
    (finding,) = findings
    assert (finding.slug, finding.span.text.strip()) == (slug, text)


@pytest.mark.parametrize(
    ("align", "help"), [("bib.fra", "bib.far"), ("fra", "there are"), ("bib.upper", "there are"), ("", "there are")]
)
def test_a_point_to_align_at_that_does_not_exist(align: str, help: str) -> None:
    grade, findings = compile_grade(MemoryHost({"knot.garment": bib()}), Request("knot.garment", CHART), [align])
    assert grade is None
    (finding,) = findings
    assert (finding.slug, finding.span.source.name) == ("unknown-name", "--align")
    assert help in finding.help


def test_the_example_of_the_language_needs_what_it_declares() -> None:
    (part,) = (one for one in PARTS if "uneven" in one.text)
    text = pinked(framed(part))
    assert text.count("  uneven ") + text.count("\nuneven ") == 2
    _, findings = compile_grade(MemoryHost({"knot.garment": text}), Request("knot.garment", CHART))
    assert [one.slug for one in findings if one.slug in OWN] == []
    bare = "\n".join(line for line in text.splitlines() if not line.strip().startswith("uneven"))
    _, findings = compile_grade(MemoryHost({"knot.garment": bare}), Request("knot.garment", CHART))
    assert {one.slug for one in findings if one.slug in OWN} == {"uneven-step"}


def test_errors_of_the_draft_come_first() -> None:
    grade, findings = compile_grade(
        MemoryHost({"knot.garment": bib(wide="bust_girth - 80 cm")}), Request("knot.garment", CHART)
    )
    assert grade is None
    assert findings.has_errors
    assert not {one.slug for one in findings} & OWN
