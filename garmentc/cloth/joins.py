"""Where strips may be cut of parts that are joined."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from garmentc.assembly.model import Assembly
from garmentc.cloth.shapes import Splits
from garmentc.draft.model import DraftedPiece, Laid

_SHARES = ((0.5,), (0.0,), (1.0,), (1 / 3, 2 / 3))
_SHORTEST = 60.0  # mm of a part, its joins not counted: common practice, no source


def ways_to_join(assembly: Assembly, cloth: str) -> Iterator[Splits]:
    """Where the strips cut from a cloth are joined, the fewest joins first: none at all, then one strip, then all."""
    yield {}
    strips = [
        (strip, laid)
        for strip in assembly.draft.strips
        if (laid := assembly.draft.lays.get(strip.name)) is not None and laid.cloth == cloth and laid.joins
    ]
    for shares in _SHARES:
        joined = {
            key: ends
            for strip, laid in strips
            if len(shares) <= laid.joins and (ends := _ends(strip, laid, shares))
            for key in keys(strip)
        }
        if joined and len(joined) > 1:
            for key, ends in list(joined.items())[-1:]:
                yield {key: ends}
        if joined:
            yield joined


def joinable(assembly: Assembly) -> frozenset[str]:
    """The keys of strips that may be cut of parts."""
    return frozenset(
        key
        for strip in assembly.draft.strips
        if (laid := assembly.draft.lays.get(strip.name)) is not None and laid.joins
        for key in keys(strip)
    )


def keys(strip: DraftedPiece) -> list[str]:
    """The keys of the copies of a strip."""
    number = strip.number * (2 if strip.pair else 1)
    return [strip.name] if number == 1 else [f"{strip.name} {copy}" for copy in range(1, number + 1)]


def _ends(strip: DraftedPiece, laid: Laid, shares: tuple[float, ...]) -> tuple[float, ...]:
    """The places of the joins along a strip, between those that are allowed; none when a part would be too short."""
    first, last = laid.joined_between
    ends = tuple(first + (last - first) * share for share in shares)
    long = strip.making.length if strip.making is not None else 0.0
    bounds = (0.0, *ends, long)
    short = any(b - a < _SHORTEST for a, b in pairwise(bounds))
    return () if short else ends
