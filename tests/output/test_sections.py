"""Seam types and finishes cut across: all shipped ones have a picture, and a spec's own behave the same."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from garmentc.assembly.model import Join
from garmentc.output.pictures.section import section_picture
from garmentc.output.pictures.svg import picture_svg
from garmentc.pipeline import compile_spec
from garmentc.shipped import library_file, library_names
from tests.support import MemoryHost

SHIPPED = [
    *(("seam", name) for name in library_names("seams")),
    *(("finish", name) for name in library_names("finishes")),
]
SQUARE = """
  cut 1
  grain straight
  outline {
    lower : (0 cm, 0 cm) -> (30 cm, 0 cm)
    right_end : (30 cm, 0 cm) -> (30 cm, 20 cm)
    upper : (30 cm, 20 cm) -> (0 cm, 20 cm)
    left_end : (0 cm, 20 cm) -> (0 cm, 0 cm)
  }
"""
REST = "right_end, {0}.upper, {0}.left_end"


def spec(of: str, name: str, more: str = "") -> str:
    """A garment that uses one seam type or finish."""
    front = f'garment ruff "Ruff"\nedition 1\n{more}\npiece front "Front" {{{SQUARE}}}\n'
    front += f"finish front.{REST.format('front')} as found\n"
    if of == "finish":
        return front + f"finish front.lower as {name}\n"
    front += f'piece back "Back" {{{SQUARE}}}\nfinish back.{REST.format("back")} as found\n'
    return front + f"seam join joins front.lower with back.lower as {name}\n"


def used(of: str, name: str, more: str = "") -> Join:
    """The type as it is used in a garment that compiles without a finding."""
    host = MemoryHost({"ruff.garment": spec(of, name, more)})
    made = compile_spec(host, "ruff.garment", body="specs/bodies/maren.yaml")
    assert list(made.findings) == []
    (assembly,) = made.made
    uses = assembly.seams if of == "seam" else assembly.finishes
    return next(use.join for use in uses if use.join.name == name)


def library_text(of: str, name: str, inside: str = "") -> str:
    folder = f"{inside}{'seams' if of == 'seam' else 'finishes'}"
    return Path(library_file(f"{folder}/{name}.garment")).read_text(encoding="utf-8")


def test_the_library_holds_at_least_twenty_types() -> None:
    assert len(SHIPPED) >= 20


@pytest.mark.parametrize(("of", "name"), SHIPPED)
def test_each_shipped_type_is_drawn_cut_across(of: str, name: str) -> None:
    join = used(of, name)
    assert join.sections
    layers = [line.name for section in join.sections for line in section.lines if line.word == "layer"]
    assert {"first", "second"} <= set(layers) if of == "seam" else layers
    for section in join.sections:
        picture = section_picture(section, {"first": "Front", "second": "Back"})
        assert section.title in picture.alt
        assert 20 < picture.width < 420
        points = [p for stroke in picture.strokes for run in stroke.runs for p in run]
        assert all(0 <= p.real <= picture.width and 0 <= p.imag <= picture.height for p in points)
        shown = "\n".join(picture_svg(picture))
        assert shown.count("<path") == len(picture.strokes)
        assert all(f">{word.text}<" in shown for word in picture.words)


@pytest.mark.parametrize(("of", "name"), SHIPPED)
def test_each_shipped_type_names_its_class_and_stitches(of: str, name: str) -> None:
    text = library_text(of, name)
    iso = re.search(r'class "([1-8](?:\.\d\d){0,2})"', text)
    assert iso or name in ("found", "pinked", "tucked_in", "bias_faced", "fringed")
    passes = re.findall(r"^  pass .* stitch (\d{3}) ", text, re.MULTILINE)
    assert passes or name in ("found", "pinked", "tucked_in")
    if "class" in text or passes:
        assert text.startswith("#"), "the source of its class and widths stands in a comment"


@pytest.mark.parametrize(("of", "name"), [("seam", "french"), ("finish", "turned_hem")])
def test_a_type_of_the_spec_behaves_like_a_shipped_one(of: str, name: str) -> None:
    mine = library_text(of, name) + library_text(of, name, "sections/")
    mine = re.sub(rf"\b{name}\b", "mine", mine)
    shipped, own = used(of, name), used(of, "mine", mine)
    assert own._replace(name=name) == shipped


def test_a_section_follows_the_widths_that_are_set() -> None:
    shipped = used("seam", "french")
    host = MemoryHost({"ruff.garment": spec("seam", "french { set second = 9 mm }")})
    (made,) = compile_spec(host, "ruff.garment", body="specs/bodies/maren.yaml").made
    gaps = [
        [abs(line.points[1][0] - line.points[0][0]) for line in join.sections[1].lines if line.word == "gap"]
        for join in (shipped, made.seams[0].join)
    ]
    assert gaps == [[6.0], [9.0]]


def test_a_section_of_the_spec_takes_the_place_of_the_shipped_ones() -> None:
    mine = 'section of seam plain "my way" { layer first : on (-1 cm, 0) -> (1 cm, 0); row (0 cm, 1) -> (0 cm, 0) }'
    assert [section.title for section in used("seam", "plain", mine).sections] == ["my way"]


@pytest.mark.parametrize(
    ("section", "slug"),
    [
        ('section of seam lost "x" { row (0 mm, 0) -> (0 mm, 1) }', "unknown-name"),
        ('section of finish plain "x" { row (0 mm, 0) -> (0 mm, 1) }', "unknown-name"),
        ('section of seam plain "x" { row (0 mm, 0 mm) -> (0 mm, 1) }', "wrong-kind"),
        ('section of seam plain "x" { gap (1, 0) -> (0 mm, 0) }', "wrong-kind"),
        ('section of seam plain "x" { layer first : (lost, 0) -> (0 mm, 0) }', "unknown-name"),
    ],
)
def test_a_section_that_means_nothing_is_told_at_its_place(section: str, slug: str) -> None:
    host = MemoryHost({"ruff.garment": spec("seam", "plain", section)})
    (finding,) = compile_spec(host, "ruff.garment").findings
    assert finding.slug == slug
    assert finding.span.source.name == "ruff.garment"
