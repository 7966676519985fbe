"""Pages read back and measured: true to scale, nothing beyond the printable area, joints that meet."""

from __future__ import annotations

import re

import pytest
from pypdfium2 import PdfPage

from garmentc.output.paper.papers import MARGIN, OVERLAP, read_paper
from tests.paper.printing import compiled, printed
from tests.paper.reading import opened, paths, pixels, prints_unscaled, shown_drawings, text, texts

NEAR = 0.05  # mm
_FOOT = re.compile(r"^(?:([A-Z])(\d+)\s+)?page (\d+) of (\d+)", re.MULTILINE)


@pytest.mark.parametrize(
    ("paper", "wide", "high"),
    [
        ("a4", 210.0, 297.0),  # ISO 216, papersizes.org/a-paper-sizes-tstb.htm
        ("letter", 215.9, 279.4),  # ANSI/ASME Y14.1, from memory
        ("a3", 297.0, 420.0),
        ("a0", 841.0, 1189.0),
        ("roll:914mm", 914.0, None),
    ],
)
def test_square_bars_and_paper_are_true_to_scale(paper: str, wide: float, high: float | None) -> None:
    page = opened(printed("tern", "88", paper).data)[0]
    width, height = (side * 25.4 / 72 for side in page.get_size())
    assert abs(width - wide) < NEAR
    assert high is None or abs(height - high) < NEAR
    straight = [path for path in paths(page) if len(path.points) == 2 and path.depth == 0]
    for long, count in ((50.0, 4), (100.0, 2), (4 * 25.4, 2)):
        found = [path.points[1] - path.points[0] for path in straight if abs(path.length - long) < NEAR]
        level = [way for way in found if abs(way.imag) < 1e-3]
        upright = [way for way in found if abs(way.real) < 1e-3]
        assert len(level) == len(upright) == count / 2, long


@pytest.mark.parametrize(
    ("garment", "only", "paper"), [("tern", "88", "a4"), ("tern", "88", "letter"), ("curlew", "76,88", "a3")]
)
def test_nothing_lies_beyond_the_printable_area(garment: str, only: str, paper: str) -> None:
    per_mm = 4.0
    for page in opened(printed(garment, only, paper).data):
        shot = pixels(page, per_mm) < 250
        rim = round((MARGIN - 0.5) * per_mm)
        assert shot[rim:-rim, rim:-rim].any()
        shot[rim:-rim, rim:-rim] = False
        assert not shot.any()


def test_the_fullest_notes_end_above_the_foot() -> None:
    """Two languages, twelve sizes, the lowest paper."""
    words = texts(opened(printed("tern", "", "letter", "en,de").data)[0])
    foot = min(at.imag for _, at in words)
    assert all(at.imag > foot + 3.0 for _, at in words if at.imag > foot + 0.1)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_joints_meet(paper: str) -> None:
    """The drawings of two neighbours are shifted by exactly the step between pages, and so are all joint lines."""
    document = opened(printed("tern", "88", paper).data)
    tiles = {}
    for page in list(document)[1:]:
        row, column, _, _ = _FOOT.search(text(page)).groups()  # type: ignore[union-attr]
        tiles[ord(row), int(column)] = page
    width, height = (side * 25.4 / 72 for side in document[1].get_size())
    across, up = width - 2 * MARGIN - OVERLAP, height - 2 * MARGIN - OVERLAP
    compared = 0
    for (row, column), page in tiles.items():
        for other, shift in (((row, column + 1), across), ((row + 1, column), -1j * up)):
            if other in tiles:
                here, there = shown_drawings(page), shown_drawings(tiles[other])
                both = [
                    (complex(*one[4:]), complex(*two[4:]))
                    for one in here
                    for two in there
                    if abs(complex(*one[4:]) - complex(*two[4:]) - shift) < 1.0
                ]
                for one, two in both:
                    assert abs(one - two - shift) < NEAR
                    compared += 1
    assert compared >= 5


def lone_numbers(page: PdfPage) -> set[str]:
    """The numbers that stand alone: those of joints, and in the map those of pages."""
    lines = [words.split() for words, _ in texts(page)]
    return {word for line in lines for word in line if all(one.isdigit() for one in line)}


def test_each_joint_is_marked_on_both_pages_and_on_no_other() -> None:
    document = opened(printed("tern", "88", "a4").data)
    numbers: dict[str, int] = {}
    for page in list(document)[1:]:
        shown = lone_numbers(page)
        for number in shown:
            numbers[number] = numbers.get(number, 0) + 1
    assert sorted(map(int, numbers)) == list(range(1, len(numbers) + 1))
    assert set(numbers.values()) == {2}


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_pages_are_numbered_named_and_all_in_the_map(paper: str) -> None:
    document = opened(printed("tern", "88", paper).data)
    feet = [_FOOT.search(text(page)) for page in document]
    assert all(foot is not None for foot in feet)
    found = [foot.groups() for foot in feet if foot is not None]
    assert [int(number) for _, _, number, _ in found] == list(range(1, len(document) + 1))
    assert {int(count) for _, _, _, count in found} == {len(document)}
    names = [(row, column) for row, column, _, _ in found[1:]]
    assert len(set(names)) == len(names)
    in_map = lone_numbers(document[0])
    assert {str(number) for number in range(2, len(document) + 1)} <= in_map
    assert all("print at 100 %" in text(page) for page in document)


def test_every_page_holds_something() -> None:
    document = opened(printed("tern", "88", "a4").data)
    for page in list(document)[1:]:
        shot = pixels(page, 2.0) < 128
        rim = round((MARGIN + OVERLAP) * 2)
        assert shot[rim:-rim, rim:-rim].any()


def test_viewers_are_told_not_to_scale() -> None:
    assert prints_unscaled(opened(printed("tern", "88", "a4").data))


def test_a_sheet_that_holds_all_has_no_joints() -> None:
    document = opened(printed("tern", "88", "a0").data)
    assert len(document) == 1
    assert "All pieces lie on this sheet." in text(document[0]).replace("\r\n", " ")


def test_one_print_is_like_another() -> None:
    first = printed("tern", "88", "a4").data
    printed.cache_clear()
    assert printed("tern", "88", "a4").data == first


@pytest.mark.parametrize("wrong", ["a9", "roll:3mm", "roll:914", ""])
def test_a_wrong_paper_is_told(wrong: str) -> None:
    with pytest.raises(ValueError, match=r"paper|roll"):
        read_paper(wrong)


def test_cut_lines_on_pages_are_those_of_the_draft() -> None:
    """From end to end each is as long as in the draft, wherever its piece lies."""
    page = opened(printed("tern", "88", "a0").data)[0]
    drawn = [path.length for path in paths(page) if path.depth == 1]
    for piece in compiled("tern", "88").made[0].pieces:
        for stroke in piece.strokes:
            if stroke.use in ("cut", "stitch", "notch"):
                long = abs(stroke.segments[-1].end - stroke.segments[0].start)
                assert min(abs(one - long) for one in drawn) < NEAR, (piece.name, stroke.edge)
