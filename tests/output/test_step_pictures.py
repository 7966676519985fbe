"""The pictures of the steps: what lies on what, which side of the cloth is seen, and what is sewn at which distance."""

from __future__ import annotations

import re
from functools import cache
from itertools import combinations

import pytest

from garmentc.assembly.model import Assembly, FinishedEdge, JoinedSeam
from garmentc.host import DiskHost
from garmentc.output.pictures.hatch import hatch
from garmentc.output.pictures.laid import inside
from garmentc.output.pictures.model import Picture, word_box
from garmentc.output.pictures.steps import step_pictures
from garmentc.output.sheet.files import sheet_files
from garmentc.pipeline import compile_spec
from tests.language.small import assembled

CHART = "specs/sizes/women-en13402.yaml"


@cache
def made(garment: str, *settings: str) -> Assembly:
    compiled = compile_spec(DiskHost(), f"specs/{garment}.garment", sizes=CHART, only=["88"], settings=settings)
    (assembly,) = compiled.made
    return assembly


def pictures(garment: str, step: str) -> tuple[Picture, ...]:
    assembly = made(garment)
    return step_pictures(assembly, next(one for one in assembly.steps if one.name == step))


@pytest.mark.parametrize("garment", ["tern", "plover", "curlew"])
def test_each_step_has_pictures_inside_their_frames(garment: str) -> None:
    assembly = made(garment)
    for step in assembly.steps:
        found = step_pictures(assembly, step)
        assert found or (step.about == "own" and not assembly.draft.design.step_edges[step.name])
        for picture in found:
            assert picture.alt.endswith(".")
            points = [p for stroke in picture.strokes for run in stroke.runs for p in run]
            assert all(0 <= p.real <= picture.width and 0 <= p.imag <= picture.height for p in points)
        if isinstance(step.thing, JoinedSeam | FinishedEdge):
            assert len(found) == 1 + len(step.thing.join.sections)


def test_a_french_seam_begins_with_the_right_sides_out_at_its_first_width() -> None:
    alt = pictures("tern", "side")[0].alt
    assert "On top, right side up: Front. Below, wrong side up: Back." in alt
    assert "9 mm from the cut edge" in alt


def test_a_plain_seam_has_its_right_sides_together() -> None:
    alt = pictures("plover", "side")[0].alt
    assert "On top, wrong side up: Front. Below, right side up: Back." in alt
    assert "18 mm from the cut edge" in alt


def test_layers_that_are_seen_from_their_wrong_side_are_hatched() -> None:
    for garment, step, layers in (("tern", "side", 1), ("plover", "side", 1), ("curlew", "waist", 0)):
        strokes = pictures(garment, step)[0].strokes
        assert sum(stroke.kind == "hatch" for stroke in strokes) == layers, step


def test_pieces_joined_before_lie_opened_out_and_the_facing_lies_on_them() -> None:
    alt = pictures("plover", "neck")[0].alt
    assert "On top, wrong side up: Front, Back. Below, right side up: Front neck facing, Back neck facing." in alt
    alt = pictures("tern", "top")[0].alt
    assert "Below, right side up: facing of the Front, Back facing." in alt


def test_both_sides_of_a_garment_are_sewn_where_both_lie_on_each_other() -> None:
    (rows,) = (stroke for stroke in pictures("plover", "side")[0].strokes if stroke.kind == "row")
    assert len(rows.runs) == 2
    left, right = (run[0].real for run in rows.runs)
    assert abs(left - right) > 100


def test_sides_that_cannot_lie_on_each_other_are_shown_side_by_side() -> None:
    picture = pictures("curlew", "waist")[0]
    assert "opened out: Front, Back, Front peplum, Back peplum" in picture.alt
    assert sum(stroke.kind == "edge" for stroke in picture.strokes) == 4


def test_sides_apart_carry_letters_where_their_ends_meet() -> None:
    """The fronts of the shoulder end at the armhole and at the neck: each end carries the letter of the back's."""
    assembly = made("avocet")
    seam = next(one for one in assembly.seams if one.name == "shoulder")
    (picture, *_) = pictures("avocet", "shoulder")
    assert "A on A and B on B" in picture.caption
    letters = [word.text for word in picture.words if len(word.text) == 1]
    assert sorted(letters) == ["A", "A", "A", "B", "B", "B"]  # one front, and both shoulders of the back
    assert [one.name.piece for side in seam.sides for one in side] == ["front", "back"]


def test_words_of_a_picture_do_not_cover_each_other() -> None:
    for name in ("waist", "band_side", "armhole"):
        boxes = [word_box(word) for word in pictures("avocet", name)[0].words]
        for (low, high), (its_low, its_high) in combinations(boxes, 2):
            apart = high.real <= its_low.real or its_high.real <= low.real
            assert apart or high.imag <= its_low.imag or its_high.imag <= low.imag, name


def test_long_groups_lie_one_below_the_other() -> None:
    words = {word.text: word.at for word in pictures("avocet", "band_side")[0].words}
    assert abs(words["Front band"].real - words["Back band"].real) < 20
    assert words["Back band"].imag - words["Front band"].imag > 50


def test_a_fold_that_looks_like_an_edge_is_told() -> None:
    """The facing is cut in one with the front, and drawn by itself where only it is sewn."""
    for step in ("side", "facing_side", "top"):
        assert "The neckline of the Front is a fold, not an edge." in pictures("tern", step)[0].alt
    assert "is a fold" not in pictures("plover", "side")[0].alt


