"""Which end of one side of a seam meets which end of the other."""

from __future__ import annotations

from itertools import pairwise
from math import pi

from garmentc.assembly.chains import Corner, Stretch, turned
from garmentc.assembly.instances import has_mirror
from garmentc.assembly.runs import own_notches
from garmentc.design.model import Design, SeamPlan
from garmentc.draft.model import DraftedEdge
from garmentc.geometry.vector import turning

Side = tuple[Stretch, ...]

_SMOOTHER = 1e-3  # for each radian that the joined line is off a straight one

_UNTWISTED, _CROSSED, _FOLDED, _NOTCHED, _FINISHED, _FACED, _NAMED, _DRAWN = 32.0, 8.0, 6.0, 5.0, 4.0, 3.5, 1.5, 1.0
"""How much more each sign counts than the next: no twist, what meets there, notches, finishes, right sides, names …"""


class Ends:
    """Turns the second side of each seam so that it starts where the first does.

    Chains of several edges are walked as the spec names them. Of a side with one edge the ends that meet are told by
    what happens beside them: the same seam crosses both, both end on a fold, both neighbours are finished by one
    statement or called alike, or the maker's notches meet. Pieces that are cut without a mirror image meet with their
    right sides alike. Where all that leaves it open, the edges meet as they are drawn, start to
    start, and the smoother way breaks a tie. Before all that, no way is taken that would twist the work: edges of one
    piece make it a tube, and pieces that several seams join are turned to each other one way.
    """

    def __init__(self, design: Design) -> None:
        self._signs: dict[tuple[str, str], set[tuple[str, str]]] = {}
        for seam in design.seams.values():
            for name in seam.edges:
                self._signs.setdefault((name.piece, name.edge), set()).add(("seam", seam.name))
        for number, finish in enumerate(design.finishes):
            for name in finish.edges:
                self._signs.setdefault((name.piece, name.edge), set()).add(("finish", str(number)))
        self._turns: dict[str, tuple[str, int]] = {}

    def meeting(self, plan: SeamPlan, first: Side, second: Side, *, inside: bool = False) -> tuple[Side, Side]:
        """Both sides, from the ends that meet; seams count for those asked after them.

        ``inside``: the second is a further layer, whose wrong side shows where the first one has its right side out.
        """
        first, second = self._meeting(plan, first, second, -1 if inside else 1)
        if not plan.mirrored:
            for one, other in (*pairwise(first), *pairwise(second)):
                self._join(_known_as(one), _known_as(other), 1 if one.backward == other.backward else -1)
            self._join(_known_as(first[0]), _known_as(second[0]), _turned_to(first, second))
        return first, second

    def _join(self, one: str, other: str, turn: int) -> None:
        """Keep how two pieces are turned to each other, unless that is known."""
        (group, sign), (met, sign_too) = self.turned(one), self.turned(other)
        if group != met:
            self._turns[met] = group, turn * sign * sign_too

    def turned(self, piece: str) -> tuple[str, int]:
        """The piece that leads those known to hang together with one, and how that is turned to it: 1 or -1."""
        lead, sign = self._turns.setdefault(piece, (piece, 1))
        if lead != piece:
            first, more = self.turned(lead)
            lead, sign = self._turns[piece] = first, sign * more
        return lead, sign

    def _turn(self, first: Side, second: Side) -> int:
        """Whether the first pieces of two sides are turned to each other (1) or away (-1) as far as known, or 0."""
        one, other = self.turned(_known_as(first[0])), self.turned(_known_as(second[0]))
        return one[1] * other[1] if one[0] == other[0] else 0

    def _meeting(self, plan: SeamPlan, first: Side, second: Side, facing: int) -> tuple[Side, Side]:
        if plan.mirrored or (len(first) > 1 and len(second) > 1):
            return first, second
        if len(first) > 1:
            other, one = self._meeting(plan._replace(first=plan.second, second=plan.first), second, first, facing)
            return one, other
        ways = [(one, second) for one in (first, turned(first))] if len(second) > 1 else _both(first, second)
        return max(ways, key=lambda way: self._likely(way[0], way[1], facing))

    def _likely(self, first: Side, second: Side, facing: int) -> float:
        score = _DRAWN if _drawn_alike(first, second) else 0.0
        if _turned_to(first, second) == facing and not any(has_mirror(one.piece) for one in (*first, *second)):
            score += _FACED
        if self._turn(first, second) in (0, _turned_to(first, second)):
            score += _UNTWISTED
        for at_end in (False, True):
            one, other = _corner(first, at_end), _corner(second, at_end)
            if one.piece.name == other.piece.name and one.place == other.place:
                score += _CROSSED
                continue
            next_one, next_other = (side[-1 if at_end else 0].beside(at_end=at_end) for side in (first, second))
            shared = self._of(one, next_one) & self._of(other, next_other)
            if any(way == "seam" for way, _ in shared):
                score += _CROSSED
            elif shared:
                score += _FINISHED
            if next_one.name == next_other.name:
                score += _NAMED
            if next_one.on_fold and next_other.on_fold:
                score += _FOLDED
            score -= abs(inner_angle(one) + inner_angle(other) - pi) * _SMOOTHER
        notches = own_notches(first), own_notches(second)
        if notches[0] and len(notches[0]) == len(notches[1]):
            pairs = zip(*notches, strict=True)
            score += _NOTCHED * all(abs(a.run / first[-1].after - b.run / second[-1].after) < 0.02 for a, b in pairs)
        return score

    def _of(self, corner: Corner, edge: DraftedEdge) -> set[tuple[str, str]]:
        return self._signs.get((corner.piece.name, edge.name), set())


def _known_as(stretch: Stretch) -> str:
    """What a piece, or one copy of it, is known as among those that hang together."""
    return f"{stretch.piece.name} {stretch.name.copy}" if stretch.name.copy else stretch.piece.name


def _turned_to(first: Side, second: Side) -> int:
    """1 when the outlines run in opposite directions where two sides meet, so that both show the same side; else -1."""
    return 1 if first[0].backward != second[0].backward else -1


def _both(first: Side, second: Side) -> list[tuple[Side, Side]]:
    """Both ways of laying a second edge on a first that is walked as it is drawn."""
    if first[0].backward != first[0].edge.backward:
        first = turned(first)
    return [(first, second), (first, turned(second))]


def _drawn_alike(first: Side, second: Side) -> bool:
    """Whether both sides are walked the way their edges are drawn, or both against it."""
    return len({one.backward != one.edge.backward for one in (first[0], second[0])}) == 1


def _corner(side: Side, at_end: bool) -> Corner:
    return side[-1 if at_end else 0].corner(at_end=at_end)


def inner_angle(corner: Corner) -> float:
    """The inner angle of a corner (radians)."""
    before, after = corner.edges
    return pi - turning(before.path.end_direction(), after.path.start_direction())
