"""What the rounding of a draft by hand does to the seams: how long both sides come out."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from garmentc.assembly.model import Assembly, JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.output.byhand.model import HandPiece
from garmentc.record import Record


class Matched(Record):
    """A seam with the lengths of both sides of the drawn pieces (mm): in the draft, and as drawn by hand."""

    title: str
    first: float
    first_drawn: float
    second: float
    second_drawn: float

    @property
    def apart(self) -> float:
        """By how much the rounding alone sets the sides apart (mm)."""
        return abs((self.first_drawn - self.first) - (self.second_drawn - self.second))


def matched_seams(assembly: Assembly, pieces: Iterable[HandPiece]) -> list[Matched]:
    """All seams between edges of pieces; strips are cut to a length and seams with them are left out."""
    lengths = {piece.name: piece.lengths for piece in pieces}
    return [
        _matched(assembly, seam, lengths)
        for seam in assembly.seams
        if not seam.mirrored and all(edge.piece in lengths for edge in seam.edges)
    ]


def _matched(assembly: Assembly, seam: JoinedSeam, lengths: Mapping[str, Mapping[str, float]]) -> Matched:
    def both(names: Sequence[EdgeName]) -> tuple[float, float]:
        edges = [(assembly.draft.piece(name.piece).edge(name.edge), lengths[name.piece][name.edge]) for name in names]
        found = [(edge, drawn) for edge, drawn in edges if edge is not None]
        return (
            sum(edge.sewn_length for edge, _ in found),
            sum(drawn - edge.taken for edge, drawn in found),
        )

    return Matched(spoken(seam.name), *both(seam.first), *both(seam.second))
