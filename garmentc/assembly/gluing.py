"""Discs glued along parts of their borders: what hangs together, Euler characteristics, borders that are left.

Plain topology: a disc is a ring of edges with lengths, and a bond glues a part of one border to a part of another.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from garmentc.record import Record

_SAME = 1e-3
"""Places on an edge nearer than this (mm) are one."""


class Part(NamedTuple):
    """The part of an edge of a disc from ``low`` to ``high`` (mm), in the direction in which the ring runs."""

    disc: int
    edge: int
    low: float
    high: float

    @property
    def length(self) -> float:
        """How long it is (mm)."""
        return self.high - self.low


class Bond(Record):
    """Two parts glued to each other, ``by`` what; ``against`` when their rings run in opposite directions there.

    Discs that are bonded against each other show the same side.
    """

    one: Part
    other: Part
    against: bool
    by: str = ""


class Sheet(Record):
    """Discs that hang together.

    ``loops`` are the borders that are left, each a closed chain of parts. ``twisted`` is the bond that makes the sheet
    one-sided, or None.
    """

    discs: tuple[int, ...]
    euler: int
    loops: tuple[tuple[Part, ...], ...]
    twisted: Bond | None


def glue(discs: Sequence[Sequence[float]], bonds: Sequence[Bond]) -> tuple[Sheet, ...]:
    """The sheets made of discs, each given by the lengths of its edges (mm), in the order of their first discs.

    Euler characteristic: corners minus edges plus faces, as Euler has it for any surface cut into discs. ValueError
    when a part is glued twice or reaches beyond its edge.
    """
    return tuple(_Patchwork(discs, bonds).sheets())


def discs_by_sheet(count: int, bonds: Sequence[Bond]) -> tuple[tuple[int, ...], ...]:
    """The discs of each sheet that so many discs and these bonds make, in the order of their first discs."""
    sheet, _ = _signs(count, bonds)
    return tuple(map(tuple, _grouped(sheet).values()))


def _signs(count: int, bonds: Sequence[Bond]) -> tuple[list[int], list[int]]:
    """Of each disc the first disc of its sheet, and which side it shows (1 or -1)."""
    beside: list[list[tuple[int, int]]] = [[] for _ in range(count)]
    for bond in bonds:
        turn = 1 if bond.against else -1
        beside[bond.one.disc].append((bond.other.disc, turn))
        beside[bond.other.disc].append((bond.one.disc, turn))
    sheet, sign = [-1] * count, [1] * count
    for start in range(count):
        if sheet[start] >= 0:
            continue
        sheet[start] = start
        waiting = deque((start,))
        while waiting:
            at = waiting.popleft()
            for disc, turn in beside[at]:
                if sheet[disc] < 0:
                    sheet[disc], sign[disc] = start, sign[at] * turn
                    waiting.append(disc)
    return sheet, sign


def _grouped(sheet: Sequence[int]) -> dict[int, list[int]]:
    """The discs of each sheet, by its first one."""
    found: dict[int, list[int]] = {}
    for disc, first in enumerate(sheet):
        found.setdefault(first, []).append(disc)
    return found


class _Patchwork:
    """Discs whose edges are cut at the ends of all bonds. Pieces of edges, and their ends, are numbered."""

    def __init__(self, discs: Sequence[Sequence[float]], bonds: Sequence[Bond]) -> None:
        self._bonds = bonds
        self._parts: list[Part] = []
        self._next: list[int] = []
        self._before: list[int] = []
        self._count = len(discs)
        for disc, places in enumerate(self._places(discs)):
            first = len(self._parts)
            self._parts += [
                Part(disc, edge, low, high) for edge, cuts in enumerate(places) for low, high in pairwise(cuts)
            ]
            many = len(self._parts) - first
            self._next += [first + (i + 1) % many for i in range(many)]
            self._before += [first + (i - 1) % many for i in range(many)]
        self._by_edge: dict[tuple[int, int], list[int]] = {}
        for i, part in enumerate(self._parts):
            self._by_edge.setdefault((part.disc, part.edge), []).append(i)
        self._partner: dict[int, tuple[int, Bond]] = {}
        for bond in bonds:
            one, other = self._number(bond.one), self._number(bond.other)
            if one == other or one in self._partner or other in self._partner:
                raise ValueError(f"glued twice: {bond}")
            self._partner[one] = other, bond
            self._partner[other] = one, bond

    def _places(self, discs: Sequence[Sequence[float]]) -> list[list[list[float]]]:
        """Where each edge is cut, both ends included."""
        cuts = [[[0.0, length] for length in edges] for edges in discs]
        for part in (part for bond in self._bonds for part in (bond.one, bond.other)):
            places = cuts[part.disc][part.edge]
            if part.low < -_SAME or part.high > places[1] + _SAME or part.length <= _SAME:
                raise ValueError(f"no such part: {part}")
            for at in (part.low, part.high):
                if all(abs(at - known) > _SAME for known in places):
                    places.append(at)
        return [[sorted(places) for places in edges] for edges in cuts]

    def _number(self, part: Part) -> int:
        for i in self._by_edge.get((part.disc, part.edge), ()):
            known = self._parts[i]
            if abs(known.low - part.low) <= _SAME:
                if abs(known.high - part.high) <= _SAME:
                    return i
                break
        raise ValueError(f"glued twice: {part}")

    def sheets(self) -> Iterator[Sheet]:
        """The discs that hang together, group by group."""
        sheet, sign = _signs(self._count, self._bonds)
        twisted: dict[int, Bond] = {}
        for bond in self._bonds:
            one, other = bond.one.disc, bond.other.disc
            if sign[one] * sign[other] != (1 if bond.against else -1):
                twisted.setdefault(sheet[one], bond)
        corners = self._corners()
        discs = _grouped(sheet)
        parts: dict[int, list[int]] = {root: [] for root in discs}
        for i, part in enumerate(self._parts):
            parts[sheet[part.disc]].append(i)
        for root, own in parts.items():
            glued = sum(i in self._partner for i in own) // 2
            ends = {corners[end] for i in own for end in (2 * i, 2 * i + 1)}
            euler = len(ends) - (len(own) - glued) + len(discs[root])
            yield Sheet(tuple(discs[root]), euler, tuple(self._loops(own, sign)), twisted.get(root))

    def _corners(self) -> list[int]:
        """A number for the start (2i) and the end (2i + 1) of each part, the same for all that come together."""
        leader = list(range(2 * len(self._parts)))

        def find(end: int) -> int:
            while leader[end] != end:
                leader[end] = leader[leader[end]]
                end = leader[end]
            return end

        def join(one: int, other: int) -> None:
            leader[find(one)] = find(other)

        for i, after in enumerate(self._next):
            join(2 * i + 1, 2 * after)
        for i, (j, bond) in self._partner.items():
            join(2 * i, 2 * j + bond.against)
            join(2 * i + 1, 2 * j + (not bond.against))
        return [find(end) for end in range(len(leader))]

    def _loops(self, own: Sequence[int], sign: Sequence[int]) -> Iterator[tuple[Part, ...]]:
        seen: set[int] = set()
        for start in own:
            if start in self._partner or start in seen:
                continue
            loop: list[Part] = []
            at, forward = start, sign[self._parts[start].disc] > 0
            while at not in seen:
                seen.add(at)
                loop.append(self._parts[at])
                at, forward = self._beyond(at, forward)
            yield tuple(loop)

    def _beyond(self, at: int, forward: bool) -> tuple[int, bool]:
        """The free part beyond the end of one, round the corner where they meet, and the way it is run."""
        at = self._next[at] if forward else self._before[at]
        while at in self._partner:
            at, bond = self._partner[at]
            forward = forward == bond.against
            # The corner is now where the partner ends when the walk goes on forward.
            at = self._next[at] if forward else self._before[at]
        return at, forward
