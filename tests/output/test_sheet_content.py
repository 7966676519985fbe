"""What the sheet says: the numbers of the assembly, every piece, seam and step, and the cautions that apply."""

from __future__ import annotations

import re
from functools import cache
from itertools import pairwise

import pytest

from garmentc.assembly.model import Assembly
from garmentc.host import DiskHost
from garmentc.numbers import decimal
from garmentc.output.sheet.content import sheet_document
from garmentc.output.sheet.document import Caution, Checklist, Document, Heading, Items, Paragraph, Step, Steps, Table
from garmentc.output.sheet.files import sheet_files
from garmentc.output.sheet.needs import THREAD_WASTE
from garmentc.output.sheet.words import square, tape, tape_up
from garmentc.pipeline import compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
SIZES = ("76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128")

SQUARE = """garment square "Square"
edition 1
piece shawl "Shawl" {
  cut 1 on fold middle
  grain GRAIN
  outline {
    middle : (0 cm, 0 cm) -> (0 cm, 40 cm)
    slope  : (0 cm, 40 cm) -> (-40 cm, 0 cm)
    lower  : (-40 cm, 0 cm) -> (0 cm, 0 cm)
  }
}
finish shawl.slope, shawl.lower as narrow_hem
"""


@cache
def assembly(garment: str, size: str, *settings: str) -> Assembly:
    compiled = compile_spec(DiskHost(), f"specs/{garment}.garment", sizes=CHART, only=[size], settings=settings)
    assert not compiled.findings.has_errors
    return compiled.made[0]


def document(garment: str, size: str, *settings: str) -> Document:
    return sheet_document(assembly(garment, size, *settings))


def steps(sheet: Document) -> tuple[Step, ...]:
    return next(block for block in sheet.blocks if isinstance(block, Steps)).steps


def table(sheet: Document, caption: str) -> dict[str, tuple[str, ...]]:
    found = next(block for block in sheet.blocks if isinstance(block, Table) and block.caption == caption)
    return {row[0]: row[1:] for row in found.rows}


def words(sheet: Document) -> str:
    """All texts of a sheet, one a line."""
    lines: list[str] = []
    for block in sheet.blocks:
        if isinstance(block, (Heading, Paragraph)):
            lines.append(block.text)
        elif isinstance(block, (Items, Checklist, Caution)):
            lines += block.lines
        elif isinstance(block, Table):
            lines += [cell for row in block.rows for cell in row]
        elif isinstance(block, Steps):
            lines += [line for step in block.steps for line in (step.title, *step.lines, *step.after)]
    return "\n".join(lines)


def test_measures_ease_and_finished_sizes_of_one_size() -> None:
    sheet = document("tern", "88")
    assert table(sheet, "Body measures used")["bust girth"][0] == "88 cm"
    assert table(sheet, "Ease: what the garment is wider than the body")["bust girth"][0] == "4 cm"
    assert table(sheet, "Finished measurements")["Bust, all round at the underarm"] == ("92 cm",)
    assert table(sheet, "Finished measurements")["Strap width"] == ("10 mm",)


def test_bust_88_gives_a_front_of_24_and_a_back_of_22_on_each_side() -> None:
    text = words(document("tern", "88"))
    assert "48 cm wide (half: 24 cm)" in text
    assert "44 cm wide (half: 22 cm)" in text


@pytest.mark.parametrize("size", SIZES)
def test_straps_finish_one_centimetre_wide_in_every_size(size: str) -> None:
    assert table(document("tern", size), "Strips")["Strap"][2] == "10 mm"
    assert "and then 10 mm wide" in words(document("tern", size))


@pytest.mark.parametrize("size", SIZES)
def test_passes_of_the_french_seam_add_up_to_the_allowance_of_its_edge(size: str) -> None:
    sheet = document("tern", size)
    side = next(step for step in steps(sheet) if step.title == "Side: French seam")
    first = next(line for line in side.lines if re.match(r"Stitch \d+ mm from the cut edge", line))
    second = next(line for line in side.lines if re.match(r"Stitch \d+ mm from the fold", line))
    passes = [int(found) for line in (first, second) for found in re.findall(r"Stitch (\d+) mm", line)]
    assert table(sheet, "Edges of the Front")["side"][1] == f"{sum(passes)} mm"


