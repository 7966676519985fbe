"""Outlines grown outward: Steiner's formulas, regions grown by shapely, and strip ends."""

import cmath
import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.geometry.arcs import arc_with_bulge
from garmentc.geometry.crossing import find_crossing
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.hobby import curve
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.path import Path, straight
from garmentc.geometry.region import grown, hausdorff, polygon
from garmentc.geometry.segments import Arc
from garmentc.geometry.widen import Corner, FoldedBack, Mitre, Square, Widened, widen

RECTANGLE = ring([0j, 10 + 0j, 10 + 6j, 6j])


def mitred(outline: Outline, width: float, limit: float = 3.0) -> Widened:
    count = len(outline.edges)
    return widen(outline, [width] * count, [Mitre()] * count, limit)


def test_rectangle():
    # Steiner with mitred corners: (10 + 3) (6 + 3) = 117, perimeter 44.
    for outline in (RECTANGLE, RECTANGLE.reversed()):
        result = mitred(outline, 1.5)
        assert abs(result.ring.area) == pytest.approx(117)
        assert result.ring.perimeter == pytest.approx(44)
        assert result.joins == (None,) * 4
        assert result.ring.orientation == outline.orientation


def test_triangle():
    # Sides 3, 4, 5 with inradius 1: growing by d mitred scales the triangle by 1 + d.
    result = mitred(ring([0j, 4 + 0j, 3j]), 0.5, 10)
    assert result.ring.area == pytest.approx(6 * 1.5**2)
    assert result.ring.perimeter == pytest.approx(12 * 1.5)


def test_circle():
    # pi 11.5² and 2 pi 11.5.
    result = mitred(Outline((Path((Arc(0j, 10.0, 0.0, 2 * math.pi),)),)), 1.5)
    assert result.ring.area == pytest.approx(415.475628, abs=1e-6)
    assert result.ring.perimeter == pytest.approx(72.256631, abs=1e-6)


@given(
    st.lists(st.floats(0, 2 * math.pi), min_size=3, max_size=9, unique=True),
    st.floats(10, 60),
    st.floats(0.5, 20),
)
@settings(max_examples=150, deadline=None)
def test_convex_polygons(angles: list[float], radius: float, width: float):
    corners = [cmath.rect(radius, angle) for angle in sorted(angles)]
    if min(abs(a - b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)) < 1:
        return
    outline = ring(corners)
    expected = grown(outline, width, mitre=True)
    result = mitred(outline, width, 1e9)
    assert hausdorff(polygon(result.ring), expected) < 1e-6 * max(expected.bounds)


def test_convex_curves():
    egg = Outline((curve([0j, 50 - 20j, 100 + 0j], -1j, 1j), curve([100 + 0j, 40 + 60j, 0j], 1j, -1j)))
    result = mitred(egg, 10.0)
    assert hausdorff(polygon(result.ring, 0.001), grown(egg, 10.0, tolerance=0.001)) < 0.02


@given(st.floats(0.3, 2.8), st.floats(2, 12))
@settings(deadline=None)
def test_mitre_limit(angle: float, width: float):
    # A corner of the given angle at 0 between two long sides.
    outline = ring([100 + 0j, cmath.rect(100, angle), 0j])
    result = widen(outline, [0.0, width, width], [Mitre()] * 3, 2.0)
    tip = width / math.sin(angle / 2)
    if tip <= 2 * width:
        assert result.joins[2] is None
        assert abs(result.edges[2].start) == pytest.approx(tip)
    else:
        cut = result.joins[2]
        assert cut is not None
        middle = cmath.rect(-2 * width, angle / 2)
        assert abs(cut.point_at(cut.length / 2) - middle) < 1e-6
        assert (cut.chord * middle.conjugate()).real == pytest.approx(0, abs=1e-6)


