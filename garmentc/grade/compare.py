"""Lays the sizes of a garment over each other: which corner and which edge of one is which of the other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress

from garmentc.assembly.model import Assembly
from garmentc.design.model import Design, PiecePlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.draft.evaluate import Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import DraftedPiece
from garmentc.draft.pieces import Drafter
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.motion import Motion
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.grade.model import ORIGIN, Grade, GradedCorner, GradedEdge, GradedPiece, Sized
from garmentc.source import Source, Span
from garmentc.syntax import nodes

_SAME = 1e-3  # mm; a point this near to a corner is the corner


def sized(assembly: Assembly) -> Sized:
    """What of one size can be compared with the others."""
    draft = assembly.draft
    design = draft.design
    found = {name for solve in design.solves for name in solve.unknowns}
    drafter = Drafter(design, draft.body, Findings(), {name: draft.params[name] for name in found})
    return Sized(
        draft.body.name,
        {name: draft.body.measures[name].mm for name in design.measures},
        draft.pieces,
        draft.strips,
        {piece.name: _points(piece, design, drafter) for piece in draft.pieces},
    )


def _points(piece: DraftedPiece, design: Design, drafter: Drafter) -> dict[str, Point]:
    found: dict[str, Point] = {}
    for plan in ancestry(design, piece.name):
        for name, define in plan.defines.items():
            with suppress(Poisoned):
                value = drafter.values.value(nodes.Ref(define.name.span, (define.name,)), Scope(piece.name))
                if isinstance(value, complex):
                    found.setdefault(name, piece.placed(value))
    for mark in piece.marks:
        found.setdefault(mark.name, mark.at)
    return found


def ancestry(design: Design, piece: str) -> list[PiecePlan]:
    """The piece itself, then the piece it is taken from, and so on."""
    found = [design.pieces[piece]]
    while (parent := found[-1].parent) is not None:
        found.append(design.pieces[parent])
    return found


def read_alignments(texts: Iterable[str], sizes: Sequence[Sized], findings: Findings) -> dict[str, str]:
    """The point to align each piece at, by piece, from ``PIECE.POINT``; what names no point is reported."""
    known = {f"{piece}.{point}" for piece, points in sizes[0].points.items() for point in points}
    found: dict[str, str] = {}
    for text in texts:
        piece, _, point = text.strip().partition(".")
        if f"{piece}.{point}" in known:
            found[piece] = point
            continue
        there = [name for name in known if name.startswith(f"{piece}.")] or known
        findings.add(
            Finding(
                "unknown-name",
                f"there is no point `{text}` to align the sizes at",
                Span(Source("--align", text), 0, len(text)),
                help=meant_or_known(text, sorted(there)),
            )
        )
    return found


def compare(design: Design, sizes: Sequence[Sized], alignments: Mapping[str, str]) -> Grade:
    """A garment in all its sizes, each piece aligned at the point named for it, else at its own origin."""
    pieces = []
    for name in [piece.name for piece in sizes[0].pieces]:
        shown = [next(piece for piece in size.pieces if piece.name == name) for size in sizes]
        points = [size.points[name] for size in sizes]
        pieces.append(_piece(design, shown, points, alignments.get(name)))
    for name in [strip.name for strip in sizes[0].strips]:
        shown = [next(strip for strip in size.strips if strip.name == name) for size in sizes]
        pieces.append(_piece(design, shown, [{} for _ in sizes], None))
    return Grade(
        design.name,
        design.title,
        tuple(size.size for size in sizes),
        tuple(size.measures for size in sizes),
        tuple(pieces),
    )


def _piece(
    design: Design, sizes: Sequence[DraftedPiece], points: Sequence[Mapping[str, Point]], aligned: str | None
) -> GradedPiece:
    shifts = tuple(0j if aligned is None else named[aligned] for named in points)
    return GradedPiece(
        sizes[0].name,
        sizes[0].title,
        sizes[0].making is not None,
        aligned or ORIGIN,
        shifts,
        tuple(_edges(sizes, shifts)),
        tuple(_corners(design, sizes, points, shifts)),
        tuple(tuple(_inside(piece, shift)) for piece, shift in zip(sizes, shifts, strict=True)),
    )


def _edges(sizes: Sequence[DraftedPiece], shifts: Sequence[Point]) -> Iterable[GradedEdge]:
    for edge in sizes[0].edges:
        edges = [found for piece in sizes if (found := piece.edge(edge.name)) is not None]
        if len(edges) == len(sizes):
            moved = zip(edges, shifts, strict=True)
            paths = tuple(one.path.moved(Motion.shift_by(-shift)) for one, shift in moved)
            yield GradedEdge(edge.name, paths, tuple(one.taken for one in edges), edge.span)


def _inside(piece: DraftedPiece, shift: Point) -> Iterable[Path]:
    for taken in piece.takeups:
        for leg in takeup_lines(taken).legs:
            yield leg.moved(Motion.shift_by(-shift))


def _corners(
    design: Design,
    sizes: Sequence[DraftedPiece],
    points: Sequence[Mapping[str, Point]],
    shifts: Sequence[Point],
) -> Iterable[GradedCorner]:
    placed = [
        {(piece.edges[i - 1].name, edge.name): edge.path.start for i, edge in enumerate(piece.edges)} for piece in sizes
    ]
    for edges in placed[0]:
        at = [corners[edges] for corners in placed if edges in corners]
        if len(at) < len(sizes):
            continue
        name = next((name for name in points[0] if _lies_there(name, at, points)), None)
        span = None if name is None else _point_span(design, sizes[0].name, name)
        shifted = tuple(p - shift for p, shift in zip(at, shifts, strict=True))
        yield GradedCorner(name or _between(*edges), edges, shifted, span)


def _between(one: str, other: str) -> str:
    """A corner by its edges; what they are grown on with is said once."""
    part, dot, name = other.rpartition(".")
    return f"{one}/{name}" if dot and one.startswith(f"{part}.") else f"{one}/{other}"


def _lies_there(name: str, at: Sequence[Point], points: Sequence[Mapping[str, Point]]) -> bool:
    return all(name in named and abs(named[name] - p) < _SAME for p, named in zip(at, points, strict=True))


def _point_span(design: Design, piece: str, name: str) -> Span | None:
    return next((plan.defines[name].span for plan in ancestry(design, piece) if name in plan.defines), None)
