"""Notches, marks and lines of a piece in words, with where they lie, so that they can be drawn by hand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.assembly.model import CutPiece, JoinedSeam, Notch
from garmentc.assembly.notches import SLIT_WORDS
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedPiece, PlacedRow, TakeUp
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.vector import Point
from garmentc.output.sheet.places import NEAR, on_each_side, place_of_insert, place_on
from garmentc.output.sheet.words import sentence, tape

_SNIP = 3.0  # mm; common practice, no source. Not in an allowance that it would cut half through


def marks(cut: CutPiece, seams: Iterable[JoinedSeam]) -> Iterator[str]:
    """What to carry over from the pattern of a piece to the cloth."""
    piece = cut.drafted
    seams = tuple(seams)
    for notch in cut.notches:
        yield _notch(piece, notch, _of_one(notch, seams))
    yield from _middles(cut)
    for row in piece.rows:
        yield _row(piece, row)
    for mark in piece.marks:
        if mark.size:
            continue
        text = f": {mark.text}" if mark.text else ""
        yield sentence(f"{spoken(mark.name)}{_where(piece, mark.at)}{on_each_side(piece, mark.at)}{text}")
    yield from _inserts(piece, seams)
    for one in piece.takeups:
        yield _takeup(piece, one)
    for line in piece.lines:
        if line.kind in ("lengthen", "buttonhole"):
            continue
        kind = "fold line" if line.kind == "fold" else "line"
        text = f": {line.text}" if line.text and line.text != line.kind else ""
        yield sentence(f"{kind} {spoken(line.name)}, {tape(line.path.length)} long{text}")


def _middles(cut: CutPiece) -> Iterator[str]:
    """The middles of edges on the fold that a seam has to meet, to be marked in the allowance."""
    edges = cut.drafted.edges
    for i, fold in enumerate(edges):
        beside = (edges[i - 1], edges[(i + 1) % len(edges)]) if fold.on_fold else ()
        uses = {edge.name: cut.uses[edge.name] for edge in beside}
        meet = [spoken(name) for name, use in uses.items() if use.way == "seam" and use.allowance >= 2 * _SNIP]
        if meet:
            yield (
                f"Middle of the {' and of the '.join(meet)}, at the {spoken(fold.name)}: snip {tape(_SNIP)} into the "
                "allowance."
            )


def _inserts(piece: DraftedPiece, seams: Iterable[JoinedSeam]) -> Iterator[str]:
    """What is caught in a seam at a place of the piece that no mark of its own shows."""
    found = [
        sentence(f"{insert.strip_title}, caught {place_of_insert(piece, seam, insert, closed=False)}")
        for seam in seams
        for insert in seam.inserts
        if insert.piece == piece.name and all(abs(mark.at - insert.at) >= NEAR for mark in piece.marks)
    ]
    yield from dict.fromkeys(found)


def _of_one(notch: Notch, seams: Iterable[JoinedSeam]) -> str:
    """On which half or piece of a pair a notch is, when it is on one alone."""
    edges = {seam.name: sorted((name.piece, name.edge) for name in seam.edges) for seam in seams}
    alike = [seam for seam in seams if edges[seam.name] == edges.get(notch.seam)]
    hands = {name.hand for seam in alike for name in seam.edges}
    return f", on the {hands.pop()} one" if len(hands) == 1 and "" not in hands else ""


def _notch(piece: DraftedPiece, notch: Notch, of_one: str) -> str:
    edge = piece.edge(notch.edge)
    assert edge is not None
    at = edge.path.point_at(notch.along)
    what = f"{SLIT_WORDS[notch.slits]} notch".capitalize()
    seam = f" (seam {spoken(notch.seam)})" if notch.seam else ""
    return f"{what} {place_on(piece, at, among=(notch.edge,))}{of_one or on_each_side(piece, at)}{seam}."


def _row(piece: DraftedPiece, row: PlacedRow) -> str:
    """How many buttons or buttonholes there are, and how far from each other."""
    apart = f", {tape(row.apart)} from one to the next" if row.apart else ""
    text = f": {row.text}" if row.text else ""
    size = "wide" if row.kind == "buttons" else "long"
    return sentence(f"{spoken(row.name)}: {len(row.places)} {row.kind}, {tape(row.size)} {size}{apart}{text}")


def _takeup(piece: DraftedPiece, one: TakeUp) -> str:
    """Where a dart, tuck or pleat begins and ends on its edge, and how long its lines are."""
    where = place_on(piece, (one.first + one.second) / 2, among=(one.edge,))
    wide, long = abs(one.first - one.second), takeup_lines(one).legs[0].length
    return sentence(f"{one.title}, {tape(wide)} wide, {tape(long)} long, its middle {where}")


def _where(piece: DraftedPiece, at: Point) -> str:
    """The place of a point on the border of a piece, in words; nothing when it lies inside."""
    place = place_on(piece, at)
    return f", {place}" if place else ""
