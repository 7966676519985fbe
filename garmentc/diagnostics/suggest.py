"""Names that were probably meant, for "did you mean"."""

from __future__ import annotations

from collections.abc import Iterable

_MOST = 3


def closest(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """At most three of ``known`` that are a few slips away from ``name``, nearest first, then by name.

    A slip is a letter too many, missing or wrong, or two neighbours swapped; upper and lower case count as
    the same. One slip is forgiven for every three letters of ``name``, and always one.
    """
    forgiven = max(1, len(name) // 3)
    wanted = name.casefold()
    near = ((_slips(wanted, candidate.casefold(), forgiven), candidate) for candidate in set(known))
    return tuple(candidate for slips, candidate in sorted(near) if slips <= forgiven)[:_MOST]


def did_you_mean(name: str, known: Iterable[str]) -> str:
    """The question "did you mean `a` or `b`?", or an empty text when nothing is near."""
    names = [f"`{candidate}`" for candidate in closest(name, known)]
    return f"did you mean {' or '.join(names)}?" if names else ""


def _slips(one: str, other: str, enough: int) -> int:
    """Damerau-Levenshtein distance (neighbours swapped at most once); above ``enough`` only a lower bound."""
    if abs(len(one) - len(other)) > enough:
        return enough + 1
    before_last: list[int] = []
    last = list(range(len(other) + 1))
    for row, letter in enumerate(one, start=1):
        current = [row]
        for column, facing in enumerate(other, start=1):
            slips = min(last[column] + 1, current[-1] + 1, last[column - 1] + (letter != facing))
            if row > 1 and column > 1 and letter == other[column - 2] and facing == one[row - 2]:
                slips = min(slips, before_last[column - 2] + 1)
            current.append(slips)
        if min(current) > enough and min(last) > enough:
            return enough + 1
        before_last, last = last, current
    return last[-1]
