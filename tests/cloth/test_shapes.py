"""The shapes that the demo garments are cut of."""

from __future__ import annotations

import pytest

from garmentc.cloth.shapes import cloth_names, least_area, shapes
from garmentc.host import DiskHost
from garmentc.pipeline import Request, compile_here
from tests.language.small import CHART, assembled, panel


@pytest.fixture(scope="module")
def tern():
    made = compile_here(DiskHost(), Request("specs/tern.garment", CHART, None, ("88",)))
    return made.made[0]


def test_a_fold_is_opened_out_and_its_hems_are_two(tern):
    front, back, facing, *straps = shapes(tern)
    assert [one.key for one in (front, back, facing, *straps)] == ["front", "back", "back_facing", "strap 1", "strap 2"]
    half = tern.pieces[0]
    assert front.outline.orientation == 1
    assert front.outline.area == pytest.approx(2 * half.cut_line.area)
    x0, _, x1, _ = front.outline.bounds()
    assert (x0, x1) == pytest.approx((-255, 255))
    assert [name for name, _ in front.hems] == ["hem", "hem"]
    (left, right) = sorted((path for _, path in front.hems), key=lambda path: path.start.real + path.end.real)
    assert left.end == pytest.approx(right.start)  # anticlockwise, past the point that lies on the corner
    assert front.corners == (("hem_point", right.start),)
    assert least_area([front, back]) == pytest.approx(front.outline.area + back.outline.area)


def test_bias_may_lie_either_way(tern):
    front = shapes(tern)[0]
    assert len(front.lengthwise) == 2
    assert abs((front.lengthwise[0] * front.lengthwise[1].conjugate()).real) < 1e-9


def test_strips_are_joined_of_parts_that_hold_their_joins(tern):
    whole = shapes(tern)[-1]
    assert whole.outline.bounds() == pytest.approx((0, 0, 30, 398))
    *_, one, a, b = shapes(tern, splits={"strap 2": [150.0]})
    assert (one.key, a.key, b.key) == ("strap 1", "strap 2a", "strap 2b")
    assert (a.part, b.part) == ((0.0, 150.0), (150.0, 398.0))
    assert [shape.outline.bounds()[3] for shape in (a, b)] == pytest.approx([160, 258])


def test_of_a_pair_the_second_is_the_mirror_image_beside_the_first():
    text = panel(below="lay panel { ending on finished edge }").replace("cut 1", "cut pair")
    right, left = shapes(assembled(text))
    assert (right.key, left.key, left.beside) == ("panel 1", "panel 2", "panel 1")
    assert left.mirrored
    assert left.outline.orientation == 1
    (_, path) = left.hems[0]
    assert (path.start, path.end) == (-200 + 300j, -200)  # the cloth is on its left, as it is of the drawn one


def test_each_cloth_has_its_own_shapes():
    below = 'strip tie "Tie" { cut 1; length 40 cm; width 4 cm; make flat }\nlay tie { cloth lining }\n'
    made = assembled(panel(below=below + "finish tie.ends, tie.sides as pinked\n"))
    assert cloth_names(made) == ("main", "lining")
    assert [one.key for one in shapes(made, "lining")] == ["tie"]
    assert [one.key for one in shapes(made)] == ["panel"]
