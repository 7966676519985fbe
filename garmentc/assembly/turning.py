"""Whether what is sewn right sides together and turned leaves an opening to turn it through."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from garmentc.assembly.model import EdgeUse, JoinedSeam
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedPiece

TURNED = "enclosed"
"""The seam type whose work ends with turning the layers right side out."""


def check_turning(
    pieces: Sequence[DraftedPiece],
    seams: Iterable[JoinedSeam],
    uses: Mapping[str, Mapping[str, EdgeUse]],
    values: Evaluator,
) -> None:
    """Report layers that are sewn to each other all round.

    Pieces that hang together by seams are closed when no edge of theirs is left outside a seam or a fold. The last of
    the enclosed seams that close them is told.
    """
    seams = tuple(seams)
    for group in _hanging_together([piece.name for piece in pieces], seams):
        turned = [seam for seam in seams if seam.join.name == TURNED and seam.first[0].piece in group]
        members = [piece for piece in pieces if piece.name in group]
        if not turned or any(_is_open(edge.name, uses[piece.name]) for piece in members for edge in piece.edges):
            continue
        values.fault(
            "no-way-to-turn",
            f"seam `{turned[-1].name}` leaves no opening to turn the work right side out",
            turned[-1].span,
            others=tuple(Label(piece.span, "all its edges are sewn shut") for piece in members),
            help="leave a stretch of one edge out of the seam, finish it, and add a step that closes it by hand",
        )


def _is_open(edge: str, uses: Mapping[str, EdgeUse]) -> bool:
    """An edge nothing uses is reported elsewhere; it counts as open."""
    return edge not in uses or uses[edge].way == "finish"


def _hanging_together(names: Sequence[str], seams: Iterable[JoinedSeam]) -> list[set[str]]:
    groups = [{name} for name in names]
    for seam in seams:
        sewn = {name.piece for name in (*seam.first, *seam.second)}
        met = [group for group in groups if group & sewn]
        groups = [group for group in groups if not group & sewn] + [set().union(*met)]
    return groups
