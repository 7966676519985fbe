"""A small picture of a piece with the names of its edges: enough to know which edge is meant, not to measure."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from garmentc.assembly.model import CutEdge, CutPiece
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedEdge
from garmentc.geometry.path import Path, box_around
from garmentc.geometry.vector import Point, left

_STRAY = 0.5  # mm of the piece that a drawn curve may leave the true one
_LETTER = 0.05  # height of the letters, as a share of the piece's longer side
_LETTER_WIDTH = 0.55  # mean width of a letter, as a share of its height
_UPRIGHT = 0.35  # an edge whose outward direction leans less than this to the side has its name above or below


class Stroke(NamedTuple):
    """A line of a sketch; ``kind`` is cut, stitch or fold."""

    kind: str
    points: tuple[Point, ...]


class Label(NamedTuple):
    """A word beside an edge; ``anchor`` says which end of the word lies there: start, middle or end."""

    text: str
    at: Point
    anchor: str


class Sketch(NamedTuple):
    """A picture of a piece in mm, y down, from (0, 0) to (width, height); ``caption`` stands above it."""

    caption: str
    alt: str
    width: float
    height: float
    letter: float
    strokes: tuple[Stroke, ...]
    labels: tuple[Label, ...]


def sketch_piece(piece: CutPiece) -> Sketch:
    """The cut line, the stitching line, the folds and the names of the edges of one piece."""
    drafted = piece.drafted
    xmin, ymin, xmax, ymax = piece.cut_line.bounds()
    letter = _LETTER * max(xmax - xmin, ymax - ymin)
    labels = _labels(piece, letter)
    boxes = [piece.cut_line.bounds(), *(_box(label, letter) for label in labels)]
    x0, y0, x1, y1 = box_around(boxes)

    def place(p: Point) -> Point:
        return complex(p.real - x0 + letter / 2, y1 - p.imag + letter / 2)

    def stroke(kind: str, path: Path) -> Stroke:
        return Stroke(kind, tuple(place(p) for p in path.flatten(_STRAY)))

    on_fold = {edge.name for edge in drafted.edges if edge.on_fold}
    strokes = [stroke("cut", _cut_path(edge)) for edge in piece.edges if edge.edge not in on_fold]
    strokes += [
        stroke("fold" if edge.on_fold else "stitch", edge.path)
        for edge in drafted.edges
        if edge.on_fold or piece.uses[edge.name].allowance > 0
    ]
    strokes += [stroke("fold", line.path) for line in drafted.lines if line.kind == "fold"]
    names = ", ".join(spoken(edge.name) for edge in drafted.edges)
    half = ", drawn as its half beside the fold" if drafted.on_fold else ""
    return Sketch(
        f"Sketch of the {drafted.title}{half}",
        f"Sketch of the {drafted.title}{half}. Edges, anticlockwise: {names}.",
        x1 - x0 + letter,
        y1 - y0 + letter,
        letter,
        tuple(strokes),
        tuple(label._replace(at=place(label.at)) for label in labels),
    )


def _cut_path(edge: CutEdge) -> Path:
    return edge.path if edge.corner is None else edge.path.joined(edge.corner)


def _labels(piece: CutPiece, letter: float) -> list[Label]:
    """The names of the edges, each outside the piece unless it would lie on a line there."""
    line = _dots(piece.cut_line.edges, letter / 3)
    labels = []
    for edge in piece.drafted.edges:
        allowance = piece.uses[edge.name].allowance
        outside, inside = _label(edge, 1, allowance + 0.6 * letter, letter), _label(edge, -1, 0.8 * letter, letter)
        labels.append(inside if _hits(inside, letter, line) < _hits(outside, letter, line) else outside)
    return labels


def _label(edge: DraftedEdge, way: int, off: float, letter: float) -> Label:
    middle = edge.path.length / 2
    outward = -way * left(edge.path.tangent_at(middle))
    at = edge.path.point_at(middle) + outward * off
    if abs(outward.real) < _UPRIGHT:
        anchor = "middle"
        at += complex(0, (0.15 if outward.imag > 0 else -0.6) * letter)
    else:
        anchor = "start" if outward.real > 0 else "end"
        at -= complex(0, 0.35 * letter)
    return Label(spoken(edge.name) + (" (fold)" if edge.on_fold else ""), at, anchor)


def _dots(paths: Iterable[Path], step: float) -> list[Point]:
    return [path.point_at(i * step) for path in paths for i in range(int(path.length / step) + 1)]


def _hits(label: Label, letter: float, dots: Iterable[Point]) -> int:
    x0, y0, x1, y1 = _box(label, letter)
    return sum(x0 <= dot.real <= x1 and y0 <= dot.imag <= y1 for dot in dots)


def _box(label: Label, letter: float) -> tuple[float, float, float, float]:
    wide = len(label.text) * _LETTER_WIDTH * letter
    x0 = label.at.real - {"start": 0.0, "middle": wide / 2, "end": wide}[label.anchor]
    return x0, label.at.imag - 0.3 * letter, x0 + wide, label.at.imag + letter
