"""Cloth by the metre: the least length that a garment needs of a width, single or folded lengthwise."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from garmentc.assembly.model import Assembly
from garmentc.cloth.folding import FOLD, fold_edge, fold_turn, folded_ground, layers
from garmentc.cloth.ground import ground
from garmentc.cloth.model import Ground, Plan, Shape, Spot, Turn
from garmentc.cloth.shapes import shapes
from garmentc.cloth.turns import same_threads, turns
from garmentc.cloth.verify import verify
from garmentc.data.stock import Cloth, ThreadShares
from garmentc.geometry.coarse import holding
from garmentc.numbers import length as told
from garmentc.packing.model import Shape as Polygon
from garmentc.packing.model import StripTask
from garmentc.packing.strip import least_length, pack, too_wide
from garmentc.record import Record
from garmentc.source import Source

_COARSE = 1.0
"""How far (mm) the polygons that are packed leave the curves of their shapes, outward."""

_SAMPLE = 1000.0  # mm of cloth that stand for all of it where only its width and its threads count
_BOUGHT = 10.0  # mm; lengths to buy are rounded up to whole ones of these


class Stretch(Record):
    """A stretch of cloth by the metre with what is cut from it; folded, it is half as wide and cut through twice.

    ``upper_only`` are the keys of shapes that are cut through the upper layer alone.
    """

    plan: Plan
    is_folded: bool
    upper_only: tuple[str, ...] = ()

    @property
    def length(self) -> float:
        """Its length (mm), washed."""
        box = self.plan.ground.box
        return box[2] - box[0]

    @property
    def covered(self) -> float:
        """The area (mm²) that is cut out of it, of both layers if it is folded."""
        areas = {shape.key: shape.outline.area for shape in self.plan.shapes}
        twice = math.fsum(area for key, area in areas.items() if self.is_folded and key not in self.upper_only)
        return math.fsum(areas.values()) + twice


class MetreNeed(Record):
    """What a garment needs of one of its cloths, for one body, of cloth by the metre.

    ``length`` (mm) is what is to be bought, before it is washed; ``least`` is a length below which there is certainly
    no plan. Where ``obstacles`` say why there is none, both are infinite and there are no ``stretches``. It is the best
    found until then when the search was ``broken_off``.
    """

    size: str
    cloth: str
    stretches: tuple[Stretch, ...]
    length: float
    least: float
    obstacles: tuple[str, ...] = ()
    broken_off: bool = False

    @property
    def used(self) -> float:
        """The share of the bought cloth that is cut out of it."""
        whole = sum(
            (2 if one.is_folded else 1) * one.length * (one.plan.ground.box[3] - one.plan.ground.box[1])
            for one in self.stretches
        )
        return sum(one.covered for one in self.stretches) / whole if whole else 0.0


class Roll(Record):
    """Cloth by the metre as it is laid, how long a search may take (s), and from which seed it goes."""

    cloth: Cloth
    is_folded: bool
    limit: float
    seed: int

    @property
    def flat(self) -> Ground:
        """A sample of it, washed and opened out."""
        return ground(self.cloth, _SAMPLE)


def metre_need(assembly: Assembly, name: str, roll: Roll) -> MetreNeed:
    """The shortest length found for one of the cloths of a garment, with verified plans."""
    flat = roll.flat
    size = assembly.draft.body.name
    found = shapes(assembly, name)
    folded = layers(assembly, found, folded_ground(flat))
    is_folded = roll.is_folded and bool(folded.folded)
    whole = Lay(found, flat)
    lays = [whole] if not is_folded else [Lay(folded.folded, folded_ground(flat)), Lay(folded.single, flat)]
    obstacles = tuple(dict.fromkeys(words for lay in lays for words in lay.obstacles))
    if obstacles:
        return MetreNeed(size, name, (), math.inf, math.inf, obstacles)
    bought = flat.shrunk[0]
    ways: list[list[tuple[Lay, bool, tuple[str, ...]]]] = [
        [(lay, is_folded and lay is lays[0], ()) for lay in lays if lay.shapes]
    ]
    if is_folded and folded.single and not folded.must_be_single:
        both = Lay((*folded.folded, *folded.single), folded_ground(flat))
        if not both.obstacles:
            ways.append([(both, True, tuple(shape.key for shape in folded.single))])
    left = roll._replace(limit=roll.limit / sum(len(way) for way in ways))
    plans: list[tuple[Stretch, ...]] = []
    for way in ways:
        stretches = []
        for lay, on_fold, upper in way:
            plan, broken_off = lay.shortest(left)
            stretches.append(Stretch(plan, on_fold, upper))
            if broken_off:
                left = left._replace(limit=0.0)
        plans.append(tuple(stretches))
    best = min(plans, key=lambda way: sum(one.length for one in way))
    least = whole.least() / bought if not whole.obstacles else 0.0
    length = sum(one.length for one in best) / bought
    return MetreNeed(size, name, best, length, least, broken_off=not left.limit)


def new_cloth(width: float, selvage: float, *, is_one_way: bool, is_alike: bool) -> Cloth:
    """Cloth by the metre of which no more is known: it neither shrinks nor stretches; lengths in mm."""
    said = Source("--width", f"{told(width)}")
    title = "Cloth by the metre"
    none = ThreadShares(0.0, 0.0)
    return Cloth(
        "by the metre", title, "", (), width, False, (), selvage, "across", is_alike, is_one_way, (0.0, 0.0), (), (),
        none, none, 0.0, "", None, said.whole(),
    )  # fmt: skip


class Lay:
    """Shapes to be laid on cloth of some width, and a sample of it."""

    def __init__(self, found: Sequence[Shape], sample: Ground) -> None:
        self.shapes = tuple(found)
        self._sample = sample
        self._turns = dict(self._allowed())
        # The borders that shapes keep off: the selvages, or the fold and one.
        self._below, self._above = (
            next((side.width for side in sample.sides if side.name == name), 0.0) for name in ("bottom", "top")
        )

    @property
    def obstacles(self) -> tuple[str, ...]:
        """Why there can be no plan, in words with their numbers."""
        return tuple(dict.fromkeys(self._obstacles()))

    def _obstacles(self) -> Iterator[str]:
        for shape in self.shapes:
            for name, _ in shape.corners:
                yield f"{name} of {shape.title} lies on a corner of a cloth, which cloth by the metre does not have"
            for name, _ in shape.hems:
                if name != FOLD:
                    yield f"the {name} of {shape.title} is the cloth's own hem, which cloth by the metre does not have"
            for motif in shape.motifs:
                yield f"{shape.title} wants the {motif.name}, which cloth by the metre does not have"
            if shape.matches and any(self._sample.repeat):
                other = shape.matches[0].other
                yield f"the picture of {shape.title} is to match that of {other}, which is not done by the metre"
            if not self._turns[shape.key]:
                yield f"{shape.title} can't lie on its grain the right way up"
        if all(self._turns.values()):
            task = self._task()
            for one in too_wide(task):
                need, room = one.least, task.width
                yield (
                    f"{self.shapes[one.shape].title} is {told(need)} across, the cloth only {told(room)}: "
                    f"{told(need - room)} short"
                )

    def least(self) -> float:
        """A length (mm, washed) below which there is no plan."""
        return least_length(self._task())

    def shortest(self, roll: Roll) -> tuple[Plan, bool]:
        """The shortest plan found, verified, on a ground as long as it needs; and whether a person broke off."""
        packed = pack(self._task(), roll.limit, roll.seed)
        spots = {
            self.shapes[one.shape].key: Spot(Turn(one.turn), one.shift + 1j * self._below) for one in packed.plan.placed
        }
        bought = _BOUGHT * math.ceil((packed.plan.length / self._sample.shrunk[0] - 1e-3) / _BOUGHT)
        whole = ground(roll.cloth, bought)
        is_folded = any(side.finish == FOLD for side in self._sample.sides)
        plan = Plan(folded_ground(whole) if is_folded else whole, self.shapes, spots)
        faults = verify(plan)
        if faults:
            raise AssertionError(f"a plan that can't be cut: {faults[0].words}")
        return plan, packed.broken_off

    def _task(self) -> StripTask:
        wide = self._sample.box[3] - self._below - self._above
        polygons = tuple(
            Polygon(
                shape.key,
                tuple(holding(shape.outline, _COARSE)),
                tuple(turn.angle for turn in self._turns[shape.key]),
                1,
                fold_edge(shape) is not None,
            )
            for shape in self.shapes
        )
        return StripTask(wide, polygons)

    def _allowed(self) -> Iterator[tuple[str, tuple[Turn, ...]]]:
        """The ways to hold each shape, face up. Where two have to lie on the same threads, one way for both."""
        held: dict[str, tuple[Turn, ...]] = {}
        for shape in self.shapes:
            if fold_edge(shape) is not None:
                held[shape.key] = (fold_turn(shape),)
            else:
                held[shape.key] = tuple(turn for turn in turns(shape, self._sample) if not turn.over)
        by_key = {shape.key: shape for shape in self.shapes}
        for shape in self.shapes:
            other = by_key.get(shape.beside)
            if other is None or not held[other.key] or not held[shape.key]:
                continue

            def fits(turn: Turn, its: Turn, shape: Shape = shape, other: Shape = other) -> bool:
                return same_threads(shape, turn, other, its, self._sample)

            first = held[other.key][0]
            mine = tuple(turn for turn in held[shape.key] if fits(turn, first))
            held[shape.key] = mine
            held[other.key] = tuple(its for its in held[other.key] if all(fits(turn, its) for turn in mine))
        yield from held.items()
