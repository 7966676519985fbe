"""The names of edges in a sketch lie clear of every line and of each other, and each tells its own edge (shapely)."""

from __future__ import annotations

import cmath
import math
import re
from functools import cache
from itertools import combinations

import pytest
from shapely.geometry import LineString, Point, box

from garmentc.assembly.model import CutPiece
from garmentc.host import DiskHost
from garmentc.output.sheet.edge_names import Name, NamedEdge, name_edges
from garmentc.output.sheet.sketch import Sketch, sketch_piece
from garmentc.pipeline import compile_spec

CHART = "specs/sizes/women-en13402.yaml"


@cache
def pieces(garment: str) -> tuple[CutPiece, ...]:
    return compile_spec(DiskHost(), f"specs/{garment}.garment", sizes=CHART, only=["88"]).made[0].pieces


def line(points: tuple[complex, ...]) -> LineString:
    return LineString([(p.real, p.imag) for p in points])


def check(names: list[Name], edges: list[NamedEdge]) -> None:
    """Nothing touches; a name with a line is tied to its edge, one without is nearest to it."""
    drawn = [(edge.text, line(path)) for edge in edges for path in (edge.outer, edge.inner)]
    for name in names:
        assert not any(path.intersects(box(*name.box)) for _, path in drawn), name.text
        own = min(path.distance(box(*name.box)) for text, path in drawn if text == name.text)
        other = min(path.distance(box(*name.box)) for text, path in drawn if text != name.text)
        if name.leader is None:
            assert own < other, name.text
        else:
            start, end = (Point(p.real, p.imag) for p in name.leader)
            assert min(path.distance(start) for text, path in drawn if text == name.text) < 0.6
            assert end.distance(box(*name.box)) < end.distance(start)
    for one, two in combinations(names, 2):
        assert not box(*one.box).intersects(box(*two.box)), (one.text, two.text)
        for first, second in ((one, two), (two, one)):
            if first.leader is not None:
                assert not line(first.leader).intersects(box(*second.box)), (one.text, two.text)
                assert second.leader is None or not line(first.leader).intersects(line(second.leader))


def label(sketch: Sketch, text: str) -> complex:
    return next(one.at for one in sketch.labels if one.text == text)


@pytest.mark.parametrize("garment", ["tern", "plover", "curlew", "blocks/bodice"])
def test_every_edge_of_the_demo_garments_is_named_once(garment: str) -> None:
    for piece in pieces(garment):
        names = sorted(re.sub(r" \((fold|turn over)\)$", "", one.text) for one in sketch_piece(piece).labels)
        folds = [one.name for one in piece.drafted.lines if one.kind == "fold"]
        told = [one.name for one in piece.drafted.edges] + folds
        assert names == sorted(one.replace(".", " ").replace("_", " ") for one in told)


def test_the_strap_seat_and_its_mirror_image_are_not_mixed_up() -> None:
    """The facing is drawn above the neckline, so its strap seat is named above that of the front (y down)."""
    sketch = sketch_piece(pieces("tern")[0])
    assert label(sketch, "facing strap seat").imag < label(sketch, "strap seat").imag
    assert [stroke.kind for stroke in sketch.strokes].count("leader") >= 2


@pytest.mark.parametrize("corners", [3, 4, 7, 12])
@pytest.mark.parametrize("hollow", [1.0, 0.45])
def test_names_round_stars_are_clear_whatever_their_shape(corners: int, hollow: float) -> None:
    ring = [
        cmath.rect(100 if i % 2 == 0 else 100 * hollow, math.tau * i / (2 * corners) + 0.3) for i in range(2 * corners)
    ]
    shapes = [(ring[i - 1], ring[i]) for i in range(len(ring))]
    edges = [NamedEdge(f"edge number {i}", ends, ends) for i, ends in enumerate(shapes)]
    names = name_edges(edges, shapes, 10.0)
    check(names, edges)
    assert len(names) == len(edges) or len(edges) > 20  # more than there is room for


def test_an_edge_that_finds_no_place_stays_without_a_name() -> None:
    square = (0j, 100 + 0j, 100 + 100j, 100j)
    edges = [NamedEdge("long " * 40, (square[i - 1], square[i]), (square[i - 1], square[i])) for i in range(4)]
    fence = [(complex(x, -2000), complex(x, 2000)) for x in range(-2000, 2001, 15)]
    assert name_edges(edges, [edge.outer for edge in edges] + fence, 10.0) == []


def test_edges_with_allowances_are_named_clear_of_both_lines() -> None:
    outer = (-12 - 12j, 112 - 12j, 112 + 212j, -12 + 212j)
    inner = (0j, 100 + 0j, 100 + 200j, 200j)
    edges = [
        NamedEdge(text, (outer[i - 1], outer[i]), (inner[i - 1], inner[i]))
        for i, text in enumerate(("left side", "lower edge", "right side", "upper edge"))
    ]
    names = name_edges(edges, [path for edge in edges for path in (edge.outer, edge.inner)], 10.0)
    check(names, edges)
    assert all(name.leader is None for name in names)
