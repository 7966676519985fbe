"""Outlines: areas, inside and outside, lines across; and the polygonal regions."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point as ShapelyPoint

from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.path import Path, straight
from garmentc.geometry.region import grown, hausdorff, interior_point, overlap_area, polygon
from garmentc.geometry.segments import Arc, Cubic

RECTANGLE = ring([0j, 10 + 0j, 10 + 6j, 6j])
CIRCLE = Outline((Path((Arc(0j, 10.0, 0.0, 2 * math.pi),)),))
ARCH = Outline((straight(0j, 40 + 0j), Path((Cubic(40 + 0j, 40 + 40j, 0 + 40j, 0j),))))
HOOK = ring([0j, 30 + 0j, 30 + 20j, 20 + 20j, 20 + 10j, 10 + 10j, 10 + 20j, 20j])


def test_gap():
    with pytest.raises(GeometryFault) as caught:
        Outline((straight(0j, 10 + 0j), straight(10 + 0.5j, 5 + 5j), straight(5 + 5j, 0j)))
    fault = caught.value
    assert (fault.reason, fault.edges, fault.numbers) == ("open-outline", (0, 1), {"gap": 0.5})
    with pytest.raises(ValueError, match="at least one"):
        Outline(())


def test_measures():
    assert (RECTANGLE.area, RECTANGLE.perimeter, RECTANGLE.orientation) == (60, 32, 1)
    assert (RECTANGLE.reversed().area, RECTANGLE.reversed().orientation) == (-60, -1)
    assert CIRCLE.area == pytest.approx(100 * math.pi)
    assert CIRCLE.bounds() == pytest.approx((-10, -10, 10, 10))
    # By Green's theorem with Bernstein integrals the cap over 40 mm, 40 mm high, holds 3/5 of the box.
    assert ARCH.area == pytest.approx(0.6 * 40 * 40)
    assert ARCH.moved(Motion.mirror_in(0j, 1j)).area == pytest.approx(-0.6 * 40 * 40)
    far = ARCH.moved(Motion.shift_by(1e6 + 1e6j))
    assert far.area == pytest.approx(960, abs=1e-5)
    assert HOOK.corners[3] == 20 + 20j
    assert len(ARCH.flatten(0.1)) == len({*ARCH.flatten(0.1)})


@given(st.floats(-5, 45), st.floats(-5, 35), st.sampled_from([ARCH, HOOK, ARCH.reversed(), CIRCLE]))
@settings(max_examples=200, deadline=None)
def test_contains(x: float, y: float, outline: Outline):
    region = polygon(outline, 1e-4)
    spot = ShapelyPoint(x, y)
    if region.exterior.distance(spot) > 1e-3:
        assert outline.contains(complex(x, y)) == region.contains(spot)


def test_border_is_inside():
    for edge in ARCH.edges:
        for i in range(11):
            assert ARCH.contains(edge.point_at(edge.length * i / 10))


def test_line_spans():
    assert HOOK.line_spans(0 + 15j, 2 + 0j) == [pytest.approx((0, 10)), pytest.approx((20, 30))]
    assert HOOK.line_spans(5 + 15j, -1 + 0j) == [pytest.approx((-25, -15)), pytest.approx((-5, 5))]
    assert HOOK.width_at(0 + 15j, 1 + 0j) == pytest.approx(20)
    assert HOOK.line_spans(0 + 10j, 1 + 0j) == [pytest.approx((0, 30))]
    assert HOOK.line_spans(0j, 1 + 0j) == [pytest.approx((0, 30))]
    assert HOOK.line_spans(0 - 1j, 1 + 0j) == []
    assert CIRCLE.width_at(0 + 6j, 1 + 0j) == pytest.approx(16)
    assert CIRCLE.width_at(0j, 1j) == pytest.approx(20)


def test_steiner_round():
    # Steiner: area + perimeter * width + pi * width².
    assert grown(RECTANGLE, 1.5).area == pytest.approx(115.068583, abs=1e-4)
    assert grown(RECTANGLE, 1.5, mitre=True).area == pytest.approx(117)


def test_regions():
    a, b = polygon(RECTANGLE), polygon(RECTANGLE.moved(Motion.shift_by(4 + 0j)))
    assert overlap_area(a, b) == pytest.approx(36)
    assert hausdorff(a, b) == pytest.approx(4)
    assert abs(interior_point(CIRCLE)) < 0.5
    assert HOOK.contains(interior_point(HOOK))
