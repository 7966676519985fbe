"""What counts as turning back, as an uneven step, and as crossing: on plain numbers and lines."""

from itertools import pairwise

import pytest

from garmentc.geometry.arcs import arc_with_bulge
from garmentc.geometry.path import Path, straight
from garmentc.grade.crossings import crossing, unnested
from garmentc.grade.evenness import explaining, jumps, turns
from tests.grade.small import BUST

BUST_STEPS = [40.0] * 7 + [60.0] * 4  # as EN 13402-3 steps the bust
HIP_STEPS = [40.0] * 7 + [50.0] * 4  # and the hip


@pytest.mark.parametrize(
    ("values", "places"),
    [
        ([], []),
        ([3.0], []),
        ([1, 2, 3, 3, 5], []),
        ([1, 2, 3, 3, 2], [3]),
        ([5, 4, 3, 4, 5, 4], [2, 4]),
        ([1, 2, 3, 2.6, 3.5], []),  # back by 0.4 mm only
        ([1, 1.3, 1.6, 1.2, 0.9], [2]),  # small steps count together
        ([1, 1.2, 1, 1.2, 1], []),
    ],
)
def test_turns(values: list[float], places: list[int]) -> None:
    assert turns(values) == places


def test_a_share_of_the_measures_follows_the_chart_where_its_steps_change() -> None:
    for shares in ((0.25, 0.0), (0.1, 0.3), (-0.5, 0.5), (1.0, -1.0)):
        steps = [shares[0] * bust + shares[1] * hip for bust, hip in zip(BUST_STEPS, HIP_STEPS, strict=True)]
        measured = list(
            zip(BUST_STEPS, BUST_STEPS, HIP_STEPS, strict=True)
        )  # one of them twice: a waist beside the bust
        assert jumps(steps, measured) == [], shares


def test_one_wrong_step_stays_wrong_alone() -> None:
    steps = [0.25 * step for step in BUST_STEPS]
    steps[5] += 30
    (jump,) = jumps(steps, [(step,) for step in BUST_STEPS])
    assert (jump.gap, jump.step) == (5, 40.0)
    assert jump.explained == pytest.approx(10.0, abs=0.01)


def test_a_size_that_is_off_makes_two_uneven_steps() -> None:
    steps = [0.25 * step for step in BUST_STEPS]
    steps[2] += 8
    steps[3] -= 8
    assert [jump.gap for jump in jumps(steps, [(step,) for step in BUST_STEPS])] == [2, 3]


def test_a_rule_that_ends_is_one_uneven_step() -> None:
    steps = [0.25 * step if i < 4 else 0.0 for i, step in enumerate(BUST_STEPS)]
    assert [jump.gap for jump in jumps(steps, [(step,) for step in BUST_STEPS])] in ([3], [4])


@pytest.mark.parametrize(("off", "found"), [(2.9, 0), (3.1, 1), (9.9, 1)])
def test_less_than_three_millimetres_is_no_uneven_step(off: float, found: int) -> None:
    steps = [0.1 * step for step in BUST_STEPS[:6]]  # 4 mm each
    steps[0] += off
    assert len(jumps(steps, [(step,) for step in BUST_STEPS[:6]])) == found


@pytest.mark.parametrize(("off", "found"), [(9.9, 0), (10.1, 1)])
def test_a_centimetre_is_always_uneven(off: float, found: int) -> None:
    steps = BUST_STEPS[:6]
    steps[0] += off
    assert len(jumps(steps, [(step,) for step in BUST_STEPS[:6]])) == found


def test_roots_and_diagonals_run_evenly() -> None:
    lengths = [abs(complex(bust / 4, 150 + bust / 16)) for bust in BUST]
    steps = [b - a for a, b in pairwise(lengths)]
    assert jumps(steps, [(step,) for step in BUST_STEPS]) == []


def test_without_measures_nothing_is_explained() -> None:
    assert explaining([1.0, 2.0], [(), ()]) == []
    assert [jump.gap for jump in jumps([0.0, 9.0], [(), ()])] == [1]
    assert jumps([], []) == []


def test_lines_cross() -> None:
    assert crossing(straight(0j, 100 + 0j), straight(-10j, 100 + 10j)) == pytest.approx(50 + 0j)
    assert crossing(straight(0j, 100 + 0j), straight(-0.4j, 100 + 10j)) is None  # 0.4 mm on one side can't be told
    assert crossing(straight(0j, 100 + 0j), straight(10j, 100 + 20j)) is None


def test_lines_that_share_an_end_or_run_in_each_other_do_not_cross() -> None:
    line = straight(0j, 100 + 0j)
    assert crossing(line, straight(0j, 110 + 20j)) is None
    assert crossing(line, straight(20 + 0j, 150 + 0j)) is None
    assert crossing(line, Path((arc_with_bulge(0j, 100 + 0j, 8.0),))) is None


def test_curves_cross() -> None:
    curve = Path((arc_with_bulge(0j, 100 + 0j, 8.0),))
    top = curve.point_at(curve.length / 2)
    assert abs(top - 50) == pytest.approx(8.0)
    assert crossing(curve, straight(-10 + top.imag / 2 * 1j, 110 + top.imag / 2 * 1j)) is not None
    assert crossing(curve, straight(-10 + top.imag * 2j, 110 + top.imag * 2j)) is None


def test_an_edge_carried_along_round_its_bend_has_to_cross() -> None:
    neckline = Path((arc_with_bulge(70 + 60j, 0j, 30.0),))  # from the shoulder down, then level to the centre
    carried = Path((arc_with_bulge(72 + 68j, 6j, 30.0),))
    assert crossing(neckline, carried) is not None
    assert unnested(neckline, carried) is None


def test_ends_that_move_against_each_other_make_lines_cross() -> None:
    assert unnested(straight(100 + 0j, 80 + 200j), straight(110 + 0j, 75 + 200j)) is not None


def test_a_line_that_goes_round_the_end_of_another_does_not_cross_it() -> None:
    line = straight(0j, 100 + 0j)
    round_the_end = Path(
        (
            *straight(20 + 10j, 130 + 10j).segments,
            *straight(130 + 10j, 130 - 10j).segments,
            *straight(130 - 10j, 20 - 10j).segments,
        )
    )
    assert crossing(line, round_the_end) is None