def test_reflex_corners_are_trimmed():
    hook = ring([0j, 30 + 0j, 30 + 20j, 20 + 20j, 20 + 10j, 10 + 10j, 10 + 20j, 20j])
    for kind in (Mitre(), Square("before"), Square("after")):
        corners: list[Corner] = [Mitre()] * 8
        corners[4] = corners[5] = kind
        result = widen(hook, [2.0] * 8, corners)
        assert result.ring.area == pytest.approx(34 * 24 - 6 * 10)
    with pytest.raises(GeometryFault) as caught:
        mitred(hook, 5.5)
    assert caught.value.reason in ("too-tight", "no-meeting", "self-crossing")
    assert set(caught.value.edges) & {3, 4, 5}


def test_reflex_corner_between_curves():
    # A heart: the notch at 0 between two lobes.
    lobe = curve([0j, 25 + 30j, 50 + 0j, 0 - 60j], 1 + 2j, -1 - 1j)
    other = lobe.moved(Motion.mirror_in(0j, 1j)).reversed()
    heart = Outline((other, lobe)).reversed()
    result = mitred(heart, 8.0)
    outer = polygon(result.ring, 0.001)
    inner = polygon(heart, 0.001)
    # The tip is mitred; elsewhere the border is that of the region within 8 mm.
    upper = shapely.box(-200, -40, 200, 200)
    round_outer = grown(heart, 8.0, tolerance=0.001)
    assert outer.intersection(upper).symmetric_difference(round_outer.intersection(upper)).area < 2
    assert outer.contains(inner)


@pytest.mark.parametrize("bow", [0.1, 2.0, 5.0, 8.0, 11.0, 14.0, 17.0, 20.0])
@pytest.mark.parametrize(("before", "after"), [(6.0, 30.0), (30.0, 6.0), (10.0, 20.0), (0.0, 15.0)])
def test_reflex_corner_where_curves_leave_their_tangents(bow: float, before: float, after: float):
    arm, crown = arc_with_bulge(-110 + 80j, 0j, bow), arc_with_bulge(0j, 130 + 0j, 25.0)
    outline = Outline(
        (
            Path((arm,)),
            Path((crown,)),
            straight(130 + 0j, 130 - 150j),
            straight(130 - 150j, -110 - 150j),
            straight(-110 - 150j, -110 + 80j),
        )
    )
    result = widen(outline, [before, after, 5.0, 5.0, 5.0], [Mitre()] * 5)
    outer = polygon(result.ring, 0.001)
    assert outer.is_valid
    assert outer.buffer(0.01).contains(polygon(outline, 0.001))


def test_different_widths():
    result = widen(RECTANGLE, [3.0, 1.0, 2.0, 0.0], [Mitre()] * 4)
    assert result.ring.bounds() == pytest.approx((0, -3, 11, 8))
    assert result.ring.area == pytest.approx(11 * 11)


def test_step_where_edges_run_on():
    outline = ring([0j, 5 + 0j, 10 + 0j, 10 + 6j, 6j])
    result = widen(outline, [1.0, 3.0, 1.0, 1.0, 1.0], [Mitre()] * 5)
    assert result.joins[1] == straight(5 - 1j, 5 - 3j)
    assert result.ring.area == pytest.approx(12 * 8 + 6 * 2)
    # Nearly straight on: a step, no far tip.
    bent = ring([0j, 5 + 0.01j, 10 + 0j, 10 + 6j, 6j])
    result = widen(bent, [1.0, 3.0, 1.0, 1.0, 1.0], [Mitre()] * 5)
    assert result.joins[1] is not None
    assert result.joins[1].length == pytest.approx(2, abs=0.1)


