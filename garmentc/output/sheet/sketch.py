"""A small picture of a piece with the names of its edges: enough to know which edge is meant, not to measure."""

from __future__ import annotations

from garmentc.assembly.model import CutEdge, CutPiece
from garmentc.design.texts import spoken
from garmentc.geometry.path import Path, box_around
from garmentc.geometry.vector import Point
from garmentc.output.sheet.edge_names import NamedEdge, name_edges
from garmentc.record import Record

_STRAY = 0.5  # mm of the piece that a drawn curve may leave the true one
_LETTER = 0.05  # height of the letters, as a share of the piece's longer side


class Stroke(Record):
    """A line of a sketch; ``kind`` is cut, stitch, fold or leader (from an edge to its name)."""

    kind: str
    points: tuple[Point, ...]


class Label(Record):
    """A word beside an edge; ``anchor`` says which end of the word lies there: start, middle or end."""

    text: str
    at: Point
    anchor: str


class Sketch(Record):
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
    drawn = _lines(piece)
    names = name_edges(_named(piece), [line for _, line in drawn], letter)
    drawn += [("leader", name.leader) for name in names if name.leader is not None]
    x0, y0, x1, y1 = box_around([piece.cut_line.bounds(), *(name.box for name in names)])

    def place(p: Point) -> Point:
        return complex(p.real - x0 + letter / 2, y1 - p.imag + letter / 2)

    told = ", ".join(spoken(edge.name) for edge in drafted.edges)
    beside = "" if drafted.is_unfolded else " beside the fold"
    half = f", drawn as its half{beside}" if drafted.on_fold else ""
    return Sketch(
        f"Sketch of the {drafted.title}{half}",
        f"Sketch of the {drafted.title}{half}. Edges, anticlockwise: {told}.",
        x1 - x0 + letter,
        y1 - y0 + letter,
        letter,
        tuple(Stroke(kind, tuple(map(place, line))) for kind, line in drawn),
        tuple(Label(name.text, place(name.at), name.anchor) for name in names),
    )


def _lines(piece: CutPiece) -> list[tuple[str, tuple[Point, ...]]]:
    """Everything drawn of a piece, as kinds and points."""
    drafted = piece.drafted
    on_fold = {edge.name for edge in drafted.edges if edge.on_fold}
    drawn = [("cut", _points(_cut_path(edge))) for edge in piece.edges if edge.edge not in on_fold]
    drawn += [
        ("fold" if edge.on_fold else "stitch", _points(edge.path))
        for edge in drafted.edges
        if edge.on_fold or piece.uses[edge.name].allowance > 0
    ]
    return drawn + [("fold", _points(line.path)) for line in drafted.lines if line.kind == "fold"]


def _named(piece: CutPiece) -> list[NamedEdge]:
    """The edges with their names, and the fold lines inside the piece."""
    told = "turn over" if piece.drafted.is_unfolded else "fold"
    named = [
        NamedEdge(
            f"{spoken(edge.name)} ({told})" if edge.on_fold else spoken(edge.name), _points(cut), _points(edge.path)
        )
        for edge, cut in zip(piece.drafted.edges, (one.path for one in piece.edges), strict=True)
    ]
    folds = [line for line in piece.drafted.lines if line.kind == "fold"]
    for fold in folds:
        line = _points(fold.path)
        named.append(NamedEdge(f"{spoken(fold.name)} (fold)", line, line, from_ends=True))
    return named


def _cut_path(edge: CutEdge) -> Path:
    return edge.path if edge.corner is None else edge.path.joined(edge.corner)


def _points(path: Path) -> tuple[Point, ...]:
    return tuple(path.flatten(_STRAY))
