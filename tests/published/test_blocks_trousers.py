"""The trousers block against the textbook it is drawn by, on the draft and in the written drawings.

"The Basic Trousers Block", in a textbook of English for clothing students ("Fuzhuang Yingyu Shiyong Jiaocheng", 3rd edition,
part 3), seen as an excerpt on ibooks.qq.com; second-hand. Its formulas are worked here for hip 94, waist 68, body rise 28,
waist to hip 20.6 and waist to floor 104, a common middle size (the body and the hem of 22 from memory). Numbers in
comments are those of the textbook's points.
"""

import pytest

from garmentc.geometry.path import Path
from tests.published.block import Drawing, dart, edge, for_body, in_all_sizes, sewn

SIZES = ["76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128"]
WORKED = {"waist_girth": 68.0, "hip_girth": 94.0, "body_rise": 28.0, "waist_to_hip": 20.6, "waist_height": 104.0}
CLOSE = 0.1


def passes(path: Path, p: complex) -> bool:
    return path.nearest(p)[1] < CLOSE


def test_front_of_the_textbook() -> None:
    made = for_body("trousers", WORKED)
    corner = complex(-93.333, -280.0)  # 5: a twelfth of the hips and 1.5
    fork = corner - 63.75  # 9: a sixteenth of the hips and 0.5
    waist_centre = complex(-93.333 + 10.0, 0.0)  # 10
    front = {
        name: edge(made, "front", name) for name in ("centre", "crotch", "hip_and_thigh", "calf_side", "hem", "inside")
    }
    assert front["centre"].end == pytest.approx(waist_centre, abs=CLOSE)
    assert front["crotch"].start == pytest.approx(fork, abs=CLOSE)
    assert front["crotch"].end == pytest.approx(complex(-93.333, -206.0), abs=CLOSE)  # 6
    assert front["crotch"].nearest(corner)[1] <= 30.0 + CLOSE  # the curve touches a point 3 from 5
    assert passes(front["crotch"], corner + 30.0 * complex(-1, 1) / 2**0.5)
    assert front["hip_and_thigh"].start == pytest.approx(waist_centre + 192.5, abs=CLOSE)  # 11
    assert passes(front["hip_and_thigh"], complex(-93.333 + 240.0, -206.0))  # 8: a quarter of the hips and 0.5
    assert front["calf_side"].start == pytest.approx(complex(118.0, -610.0), abs=CLOSE)  # 13
    assert (front["hem"].start, front["hem"].end) == (
        pytest.approx(complex(105.0, -1040.0), abs=CLOSE),  # 12
        pytest.approx(complex(-105.0, -1040.0), abs=CLOSE),  # 14
    )
    assert front["inside"].start == pytest.approx(complex(-118.0, -610.0), abs=CLOSE)  # 15
    middle = (fork + complex(-118.0, -610.0)) / 2
    assert front["inside"].nearest(middle)[1] == pytest.approx(7.5, abs=CLOSE)
    mouth = dart(made.draft.piece("front"), "waist")
    assert abs(mouth.first - mouth.second) == pytest.approx(20.0, abs=CLOSE)
    assert mouth.tip == pytest.approx(-100j, abs=CLOSE)


def test_back_of_the_textbook() -> None:
    made = for_body("trousers", WORKED)
    corner = complex(-70.0, -280.0)  # 16: a quarter of 1-5
    waist_centre = complex(-70.0 + 20.0, 20.0)  # 21
    back = {
        name: edge(made, "back", name) for name in ("centre", "crotch", "hip_and_thigh", "calf_side", "hem", "inside")
    }
    assert back["centre"].start == pytest.approx(complex(-70.0, -140.0), abs=CLOSE)  # 19
    assert back["centre"].end == pytest.approx(waist_centre, abs=CLOSE)
    assert passes(back["crotch"], corner + 42.5 * complex(-1, 1) / 2**0.5)
    assert abs(back["hip_and_thigh"].start - waist_centre) == pytest.approx(212.5, abs=1.0)  # 22
    assert passes(back["hip_and_thigh"], complex(-70.0 + 250.0, -206.0))  # 25
    assert back["calf_side"].start == pytest.approx(complex(128.0, -610.0), abs=CLOSE)  # 27
    assert back["hem"].length == pytest.approx(230.0, abs=CLOSE)  # 26 and 28
    # 24, found by the compiler where both inside legs are as long; textbook: 5 mm below the front fork
    assert back["crotch"].start == pytest.approx(complex(-93.333 - 63.75 - 31.875, -285.0), abs=2.0)
    for name, long in (("inner", 120.0), ("outer", 100.0)):
        mouth = dart(made.draft.piece("back"), name)
        assert abs(mouth.first - mouth.second) == pytest.approx(20.0, abs=CLOSE)
        assert abs((mouth.first + mouth.second) / 2 - mouth.tip) == pytest.approx(long, abs=0.5)


def test_the_drawings_of_the_textbook() -> None:
    made = for_body("trousers", WORKED)
    for piece, hem in (("front", 210.0), ("back", 230.0)):
        drawing = Drawing(made, piece)
        assert drawing.length("hem") == pytest.approx(hem, abs=CLOSE)
        for name in ("crotch", "centre", "inside", "hip_and_thigh", "calf_side"):
            assert drawing.length(name) == pytest.approx(edge(made, piece, name).length, abs=CLOSE)


@pytest.mark.parametrize("size", SIZES)
def test_waist_in_every_size(size: str) -> None:
    """Textbook: front and back a quarter of the waist and 0.25 each, darts sewn; at most 1.5 mm more on a curved waist."""
    made = in_all_sizes("trousers")[size]
    waist = made.draft.body.measures["waist_girth"].mm
    for piece in ("front", "back"):
        assert waist / 4 + 2.5 - 1.0 <= sewn(made, piece, "waist") <= waist / 4 + 2.5 + 1.5


@pytest.mark.parametrize("size", SIZES)
def test_both_legs_are_one_crotch_seam(size: str) -> None:
    """The seam runs once, from the front waist through the legs to the back waist, over edges that each exist twice."""
    made = in_all_sizes("trousers")[size]
    seam = next(one for one in made.seams if one.name == "crotch")
    edges = [("front", "centre"), ("front", "crotch"), ("back", "crotch"), ("back", "centre")]
    assert (seam.times, seam.mirrored) == (1, True)
    assert seam.first_length == seam.second_length == pytest.approx(sum(sewn(made, *one) for one in edges))