@pytest.mark.parametrize("lean", [-20.0, 20.0])
@pytest.mark.parametrize("side", [1, -1])
def test_square(lean: float, side: int):
    # Edge 1 leaves edge 0 leaning in or out; the strip of edge 0 ends square to it.
    outline = ring([0j, 100 + 0j, 100 + lean + 80j, 80j])
    corners: list[Corner] = [Mitre(), Square("before"), Mitre(), Mitre()]
    if side < 0:
        outline = outline.reversed()
        corners = [Mitre(), Mitre(), Mitre(), Square("after")]
    result = widen(outline, [15.0] * 4, corners)
    edge, join = (0, result.joins[1]) if side > 0 else (3, result.joins[3])
    if side > 0:
        assert join is not None
        tip, foot = join.start, join.end
    else:
        assert join is not None
        tip, foot = join.end, join.start
    slope = math.hypot(lean, 80) / 80
    assert foot == pytest.approx(complex(100 + 15 * slope, 0))
    assert tip == pytest.approx(foot - 15j)
    strip = result.edges[edge]
    assert (strip.end if side > 0 else strip.start) == pytest.approx(tip)
    # The border of the neighbour runs on the parallel at 15 mm.
    neighbour = result.edges[1 if side > 0 else 2]
    assert outline.edges[1 if side > 0 else 2].nearest(neighbour.point_at(40))[1] == pytest.approx(15)


def test_square_ends_of_a_shared_edge_are_mirror_images():
    upper = ring([0j, 100 + 0j, 130 + 60j, -20 + 60j])
    # The same first edge, but its corners are seen from the other side, with other angles.
    lower = ring([100 + 0j, 0j, 10 - 50j, 90 - 50j])
    one = widen(upper, [10.0] * 4, [Square("after"), Square("before"), Mitre(), Mitre()])
    two = widen(lower, [10.0] * 4, [Square("after"), Square("before"), Mitre(), Mitre()])
    for result, sign in ((one, -1), (two, 1)):
        for join in (result.joins[0], result.joins[1]):
            assert join is not None
            assert join.length == pytest.approx(10)
            assert join.chord.real == pytest.approx(0)
            assert max(join.start.imag * sign, join.end.imag * sign) == pytest.approx(10)


def folded_sample(lean: complex, bow: float, depths: tuple[float, ...]) -> tuple[Outline, Widened]:
    side = curve([200 + 0j, 200 + 150j + lean / 2 + bow, 200 + 300j + lean])
    outline = Outline(
        (
            straight(0j, 200 + 0j),
            side,
            straight(side.end, 300j),
            straight(300j, 0j),
        )
    )
    widths = [depths[-1], 10.0, 10.0, 10.0]
    corners = [FoldedBack("after", depths), FoldedBack("before", depths), Mitre(), Mitre()]
    return outline, widen(outline, widths, corners)


def folded_height(depths: tuple[float, ...], depth: float) -> float:
    """How high above the edge a place of the strip comes to lie once all folds are made."""
    height, outer, up = 0.0, 0.0, 1.0
    for border in depths:
        height += up * (min(depth, border) - outer)
        if depth <= border:
            break
        outer, up = border, -up
    return height


@pytest.mark.parametrize("lean", [-60.0, 0.0, 60.0])
@pytest.mark.parametrize("bow", [-12.0, 0.0, 12.0])
@pytest.mark.parametrize("depths", [(30.0,), (30.0, 40.0), (25.0, 45.0, 60.0)])
def test_folded_strip_lies_on_the_neighbour(lean: float, bow: float, depths: tuple[float, ...]):
    _, result = folded_sample(complex(lean), bow, depths)
    join, border = result.joins[1], result.edges[1]
    assert join is not None
    assert join.start.imag == pytest.approx(-depths[-1])
    assert join.end == pytest.approx(border.start)
    assert result.edges[0].end == pytest.approx(join.start)
    for i in range(101):
        p = join.point_at(join.length * i / 100)
        assert border.nearest(complex(p.real, folded_height(depths, -p.imag)))[1] < 1e-6
    # The far end, mirrored likewise at a square corner, is straight.
    other = result.joins[0]
    assert other is not None
    assert all(p.real == pytest.approx(-10) for p in other.flatten(0.1))


def test_folded_on_a_curved_edge():
    # The edge itself sags; its parallel meets the image a little off the depth at the corner.
    hem = curve([0j, 100 - 8j, 200 + 0j])
    outline = Outline((hem, straight(200 + 0j, 190 + 200j), straight(190 + 200j, 200j), straight(200j, 0j)))
    kinds: list[Corner] = [FoldedBack("after", (20.0,)), FoldedBack("before", (20.0,)), Mitre(), Mitre()]
    result = widen(outline, [20.0, 10.0, 10.0, 10.0], kinds)
    join = result.joins[1]
    assert join is not None
    mirror = Motion.mirror_in(200 + 0j, hem.end_direction())
    for i in range(11):
        p = join.point_at(join.length * i / 10)
        assert result.edges[1].nearest(mirror.apply(p))[1] < 1e-6
    assert abs(hem.nearest(result.edges[0].point_at(result.edges[0].length / 2))[1] - 20) < 0.02