@pytest.mark.parametrize("garment", ["tern", "plover"])
@pytest.mark.parametrize("size", SIZES)
def test_each_piece_edge_seam_and_step_stands_on_the_sheet_with_its_numbers(garment: str, size: str) -> None:
    made = assembly(garment, size)
    sheet = document(garment, size)
    headings = [block.text for block in sheet.blocks if isinstance(block, Heading)]
    for piece in made.pieces:
        assert piece.drafted.title in headings
        edges = table(sheet, f"Edges of the {piece.drafted.title}")
        assert len(edges) == len(piece.drafted.edges)
        for edge in piece.drafted.edges:
            long, allowance, _ = edges[edge.name.replace(".", " ").replace("_", " ")]
            assert long == tape(edge.path.length)
            assert allowance == (tape(piece.uses[edge.name].allowance) if piece.uses[edge.name].allowance else "none")
    for strip in made.strips:
        assert strip.drafted.title in headings
    shown = steps(sheet)
    assert [(step.number, len(step.lines)) for step in shown] == [(step.number, len(step.lines)) for step in made.steps]
    for seam in made.seams:
        title = f"{seam.name.replace('_', ' ').capitalize()}: {seam.join.title}"
        step = next(step for step in shown if step.title == title)
        assert tape(seam.first_length) in " ".join(step.after)
    for measure in made.draft.design.measures:
        assert f"{decimal(made.draft.body.measures[measure].mm / 10, 1)} cm" in words(sheet)


@pytest.mark.parametrize("garment", ["tern", "plover"])
def test_area_counts_both_halves_of_a_folded_piece_and_every_copy(garment: str) -> None:
    made = assembly(garment, "92")
    halves = sum(2 * abs(piece.cut_line.area) for piece in made.pieces if piece.drafted.on_fold)
    strips = sum(strip.drafted.number * abs(strip.cut_line.area) for strip in made.strips)
    assert all(piece.drafted.on_fold for piece in made.pieces)
    assert f"together: {square(halves + strips)}," in words(document(garment, "92"))


def test_a_cloth_box_along_the_threads_of_a_bias_piece_is_square_when_its_hems_are() -> None:
    across, along = table(document("tern", "88"), "Cloth pieces")["Front"][2].split(" × ")
    assert across == along


def test_thread_to_have_is_what_the_seams_take_and_the_waste_rounded_up() -> None:
    made = assembly("plover", "88")
    rows = table(document("plover", "88"), "Thread by stitch")
    assert len(rows) == len(made.thread)
    for use in made.thread:
        have = float(rows[f"{use.stitch.title} ({use.stitch.code})"][2].removesuffix(" m")) * 1000
        assert 0 <= have - use.thread * (1 + THREAD_WASTE) < 1000 + 1e-6
    assert "10 to 15 %" in words(document("plover", "88"))
    assert "15 to 20 %" in words(document("plover", "88"))


def test_a_seam_over_the_fold_is_measured_in_one() -> None:
    made = assembly("tern", "88")
    top = next(seam for seam in made.seams if seam.name == "top")
    drafted = made.draft
    halves = [drafted.piece(name.piece).edge(name.edge) for name in top.first]
    assert top.first_length == 2 * sum(edge.path.length for edge in halves if edge is not None)
    assert f"Seam line: {tape(top.first_length)}\n" in words(document("tern", "88")) + "\n"
    side = next(seam for seam in made.seams if seam.name == "side")
    assert f"Seam line: {tape(side.first_length)} on each side" in words(document("tern", "88"))


def test_cords_are_warned_of_only_where_there_are_straps_or_loops() -> None:
    def titles(garment: str) -> list[str]:
        return [block.title for block in document(garment, "88").blocks if isinstance(block, Caution)]

    assert "Straps, ties and loops on children's clothes" in titles("tern")
    assert "Straps, ties and loops on children's clothes" not in titles("plover")
    for garment in ("tern", "plover"):
        assert "This sheet does not replace local rules or licensed practice." in words(document(garment, "88"))


