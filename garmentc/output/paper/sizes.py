"""Pieces of one size, or of several sizes laid over each other, ready for paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.geometry.vector import Point
from garmentc.output.fingerprint import body_facts
from garmentc.output.grade.lines import line_of
from garmentc.output.paper.along import Line, labels_along
from garmentc.output.paper.parts import PaperPiece, Part
from garmentc.output.patterns.piece import draw_piece, size_strokes
from garmentc.output.patterns.scene import LOOKS, Look, Stroke, box_of
from garmentc.output.patterns.words import Told
from garmentc.output.texts.cut import cut_text
from garmentc.output.texts.speech import Voice
from garmentc.record import Record

STRAY = 0.4
"""mm that an outline made of points may leave the true one."""

_CLEAR = 1.2  # mm that words keep from the lines of all sizes
SMALL = ("notch", "mark", "buttonhole")  # too short for a pattern of dashes
_TOGETHER = ("stitch",)  # uses of lines that are not drawn when several sizes lie over each other


class Outlined(Record):
    """The lines of a piece in one size; its cut line as points for each edge, folds left out, and as one ring.

    Of a strip ``long`` and ``wide`` are what is cut (mm), of a piece 0; ``number`` is how often it is cut, ``cut`` the
    same in words. ``thread`` is the direction of the lengthwise threads.
    """

    name: str
    title: str
    strokes: tuple[Stroke, ...]
    edges: Mapping[str, tuple[Point, ...]]
    ring: tuple[Point, ...]
    piece: CutPiece | None
    long: float
    wide: float
    number: int
    cut: str
    thread: complex


class SizeDrawing(Record):
    """One size: what people and machines call it, its facts for the fingerprint, its pieces, then its strips.

    Only the size that carries the labels keeps its assembly.
    """

    name: str
    is_size: bool
    facts: Mapping[str, str]
    pieces: tuple[Outlined, ...]
    strips: tuple[Outlined, ...]
    assembly: Assembly | None


def size_drawing(assembly: Assembly, labelled: str | None) -> SizeDrawing:
    """The lines of one size; it carries the labels when it is the one named, or none is."""
    body = assembly.draft.body
    whole = labelled is None or body.name == labelled
    pieces = tuple(_outlined(assembly, piece, whole) for piece in assembly.pieces)
    strips = tuple(_outlined(assembly, strip, whole) for strip in assembly.strips)
    return SizeDrawing(body.name, body.is_size, body_facts(assembly), pieces, strips, assembly if whole else None)


def _outlined(assembly: Assembly, piece: CutPiece, whole: bool) -> Outlined:
    drafted = piece.drafted
    edges = {
        edge.edge: tuple(edge.path.flatten(STRAY))
        for edge, drawn in zip(piece.edges, drafted.edges, strict=True)
        if not drawn.on_fold
    }
    making = drafted.making
    return Outlined(
        drafted.name,
        drafted.title,
        tuple(size_strokes(assembly, piece)),
        edges,
        tuple(piece.cut_line.flatten(STRAY)),
        piece if whole else None,
        0.0 if making is None else making.length,
        0.0 if making is None else making.cut_width,
        drafted.number,
        cut_text(drafted, Voice()),
        drafted.thread,
    )


def look_of(number: int) -> Look:
    """The line of a size by its number, apart from the others in black and white too."""
    width, dashes = line_of(number)
    return Look(float(width), tuple(map(float, dashes.split())))


def paper_pieces(sizes: Sequence[SizeDrawing], told: Told, *, strips: bool) -> list[PaperPiece]:
    """The pieces, and the strips if they are drawn; the labels are those of the first size."""
    first = sizes[0]
    if first.assembly is None:
        raise ValueError("the first size carries the labels")
    wanted = [[one for size in sizes for one in size.pieces if one.name == piece.name] for piece in first.pieces] + [
        [one for size in sizes for one in size.strips if one.name == piece.name] for piece in first.strips if strips
    ]
    named = [size.name for size in sizes]
    return [_paper_piece(first.assembly, named, one, told) for one in wanted]


def _paper_piece(assembly: Assembly, names: Sequence[str], sizes: Sequence[Outlined], told: Told) -> PaperPiece:
    first = sizes[0]
    assert first.piece is not None
    walls = [(a, b, _CLEAR) for size in sizes[1:] for a, b in pairwise((*size.ring, size.ring[0]))]
    lines = [
        Line(name, edge, points) for name, size in zip(names, sizes, strict=True) for edge, points in size.edges.items()
    ]
    labels = labels_along(lines) if len(sizes) > 1 else []
    walls += [label.words.wall for label in labels]
    drawn = draw_piece(assembly, first.piece, told, walls)
    arrows = drawn.strokes[drawn.lines :]
    if len(sizes) == 1:
        parts = [Part("", drawn.strokes, drawn.words)]
    else:
        parts = [Part("", arrows, drawn.words)]
        for number, (name, size) in enumerate(zip(names, sizes, strict=True)):
            strokes = tuple(stroke for stroke in size.strokes if stroke.use not in (*_TOGETHER, *SMALL))
            small = tuple(stroke for stroke in size.strokes if stroke.use in SMALL)
            mine = [label for label in labels if label.size == name]
            backs = tuple(label.words.corners for label in mine)
            parts.append(Part(name, strokes, tuple(label.words for label in mine), look_of(number), backs))
            parts.append(Part(name, small, (), LOOKS["narrow"]))
    rings = [size.ring for size in sizes]
    inside = box_of(p for ring in rings for p in ring)
    outside = [words.corners for words in drawn.words if not _within(words.corners, inside)]
    box = box_of([p for ring in (*rings, *outside) for p in ring])
    return PaperPiece(first.name, first.title, tuple(parts), (*rings, *outside), box)


def _within(points: Sequence[Point], box: tuple[float, float, float, float]) -> bool:
    x0, y0, x1, y1 = box
    return all(x0 <= p.real <= x1 and y0 <= p.imag <= y1 for p in points)
