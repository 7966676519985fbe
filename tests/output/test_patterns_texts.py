"""Patterns against odd input: texts that look like markup, tiny pieces, other kinds of line; and the same bytes always."""

from __future__ import annotations

import hashlib
import math
import os
import re
import subprocess
import sys
from xml.etree import ElementTree

import pytest

from garmentc.assembly.model import Assembly
from garmentc.host import DiskHost
from garmentc.output.patterns.files import pattern_files
from garmentc.output.patterns.letters import text_width, wrapped
from garmentc.output.patterns.room import room_in
from garmentc.pipeline import compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
SVG = "{http://www.w3.org/2000/svg}"


def drawn(spec: str) -> dict[str, ElementTree.Element]:
    compiled = compile_spec(MemoryHost({"odd.garment": spec}), "odd.garment", sizes=CHART, only=("88",))
    assert not compiled.findings.has_errors, [finding.headline for finding in compiled.findings]
    return {name: ElementTree.fromstring(data) for name, data in pattern_files(compiled.made[0])}


def texts(root: ElementTree.Element) -> str:
    return " ".join(text.text or "" for text in root.iter(f"{SVG}text")).replace("\u00a0", " ")


def tern() -> Assembly:
    return compile_spec(DiskHost(), "specs/tern.garment", sizes=CHART, only=("88",)).made[0]


def with_titles(assembly: Assembly, title: str) -> Assembly:
    design = assembly.draft.design._replace(title=title, edition=title)
    pieces = tuple(
        piece._replace(
            drafted=piece.drafted._replace(
                title=title, marks=tuple(mark._replace(text=title) for mark in piece.drafted.marks)
            )
        )
        for piece in assembly.pieces
    )
    return assembly._replace(draft=assembly.draft._replace(design=design), pieces=pieces)


@pytest.mark.parametrize("title", ["a <b>&amp; \"c\" 'd'", "</text><script>alert(1)</script>", "]]><!--", "&#0;&lt;"])
def test_texts_are_escaped(title: str) -> None:
    for name, data in pattern_files(with_titles(tern(), title)):
        root = ElementTree.fromstring(data)
        assert not list(root.iter(f"{SVG}script"))
        if name != "strap.svg":
            assert title.split(" ")[-1] in " ".join(root.itertext()), name


@pytest.mark.parametrize(
    "title", ["a\u0000b\u001b[31m", "half \ud800 pair", "line\nbreak\ttab", "\u202eesrever", "\uffff"]
)
def test_what_a_file_can_not_hold_is_left_out(title: str) -> None:
    for _, data in pattern_files(with_titles(tern(), title)):
        ElementTree.fromstring(data)
        assert not re.search("[\x00-\x09\x0b-\x1f\u202e\uffff]", data.decode())


TINY = """garment tiny "Tiny things, with a title much longer than any of them"
edition 1

piece tab "A tab that no words fit into" {
  cut pair
  grain straight
  a = (0 cm, 0 cm)
  outline {
    low   : a -> a right 18 mm
    right : a right 18 mm -> a right 18 mm up 14 mm
    high  : a right 18 mm up 14 mm -> a up 14 mm arc bulge 4 mm
    left  : a up 14 mm -> a
  }
  mark hole at a right 9 mm up 7 mm "a hole for the cord that draws it shut"
}
strip loop "Loop" { cut 2; length 5 cm; width 2.5 cm; make tube stitched 5 mm from edge }
finish tab.low, tab.right, tab.high, tab.left as pinked
"""


def test_words_without_room_go_below_the_piece() -> None:
    found = drawn(TINY)
    said = texts(found["tab.svg"])
    for text in ("A tab that no words fit into", "cut a pair", "size 88", "hole: a hole for the cord", "no allowances"):
        assert text in said
    assert "Loop, size 88, cut 2" in texts(found["loop.svg"])
    root = found["tab.svg"]
    wide = float(root.attrib["viewBox"].split()[2])
    for text in root.iter(f"{SVG}text"):
        if text.get("data-use") == "label":
            assert float(text.attrib["x"]) + text_width(text.text or "", 2.6) < wide


