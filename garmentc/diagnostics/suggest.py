"""Names that were probably meant, for "did you mean"."""

from __future__ import annotations

from collections.abc import Iterable

_MOST = 3
_BEGIN = 3
_BEGIN = 3
_MOST_LISTED = 12


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
    return asked(closest(name, known))


def asked(names: Iterable[str]) -> str:
    """The question whether one of the names was meant; empty without names."""
    shown = " or ".join(f"`{name}`" for name in names)
    return f"did you mean {shown}?" if shown else ""


def meant_or_known(name: str, known: Iterable[str]) -> str:
    """What was probably meant by a name; else what there is, at most twelve names; empty when there is nothing."""
    there = sorted(dict.fromkeys(known), key=lambda one: not _begins_alike(name, one))
    return did_you_mean(name, there) or listed(there)


def _begins_alike(name: str, other: str) -> bool:
    """Whether a word in one name begins as the other name does: ``turned_hem`` and ``hemmed``."""
    return any(word[:_BEGIN] == name[:_BEGIN] for word in other.split("_"))


def listed(known: Iterable[str]) -> str:
    """What there is, at most twelve names; empty when there is nothing."""
    names = [f"`{name}`" for name in known]
    if not names:
        return ""
    more = " …" if len(names) > _MOST_LISTED else ""
    return f"there {'is' if len(names) == 1 else 'are'} {', '.join(names[:_MOST_LISTED])}{more}"


def alike(name: str, known: Iterable[str], plain: Iterable[str] = ()) -> tuple[str, ...]:
    """At most three names a few slips away, or, when there are none, those that share a telling word.

    ``plain`` words tell nothing on their own. Names with the fewest further words come first; `hips` is `hip`.
    """
    there = sorted(set(known))
    if near := closest(name, there):
        return near
    wanted = _words(name) - set(plain)
    sharing = [(len(_words(one) - wanted), one) for one in there if _words(one) & wanted]
    return tuple(one for _, one in sorted(sharing))[:_MOST]


def _words(name: str) -> set[str]:
    words = name.casefold().split("_")
    return {word.removesuffix("s") for word in words if word}


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
