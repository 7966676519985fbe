"""Which instances of its pieces a seam or a finish speaks of: left and right, copy by copy."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache

from garmentc.assembly.chains import Stretch
from garmentc.assembly.ends import Ends
from garmentc.assembly.instances import has_mirror
from garmentc.design.model import EdgeName
from garmentc.draft.model import DraftedPiece
from garmentc.record import Record

LEFT, RIGHT = "left", "right"

Instance = tuple[int, bool]
"""A copy of a piece, and whether the half or the piece of a pair is meant that lies as its mirror image."""


def instances(piece: DraftedPiece) -> list[Instance]:
    """All that is cut of a piece: of each copy what is drawn, then its mirror image where there is one."""
    halves = (False, True) if has_mirror(piece) else (False,)
    return [(copy, mirrored) for copy in range(piece.number) for mirrored in halves]


class Hands:
    """Which half of a piece, or which piece of a pair, is the left one as it is worn.

    Of pieces that hang together, the first one decides: of a front, what is drawn right of its fold or origin is worn
    left, seen from outside; of a back, right. The others follow by how the seams turn them to it.
    """

    def __init__(self, pieces: Iterable[DraftedPiece], ends: Ends) -> None:
        self._ends = ends
        self._drawn_left: dict[str, bool] = {}
        for piece in pieces:
            if has_mirror(piece):
                lead, sign = ends.turned(piece.name)
                self._drawn_left.setdefault(lead, _is_drawn_left(piece) == (sign > 0))

    def of(self, piece: str, *, mirrored: bool) -> str:
        """The hand on which the drawn half of a piece, or its mirror image, is worn."""
        lead, sign = self._ends.turned(piece)
        drawn_left = self._drawn_left[lead] == (sign > 0)
        return LEFT if drawn_left != mirrored else RIGHT

    def meant(self, piece: DraftedPiece, name: EdgeName) -> list[Instance]:
        """The instances of a piece that the name of one of its edges speaks of."""
        return [one for one in instances(piece) if self.is_meant(piece, name, one)]

    def is_meant(self, piece: DraftedPiece, name: EdgeName, one: Instance) -> bool:
        """Whether the name of an edge speaks of an instance of its piece."""
        copy, mirrored = one
        if name.copy not in (0, copy + 1):
            return False
        return not name.hand or name.hand == self.of(piece.name, mirrored=mirrored)

    def common(self, piece: DraftedPiece, some: Sequence[Instance]) -> tuple[str, int]:
        """The hand and the copy (from 1) that all of some instances have; nothing and 0 where they differ."""
        sides = {self.of(piece.name, mirrored=mirrored) for _, mirrored in some} if has_mirror(piece) else set()
        copies = {copy for copy, _ in some}
        copy = copies.pop() + 1 if len(copies) == 1 < piece.number else 0
        return sides.pop() if len(sides) == 1 else "", copy


def _is_drawn_left(piece: DraftedPiece) -> bool:
    x0, _, x1, _ = piece.outline.bounds()
    fold = next((edge.path.start.real for edge in piece.edges if edge.on_fold), 0.0)
    return ((x0 + x1) / 2 >= fold) != named_back(piece)


def named_back(*pieces: DraftedPiece) -> bool:
    """Whether one of some pieces is called a back, and none a front."""
    words = {word for piece in pieces for word in _words(f"{piece.name} {piece.title}")}
    return "back" in words and "front" not in words


_WORD = re.compile(r"[^\W\d_]+")


@cache
def _words(text: str) -> tuple[str, ...]:
    return tuple(word.lower() for word in _WORD.findall(text))


class Run(Record):
    """One time a side of a seam is sewn: which copies, and whether leaves that are run backward are the mirrored ones.

    ``copies`` are by piece and by the copy that its edge is named with.
    """

    copies: Mapping[tuple[str, int], int]
    turned: bool

    def leaf(self, stretch: Stretch) -> Instance:
        """The instance of a piece that a stretch of this run belongs to."""
        copy = self.copies[stretch.piece.name, stretch.name.copy]
        return copy, has_mirror(stretch.piece) and stretch.backward != self.turned


class Unlike(Exception):
    """Edges of a seam that can't be sewn to each other as often, or as they lie."""

    def __init__(self, stretch: Stretch | None) -> None:
        super().__init__()
        self.stretch = stretch
        """The edge that lies the other way round than those before it, or None when they do not exist equally often."""


def runs_of(
    first: Sequence[Stretch], second: Sequence[Stretch], hands: Hands, *, mirrored: bool
) -> tuple[tuple[Run, Run], ...]:
    """Each time a seam is sewn, the runs of its two sides: what lies on each other shows the same side of the cloth.

    ``mirrored``: the second side is the mirror image of the first. Raises Unlike.
    """
    ones = _side_runs(first, hands, turned=False)
    if mirrored:
        return tuple((one, one._replace(turned=True)) for one in ones if not one.turned)
    others = _side_runs(second, hands, turned=True)
    if len(ones) != len(others):
        raise Unlike(None)
    halved = [next((one for one in side if has_mirror(one.piece)), None) for side in (first, second)]
    if None not in halved and any(one.turned == other.turned for one, other in zip(ones, others, strict=True)):
        raise Unlike(halved[1])
    return tuple(zip(ones, others, strict=True))


def _side_runs(side: Sequence[Stretch], hands: Hands, *, turned: bool) -> list[Run]:
    """The runs of a side; the first is ``turned`` where nothing else is asked for."""
    picked = [list(_picked(stretch, hands, turned)) for stretch in side]
    if len({len(found) for found in picked}) != 1:
        raise Unlike(None)
    runs: list[Run] = []
    for number, found in enumerate(zip(*picked, strict=True)):
        ways = [(stretch, way) for stretch, (_, way) in zip(side, found, strict=True) if has_mirror(stretch.piece)]
        other = next((stretch for stretch, way in ways if way != ways[0][1]), None)
        if other is not None:
            raise Unlike(other)
        copies = {(stretch.piece.name, stretch.name.copy): copy for stretch, (copy, _) in zip(side, found, strict=True)}
        runs.append(Run(copies, ways[0][1] if ways else (number % 2 == 1) != turned))
    return runs


def _picked(stretch: Stretch, hands: Hands, turned: bool) -> Iterable[tuple[int, bool]]:
    """The copies of an edge that its name speaks of, and whether their run is turned."""
    piece = stretch.piece
    if not has_mirror(piece):
        yield from ((copy, turned) for copy, _ in hands.meant(piece, stretch.name))
        return
    for copy in range(piece.number):
        for way in (turned, not turned):
            if hands.is_meant(piece, stretch.name, (copy, stretch.backward != way)):
                yield copy, way
