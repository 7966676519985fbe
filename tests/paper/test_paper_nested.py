"""Sizes laid over each other: lines that stay apart, labels on their own line, layers, and few pages."""

from __future__ import annotations

import math

import pytest
from shapely import Polygon, unary_union
from shapely.geometry import LineString, Point

from garmentc.output.paper.arrange import CELL
from garmentc.output.paper.papers import read_paper
from garmentc.output.paper.sizes import look_of
from tests.paper.printing import characters, pieces, printed
from tests.paper.reading import opened, text, unpacked

SIZES = ["76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128"]


def test_each_size_has_a_line_of_its_own() -> None:
    looks = {look_of(number) for number in range(12)}
    assert len(looks) == 12


def test_every_size_is_named_along_its_own_cut_line() -> None:
    for piece in pieces("tern"):
        rings = dict(zip(SIZES, piece.rings, strict=False))
        assert {part.layer for part in piece.parts if part.words} == {"", *SIZES}, piece.name
        for part in piece.parts:
            if part.layer == "":
                continue
            own = LineString([(p.real, p.imag) for p in (*rings[part.layer], rings[part.layer][0])])
            for words in part.words:
                a, _, c, _ = words.corners
                middle = (a + c) / 2
                assert words.text == part.layer
                assert own.distance(Point(middle.real, middle.imag)) < words.height / 2, (piece.name, part.layer)


def test_no_two_labels_touch() -> None:
    for piece in pieces("tern"):
        boxes = [Polygon([(p.real, p.imag) for p in words.corners]) for part in piece.parts for words in part.words]
        for i, box in enumerate(boxes):
            assert all(box.intersection(other).area < 0.3 for other in boxes[:i]), (piece.name, i)


def test_sizes_are_layers_that_viewers_can_switch() -> None:
    data = unpacked(printed("tern", "76,88,128", "a4").data)
    assert data.count(b"/OCG ") + data.count(b"/OCG\n") + data.count(b"/OCG/") >= 3
    assert b"/OCProperties" in data
    for size in ("76", "88", "128"):
        assert f"({size})".encode() in data


def test_twelve_sizes_take_few_pages_and_little_room() -> None:
    """At most 15 % more pages than the area of the pieces, with the gap between them, would fill."""
    paper = read_paper("a4")
    area = 0.0
    for piece in pieces("tern"):
        union = unary_union([Polygon([(p.real, p.imag) for p in ring]).buffer(CELL / 2) for ring in piece.rings])
        area += union.area
    across, up = paper.step
    bound = math.ceil(area / (across * up))
    print_ = printed("tern", "", "a4")
    assert print_.tiles <= 1.15 * bound, (print_.tiles, bound)
    assert len(print_.data) < 1_000_000


def test_the_key_names_all_sizes_and_the_strips_are_said() -> None:
    said = text(opened(printed("tern", "76,88,128", "a4").data)[0])
    for size in ("76", "88", "128"):
        assert size in said
    assert "sizes 76, 88 and 128" in said
    assert "Strap: cut 2, 3 cm wide" in said.replace("\r\n", " ")


GARMENT = """\
garment dunlin "{title}"
edition 1
measure bust_girth
piece scarf "Scarf" {{
  cut 1
  grain straight
  outline {{
    hem   : (0 cm, 0 cm) -> (bust_girth, 0 cm)
    slope : (bust_girth, 0 cm) -> (0 cm, 60 cm)
    side  : (0 cm, 60 cm) -> (0 cm, 0 cm)
  }}
}}
finish scarf.hem, scarf.slope, scarf.side as overedged
"""


@pytest.mark.parametrize("title", ["Größe", "Шаль", "Εσάρπα", "צעיף", "وشاح", "ďť-č"])
def test_names_in_scripts_of_the_shipped_font(title: str) -> None:
    findings = characters({"dunlin.garment": GARMENT.format(title=title)}, "dunlin.garment", [])
    assert [finding.slug for finding in findings] == []


def test_characters_that_no_font_has_are_told_where_they_stand() -> None:
    (finding,) = characters({"dunlin.garment": GARMENT.format(title="千鳥")}, "dunlin.garment", [])
    assert finding.slug == "missing-characters"
    span = finding.span
    assert span.source.text[span.start : span.end] == "千鳥"
