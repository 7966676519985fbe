"""Which piece, edge and seam of the old state is which of the new one, also where it has another name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from garmentc.assembly.model import Assembly, JoinedSeam
from garmentc.comparison.shapes import STILL, Shape, distance_between
from garmentc.draft.model import DraftedPiece
from garmentc.geometry.motion import Motion
from garmentc.record import Record

_LIKE = 0.8  # of the area of both together that two pieces share which are one piece with another name


class Names(Record):
    """The new name of each old piece (or strip), edge and seam that is still there."""

    pieces: Mapping[str, str]
    edges: Mapping[tuple[str, str], str]
    seams: Mapping[str, str]

    def piece(self, name: str) -> str:
        """What an old piece is called now; its old name if it is gone."""
        return self.pieces.get(name, name)

    def edge(self, piece: str, edge: str) -> str:
        """What an edge of an old piece is called now, with its piece."""
        return f"{self.piece(piece)}.{self.edges.get((piece, edge), edge)}"

    def seam(self, name: str) -> str:
        """What an old seam is called now."""
        return self.seams.get(name, name)


AS_THEY_ARE = Names({}, {}, {})
"""Names that nothing is done to."""


def paired_names(
    old: Assembly, old_shapes: Mapping[str, Shape], new: Assembly, new_shapes: Mapping[str, Shape]
) -> Names:
    """Pieces, edges and seams of two states in one size, by their shape where their name does not tell."""
    pieces: dict[str, str] = {}
    for before, after in ((old.pieces, new.pieces), (old.strips, new.strips)):
        pieces |= _paired_pieces([one.drafted for one in before], [one.drafted for one in after])
    edges = {
        (name, one): other
        for name, new_name in pieces.items()
        for one, other in _paired_edges(old_shapes[name], new_shapes[new_name]).items()
    }
    names = Names(pieces, edges, {})
    return names._replace(seams=_paired_seams(old.seams, new.seams, names))


def _paired_pieces(old: Sequence[DraftedPiece], new: Sequence[DraftedPiece]) -> dict[str, str]:
    pairs = {one.name: one.name for one in old if any(other.name == one.name for other in new)}
    gone = [one for one in old if one.name not in pairs]
    come = [one for one in new if one.name not in pairs]
    likes = [(_likeness(one, other), one.title == other.title, one, other) for one in gone for other in come]
    for like, _, one, other in sorted(likes, key=lambda found: (-round(found[0], 3), not found[1])):
        if like >= _LIKE and one.name not in pairs and other.name not in pairs.values():
            pairs[one.name] = other.name
    return pairs


def _likeness(old: DraftedPiece, new: DraftedPiece) -> float:
    """The share of the area of both that two pieces have in common when they lie on each other, threads along threads.

    They are laid with the middles of the boxes around them together, also turned end for end.
    """
    from garmentc.geometry.region import overlap_area, polygon

    best = 0.0
    for turn in (new.thread / old.thread, -new.thread / old.thread):
        turned = old.outline.moved(Motion(turn, 0j, False))
        laid = turned.moved(Motion.shift_by(_middle(new) - _middle_of(turned.bounds())))
        shared = overlap_area(polygon(laid, 0.1), polygon(new.outline, 0.1))
        best = max(best, shared / (abs(old.outline.area) + abs(new.outline.area) - shared))
    return best


def _middle(piece: DraftedPiece) -> complex:
    return _middle_of(piece.outline.bounds())


def _middle_of(box: tuple[float, float, float, float]) -> complex:
    x0, y0, x1, y1 = box
    return complex(x0 + x1, y0 + y1) / 2


def _paired_edges(old: Shape, new: Shape) -> dict[str, str]:
    """Edges by name where that is the same line or nothing else is; else by line, else by the edges beside them."""
    before = {edge.name: edge.path for edge in old.piece.edges}
    after = {edge.name: edge.path for edge in new.piece.edges}
    pull = Motion.shift_by(_best_shift(old, new))
    lies = {
        (one, other): distance_between(path.moved(pull), after[other]) <= STILL
        for one, path in before.items()
        for other in after
    }
    pairs = {name: name for name in before if lies.get((name, name))}

    def free(one: str, other: str) -> bool:
        return one not in pairs and other not in pairs.values()

    for (one, other), same in lies.items():
        swapped = lies.get((other, one), False)
        if same and free(one, other) and (swapped or one not in after or other not in before):
            pairs[one] = other
    pairs |= {name: name for name in before if name in after and free(name, name)}
    for one, other in _between_neighbours(list(before), list(after), pairs):
        if free(one, other):
            pairs[one] = other
    return pairs


def _best_shift(old: Shape, new: Shape) -> complex:
    """The shift that brings most corners onto corners, whatever they are called; 0 unless another brings more."""
    places, others = [corner.at for corner in new.corners], [corner.at for corner in old.corners]
    shifts = [0j, *(to - at for at in others for to in places)]

    def met(shift: complex) -> int:
        return sum(any(abs(at + shift - to) <= STILL for to in places) for at in others)

    return max(shifts, key=met)


def _between_neighbours(old: list[str], new: list[str], pairs: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    """Edges that stand alone between the same two edges before and after."""
    for number, one in enumerate(old):
        if one in pairs:
            continue
        before, after = old[number - 1], old[(number + 1) % len(old)]
        if before in pairs and after in pairs:
            other = new[(new.index(pairs[before]) + 1) % len(new)]
            if new[(new.index(other) + 1) % len(new)] == pairs[after]:
                yield one, other


def _paired_seams(old: Iterable[JoinedSeam], new: Iterable[JoinedSeam], names: Names) -> dict[str, str]:
    """Seams by name, else by the edges that they join."""
    before = {seam.name: frozenset(names.edge(one.piece, one.edge) for one in seam.edges) for seam in old}
    after = {seam.name: frozenset(one.text for one in seam.edges) for seam in new}
    pairs = {name: name for name in before if name in after}
    for one, edges in before.items():
        for other, others in after.items():
            if edges == others and one not in pairs and other not in pairs.values():
                pairs[one] = other
    return pairs
