"""Places on a side of a seam, by how far the side has run when it is sewn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.draft.model import DraftedEdge, DraftedPiece, PlacedNotch
from garmentc.record import Record

Side = Sequence[Stretch]


class OwnNotch(Record):
    """A notch of the maker's on a side of a seam, ``run`` mm from its start."""

    notch: PlacedNotch
    run: float


def place_at(side: Side, run: float) -> tuple[Stretch, float]:
    """The stretch of a side that lies ``run`` mm from its start, and how far along its edge (mm, as outlined)."""
    stretch = next((one for one in side if run < one.after), side[-1])
    sewn = min(max(run - stretch.before, 0.0), stretch.edge.sewn_length)
    sewn = stretch.edge.sewn_length - sewn if stretch.backward else sewn
    return stretch, place_on(stretch.piece, stretch.edge, sewn)


def run_of(stretch: Stretch, along: float) -> float:
    """How far a side has run at a place ``along`` one of its edges (mm, as outlined)."""
    sewn = sewn_to(stretch.piece, stretch.edge, along)
    return stretch.before + (stretch.edge.sewn_length - sewn if stretch.backward else sewn)


def own_notches(side: Side) -> list[OwnNotch]:
    """The maker's notches along a side, in order."""
    found = [
        OwnNotch(notch, run_of(one, notch.along))
        for one in side
        for notch in one.piece.notches
        if notch.edge == one.edge.name
    ]
    return sorted(found, key=lambda one: one.run)


def closed_at(side: Side) -> list[float]:
    """Where along a side its darts, tucks and pleats lie, once they are closed (mm from its start)."""
    return [run_of(one, low) for one in side for low, _ in _held(one.piece, one.edge)]


def sewn_to(piece: DraftedPiece, edge: DraftedEdge, along: float) -> float:
    """How much of an edge is sewn before a place ``along`` it (mm, as outlined), what is taken up left out."""
    return along - sum(min(max(along - low, 0.0), high - low) for low, high in _held(piece, edge))


def place_on(piece: DraftedPiece, edge: DraftedEdge, sewn: float) -> float:
    """The place on an edge of which so much (mm) is sewn before it, what is taken up left out."""
    along = sewn
    for low, high in _held(piece, edge):
        if along > low:
            along += high - low
    return min(along, edge.path.length)


def _held(piece: DraftedPiece, edge: DraftedEdge) -> list[tuple[float, float]]:
    """What darts, tucks and pleats take of an edge, in order."""
    if not edge.taken:
        return []
    return sorted(_ends(piece, edge))


def _ends(piece: DraftedPiece, edge: DraftedEdge) -> Iterator[tuple[float, float]]:
    for one in piece.takeups:
        if one.edge == edge.name:
            yield edge.path.nearest(one.first)[0], edge.path.nearest(one.second)[0]
