"""Skirt blocks against the handbooks they are drawn by, on the draft and in the written drawings."""

import math

import pytest

from tests.published.block import Drawing, dart, edge, for_body, in_all_sizes, sewn

SIZES = ["76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128"]
WORKED = {"waist_girth": 70.0, "hip_girth": 96.0, "waist_to_hip": 20.0}

# Aldrich, Metric Pattern Cutting, as retold on compulsiveseamstress.com (second-hand): width H/2 + 1.5, back width
# H/4 + 1.5, back waist W/4 + 4.25, side raised 1.25. Nothing is told of the front waist; both sides come out 2 mm apart.
ALDRICH = """garment retold "Straight skirt, as retold" varies "straight_skirt.garment"
edition 1
set ease.hip_girth = 3 cm
set ease.waist_girth = 4.5 cm
replace back_width = hip_girth / 4 + 1.5 cm
replace back_waist = waist_girth / 4 + 4.25 cm
replace side_rise = 1.25 cm
replace seam side joins front.hip then front.side with back.hip then back.side as plain { ease 2 mm within 1 mm; corner at front.waist }
"""


def test_straight_skirt_of_the_handout() -> None:
    """WikiEducator, "Handout for drafting skirt block"; worked for waist 70, hip 96, length 60."""
    made = for_body("straight_skirt", WORKED)
    for piece, width, waist, dart_length in (("front", 245.0, 195.0, 100.0), ("back", 260.0, 207.0, 120.0)):
        draft = made.draft.piece(piece)
        assert edge(made, piece, "hem").length == pytest.approx(width, abs=0.1)
        top = edge(made, piece, "hip").end
        assert top.real == pytest.approx(waist, abs=0.1)
        assert top.imag == pytest.approx(10.0, abs=0.1)
        assert edge(made, piece, "centre").length == pytest.approx(600.0, abs=0.1)
        mouth = dart(draft, "waist")
        assert abs(mouth.first - mouth.second) == pytest.approx(20.0, abs=0.1)
        drawing = Drawing(made, piece)
        fold = drawing.edge("centre", "fold")
        stitched = drawing.edge("hip", "stitch")
        assert drawing.length("hem") == pytest.approx(width, abs=0.1)
        assert abs(stitched[-1].real - fold[0].real) == pytest.approx(waist, abs=0.1)
        assert stitched[-1].imag - max(p.imag for p in fold) == pytest.approx(10.0, abs=0.1)
        first, second, tip = drawing.darts("waist")[0]
        assert abs(first - second) == pytest.approx(20.0, abs=0.1)
        assert abs((first + second) / 2 - tip) == pytest.approx(dart_length, abs=0.1)


def test_half_waist_of_the_handout_once_darts_are_sewn() -> None:
    """WikiEducator handout: 36.2 = 35 + 1.2 ease for waist 70, laid off level; the raised waist line is a little longer."""
    made = for_body("straight_skirt", WORKED)
    half = sewn(made, "front", "waist") + sewn(made, "back", "waist")
    assert 362.0 <= half <= 363.5
    drawn = sum(Drawing(made, piece).sewn_length("waist", beside="hip") for piece in ("front", "back"))
    assert drawn == pytest.approx(half, abs=0.1)


def test_straight_skirt_as_retold_of_a_second_handbook() -> None:
    made = for_body("retold", WORKED, text=ALDRICH)
    front, back = edge(made, "front", "hem").length, edge(made, "back", "hem").length
    assert (front + back, back) == (pytest.approx(495.0, abs=0.1), pytest.approx(255.0, abs=0.1))
    assert edge(made, "back", "hip").end.real == pytest.approx(217.5, abs=0.1)
    drawing = Drawing(made, "back")
    assert drawing.length("hem") == pytest.approx(255.0, abs=0.1)
    low, high = drawing.edge("centre", "fold")[0], drawing.edge("hip", "stitch")[-1]
    assert high.real - low.real == pytest.approx(217.5, abs=0.1)
    assert high.imag - low.imag == pytest.approx(12.5, abs=0.1)


def test_skirt_width_of_a_third_source() -> None:
    """(H + 5) / 2 = 50.5 for hip 96: fashion-era.com, "Pattern drafting", skirt 3."""
    made = for_body("straight_skirt", WORKED)
    drawn = sum(Drawing(made, piece).length("hem") for piece in ("front", "back"))
    assert drawn == pytest.approx(505.0, abs=0.1)


@pytest.mark.parametrize("size", SIZES)
def test_waist_with_darts_closed_in_every_size(size: str) -> None:
    """WikiEducator handout: front W/4, back W/4 + 1.2; at most 1 mm more, since the waist rises to the side."""
    made = in_all_sizes("straight_skirt")[size]
    waist = made.draft.body.measures["waist_girth"].mm
    for piece, due in (("front", waist / 4), ("back", waist / 4 + 12.0)):
        assert due <= sewn(made, piece, "waist") <= due + 1.0
        drawn = Drawing(made, piece).sewn_length("waist", beside="hip")
        assert drawn == pytest.approx(sewn(made, piece, "waist"), abs=0.1)