def test_bias_is_spoken_of_only_where_a_piece_is_cut_on_the_bias() -> None:
    assert "24 hours" in words(document("tern", "88"))
    assert "24 hours" not in words(document("plover", "88"))


def test_edges_that_are_the_cloths_own_hem_are_named() -> None:
    assert "Lay the hem exactly on the cloth's own hem" in words(document("tern", "88"))
    assert "Lay the hem exactly" not in words(document("plover", "88"))


def test_a_mark_is_told_by_the_ends_of_the_edge_it_is_on() -> None:
    told = words(document("tern", "88"))
    assert (
        "Tip, on the strap seat, 7 mm from its armhole end and 2.3 cm from the neckline fold, one on each side: strap."
        in told
    )
    assert "Strap, on the top, 14.7 cm from its side end and 7.5 cm from its centre end, one on each side" in told
    side = "on the side, 8 cm from its hem end and 8 cm from its armhole end, one on each side (seam side)"
    assert f"Single notch {side}." in told


def test_a_step_tells_on_which_edge_a_strap_is_caught_and_how_far_from_its_ends() -> None:
    tip = 'at the mark "strap" of the Front (on the strap seat, 7 mm from its armhole end and 2.3 cm from the neckline fold, one on'
    back = (
        'at the mark "strap or loop" of the Back (on the top, 14.7 cm from its side end and 7.5 cm from its centre end, '
        "one on each"
    )
    sewn = words(document("tern", "88"))
    assert f"Lay one end of each Strap on the edge {tip}" in sewn
    assert f"Lay the other end of each Strap on the edge {back}" in sewn
    assert f"lay both its ends on the edge {back}" in words(document("tern", "88", "straps=loops"))


def test_what_becomes_of_the_ends_of_a_strap_is_a_step() -> None:
    """There is nothing to lay a tape along: the strap itself is measured when it is made."""
    (ends,) = [step for step in steps(document("tern", "88", "straps=loops")) if step.title.startswith("Ends")]
    assert ends.title == "Ends turned in: ends of the Strap" and ends.after == ()
    assert "Turn one end of each Strap in by 10 mm" in ends.lines[0]


@pytest.mark.parametrize("size", SIZES)
def test_the_two_distances_of_a_place_are_the_whole_edge(size: str) -> None:
    found = re.search(r"on the top, ([\d.]+) cm from its side end and ([\d.]+) cm", words(document("tern", size)))
    assert found is not None
    top = assembly("tern", size).draft.piece("back").edge("top")
    assert top is not None
    assert float(found[1]) + float(found[2]) == pytest.approx(top.path.length / 10, abs=0.1 + 1e-9)


def test_edges_are_named_as_one_says_them() -> None:
    titles = [step.title for step in steps(document("avocet", "88"))]
    assert "Bound edge: wrap of the Front and neckline of the Back" in titles
    hem = next(step for step in steps(document("plover", "88")) if step.title.startswith("Double-turned hem"))
    assert hem.title == "Double-turned hem: hem of the Front and of the Back"
    assert hem.after == ("Front: hem 54 cm", "Back: hem 54 cm")
    armhole = next(step for step in steps(document("plover", "88")) if "armhole of the" in step.title)
    assert armhole.after == ("Front: armhole 21 cm on each side", "Back: armhole 21 cm on each side")


def test_the_facing_of_a_seam_is_told_by_its_edges_and_a_grown_facing_by_its_piece() -> None:
    facing = "the facing strap seat of the Front, the facing armhole of the Front and the top of the Back facing"
    assert f"on the facing ({facing})" in words(document("tern", "88"))
    assert "The facing is cut in one with the Front and folded back along the neckline." in words(
        document("tern", "88")
    )
    assert "cut in one" not in words(document("plover", "88"))


@pytest.mark.parametrize("garment", ["tern", "plover", "tern_tunic", "heron", "curlew"])
@pytest.mark.parametrize("size", SIZES)
def test_no_length_on_the_sheet_is_finer_than_a_tape(garment: str, size: str) -> None:
    assert re.findall(r"\d+\.\d\d+ (?:cm|mm)\b", words(document(garment, size))) == []


