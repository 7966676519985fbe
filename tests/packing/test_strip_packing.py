"""Packing a strip, checked by shapely (BSD-3) and by rational numbers, apart from the project's own verifier."""

import math
from fractions import Fraction
from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import MultiPolygon, Polygon, affinity, unary_union

from garmentc.packing.finder import row
from garmentc.packing.model import TINY, Placed, Shape, StripPlan, StripTask
from garmentc.packing.parts import apart, convex_parts
from garmentc.packing.relax import Layout
from garmentc.packing.strip import Progress, least_length, pack, too_wide
from garmentc.packing.tighten import Tightener
from garmentc.packing.verify import plan_faults
from tests.packing.cutup import HALF, cut_up

SQUARE = (0j, 100 + 0j, 100 + 100j, 100j)
ELL = (0j, 200 + 0j, 200 + 100j, 100 + 100j, 100 + 200j, 200j)


def polygon(corners: tuple[complex, ...]) -> Polygon:
    return Polygon([(p.real, p.imag) for p in corners])


def lay(task: StripTask, plan: StripPlan) -> list[Polygon]:
    """The shapes where the plan says, by shapely's own turning and moving."""
    laid = []
    for one in plan.placed:
        turned = affinity.rotate(polygon(task.shapes[one.shape].corners), one.turn, origin=(0, 0), use_radians=True)
        laid.append(affinity.translate(turned, one.shift.real, one.shift.imag))
    return laid


def two(first: complex, second: complex, turn: float = 0.0) -> StripPlan:
    return StripPlan(300.0, (Placed(0, turn, first), Placed(0, turn, second)))


TWO_SQUARES = StripTask(100.0, (Shape("square", SQUARE, (0.0,), 2),))


@pytest.mark.parametrize(
    ("plan", "found"),
    [
        (two(0j, 100 + 0j), []),
        (two(0j, 99.9999 + 0j), ["overlap"]),
        (two(0j, 200.1 + 0j), ["outside"]),
        (two(0.1j, 150 + 0j), ["outside"]),
        (two(100 + 0j, 200 + 0j, math.pi / 2), ["turn", "turn"]),
        (StripPlan(300.0, (Placed(0, 0.0, 0j),)), ["number"]),
        (two(0j, 0j), ["overlap"]),
    ],
)
def test_verifier_finds_what_is_wrong(plan: StripPlan, found: list[str]) -> None:
    assert sorted(fault.what for fault in plan_faults(TWO_SQUARES, plan)) == sorted(found)


@given(st.lists(st.tuples(*[st.floats(-50, 150, allow_nan=False)] * 2), min_size=2, max_size=4))
@settings(max_examples=50, deadline=None)
def test_verifier_agrees_with_rational_numbers(shifts: list[tuple[float, float]]) -> None:
    # Squares overlap where both their ranges do, by more than the tolerance; decided here without any rounding.
    task = StripTask(1e4, (Shape("square", SQUARE, (0.0,), len(shifts)),))
    placed = tuple(Placed(0, 0.0, complex(x + 100, y + 100)) for x, y in shifts)
    ends = [
        [(Fraction(lo), Fraction(hi)) for lo, hi in ((z.real, z.real + 100.0), (z.imag, z.imag + 100.0))]
        for z in (one.shift for one in placed)
    ]
    expected = {
        (i, j)
        for i in range(len(ends))
        for j in range(i + 1, len(ends))
        if all(max(a[0], b[0]) + Fraction(TINY) < min(a[1], b[1]) for a, b in zip(ends[i], ends[j], strict=True))
    }
    faults = plan_faults(task, StripPlan(1e4, placed))
    assert {fault.shapes for fault in faults if fault.what == "overlap"} == expected


@pytest.mark.parametrize("corners", [SQUARE, ELL, *(shape.corners for shape in cut_up(3).shapes)])
def test_convex_parts_fill_the_polygon(corners: tuple[complex, ...]) -> None:
    parts = [polygon(part) for part in convex_parts(corners)]
    assert sum(part.area for part in parts) == pytest.approx(polygon(corners).area, rel=1e-9)
    assert unary_union(parts).symmetric_difference(polygon(corners)).area < 1e-6 * polygon(corners).area
    for part in parts:
        assert part.convex_hull.area == pytest.approx(part.area, rel=1e-9)
    assert len(convex_parts(ELL)) == 2