SHARES = {"full": 1.0, "three_quarter": 0.75, "half": 0.5, "quarter": 0.25}


def radii(line: list[complex], middle: complex) -> list[float]:
    return [abs(p - middle) for p in line]


@pytest.mark.parametrize(
    ("sweep", "waist_radius", "hem_radius", "hem", "area"),
    [
        ("full", 11.1408, 71.1408, 446.99, 15509.7),
        ("three_quarter", 14.8545, 74.8545, 352.74, 12682.3),
        ("half", 22.2817, 82.2817, 258.50, 9854.9),
        ("quarter", 44.5634, 104.5634, 164.25, 7027.4),
    ],
)
def test_circle_skirt_for_waist_70_and_length_60(
    sweep: str, waist_radius: float, hem_radius: float, hem: float, area: float
) -> None:
    """r = W / (2 pi f), R = r + L, hem = 2 pi f R, area = pi f (R^2 - r^2): geometry of the ring."""
    made = for_body("circle_skirt", {"waist_girth": 70.0}, [f"sweep={sweep}"])
    values = {one.name: one.value for one in made.draft.finished}
    assert values["waist"] == pytest.approx(700.0, abs=0.1)
    assert values["hem"] == pytest.approx(10 * hem, abs=0.1)
    assert values["hem"] - values["waist"] == pytest.approx(2 * math.pi * SHARES[sweep] * 600.0, abs=0.1)
    assert values["area"] == pytest.approx(100 * area, rel=1e-5)
    drawing = Drawing(made, "front")
    waist = drawing.bare("waist", beside="side")
    middle = waist[-1] + 10j * waist_radius
    for radius in radii(waist, middle):
        assert radius == pytest.approx(10 * waist_radius, abs=0.1)
    for radius in radii(drawing.edge("hem", "stitch"), middle):
        assert radius == pytest.approx(10 * hem_radius, abs=0.1)
    assert 4 * drawing.sewn_length("waist", beside="side") == pytest.approx(700.0, abs=0.1)
    assert 4 * drawing.length("hem") == pytest.approx(10 * hem, abs=0.1)


@pytest.mark.parametrize(("sweep", "printed"), [("full", 4.13), ("half", 8.2), ("quarter", 16.56)])
def test_circle_skirt_as_printed_for_a_waist_of_26_inches(sweep: str, printed: float) -> None:
    """prettyquirkypants.com, "Circle skirt and half circle skirt formulas", 2014; printed values are cut off or rounded."""
    drawing = Drawing(for_body("circle_skirt", {"waist_girth": 26 * 2.54}, [f"sweep={sweep}"]), "front")
    across = drawing.bare("waist", beside="side")
    radius = abs(across[0] - across[-1]) / (2 * math.sin(math.radians(45 * SHARES[sweep])))
    assert radius == pytest.approx(26 * 25.4 / (2 * math.pi * SHARES[sweep]), abs=0.1)
    assert radius / 25.4 == pytest.approx(printed, abs=0.08)


def test_an_allowance_makes_the_waist_radius_smaller_and_the_hem_radius_larger() -> None:
    """Waist 70, length 60, allowance 1.5: r 9.64, R 72.64, square 145.28 (computed from the formula)."""
    text = """garment allowed "With allowances" varies "circle_skirt.garment"
edition 1
drop finish of front.waist
drop finish of back.waist
finish front.waist, back.waist as turned_hem { set hem = 15 mm }
"""
    drawing = Drawing(for_body("allowed", {"waist_girth": 70.0}, text=text), "front")
    middle = drawing.edge("waist", "stitch")[-1] + 111.408j
    side = middle.imag - 0.01  # the cut edges run on into the allowance of the side seam, which lies above
    for name, radius in (("waist", 96.4), ("hem", 726.4)):
        found = [abs(p - middle) for p in drawing.edge(name, "cut") if p.imag < side]
        assert len(found) > 100
        assert found == [pytest.approx(radius, abs=0.1)] * len(found)
    assert 2 * (middle.imag - min(p.imag for p in drawing.edge("hem", "cut"))) == pytest.approx(1452.8, abs=0.2)


@pytest.mark.parametrize("sweep", list(SHARES))
@pytest.mark.parametrize("size", SIZES)
def test_circle_skirt_in_every_size(sweep: str, size: str) -> None:
    """r = W / (2 pi f)."""
    made = in_all_sizes("circle_skirt", f"sweep={sweep}")[size]
    waist = made.draft.body.measures["waist_girth"].mm
    radius = waist / (2 * math.pi * SHARES[sweep])
    assert abs(edge(made, "front", "waist").start) == pytest.approx(radius, abs=0.1)
    assert abs(edge(made, "front", "hem").start) == pytest.approx(radius + 600.0, abs=0.1)
    assert 4 * edge(made, "back", "waist").length == pytest.approx(waist, abs=0.1)