ROUND = """garment round "Round"
edition 1

piece disc "Half a disc" {
  cut 1 on fold straight_edge
  grain cross
  a = (0 cm, -12 cm)
  b = (0 cm, 12 cm)
  outline {
    straight_edge : b -> a
    rim : a -> b arc bulge 12 cm
  }
  guide middle : (0 cm, 0 cm) -> (12 cm, 0 cm) "middle line"
  lengthen half at level((0 cm, 6 cm))
  notch on rim at 25 %
}
finish disc.rim as pinked
"""


def test_arcs_guides_and_notches_without_allowance() -> None:
    root = drawn(ROUND)["disc.svg"]
    by_id = {element.get("id"): element for element in root.iter() if element.get("id")}
    assert "A120 120 0 0" in by_id["disc.rim.cut"].attrib["d"]
    guide = next(e for e in root.iter(f"{SVG}path") if e.get("data-use") == "guide")
    x0, y0, x1, y1 = map(float, re.findall(r"[-.\d]+", guide.attrib["d"]))
    assert (x1 - x0, y1 - y0) == (120.0, 0.0)
    double = [e.attrib["d"] for e in root.iter(f"{SVG}path") if e.get("data-use") == "lengthen"]
    ends = [tuple(map(float, re.findall(r"[-.\d]+", d))) for d in double]
    assert [x1 - x0 for x0, _, x1, _ in ends] == pytest.approx([math.sqrt(120**2 - 60**2)] * 2, abs=0.01)
    assert abs(ends[0][1] - ends[1][1]) == pytest.approx(6.0, abs=0.01)
    notch = next(e for e in root.iter(f"{SVG}path") if e.get("data-use") == "notch")
    x0, y0, x1, y1 = map(float, re.findall(r"[-.\d]+", notch.attrib["d"]))
    assert abs(complex(x1 - x0, y1 - y0)) == pytest.approx(4.0, abs=0.01)
    said = texts(root)
    assert (
        "middle line" in said
        and "lengthen or shorten here" in said
        and "cross grain" in said
        and "cut 1 on the fold" in said
    )


def test_numbers_have_three_decimals_at_most() -> None:
    for _, data in pattern_files(tern()):
        assert not re.search(r"\d\.\d{4}|\de[-+]?\d|nan|inf\b", data.decode())


def test_ids_are_not_used_twice() -> None:
    for _, data in pattern_files(tern()):
        ids = [element.attrib["id"] for element in ElementTree.fromstring(data).iter() if "id" in element.attrib]
        assert len(ids) == len(set(ids))


def test_bytes_are_the_same_whatever_the_hash_seed() -> None:
    program = (
        "import hashlib; from garmentc.host import DiskHost; from garmentc.pipeline import compile_spec;"
        "from garmentc.output.patterns.files import pattern_files;"
        f"made = compile_spec(DiskHost(), 'specs/tern.garment', sizes={CHART!r}, only=('88',)).made[0];"
        "print(hashlib.sha256(repr(pattern_files(made)).encode()).hexdigest())"
    )
    here = hashlib.sha256(repr(pattern_files(tern())).encode()).hexdigest()
    for seed in ("0", "1", "4711"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        done = subprocess.run(
            [sys.executable, "-c", program], env=environment, capture_output=True, text=True, check=True
        )
        assert done.stdout.strip() == here


def test_nothing_is_forgotten_between_two_runs() -> None:
    assembly = tern()
    assert pattern_files(assembly) == pattern_files(assembly)


def test_lines_break_only_at_plain_spaces() -> None:
    text = "allowances included: side\u00a015\u00a0mm; hem\u00a0none"
    lines = wrapped(text, 1.0, 14.0)
    assert " ".join(lines) == text
    assert len(lines) > 1
    assert all("15\u00a0mm" in line or "15" not in line for line in lines)


@pytest.mark.parametrize("shift", [n * math.pi / 7 for n in range(-60, 60)])
def test_an_arrow_that_just_fits_has_a_length(shift: float) -> None:
    # As wide as the arrow with its margins: what arithmetic leaves over must not make it vanish.
    ring = [complex(shift, 0), complex(shift + 6.0, 0), complex(shift + 6.0, 60), complex(shift, 60)]
    room = room_in(ring, [], 1 + 0j)
    low, high = room.rise(shift + 3.0 - 3.0, (shift + 3.0) + 3.0, 30.0)
    assert high - low > 50.0