@pytest.mark.parametrize("size", SIZES)
def test_strips_are_cut_in_steps_of_5_mm_and_never_short(size: str) -> None:
    cut = table(document("tern", size), "Strips")["Strap"][1].split(" × ")[1]
    strap = assembly("tern", size).strips[0].drafted.making
    assert strap is not None
    mm = float(cut.removesuffix(" cm")) * 10
    assert mm % 5 == 0
    assert 0 <= mm - strap.length < 5
    assert f"Cut 2 strips, 3 cm wide and {cut} long" in words(document("tern", size))
    assert f"Strap {cut} long and 10 mm wide" in words(document("tern", size))


def test_a_strip_is_not_spoken_of_as_a_pattern() -> None:
    sheet = document("tern", "88")
    strap = next(
        text.text
        for before, text in pairwise(sheet.blocks)
        if before == Heading(3, "Strap") and isinstance(text, Paragraph)
    )
    assert "pattern" not in strap
    assert "the lengthwise threads run along the strip" in strap


def test_the_sheet_begins_with_what_it_is_for() -> None:
    sheet = document("plover", "88")
    assert sheet.blocks[0] == Heading(2, "About this sheet")
    assert "garment plover, edition 1, size 88" in words(Document("", sheet.blocks[:2]))
    assert sheet.blocks.count(Heading(2, "About this sheet")) == 1


def test_what_is_set_from_outside_is_told_and_marked_and_the_rest_is_not() -> None:
    sheet = document("tern", "88", "ease.bust_girth=10cm", "straps=loops")
    assert table(sheet, "Ease: what the garment is wider than the body")["bust girth"][0] == "10 cm (changed)"
    settings = table(sheet, "Settings of this garment")
    assert settings["straps"][0] == "loops (changed)"
    assert settings["side length"][0] == "16 cm"
    assert "Changed for this build" in words(sheet)
    assert "ease of bust girth: 10 cm; straps: loops" in words(sheet)
    assert "Changed for" not in words(document("tern", "88"))


def test_every_param_ease_and_choice_stands_on_the_sheet() -> None:
    for garment in ("tern", "plover", "tern_tunic", "heron", "curlew"):
        design = assembly(garment, "88").draft.design
        text = words(document(garment, "88"))
        for name in (*design.params, *design.choices):
            assert name.removeprefix("ease.").replace("_", " ") in text


def test_a_choice_set_from_outside_changes_settings_strips_and_steps() -> None:
    sheet = document("tern", "88", "straps=loops")
    assert table(sheet, "Settings of this garment")["straps"][0] == "loops (changed)"
    assert "Loop" in table(sheet, "Strips")
    knots = next(step for step in steps(sheet) if step.title == "Knots")
    assert knots.lines[0].startswith("Draw each strap through its loop")


def test_a_sheet_for_one_person_names_the_person_and_the_measures() -> None:
    compiled = compile_spec(DiskHost(), "specs/tern.garment", body="specs/bodies/ilse.yaml")
    (html, text) = (data.decode() for _, data in sheet_files(compiled.made[0]))
    assert "for Ilse" in html
    assert "| bust girth | 84.5 cm |" in text


@pytest.mark.parametrize("garment", ["tern", "plover", "avocet"])
def test_the_time_is_left_blank_for_the_maker(garment: str) -> None:
    cells = list(table(document(garment, "88"), "Time it takes").values())
    assert cells == [("", "")] * 4


def test_what_is_on_the_bias_is_cut_unfolded_and_what_is_straight_on_the_fold() -> None:
    assert {cut for cut, *_ in table(document("tern", "88"), "Cloth pieces").values()} == {"1 unfolded"}
    assert {cut for cut, *_ in table(document("plover", "88"), "Cloth pieces").values()} == {"1 on the fold"}


