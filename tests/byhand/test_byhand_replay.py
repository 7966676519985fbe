"""A pattern drawn from the written instructions lies on the printed one."""

from __future__ import annotations

from functools import cache

import pytest
from shapely import hausdorff_distance
from shapely.geometry import LineString, MultiLineString

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.host import DiskHost
from garmentc.output.byhand.files import hand_file
from garmentc.output.patterns.piece import size_strokes
from garmentc.output.texts.speech import Speech, Voice
from garmentc.pipeline import compile_spec
from tests.byhand.replay import Drawn, replay, texts_of_html, texts_of_markdown

CHART = "specs/sizes/women-en13402.yaml"
MOST = 2.0  # mm
CASES = [
    ("specs/tern.garment", "88", False),
    ("specs/tern.garment", "128", True),
    ("specs/plover.garment", "88", False),
    ("specs/blocks/bodice.garment", "88", False),
    ("specs/blocks/bodice.garment", "76", True),
    ("specs/blocks/trousers.garment", "128", True),
    ("specs/curlew.garment", "76", True),
]


@cache
def assembled(spec: str, size: str) -> Assembly:
    compiled = compile_spec(DiskHost(), spec, sizes=CHART, only=[size])
    return compiled.made[0]


def printed_lines(assembly: Assembly, piece: CutPiece, uses: tuple[str, ...]) -> MultiLineString:
    """The lines that a printer draws, from the first point of the piece."""
    lines = []
    for stroke in size_strokes(assembly, piece):
        if stroke.use in uses:
            for segment in stroke.segments:
                points = [segment.start, *segment.flatten(0.01)]
                lines.append(LineString([(p.real, p.imag) for p in points]))
    return MultiLineString(lines)


def drawn_lines(drawn: Drawn, purposes: tuple[str, ...], shift: complex) -> MultiLineString:
    return MultiLineString(
        [
            LineString([((p + shift).real, (p + shift).imag) for p in line.points])
            for line in drawn.lines
            if any(word in line.purpose for word in purposes)
        ]
    )


def begun_at(piece: CutPiece) -> complex:
    """The first point of a piece: the start of the fold, else of its longest straight square edge."""
    edges = piece.drafted.edges

    def rank(i: int) -> tuple[bool, bool, bool, float, int]:
        path = edges[i].path
        straight = path.is_straight(0.15)
        square = straight and min(abs(path.chord.real), abs(path.chord.imag)) < 0.05
        return edges[i].on_fold, square, straight, round(path.length, 3), -i

    return edges[max(range(len(edges)), key=rank)].path.start


@pytest.mark.parametrize(("spec", "size", "inches"), CASES)
def test_the_drawn_pattern_lies_on_the_printed_one(spec: str, size: str, inches: bool) -> None:
    assembly = assembled(spec, size)
    speech = Speech((Voice("en", inches),))
    pieces = replay(texts_of_html(hand_file(assembly, speech, "html").decode()))
    assert len(pieces) == len(assembly.pieces)
    for piece, drawn in zip(assembly.pieces, pieces.values(), strict=True):
        shift = begun_at(piece)
        for uses, purposes in (
            (("cut", "fold"), ("cut", "fold", "turned over")),
            (("stitch",), ("stitching",)),
            (("dart", "pleat"), ("a leg", "a line")),
        ):
            printed = printed_lines(assembly, piece, uses)
            by_hand = drawn_lines(drawn, purposes, shift)
            if printed.is_empty and by_hand.is_empty:
                continue
            assert hausdorff_distance(printed, by_hand, densify=0.02) <= MOST, (piece.drafted.name, uses)
        notches = [piece.drafted.edge(one.edge).path.point_at(one.along) for one in piece.notches]  # type: ignore[union-attr]
        assert len(notches) == len(drawn.notches)
        assert all(abs(at + shift - one) <= MOST for at, one in zip(drawn.notches, notches, strict=True))
        for mark in piece.drafted.marks:
            assert min(abs(at + shift - mark.at) for at in drawn.crosses) <= MOST


def test_markdown_says_the_same_as_html() -> None:
    assembly = assembled("specs/tern.garment", "88")
    html, markdown = (hand_file(assembly, Speech(), kind).decode() for kind in ("html", "md"))
    assert replay(texts_of_markdown(markdown)) == replay(texts_of_html(html))


def test_a_wrong_number_is_seen() -> None:
    assembly = assembled("specs/tern.garment", "88")
    html = hand_file(assembly, Speech(), "html").decode()
    right = replay(texts_of_html(html))
    wrong = replay(texts_of_html(html.replace("measure 16\xa0cm up", "measure 17\xa0cm up", 1)))
    piece = assembly.pieces[0]
    printed = printed_lines(assembly, piece, ("stitch",))
    for pieces, is_near in ((right, True), (wrong, False)):
        by_hand = drawn_lines(next(iter(pieces.values())), ("stitching",), begun_at(piece))
        assert (hausdorff_distance(printed, by_hand, densify=0.02) <= MOST) == is_near
