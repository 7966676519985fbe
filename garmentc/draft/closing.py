"""Where an outline does not close, and which slip of the pen would explain it."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.geometry.path import Path
from garmentc.geometry.vector import CLOSE
from garmentc.record import Record


class Gap(Record):
    """Edge ``at`` does not begin where the one before ends.

    ``turned``: it would fit when drawn from its end to its start. ``early``: it would fit behind the next edge.
    """

    at: int
    distance: float
    turned: bool = False
    early: bool = False


def gaps(paths: Sequence[Path]) -> list[Gap]:
    """The gaps of an outline; of gaps that follow each other the first, since one edge may be the fault of all."""
    count = len(paths)
    apart = [abs(path.start - paths[at - 1].end) for at, path in enumerate(paths)]
    found: list[Gap] = []
    for at, distance in enumerate(apart):
        before = apart[at - 1] > CLOSE
        whole_ring = before and all(one > CLOSE for one in apart)
        if distance <= CLOSE or (before and not (whole_ring and at == 0)):
            continue
        last, here, after, third = (paths[(at + step) % count] for step in (-1, 0, 1, 2))
        turned = _meet(last.end, here.end) and _meet(here.start, after.start) and count > 2
        early = _meet(last.end, after.start) and _meet(after.end, here.start) and _meet(here.end, third.start)
        found.append(Gap(at, distance, turned, early and count > 3))
    return found


def _meet(one: complex, other: complex) -> bool:
    return abs(one - other) <= CLOSE
