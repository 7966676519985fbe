"""The sheet of SVG and the DXF, read back and held against the draft."""

from __future__ import annotations

import io
import re
from functools import cache
from xml.etree import ElementTree

import ezdxf
import pytest
from ezdxf.document import Drawing
from shapely import Polygon

from garmentc.output.paper.dxf import pieces_dxf
from garmentc.output.paper.files import Wanted, print_svg
from garmentc.output.paper.papers import read_paper
from garmentc.output.paper.sizes import STRAY
from garmentc.output.texts.speech import ENGLISH
from tests.paper.printing import compiled

SVG = "{http://www.w3.org/2000/svg}"
# ASTM D6673-10, from a third-party summary of its layers
D6673 = {str(layer) for layer in (*range(1, 12), 13, 14, 15, 80, 81, 82, 83)}


@cache
def drawing(garment: str, only: str) -> bytes:
    made = compiled(garment, only)
    assert made.design is not None
    return pieces_dxf(made.design, made.made, "mark")


@cache
def read(garment: str, only: str) -> Drawing:
    return ezdxf.read(io.StringIO(drawing(garment, only).decode("cp1252")))


def test_dxf_has_a_block_for_each_piece_and_size_on_the_published_layers() -> None:
    document = read("tern", "76,88")
    assert document.units == 4  # mm
    blocks = {block.name for block in document.blocks if not block.name.startswith("*")}
    pieces = ("front", "back", "back_facing", "strap")
    assert blocks == {f"{piece}-{size}" for piece in pieces for size in ("76", "88")}
    assert {insert.dxf.name for insert in document.modelspace()} == blocks
    used = {one.dxf.layer for block in document.blocks for one in block}
    assert used <= D6673
    assert not document.audit().errors


@pytest.mark.parametrize(("garment", "size"), [("tern", "88"), ("curlew", "76")])
def test_boundaries_in_dxf_are_the_cut_lines(garment: str, size: str) -> None:
    document = read(garment, "76,88" if garment == "tern" else "76")
    for drawn in next(
        one for one in compiled(garment, "76,88" if garment == "tern" else "76").made if one.name == size
    ).pieces:
        block = document.blocks[f"{drawn.name}-{size}"]
        (boundary,) = [one for one in block if one.dxf.layer == "1" and one.dxftype() == "POLYLINE"]
        assert boundary.is_closed
        inside = Polygon([(p.x, p.y) for p in boundary.points()])
        wanted = Polygon([(p.real, p.imag) for p in drawn.ring])
        assert inside.boundary.hausdorff_distance(wanted.boundary) < STRAY
        assert sum(one.dxf.layer == "7" for one in block) == 1
        folds = sum(stroke.use == "fold" and stroke.edge != "" for stroke in drawn.strokes)
        assert sum(one.dxf.layer == "6" for one in block) == folds
        notches = sum(stroke.use == "notch" for stroke in drawn.strokes)
        assert sum(one.dxf.layer == "4" for one in block) == notches


def test_dxf_is_the_same_every_time() -> None:
    made = compiled("tern", "76,88")
    assert made.design is not None
    assert pieces_dxf(made.design, made.made, "mark") == drawing("tern", "76,88")


def test_the_svg_sheet_is_true_to_scale_and_holds_each_size_once() -> None:
    made = compiled("tern", "76,88")
    assert made.design is not None
    data = print_svg(made.design, made.made, read_paper("roll:914mm"), Wanted(ENGLISH))
    root = ElementTree.fromstring(data)
    width, height = root.get("width", ""), root.get("height", "")
    assert width.endswith("mm")
    assert root.get("viewBox") == f"0 0 {width.removesuffix('mm')} {height.removesuffix('mm')}"
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    assert len(ids) == len(set(ids))
    for size in ("76", "88"):
        for piece in ("front", "back", "back_facing"):
            assert f"{piece}.{size}" in ids
    corners = [
        complex(float(x), float(y))
        for path in root.iter(f"{SVG}path")
        if path.get("data-use") == "check"
        for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path.get("d", ""))
    ]
    sides = [abs(b - a) for a, b in zip(corners[::2], corners[1::2], strict=True)]
    assert [round(side, 3) for side in sides] == [50.0] * 4
    for group in root.iter(f"{SVG}g"):
        if group.get("id") == "front.88":
            cut = [path for path in group if path.get("data-use") == "cut"]
            drawn = next(one for one in made.made[1].pieces if one.name == "front")
            assert len(cut) == sum(stroke.use == "cut" for stroke in drawn.strokes)
