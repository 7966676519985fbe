"""Moves laid polygons all at once, without turning them, by linear programs.

Two polygons stay apart when each pair of their convex parts is kept apart in one direction. With the direction chosen
that keeps them farthest apart as they lie, that is a linear condition on the moves, sufficient and never wrong, so
that a solution of the program is a valid layout. (Compaction by linear programs: Li and Milenkovic, *European Journal
of Operational Research* 84, 1995; the choice of directions here is our own.)
"""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from random import Random
from typing import TYPE_CHECKING

from garmentc.geometry.vector import Point
from garmentc.packing.model import Placed, StripPlan, StripTask, fits_across, turned_corners
from garmentc.packing.parts import apart

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.int64]

_UNITS = 1000.0
"""Programs are solved with a strip this wide, so that tolerances mean the same everywhere."""

_EXACT = 1e-9  # how far the solver may be off, in these units
_TOUCHING = 1e-6  # less than that is no overlap


class Layout:
    """Polygons on a strip that may be moved; ``shifts`` are in units of the program."""

    def __init__(self, task: StripTask, plan: StripPlan) -> None:
        import numpy as np

        self._task = task
        self._unit = task.width / _UNITS
        self._placed = list(plan.placed)
        self._rings: list[tuple[Point, ...]] = [()] * len(plan.placed)
        self._low: Floats = np.zeros((len(plan.placed), 2))
        self._high: Floats = np.zeros((len(plan.placed), 2))
        for index in range(len(plan.placed)):
            self._hold(index)
        self.shifts: Floats = np.array([(one.shift.real, one.shift.imag) for one in plan.placed]) / self._unit
        self._based = np.array([task.shapes[one.shape].is_based for one in plan.placed], dtype=bool)
        self.areas = [task.shapes[one.shape].area for one in plan.placed]

    def _hold(self, index: int) -> None:
        """Take the corners of a polygon as it is turned."""
        one = self._placed[index]
        corners = turned_corners(self._task.shapes[one.shape].corners, one.turn)
        self._rings[index] = tuple(p / self._unit for p in corners)
        xs, ys = [p.real for p in self._rings[index]], [p.imag for p in self._rings[index]]
        self._low[index] = min(xs), min(ys)
        self._high[index] = max(xs), max(ys)

    def copy(self) -> Layout:
        """A layout that can be changed and leaves this one as it is."""
        other = copy(self)
        other._placed, other._rings = list(self._placed), list(self._rings)
        other._low, other._high = self._low.copy(), self._high.copy()
        other.shifts = self.shifts.copy()
        return other

    def alike(self, first: int, second: int) -> bool:
        """Whether two polygons are copies of one shape."""
        return self._placed[first].shape == self._placed[second].shape

    def middle(self, index: int) -> Floats:
        """The middle of the box around a polygon."""
        found: Floats = self.shifts[index] + (self._low[index] + self._high[index]) / 2
        return found

    def put(self, index: int, middle: Floats) -> None:
        """Lay a polygon elsewhere, as near as the strip allows."""
        import numpy as np

        shift = middle - (self._low[index] + self._high[index]) / 2
        most = np.array((max(self.length, self._high[index, 0] - self._low[index, 0]), _UNITS)) - self._high[index]
        self.shifts[index] = np.maximum(np.minimum(shift, most), -self._low[index])
        if self._based[index]:
            self.shifts[index, 1] = -self._low[index, 1]

    def turn(self, index: int, random: Random) -> None:
        """Turn a polygon about its middle in another way that it may be turned, if there is one."""
        one = self._placed[index]
        others = [turn for turn in self._task.shapes[one.shape].turns if turn != one.turn]
        fitting = [turn for turn in others if fits_across(self._task, one.shape, turn)]
        if fitting:
            middle = self.middle(index)
            self._placed[index] = one._replace(turn=random.choice(fitting))
            self._hold(index)
            self.put(index, middle)

    def scatter(self, length: float, random: Random) -> None:
        """Lay all polygons at random on a strip of some length, each turned at random."""
        for index in range(len(self._placed)):
            if random.random() < 0.5:
                self.turn(index, random)
            self.jump(index, length, random)

    def jump(self, index: int, length: float, random: Random) -> None:
        """Lay a polygon at random on a strip of some length."""
        import numpy as np

        size = self._high[index] - self._low[index]
        room = np.maximum(np.array((length, _UNITS)) - size, 0.0)
        self.put(index, np.array((random.random(), random.random())) * room + size / 2)

    def squash(self, length: float) -> None:
        """Move all polygons to the left in proportion, until they lie on a strip of some length; overlaps may come."""
        import numpy as np

        wide = self._high[:, 0] - self._low[:, 0]
        room = np.maximum(self.length - wide, 1e-9)
        share = np.clip((length - wide) / room, 0.0, 1.0)
        self.shifts[:, 0] = np.maximum(self.shifts[:, 0] + self._low[:, 0], 0.0) * share - self._low[:, 0]

    def overlaps(self) -> Floats:
        """How far each two polygons reach into each other along the best directions; 0 for those that do not."""
        import numpy as np

        first, second, _, distances = self._rows(0.0)
        found: Floats = np.zeros((len(self.shifts), len(self.shifts)))
        flat = found.reshape(-1)
        np.maximum.at(flat, first * len(self.shifts) + second, -distances)
        return found

    def plan(self) -> StripPlan:
        """The layout in mm, all of it on the strip, which is no longer than it has to be."""
        import numpy as np

        top = np.where(self._based, -self._low[:, 1], np.maximum(_UNITS - self._high[:, 1], -self._low[:, 1]))
        shifts = np.column_stack(
            (np.maximum(self.shifts[:, 0], -self._low[:, 0]), np.clip(self.shifts[:, 1], -self._low[:, 1], top))
        )
        length = float((shifts[:, 0] + self._high[:, 0]).max()) * self._unit
        placed = [
            Placed(one.shape, one.turn, complex(x, y) * self._unit)
            for one, (x, y) in zip(self._placed, shifts.tolist(), strict=True)
        ]
        return StripPlan(length, tuple(placed))

    def units(self, length: float) -> float:
        """A length (mm) in units of the program."""
        return length / self._unit

    @property
    def length(self) -> float:
        """How long a strip the layout takes, in units of the program."""
        return float((self.shifts[:, 0] + self._high[:, 0]).max())

    @property
    def has_overlaps(self) -> bool:
        """Whether any polygons reach into each other."""
        return bool(len(self._placed)) and float(self.overlaps().max()) > _TOUCHING

    def compact(self, reach: float, pull: Floats | None = None) -> bool:
        """Move all polygons at most ``reach`` along each axis, so that the strip gets as short as can be.

        With a ``pull`` (a vector for each polygon) the strip gets no longer, and they move as they are pulled instead.
        False when the program has no solution, as when polygons overlap; then nothing moves.
        """
        import numpy as np

        count = len(self._placed)
        if pull is None:
            costs = np.append(np.zeros(2 * count), 1.0)
            costs[0:-1:2] = 1e-4 / count  # of layouts of one length, the one with its room at the end
        else:
            costs = np.append(-pull.ravel(), 0.0)
        rows = self._rows(reach)
        return self._solve(costs, rows, reach, self.length, None) is not None

    def separate(self, reach: float, length: float, weights: Floats) -> float:
        """Move all polygons at most ``reach`` so that they overlap as little as can be on a strip of some length.

        ``weights`` (one for each two polygons) say how much an overlap counts; they grow where one stays. Gives the
        sum of what still overlaps, in units of the program, measured along the best directions before the move.
        """
        rows = self._rows(reach)
        left = self._solve(None, rows, reach, length, weights)
        return float("inf") if left is None else left

    def _rows(self, reach: float) -> tuple[Whole, Whole, Floats, Floats]:
        """For each two parts that may meet: their polygons, a direction, and how far they are apart in it."""
        import numpy as np

        low, high = self._low + self.shifts, self._high + self.shifts
        most = 2 * reach
        gaps = np.maximum(low[:, None] - high[None, :], low[None, :] - high[:, None])
        near = np.argwhere(np.triu(gaps.max(axis=2) < most, 1))
        pairs, normals, distances = [], [], []
        for i, j in near.tolist():
            between = apart(self._rings[i], self._rings[j])
            t = self.shifts[j] - self.shifts[i]
            gap = between.normals @ t + between.offsets
            best = np.maximum.reduceat(gap, between.starts)
            group = np.repeat(np.arange(len(best)), np.diff(np.append(between.starts, len(gap))))
            chosen = np.flatnonzero(gap >= best[group])
            _, first = np.unique(group[chosen], return_index=True)
            chosen = chosen[first]
            # what can't be reached by moves in the chosen direction needs no row
            chosen = chosen[gap[chosen] < most * np.abs(between.normals[chosen]).sum(axis=1)]
            pairs.append(np.tile((i, j), (len(chosen), 1)))
            normals.append(between.normals[chosen])
            distances.append(gap[chosen])
        if not pairs:
            return np.zeros(0, int), np.zeros(0, int), np.zeros((0, 2)), np.zeros(0)
        both = np.concatenate(pairs)
        return both[:, 0], both[:, 1], np.concatenate(normals), np.concatenate(distances)

    def _solve(
        self,
        costs: Floats | None,
        rows: tuple[Whole, Whole, Floats, Floats],
        reach: float,
        length: float,
        weights: Floats | None,
    ) -> float | None:
        """Solve and move; the sum of slacks, or None without a solution."""
        import highspy
        import numpy as np

        first, second, normals, distances = rows
        count, number = len(self._placed), len(distances)
        keys, slot = np.unique(first * count + second, return_inverse=True)
        slacks = 0 if weights is None else len(keys)
        columns = 2 * count + 1 + slacks
        model = highspy.HighsLp()
        model.num_col_ = columns
        ends = np.arange(count)
        total = number + count
        model.num_row_ = total
        # moves of each polygon (x, y), the length of the strip, slacks
        lower = np.empty(columns)
        upper = np.empty(columns)
        room_low = -self._low - self.shifts
        room_high = np.column_stack((np.full(count, np.inf), _UNITS - self._high[:, 1] - self.shifts[:, 1]))
        room_high[:, 1] = np.maximum(room_high[:, 1], room_low[:, 1])
        room_high[self._based, 1] = room_low[self._based, 1]
        low, high = np.maximum(room_low, -reach), np.minimum(room_high, reach)
        lower[: 2 * count] = np.minimum(low, high).ravel()
        upper[: 2 * count] = np.maximum(low, high).ravel()
        lower[2 * count], upper[2 * count] = (0.0, length) if weights is None else (length, length)
        lower[2 * count + 1 :], upper[2 * count + 1 :] = 0.0, np.inf
        model.col_lower_, model.col_upper_ = lower, upper
        if weights is None:
            assert costs is not None
            model.col_cost_ = costs
        else:
            model.col_cost_ = np.concatenate((np.zeros(2 * count + 1), weights[keys // count, keys % count]))
        model.row_lower_ = np.concatenate((-distances, self._high[:, 0] + self.shifts[:, 0]))
        model.row_upper_ = np.full(total, np.inf)
        width = 4 + (slacks > 0)
        index = np.empty((number, width), dtype=np.int32)
        value = np.empty((number, width))
        index[:, 0], index[:, 1], index[:, 2], index[:, 3] = 2 * first, 2 * first + 1, 2 * second, 2 * second + 1
        value[:, 0:2], value[:, 2:4] = -normals, normals
        if slacks:
            index[:, 4], value[:, 4] = 2 * count + 1 + slot, 1.0
        tail = np.column_stack((np.full(count, 2 * count), 2 * ends))
        model.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        model.a_matrix_.start_ = np.concatenate((np.arange(number) * width, number * width + 2 * np.arange(count + 1)))
        model.a_matrix_.index_ = np.concatenate((index.ravel(), tail.ravel()))
        model.a_matrix_.value_ = np.concatenate((value.ravel(), np.tile((1.0, -1.0), count)))
        solver = highspy.Highs()  # type: ignore[no-untyped-call]
        solver.setOptionValue("output_flag", False)
        solver.setOptionValue("threads", 1)
        solver.setOptionValue("primal_feasibility_tolerance", _EXACT)
        solver.passModel(model)
        solver.run()
        if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        solved = np.array(solver.getSolution().col_value)
        self.shifts = self.shifts + np.clip(solved[: 2 * count], lower[: 2 * count], upper[: 2 * count]).reshape(-1, 2)
        return float(solved[2 * count + 1 :].sum())


def plan_of(task: StripTask, placed: Sequence[Placed]) -> StripPlan:
    """A plan of shapes that lie somewhere, with the length they take."""
    length = max(
        max(p.real for p in turned_corners(task.shapes[one.shape].corners, one.turn)) + one.shift.real for one in placed
    )
    return StripPlan(length, tuple(placed))
