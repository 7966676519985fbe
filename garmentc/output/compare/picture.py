"""A piece in its old and its new state laid over each other, with arrows where its points have moved."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from xml.sax.saxutils import escape

from garmentc.comparison.model import Comparison, Overlay
from garmentc.geometry.path import Path, box_around
from garmentc.geometry.segments import Box
from garmentc.geometry.vector import Point, left, unit
from garmentc.numbers import decimal, fixed
from garmentc.output.patterns.scene import polyline
from garmentc.output.patterns.svg import path_data

_WIDE, _HIGH = 720.0, 720.0  # px that a picture may take
_TEXT = 13.0  # px, height of letters
_MARGIN, _SIDE = 40.0, 150.0  # px above and below, and beside the lines, for what is written
_HEAD = 6.0  # px, an arrow's head
_LETTER = 0.6  # of the height: about the width of a letter

Boxes = list[tuple[float, float, float, float]]


def overlay_svg(comparison: Comparison, overlay: Overlay) -> str:
    """The picture as an SVG element: old lines dashed, new lines continuous, lengths of movements in mm."""
    box = box_around([line.bounds() for line in (*overlay.old, *overlay.new)])
    scale = min((_WIDE - 2 * _SIDE) / max(box[2] - box[0], 1.0), (_HIGH - 2 * _MARGIN) / max(box[3] - box[1], 1.0))
    wide, high = (box[2] - box[0]) * scale + 2 * _SIDE, (box[3] - box[1]) * scale + 2 * _MARGIN
    size = f'width="{decimal(wide, 1)}" height="{decimal(high, 1)}"'
    what = f"{overlay.title}: the old lines dashed, the new ones continuous; arrows show how points moved"
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" {size} '
            f'viewBox="0 0 {decimal(wide, 1)} {decimal(high, 1)}">',
            f"<title>{escape(what)}</title>",
            f'<g transform="translate({decimal(_SIDE)} {decimal(_MARGIN)}) scale({decimal(scale, 6)})">',
            *_drawn(overlay.old, "old", box),
            *_drawn(overlay.new, "new", box),
            "</g>",
            *_arrows(comparison, overlay, box, scale, wide),
            "</svg>",
        ]
    )


def _drawn(lines: Iterable[Path], look: str, box: Box) -> Iterator[str]:
    for line in lines:
        yield f'<path class="{look}" d="{path_data(line.segments, complex(box[0], box[3]))}" />'


def _arrows(comparison: Comparison, overlay: Overlay, box: Box, scale: float, wide: float) -> Iterator[str]:
    """An arrow for each point that moved, a ring where it is too short to be seen, and its name and length."""
    taken: Boxes = []
    told: set[tuple[Point, Point]] = set()
    for move in comparison.moves:
        was, now = move.old[overlay.size], move.new[overlay.size]
        if move.piece != overlay.piece or (was, now) in told:
            continue
        told.add((was, now))
        start, end = _on_page(was, box, scale), _on_page(now, box, scale)
        if abs(end - start) > _HEAD:
            way = unit(end - start)
            head = polyline(end - _HEAD * way + left(way) * 3, end, end - _HEAD * way - left(way) * 3)
            yield f'<path class="arrow" d="{_plain([start, end])}" />'
            yield f'<path class="head" d="{_plain([head[0].start, head[0].end, head[1].end])} Z" />'
        else:
            yield f'<circle class="arrow" cx="{decimal(end.real, 1)}" cy="{decimal(end.imag, 1)}" r="5" />'
        text = f"{move.point.replace('_', ' ')} {fixed(abs(now - was), 1)}"
        at = _room(text, end, wide, taken)
        yield f'<text x="{decimal(at.real, 1)}" y="{decimal(at.imag, 1)}">{escape(text)}</text>'


def _on_page(p: Point, box: Box, scale: float) -> complex:
    return complex(_SIDE + (p.real - box[0]) * scale, _MARGIN + (box[3] - p.imag) * scale)


def _plain(points: Iterable[complex]) -> str:
    return "M" + " L".join(f"{decimal(p.real, 1)} {decimal(p.imag, 1)}" for p in points)


def _room(text: str, near: complex, wide: float, taken: Boxes) -> complex:
    """Where words stand beside a point, outward if they can, without covering other words; it is taken then."""
    long = len(text) * _TEXT * _LETTER
    right, left_of = near.real + 9, near.real - 9 - long
    sides = (right, left_of) if near.real >= wide / 2 else (left_of, right)
    for away in range(12):
        for x in (min(max(side, 2.0), max(wide - 2 - long, 2.0)) for side in sides):
            for y in (near.imag - 7 - away * _TEXT, near.imag - 7 + away * _TEXT):
                box = (x, y - _TEXT, x + long, y + 3)
                if all(box[2] < b[0] or b[2] < box[0] or box[3] < b[1] or b[3] < box[1] for b in taken):
                    taken.append(box)
                    return complex(x, y)
    return near
