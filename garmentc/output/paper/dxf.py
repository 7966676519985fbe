"""Pieces as DXF, one block for each piece and size, on the layers of ASTM D6673-10.

The layers are those of the standard at second hand (a summary by others); the words of the texts on layer 1 are from
memory. Lengths are in mm.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from garmentc.design.model import Design
from garmentc.geometry.segments import Segment
from garmentc.geometry.vector import Point
from garmentc.output.paper.sizes import Outlined, SizeDrawing
from garmentc.output.patterns.scene import Stroke, box_of

if TYPE_CHECKING:
    from ezdxf.layouts import BlockLayout

STRAY = 0.05
"""mm that a curve made of straight stretches may leave the true one."""

BOUNDARY, TURNS, CURVES, NOTCHES, MIRROR, GRAIN, INNER, MARKS, SEW, TEXTS = 1, 2, 3, 4, 6, 7, 8, 13, 14, 15
"""The layers that are used."""

_LINES = {
    "notch": NOTCHES,
    "stitch": SEW,
    "fold": INNER,
    "guide": INNER,
    "lengthen": INNER,
    "buttonhole": INNER,
    "dart": INNER,
    "pleat": INNER,
}
_TALL = 5.0  # mm, height of texts
_GAP = 30.0  # mm between pieces
_GRAIN = 120.0  # mm, length of the grain line


def pieces_dxf(design: Design, sizes: Sequence[SizeDrawing], mark: str) -> bytes:
    """All pieces and strips of some sizes; sizes of one piece lie over each other."""
    # Imported here because only this needs it.
    import ezdxf

    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True  # no dates: the same drawing gives the same bytes
    try:
        document = ezdxf.new("R2000", units=4)  # mm
        for layer in (BOUNDARY, TURNS, CURVES, NOTCHES, MIRROR, GRAIN, INNER, MARKS, SEW, TEXTS):
            document.layers.add(str(layer))
        space, x = document.modelspace(), 0.0
        for piece in _names(sizes[0]):
            drawn = [(size, _named(size, piece)) for size in sizes]
            left, _, right, _ = box_of(p for _, one in drawn for p in one.ring)
            for size, one in drawn:
                name = f"{one.name}-{_plain(size.name)}"
                block = document.blocks.new(name)
                _fill(block, design, one, size.name, mark)
                space.add_blockref(name, (x - left, 0.0), dxfattribs={"layer": str(BOUNDARY)})
            x += right - left + _GAP
        stream = io.StringIO()
        document.write(stream)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before
    return document.encode(stream.getvalue())


def _names(size: SizeDrawing) -> list[str]:
    return [one.name for one in (*size.pieces, *size.strips)]


def _named(size: SizeDrawing, name: str) -> Outlined:
    return next(one for one in (*size.pieces, *size.strips) if one.name == name)


def _plain(name: str) -> str:
    return "".join(char if char.isascii() and char.isalnum() else "_" for char in name)


def _fill(block: BlockLayout, design: Design, piece: Outlined, size: str, mark: str) -> None:
    around = [stroke for stroke in piece.strokes if stroke.use == "cut" or _is_fold_edge(stroke)]
    points = _points(segment for stroke in around for segment in stroke.segments)
    block.add_polyline2d(_pairs(points[:-1]), close=True, dxfattribs=_on(BOUNDARY))
    turns = [stroke.segments[0].start for stroke in around]
    for p in turns:
        block.add_point(_pair(p), dxfattribs=_on(TURNS))
    for p in points[:-1]:
        if all(abs(p - turn) > STRAY for turn in turns):
            block.add_point(_pair(p), dxfattribs=_on(CURVES))
    for stroke in piece.strokes:
        if _is_fold_edge(stroke):
            block.add_line(_pair(stroke.segments[0].start), _pair(stroke.segments[-1].end), dxfattribs=_on(MIRROR))
        elif stroke.use == "mark":
            middle = (stroke.segments[0].start + stroke.segments[0].end) / 2
            block.add_point(_pair(middle), dxfattribs=_on(MARKS))
        elif stroke.use in _LINES:
            for run in _runs(stroke.segments):
                block.add_polyline2d(_pairs(_points(run)), dxfattribs=_on(_LINES[stroke.use]))
    middle = _middle(piece.ring)
    half = piece.thread * _GRAIN / 2
    block.add_line(_pair(middle - half), _pair(middle + half), dxfattribs=_on(GRAIN))
    said = [
        (BOUNDARY, f"Style Name: {design.name}"),
        (BOUNDARY, f"Piece Name: {piece.name}"),
        (BOUNDARY, f"Size: {size}"),
        (BOUNDARY, f"Quantity: {piece.number}"),
        (BOUNDARY, "Units: METRIC"),
        (TEXTS, f"{design.title}: {piece.title}, {piece.cut}"),
        (TEXTS, f"edition {design.edition}, fingerprint {mark}"),
    ]
    for number, (layer, text) in enumerate(said):
        at = middle - 1j * _TALL * 1.6 * (number + 1)
        block.add_text(text, height=_TALL, dxfattribs=_on(layer)).set_placement(_pair(at))


def _is_fold_edge(stroke: Stroke) -> bool:
    return stroke.use == "fold" and stroke.edge != ""


def _on(layer: int) -> dict[str, str]:
    return {"layer": str(layer)}


def _runs(segments: Sequence[Segment]) -> Iterator[list[Segment]]:
    """Segments that follow each other without a gap."""
    run: list[Segment] = []
    for segment in segments:
        if run and abs(run[-1].end - segment.start) > STRAY:
            yield run
            run = []
        run.append(segment)
    yield run


def _points(segments: Iterable[Segment]) -> list[Point]:
    points: list[Point] = []
    for segment in segments:
        if not points:
            points.append(segment.start)
        points += segment.flatten(STRAY)
    return points


def _pairs(points: Iterable[Point]) -> list[tuple[float, float]]:
    return [_pair(p) for p in points]


def _pair(p: Point) -> tuple[float, float]:
    return round(p.real, 4), round(p.imag, 4)


def _middle(ring: Sequence[Point]) -> Point:
    """The middle of the widest level stretch inside a ring, halfway up."""
    left, low, right, high = box_of(ring)
    y = (low + high) / 2
    crossings = sorted(
        a.real + (y - a.imag) / (b.imag - a.imag) * (b.real - a.real)
        for a, b in pairwise((*ring, ring[0]))
        if (a.imag > y) != (b.imag > y)
    )
    spans = list(zip(crossings[::2], crossings[1::2], strict=False)) or [(left, right)]
    first, last = max(spans, key=lambda span: span[1] - span[0])
    return complex((first + last) / 2, y)