def test_the_middle_of_a_seam_over_the_fold_is_marked_where_its_allowance_has_room() -> None:
    told = words(document("plover", "88"))
    assert told.count("Middle of the neckline, at the centre: snip 3 mm into the allowance.") == 4
    assert "Middle of the hem" not in told  # a hem meets nothing
    assert "Middle of the neckline" not in words(document("avocet", "88"))  # it is bound, without an allowance


def test_lengths_are_told_with_darts_closed_only_where_there_are_darts() -> None:
    assert "of the sewing line, with darts sewn." in words(document("avocet", "88"))
    assert "darts sewn" not in words(document("plover", "88"))


def test_bias_strips_are_in_the_cutting_list_with_their_angle() -> None:
    told = words(document("avocet", "88"))
    assert "Cut them at 45° to the threads" in told
    assert "1 × 3 cm wide and 120.5 cm long, for the wrap of the Front and the neckline of the Back." in told
    assert "the bias strips of bindings" in told


def test_a_bias_strip_in_parts_tells_its_joins_when_it_is_cut() -> None:
    bound = "finish shawl.slope, shawl.lower as bound { parts 70 cm }"
    text = SQUARE.replace("GRAIN", "straight").replace("finish shawl.slope, shawl.lower as narrow_hem", bound)
    compiled = compile_spec(MemoryHost({"square.garment": text}), "square.garment", sizes=CHART, only=["88"])
    (run,) = (run for use in compiled.made[0].bindings for run in use.runs)
    assert (run.parts, len(run.joins)) == (3, 2)
    told = words(sheet_document(compiled.made[0]))
    assert f"3 × 3 cm wide and {tape_up(run.part)} long, 3 to a strip with 2 joins, for the slope" in told


def test_a_garment_without_interfacing_says_so() -> None:
    assert "None: no piece is interfaced." in words(document("plover", "88"))


def test_a_strip_is_measured_without_what_its_ends_have_taken_in() -> None:
    """47 cm are cut, and 10 mm at the one free end are turned in before the tie is folded and stitched."""
    (tie,) = (step for step in steps(document("avocet", "88")) if step.title.startswith("Tie of the front"))
    assert tie.after == ("Tie of the front 46 cm long and 10 mm wide",)


def test_a_seam_with_ease_is_measured_before_and_after() -> None:
    (armhole,) = (step for step in steps(document("avocet", "88")) if step.title.startswith("Armhole:"))
    before, after = armhole.after
    assert before.startswith("Before it is sewn: 45.8 cm (Sleeve: front cap, back cap) and 43.3 cm (Front: armhole; ")
    assert after == "Seam line: 43.3 cm on each side"


def test_nothing_that_is_cut_unfolded_is_spoken_of_as_on_a_fold() -> None:
    assert table(document("tern", "88"), "Edges of the Front")["centre"][2] == "middle, not cut"
    assert table(document("plover", "88"), "Edges of the Front")["centre"][2] == "lies on the fold"
    assert "lies on the fold" not in words(document("tern", "88"))


@pytest.mark.parametrize(
    ("grain", "cut"),
    [
        ("straight", "1 on the fold"),
        ("cross", "1 on the fold"),
        ("bias", "1 unfolded"),
        ("bias along slope", "1 on the fold"),  # the slope lies at 45 degrees, so the fold runs along a thread
        ("straight along slope", "1 unfolded"),
    ],
)
def test_it_is_the_way_of_the_fold_through_the_threads_that_counts(grain: str, cut: str) -> None:
    host = MemoryHost({"square.garment": SQUARE.replace("GRAIN", grain)})
    compiled = compile_spec(host, "square.garment", sizes=CHART, only=["88"])
    assert not compiled.findings.has_errors
    assert table(sheet_document(compiled.made[0]), "Cloth pieces")["Shawl"][0] == cut


def test_what_is_measured_from_a_fold_says_so() -> None:
    told = words(document("plover", "88"))
    assert "on the neckline, 9.6 cm from its shoulder end and 6.4 cm from the centre fold, one on each side" in told
    assert "on the waist, 11.2 cm from the centre fold and 13.8 cm from its side end." in words(
        document("curlew", "88")
    )
    assert "from the centre fold" not in words(document("tern", "88"))  # it is cut unfolded