def test_folded_back_numbers():
    with pytest.raises(ValueError, match="at least one"):
        FoldedBack("after", ())
    with pytest.raises(ValueError, match="rise"):
        FoldedBack("after", (30.0, 20.0))
    with pytest.raises(ValueError, match="beyond"):
        FoldedBack("after", (30.0, 70.0))
    with pytest.raises(ValueError, match="wide"):
        widen(RECTANGLE, [2.0] * 4, [FoldedBack("after", (1.0,))] + [Mitre()] * 3)


def test_folded_deeper_than_the_neighbour():
    with pytest.raises(GeometryFault) as caught:
        widen(RECTANGLE, [8.0, 1.0, 1.0, 1.0], [Mitre(), FoldedBack("before", (8.0,)), Mitre(), Mitre()])
    assert (caught.value.reason, caught.value.edges) == ("too-short", (0, 1))


def test_too_tight_names_the_edge():
    bay = curve([100 + 60j, 70 + 30j, 40 + 60j], -1j, 1j)
    outline = Outline(
        (straight(0j, 100 + 0j), straight(100 + 0j, 100 + 60j), bay, straight(40 + 60j, 60j), straight(60j, 0j))
    )
    with pytest.raises(GeometryFault) as caught:
        mitred(outline, 40.0)
    assert (caught.value.reason, caught.value.edges) == ("too-tight", (2,))
    assert find_crossing(mitred(outline, 10.0).ring.edges) is None


def test_self_crossing_names_edges():
    # A slot 4 mm wide closes when its sides grow by 3 mm, far from the corner where they meet.
    slot = ring([0j, 60 + 0j, 60 + 40j, 32 + 40j, 38 + 20j, 22 + 20j, 28 + 40j, 40j])
    with pytest.raises(GeometryFault) as caught:
        mitred(slot, 3.0)
    assert caught.value.reason == "self-crossing"
    assert set(caught.value.edges) & {2, 3, 5, 6}


def test_numbers_are_checked():
    with pytest.raises(ValueError, match="as many"):
        widen(RECTANGLE, [1.0], [Mitre()] * 4)
    with pytest.raises(ValueError, match="negative"):
        widen(RECTANGLE, [1.0, -1.0, 1.0, 1.0], [Mitre()] * 4)


def test_no_width_changes_nothing():
    result = mitred(RECTANGLE, 0.0)
    assert result.edges == RECTANGLE.edges
    assert result.joins == (None,) * 4


@given(st.floats(-3, 3), st.booleans())
@settings(max_examples=25, deadline=None)
def test_moves_with_its_outline(angle: float, mirrored: bool):
    motion = Motion.turn_about(30 + 20j, angle)
    if mirrored:
        motion = motion.then(Motion.mirror_in(5j, 1 + 1j))
    outline, result = folded_sample(30 + 0j, 9.0, (30.0, 40.0))
    kinds = [FoldedBack("after", (30.0, 40.0)), FoldedBack("before", (30.0, 40.0)), Mitre(), Mitre()]
    image = widen(outline.moved(motion), [40.0, 10.0, 10.0, 10.0], kinds)
    for i in range(4):
        there = motion.apply(result.edges[i].point_at(result.edges[i].length / 3))
        assert abs(image.edges[i].point_at(image.edges[i].length / 3) - there) < 1e-3
    back = widen(
        outline.reversed(),
        [10.0, 10.0, 10.0, 40.0],
        [FoldedBack("before", (30.0, 40.0)), Mitre(), Mitre(), FoldedBack("after", (30.0, 40.0))],
    )
    assert back.ring.area == pytest.approx(-result.ring.area)
