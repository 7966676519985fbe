"""Whether what is sewn right sides together and turned leaves an opening to turn it through, and how wide it is."""

from __future__ import annotations

from cmath import exp, pi
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from garmentc.assembly.chains import Corner, Crossings
from garmentc.assembly.model import EdgeUse, JoinedSeam
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.numbers import length
from garmentc.source import Span

ENCLOSES, CLOSES, OPENS = "encloses", "closes", "opens"
"""The words by which a seam type says that it is turned, closes the opening for that, or is a closure itself."""
HAND = 80.0
"""How wide (mm) an opening is that a hand can turn the work through; common practice, no source."""
_ANGLES = 36
_FLAT = 1.0

Uses = Mapping[str, Mapping[str, EdgeUse]]
_Free = tuple[DraftedPiece, DraftedEdge]


def check_turning(
    pieces: Sequence[DraftedPiece], seams: Iterable[JoinedSeam], uses: Uses, crossings: Crossings, values: Evaluator
) -> None:
    """Report layers that are sewn to each other all round, or that leave less than a hand's width open.

    Pieces that hang together by seams are closed when no edge of theirs is left outside a seam or a fold; a seam that
    closes an opening by hand is sewn after turning. The last of the enclosing seams is told.
    """
    for members, sewn in hanging_together(pieces, seams):
        turned = [seam for seam in sewn if seam.join.turning == ENCLOSES]
        if not turned:
            continue
        free = [(piece, edge) for piece in members for edge in piece.edges if _is_open(edge.name, uses[piece.name])]
        gaps = [(seam, seam.gap) for seam in sewn if seam.gap is not None]
        if not free and not gaps:
            _report_closed(turned[-1], members, values)
            continue
        places = [_Way(_width(one), [edge.span for _, edge in one]) for one in _openings(free, crossings)]
        places += [_Way(gap.high - gap.low, [seam.span]) for seam, gap in gaps]
        way = max(places, key=lambda one: one.wide)
        if way.wide >= HAND - _FLAT:
            continue
        needed = min(HAND, max(_narrowest(piece) for piece in members))
        if way.wide < needed - _FLAT:
            _report_narrow(turned[-1], way, needed, values)


class _Way(NamedTuple):
    """A way through which work can be turned: how wide it is (mm), and where it is left open."""

    wide: float
    spans: Sequence[Span]


def hanging_together(
    pieces: Sequence[DraftedPiece], seams: Iterable[JoinedSeam]
) -> list[tuple[list[DraftedPiece], list[JoinedSeam]]]:
    """The pieces that hang together by seams sewn before anything is turned, with these seams in their order."""
    before = [seam for seam in seams if seam.join.turning != CLOSES]
    groups = [({piece.name}, [piece]) for piece in pieces]
    for seam in before:
        sewn = {name.piece for name in seam.edges}
        met = [group for group in groups if group[0] & sewn]
        groups = [group for group in groups if not group[0] & sewn]
        groups.append((set().union(*(names for names, _ in met)), [one for _, found in met for one in found]))
    return [(found, [seam for seam in before if seam.first[0].piece in names]) for names, found in groups]


def _is_open(edge: str, uses: Mapping[str, EdgeUse]) -> bool:
    """An edge nothing uses is reported elsewhere; it counts as open."""
    use = uses.get(edge)
    return use is None or use.way == "finish" or (use.join is not None and use.join.turning in (CLOSES, OPENS))


def _openings(free: Sequence[_Free], crossings: Crossings) -> list[list[_Free]]:
    """The free edges by the openings that they go round: those whose ends come together belong to one."""
    found: list[list[_Free]] = []
    for one in free:
        ends = _ends(one)
        met = [
            opening
            for opening in found
            if any(crossings.together(end, end_of, "") for other in opening for end_of in _ends(other) for end in ends)
        ]
        found = [opening for opening in found if opening not in met]
        found.append([one, *(other for opening in met for other in opening)])
    return found


def _ends(one: _Free) -> tuple[Corner, Corner]:
    piece, edge = one
    at = piece.edges.index(edge)
    return Corner(piece, at), Corner(piece, (at + 1) % len(piece.edges))


def _width(opening: Sequence[_Free]) -> float:
    """How wide (mm) an opening is when its two lips lie on each other; what meets a fold goes on beyond it."""
    return sum(edge.sewn_length * (2 if piece.meets_fold(edge.name) else 1) for piece, edge in opening) / 2


def _narrowest(piece: DraftedPiece) -> float:
    """The least width (mm) of a piece as drawn, over directions 5 degrees apart."""
    corners = [at for edge in piece.edges for at in edge.path.flatten(_FLAT)]
    ways = [exp(1j * pi * i / _ANGLES) for i in range(_ANGLES)]
    spreads = ([(at * way).real for at in corners] for way in ways)
    return min(max(spread) - min(spread) for spread in spreads)


def _report_closed(seam: JoinedSeam, members: Iterable[DraftedPiece], values: Evaluator) -> None:
    values.fault(
        "no-way-to-turn",
        f"seam `{seam.name}` leaves no opening to turn the work right side out",
        seam.span,
        others=tuple(Label(piece.span, "all its edges are sewn shut") for piece in members),
        help="leave some of a seam open: { leave 12 cm at 50 % }",
    )


def _report_narrow(seam: JoinedSeam, way: _Way, needed: float, values: Evaluator) -> None:
    values.fault(
        "opening-too-small",
        f"the work that seam `{seam.name}` encloses has to be turned through {length(way.wide)}",
        seam.span,
        others=tuple(Label(span, "open here") for span in way.spans),
        notes=(f"a hand, or the narrowest way through, needs {length(needed)} (common practice, no source)",),
        help="leave more of the edge open",
        severity=Severity.WARNING,
    )