def test_the_name_of_an_edge_stands_beside_the_cloth() -> None:
    picture = pictures("tern", "top")[0]
    (word,) = picture.words
    low, high = word_box(word)
    rings = [stroke.runs[0] for stroke in picture.strokes if stroke.kind == "cloth" and stroke.closed]
    assert rings and not any(inside((low + high) / 2, ring) for ring in rings)


def test_a_hem_shows_where_the_edge_was_and_turns_to_the_wrong_side() -> None:
    hem = next(step for step in made("plover").steps if step.title.startswith("Double-turned hem: the hem"))
    picture = step_pictures(made("plover"), hem)[0]
    kinds = [stroke.kind for stroke in picture.strokes]
    assert kinds.count("was") == 4  # the hems of front and back, on each side of their folds
    assert kinds.count("hatch") == 2
    assert "turned by 10 mm, then by 2.5 cm" in picture.alt


def test_a_strip_lies_between_the_layers_where_it_is_caught() -> None:
    strokes = pictures("tern", "top")[0].strokes
    below = max(i for i, stroke in enumerate(strokes) if stroke.kind == "cloth" and stroke.closed)
    assert any(stroke.kind == "cloth" and not stroke.closed for stroke in strokes[:below])


def test_hatching_stays_inside_its_outline() -> None:
    ring = (0j, 60 + 0j, 60 + 60j, 30 + 20j, 60j)
    runs = hatch(ring).runs
    assert len(runs) > 10
    for start, end in runs:
        middle = (start + end) / 2
        assert 0 <= middle.real <= 60 and 0 <= middle.imag <= 60
        assert middle.imag <= max(20 + abs(middle.real - 30) * 4 / 3, 0) + 1e-6


def test_the_sheet_shows_each_picture_with_its_text_and_keeps_ids_apart() -> None:
    assembly = made("curlew")
    html = dict(sheet_files(assembly))["sheet.html"].decode()
    for step in assembly.steps:
        for picture in step_pictures(assembly, step):
            assert f'aria-label="{picture.alt}"'.replace("'", "&#x27;") in html
    ids = re.findall(r' id="([^"]+)"', html)
    assert len(ids) == len(set(ids))
    assert html.count("Measured:") == html.count("<strong>Measure:</strong>") > 5


def test_a_step_of_ones_own_shows_where_it_is_done() -> None:
    """The necklines are stay stitched before the shoulders are sewn: front and back are still apart."""
    (picture,) = pictures("plover", "stay_stitching")
    assert picture.caption.endswith("thick: the neckline.")
    assert len([stroke for stroke in picture.strokes if stroke.kind == "edge"]) >= 2
    assert {"Front", "Back"} <= {word.text for word in picture.words}


def test_sections_name_the_sides_by_their_pieces_or_what_these_have_in_common() -> None:
    sides = {word.text for picture in pictures("tern", "top")[1:] for word in picture.words}
    assert {"Front, Back", "Facing"} <= sides
    sides = {word.text for picture in pictures("curlew", "waist")[1:] for word in picture.words}
    assert {"Front, Back", "Peplum"} <= sides


def test_the_layers_of_one_piece_are_named_by_what_tells_them_apart() -> None:
    words = {word.text for picture in pictures("avocet", "underarm")[1:] for word in picture.words}
    assert {"Under front", "Under back"} <= words
    words = {word.text for picture in pictures("avocet", "band_end")[1:] for word in picture.words}
    assert {"Front end", "Inner front end"} <= words


def small(pieces: dict[str, str], seam: str) -> Assembly:
    """Oblongs that are sewn along their lower edges, or as the seam says."""
    text = 'garment knot "Knot"\nedition 1\n'
    for name, title in pieces.items():
        text += (
            f'piece {name} "{title}" {{ cut 2; grain straight; outline {{\n'
            "lower : (0 cm, 0 cm) -> (40 cm, 0 cm)\nright_end : (40 cm, 0 cm) -> (40 cm, 30 cm)\n"
            "upper : (40 cm, 30 cm) -> (0 cm, 30 cm)\nleft_end : (0 cm, 30 cm) -> (0 cm, 0 cm)\n} }\n"
        )
    return assembled(text + seam)


def section_words(assembly: Assembly, name: str) -> set[str]:
    """The words beside the sections of a step."""
    step = next(one for one in assembly.steps if one.name == name)
    return {
        word.text for one in step_pictures(assembly, step) if one.alt.startswith("Cut across") for word in one.words
    }


def test_copies_of_a_piece_are_told_apart_where_a_seam_is_sewn_and_where_it_is_closed() -> None:
    edges = [f"mat.{edge} of copy {{0}}" for edge in ("lower", "right_end", "upper", "left_end")]
    first, second = (" then ".join(edges).format(copy) for copy in (1, 2))
    made = small({"mat": "Mat"}, f"seam round joins {first} with {second} as enclosed {{ leave 12 cm at 20 cm }}\n")
    for step in ("round", "close round"):
        assert {"Copy 1 of the Mat", "Copy 2 of the Mat"} <= section_words(made, step)


def test_a_long_title_is_shortened_and_never_becomes_a_general_word() -> None:
    title = "Border of the lower half of the wrapping cloth"
    rest = "".join(
        f"finish {piece}.right_end, {piece}.upper, {piece}.left_end as pinked\n" for piece in ("border", "cloth")
    )
    seam = f"seam join joins border.lower with cloth.lower as plain\n{rest}"
    made = small({"border": title, "cloth": "Cloth"}, seam)
    assert {"Border", "Cloth"} <= section_words(made, "join")
