"""Whether a series of numbers, one for each size, runs evenly: it does not turn back, and no step stands out.

How much a step stands out is judged against the steps that the measures explain. If a length is a sum of shares of the
measures, its steps are the same shares of the steps of the measures, and where the chart itself goes from steps of 4 cm
to steps of 6 cm the length follows. So shares are sought that explain as many steps as possible exactly (the sum of
what they leave over is the least there is, which lets a single wrong step stay wrong instead of spreading it), and a
jump is a place where what is left over changes from one step to the next: the second difference of the length less
that of the shares of the measures. Curves and roots leave over little, and it changes slowly.

The limits below are common practice, no source. With as many independent measures as steps everything is explained.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from garmentc.record import Record

SMALLEST_TURN = 0.5
"""mm; growing or shrinking by less than this can't be told on paper."""
SMALLEST_JUMP, LARGEST_STRAY = 3.0, 10.0
"""mm; a smaller change from step to step is never a jump, a larger one always."""
STRAY = 0.5
"""Between the two, a jump is more than this share of the step that the measures explain."""

_NEAR = 0.01  # mm; what is left over counts as nothing below this, while shares are sought
_ROUNDS = 40
_RIDGE = 1e-9  # measures that run alike share what they explain


class Jump(Record):
    """A step that stands out: which (0 is from the first size to the second), its size, and what is explained (mm)."""

    gap: int
    step: float
    explained: float


def turns(values: Sequence[float]) -> list[int]:
    """Where a series turns back, by number: the last place before it shrinks after growing, or the other way round."""
    found: list[int] = []
    way = 0
    low = high = last = 0
    for i, value in enumerate(values):
        if way == 0:
            low, high = (i if value < values[low] else low), (i if value > values[high] else high)
            if values[high] - values[low] >= SMALLEST_TURN:
                way, last = (1 if high > low else -1), i
        elif (value - values[last]) * way >= 0:
            last = i
        elif (values[last] - value) * way >= SMALLEST_TURN:
            found.append(last)
            way, last = -way, i
    return found


def jumps(steps: Sequence[float], measured: Sequence[Sequence[float]]) -> list[Jump]:
    """The steps that stand out; ``measured`` are the steps of the measures at the same place (all in mm)."""
    shares = explaining(steps, measured)
    explained = [sum(share * value for share, value in zip(shares, row, strict=True)) for row in measured]
    found: dict[int, Jump] = {}
    for i, other in pairwise(range(len(steps))):
        left, right = steps[i] - explained[i], steps[other] - explained[other]
        allowed = STRAY * max(abs(explained[i]), abs(explained[other]))
        if abs(right - left) > min(max(allowed, SMALLEST_JUMP), LARGEST_STRAY):
            gap = i if abs(left) > abs(right) else other
            found[gap] = Jump(gap, steps[gap], explained[gap])
    return list(found.values())


def explaining(steps: Sequence[float], measured: Sequence[Sequence[float]]) -> list[float]:
    """The shares of the measures that leave over the least sum of steps, found by weighing again what fits badly."""
    count = len(measured[0]) if measured else 0
    shares = [0.0] * count
    weights = [1.0] * len(steps)
    for _ in range(_ROUNDS if count else 0):
        table = [
            [sum(w * row[i] * row[j] for w, row in zip(weights, measured, strict=True)) for j in range(count)]
            for i in range(count)
        ]
        ridge = _RIDGE * sum(table[i][i] for i in range(count)) or 1.0
        for i in range(count):
            table[i][i] += ridge
        right = [
            sum(w * step * row[i] for w, step, row in zip(weights, steps, measured, strict=True)) for i in range(count)
        ]
        shares = _solved(table, right)
        left = [
            step - sum(share * value for share, value in zip(shares, row, strict=True))
            for step, row in zip(steps, measured, strict=True)
        ]
        weights = [1.0 / max(abs(one), _NEAR) for one in left]
    return shares


def _solved(table: list[list[float]], right: list[float]) -> list[float]:
    """The solution of a symmetric system with nothing but positive pivots, by elimination."""
    rows = [[*row, value] for row, value in zip(table, right, strict=True)]
    for i, pivot in enumerate(rows):
        for row in rows[i + 1 :]:
            factor = row[i] / pivot[i]
            for j in range(i, len(pivot)):
                row[j] -= factor * pivot[j]
    found = [0.0] * len(rows)
    for i in reversed(range(len(rows))):
        known = sum(rows[i][j] * found[j] for j in range(i + 1, len(rows)))
        found[i] = (rows[i][-1] - known) / rows[i][i]
    return found
