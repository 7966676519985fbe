"""The finder at work: shapes are put down one after the other, and where that fails, pushed apart until none overlap.

Every number comes from a seeded source, and what limits it is a count of steps, so that the same seed finds the same
plan on any machine. A step is the search for the best place of one shape among the others as they lie.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from random import Random

from garmentc.cloth.model import Ground, Shape, Spot, Spots, Turn
from garmentc.cloth.room import Hold, coarse, held_as
from garmentc.cloth.turns import same_threads
from garmentc.geometry.fitting import no_fit
from garmentc.geometry.region import Places, Region, corners_of, depths, moved, on_lattice, turned, without
from garmentc.geometry.vector import Point, dot, heading
from garmentc.record import Record

_ROUNDS_OF_PUTTING = 12
_MOST_CORNERS = 48
_HEAVIER, _LIGHTER = 1.4, 0.97
_APART = 0.03  # mm; shapes that overlap less lie beside each other


class Stopped(Exception):
    """The search has used up its steps, or was told to stop."""


class Item(Record):
    """A shape and all ways to hold it; ``kind`` is the same for shapes of one outline."""

    shape: Shape
    holds: tuple[Hold, ...]
    kind: int


class Lying(Record):
    """Where an item lies: the index of its hold, and its place."""

    hold: int
    at: Point


class Best(Record):
    """A place among others, and what it costs in overlaps."""

    cost: float
    lying: Lying


class NoFits:
    """Where shapes overlap others, found once for each pair of outlines and each turn between them."""

    def __init__(self) -> None:
        self._upright: dict[tuple[int, bool, int, bool, float], Region] = {}
        self._turned: dict[tuple[int, Turn, int, Turn], Region] = {}

    def region(self, mine: Item, hold: Hold, other: Item, its: Hold) -> Region:
        """The places of a shape, seen from the place of another, at which they overlap."""
        key = (mine.kind, hold.turn, other.kind, its.turn)
        if key not in self._turned:
            between = round(hold.turn.angle - its.turn.angle, 7)
            upright = (mine.kind, hold.turn.over, other.kind, its.turn.over, between)
            if upright not in self._upright:
                fixed = held_as(coarse(other.shape), Turn(0.0, its.turn.over))
                shape = held_as(coarse(mine.shape), Turn(between, hold.turn.over))
                self._upright[upright] = no_fit(fixed, shape)
            self._turned[key] = turned(self._upright[upright], its.turn.angle)
        return self._turned[key]


class Search:
    """Finds places for some items on a ground; ``fixed`` ones lie already and stay.

    ``step`` is called at each step and may raise ``Stopped``.
    """

    def __init__(
        self,
        ground: Ground,
        items: Sequence[Item],
        fixed: Mapping[int, Lying],
        seed: int,
        step: Callable[[], None],
        no_fits: NoFits,
    ) -> None:
        self._ground = ground
        self._items = items
        self._fixed = dict(fixed)
        self._random = Random(seed)
        self._step = step
        self._no_fits = no_fits
        self._loose = [i for i in range(len(items)) if i not in self._fixed]
        self._by_key = {item.shape.key: i for i, item in enumerate(items)}
        self._beside = {i: self._by_key[item.shape.beside] for i, item in enumerate(items) if self._has_beside(item)}
        self._weights: dict[tuple[int, int], float] = {}

    def run(self) -> dict[int, Lying]:
        """Where all items lie without overlapping; raises ``Stopped``."""
        order = sorted(self._loose, key=self._urgency)
        lying: dict[int, Lying] = {}
        for _ in range(_ROUNDS_OF_PUTTING):
            lying, left = self._put(order)
            if not left:
                return lying
            order = [*left, *(i for i in order if i not in left)]
            order.sort(key=lambda i: bool(self._urgency(i)[0]))
        while True:
            found = self._push_apart(lying)
            if found is not None:
                return found
            self._random.shuffle(order)
            order.sort(key=lambda i: self._urgency(i)[0])
            lying, _ = self._put(order)

    # ---- one after the other

    def _urgency(self, i: int) -> tuple[bool, float]:
        """What is put down first: what is bound to places of the cloth, then what is large."""
        item = self._items[i]
        bound = all(hold.places.area == 0.0 for hold in item.holds) or bool(item.shape.motifs)
        return not bound, -item.holds[0].polygon.area

    def _put(self, order: Sequence[int]) -> tuple[dict[int, Lying], list[int]]:
        """Put shapes down in an order, each as far to one side as it goes; those for which no room is left come too."""
        lying, left = dict(self._fixed), []
        toward = heading(self._random.uniform(0.0, 6.2832))
        for i in order:
            self._step()
            best = min(self._free(i, lying, toward), key=lambda one: one.cost, default=None)
            if best is None:
                left.append(i)
            else:
                lying[i] = best.lying
        return lying, left

    def _free(self, i: int, lying: Mapping[int, Lying], toward: complex) -> Iterator[Best]:
        for number, hold in self._allowed(i, lying):
            places: Places = self._matching(i, hold, lying)
            for j, other in lying.items():
                if j != i and not places.is_empty:
                    places = without(places, self._around(i, hold, j, other))
            if places.is_empty:
                continue
            x0, y0, x1, y1 = hold.polygon.bounds
            middle = complex(x0 + x1, y0 + y1) / 2
            for p in corners_of(places):
                yield Best(dot(p + middle, toward), Lying(number, p))

    # ---- pushed apart

    def _push_apart(self, lying: dict[int, Lying]) -> dict[int, Lying] | None:
        """Move overlapping shapes to where they overlap least, what overlaps for long weighing more and more."""
        lying = dict(lying)
        self._weights = {}
        for i in self._loose:
            if i not in lying:
                found = self._least(i, lying)
                if found is None:
                    return None  # nothing but a change of its partner's threads gives it a way to lie
                lying[i] = found.lying
        for _ in range(12 * len(self._loose)):
            over = self._overlaps(lying)
            if not over:
                return lying
            for pair in list(self._weights):
                if pair not in over:
                    self._weights[pair] = max(self._weights[pair] * _LIGHTER, 1.0)
            deepest = max(over.values())
            for pair, deep in over.items():
                self._weights[pair] = self._weight(*pair) * (1.0 + (_HEAVIER - 1.0) * (0.5 + 0.5 * deep / deepest))
            moving = [i for i in self._loose if any(i in pair for pair in over)]
            self._random.shuffle(moving)
            for i in moving:
                if any(self._depth(i, lying[i], j, lying[j]) > _APART for j in lying if j != i):
                    self._step()
                    found = self._least(i, lying)
                    if found is not None:
                        lying[i] = found.lying
        return None

    def _least(self, i: int, lying: Mapping[int, Lying]) -> Best | None:
        """The place at which a shape overlaps the others least, as they weigh."""
        best: Best | None = None
        toward = heading(self._random.uniform(0.0, 6.2832))
        allowed = list(self._allowed(i, lying))
        self._random.shuffle(allowed)
        for number, hold in allowed:
            places = self._matching(i, hold, lying)
            over: list[tuple[float, Region]] = []
            near = [(self._weight(i, j) * self._random.uniform(0.4, 1.0), j) for j in lying if j != i]
            for _, j in sorted(near, reverse=True):
                around = self._around(i, hold, j, lying[j])
                left = without(places, around)
                if left.is_empty:
                    over.append((self._weight(i, j), around))
                else:
                    places = left
            points = corners_of(places)
            if len(points) > _MOST_CORNERS:
                points = self._random.sample(points, _MOST_CORNERS)
            costs = [0.0] * len(points)
            for weight, around in over:
                for k, deep in enumerate(depths(around, points)):
                    costs[k] += weight * deep
            for p, cost in zip(points, costs, strict=True):
                cost += 1e-6 * dot(p, toward)
                if best is None or cost < best.cost:
                    best = Best(cost, Lying(number, p))
        return best

    def _overlaps(self, lying: Mapping[int, Lying]) -> dict[tuple[int, int], float]:
        found: dict[tuple[int, int], float] = {}
        for i in lying:
            for j in lying:
                if i < j:
                    deep = self._depth(i, lying[i], j, lying[j])
                    if deep > _APART:
                        found[i, j] = deep
        return found

    def _depth(self, i: int, mine: Lying, j: int, other: Lying) -> float:
        hold, its = self._items[i].holds[mine.hold], self._items[j].holds[other.hold]
        region = self._no_fits.region(self._items[i], hold, self._items[j], its)
        return depths(region, [mine.at - other.at])[0]

    def _weight(self, i: int, j: int) -> float:
        return self._weights.get((min(i, j), max(i, j)), 1.0)

    # ---- what both ask

    def _around(self, i: int, hold: Hold, j: int, other: Lying) -> Region:
        """The places at which a shape overlaps another one that lies."""
        item = self._items[j]
        return moved(self._no_fits.region(self._items[i], hold, item, item.holds[other.hold]), other.at)

    def _allowed(self, i: int, lying: Mapping[int, Lying]) -> Iterator[tuple[int, Hold]]:
        """The ways to hold a shape that go with how the ones it is a mirror image of are held."""
        item = self._items[i]
        bound = [j for j in lying if j != i and (self._beside.get(i) == j or self._beside.get(j) == i)]
        for number, hold in enumerate(item.holds):
            if all(self._goes_with(i, hold, j, lying[j]) for j in bound):
                yield number, hold

    def _goes_with(self, i: int, hold: Hold, j: int, other: Lying) -> bool:
        one, its = self._items[i].shape, self._items[j]
        return same_threads(one, hold.turn, its.shape, its.holds[other.hold].turn, self._ground)

    def _has_beside(self, item: Item) -> bool:
        return item.shape.beside in self._by_key

    def _matching(self, i: int, hold: Hold, lying: Mapping[int, Lying]) -> Places:
        """The places of a hold at which the picture runs on from the shapes that lie."""
        places, across, up = hold.places, *self._ground.repeat
        mine = self._items[i].shape
        for match in mine.matches:
            j = self._by_key.get(match.other, i)
            if j in lying and j != i:
                wanted = self._point(j, lying[j], match.other_at) - hold.turn.motion.apply(match.at)
                places = on_lattice(places, wanted, across, up)
        for j, other in lying.items():
            for match in self._items[j].shape.matches:
                if match.other == mine.key and j != i:
                    wanted = self._point(j, other, match.at) - hold.turn.motion.apply(match.other_at)
                    places = on_lattice(places, wanted, across, up)
        return places

    def _point(self, i: int, lying: Lying, p: Point) -> Point:
        """Where a point of a shape lies on the cloth."""
        return self._items[i].holds[lying.hold].turn.motion.apply(p) + lying.at


def spots(items: Sequence[Item], lying: Mapping[int, Lying], pinned: Spots) -> Spots:
    """Where shapes lie, by key; those that are pinned where they were."""
    found = {item.shape.key: Spot(item.holds[lying[i].hold].turn, lying[i].at) for i, item in enumerate(items)}
    return {**found, **{key: spot._replace(pinned=True) for key, spot in pinned.items()}}