@given(st.integers(0, 5), st.integers(0, 5), st.floats(-900, 900), st.floats(-900, 900))
@settings(max_examples=50, deadline=None)
def test_directions_keep_polygons_apart(first: int, second: int, x: float, y: float) -> None:
    import numpy as np

    shapes = cut_up(7).shapes
    a, b = shapes[first].corners, shapes[second].corners
    between = apart(a, b)
    gaps = np.maximum.reduceat(between.normals @ np.array((x, y)) + between.offsets, between.starts)
    moved = affinity.translate(polygon(b), x, y)
    if (gaps >= 0).all():
        assert not polygon(a).buffer(-1e-6).intersects(moved)
    elif (gaps < -1e-3).any():
        assert polygon(a).intersects(moved)


def test_compaction_reaches_the_least_length() -> None:
    # The second ell, turned by half, fills the corner of the first: 300 mm for two of 200 mm.
    task = StripTask(230.0, (Shape("ell", ELL, HALF, 2),))
    layout = Layout(task, StripPlan(420.0, (Placed(0, 0.0, 5 + 0j), Placed(0, math.pi, 420 + 230j))))
    for reach in (500.0, 100.0, 10.0):
        assert layout.compact(reach)
    assert layout.plan().length == pytest.approx(300.0, abs=0.01)
    assert plan_faults(task, layout.plan()) == []


def test_overlaps_are_pushed_apart() -> None:
    plans: list[StripPlan] = []
    piled = StripPlan(150.0, (Placed(0, 0.0, 0j), Placed(0, 0.0, 30 + 0j)))
    tightener = Tightener(TWO_SQUARES, Random(1), lambda plan: not plans.append(plan))
    tightener.take(piled, math.inf)
    assert not plans  # no room on a strip of that length
    tightener.take(StripPlan(230.0, (Placed(0, 0.0, 0j), Placed(0, 0.0, 95 + 0j))), math.inf)
    assert plans[-1].length == pytest.approx(200.0, abs=0.01)
    assert plan_faults(TWO_SQUARES, plans[-1]) == []


@pytest.mark.parametrize("seed", [1, 2])
def test_plans_are_valid_and_dense(seed: int) -> None:
    task = cut_up(seed)
    told: list[Progress] = []
    packed = pack(task, 1.2, seed, told.append)
    assert plan_faults(task, packed.plan) == []
    laid = lay(task, packed.plan)
    assert not any(a.buffer(-1e-3).intersects(b) for a, b in combinations(laid, 2))  # mm
    box = MultiPolygon(laid).bounds
    assert box[0] > -TINY
    assert box[1] > -TINY
    assert box[3] < task.width + TINY
    assert box[2] == pytest.approx(packed.plan.length, abs=1e-6)
    assert packed.plan.length >= least_length(task) - 1e-6
    assert packed.plan.length < 0.8 * row(task).length
    assert [one.length for one in told] == sorted((one.length for one in told), reverse=True)
    assert packed.plan.length <= packed.bare


def test_based_shapes_stay_on_the_lower_edge() -> None:
    # Two ells, drawn with their long sides down, and two squares that lie on these: no more than the ells need.
    ell = Shape("ell", ELL, (0.0,), 2, is_based=True)
    square = Shape("square", tuple(p * 0.9 for p in SQUARE), HALF, 2)
    task = StripTask(205.0, (ell, square))
    packed = pack(task, 1.0, 1)
    assert plan_faults(task, packed.plan) == []
    assert packed.plan.length == pytest.approx(400.0, abs=0.5)
    lifted = [one._replace(shift=one.shift + 0.01j) for one in packed.plan.placed]
    faults = plan_faults(task._replace(width=206.0), packed.plan._replace(placed=tuple(lifted)))
    assert [fault.what for fault in faults] == ["base", "base"]


def test_no_time_still_gives_a_plan() -> None:
    task = cut_up(3)
    packed = pack(task, 0.0, 1)
    assert plan_faults(task, packed.plan) == []
    assert packed.plan.length <= row(task).length


def test_what_is_wider_than_the_strip_is_told() -> None:
    task = StripTask(150.0, (Shape("square", SQUARE, (0.0,), 1), Shape("ell", ELL, (0.0, math.pi / 2), 1)))
    assert [(one.shape, pytest.approx(one.least)) for one in too_wide(task)] == [(1, 200.0)]
    slim = StripTask(150.0, (Shape("slab", (0j, 200 + 0j, 200 + 100j, 100j), (0.0, math.pi / 2), 1),))
    assert too_wide(slim) == []
    assert least_length(slim) == pytest.approx(200.0)  # it only lies lengthwise
