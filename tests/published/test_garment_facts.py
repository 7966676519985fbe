"""Facts from outside the project, held against what the compiler makes of the demo garments."""

import math

import pytest

from garmentc.assembly.model import Assembly
from garmentc.data.model import Body, Measured
from garmentc.draft.draft import draft
from garmentc.host import DiskHost
from garmentc.pipeline import compile_spec
from garmentc.source import Source
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"


@pytest.fixture(scope="module")
def tern() -> dict[str, Assembly]:
    compiled = compile_spec(DiskHost(), "specs/tern.garment", sizes=CHART)
    assert not list(compiled.findings)
    return {one.draft.body.name: one for one in compiled.made}


@pytest.fixture(scope="module")
def plover() -> dict[str, Assembly]:
    compiled = compile_spec(DiskHost(), "specs/plover.garment", sizes=CHART)
    assert not list(compiled.findings)
    return {one.draft.body.name: one for one in compiled.made}


def test_twelve_sizes_of_en_13402_3(tern: dict[str, Assembly]) -> None:
    """EN 13402-3:2004, women's bust girths, as encoded in the R package Anthropometry (bustSizesStandard)."""
    assert [int(size) for size in tern] == [*range(76, 105, 4), *range(110, 129, 6)]


def test_front_and_back_widths(tern: dict[str, Assembly]) -> None:
    """Front a quarter of the bust plus 2 cm, back a quarter: common practice, no source."""
    draft = tern["88"].draft
    for piece, expected in (("front", 240.0), ("back", 220.0)):
        side = draft.piece(piece).edge("side")
        assert side is not None
        assert side.own_path.start.real == pytest.approx(expected)


def test_strap_finishes_one_centimetre_wide(tern: dict[str, Assembly]) -> None:
    """Cut 3 cm wide, folded, stitched 5 mm from the edge: 1 cm wide. Common practice, no source."""
    making = tern["88"].draft.piece("strap").making
    assert making is not None
    assert (making.cut_width, making.stitched, making.finished_width) == (30.0, 5.0, 10.0)


def test_french_seam_passes_add_up_to_its_allowance(tern: dict[str, Assembly]) -> None:
    """Total = first pass + second pass; 3/8 in, trimmed to 1/8, then 1/4 gives 5/8 in (home-sewing tutorials)."""
    side = next(seam for seam in tern["88"].seams if seam.name == "side")
    first, second = (work.width for work in side.join.work if work.word == "pass")
    assert first + second == pytest.approx(side.join.allowance)
    assert side.join.allowance == pytest.approx(5 / 8 * 25.4, abs=1.0)
    assert side.join.iso_class.startswith("1.06")


def test_plain_seam_allowance_is_one_centimetre(plover: dict[str, Assembly]) -> None:
    """Seam allowance 1 cm: common practice, no source."""
    shoulder = next(seam for seam in plover["88"].seams if seam.name == "facing_shoulder")
    assert shoulder.join.allowance == 10.0
    assert shoulder.join.iso_class == "1.01.01"  # ISO 4916:1991, plain superimposed seam


def test_true_bias_is_45_degrees_to_the_threads(tern: dict[str, Assembly]) -> None:
    """True bias: 45 deg to the selvage (trade glossaries). The hem of a bias piece with a corner runs along a thread."""
    front = tern["88"].draft.piece("front")
    hem = front.edge("hem")
    assert hem is not None
    assert abs(math.degrees(math.atan2(front.thread.imag, front.thread.real)) % 90) == pytest.approx(45.0)
    direction = hem.path.chord / abs(hem.path.chord)
    assert min(abs((direction / front.thread).real), abs((direction / front.thread).imag)) == pytest.approx(
        0.0, abs=1e-9
    )


def test_cloth_corner_is_square(tern: dict[str, Assembly]) -> None:
    """Unfolded, the two hems meet at the corner of a square cloth: 90 deg."""
    for assembly in tern.values():
        hem = assembly.draft.piece("front").edge("hem")
        assert hem is not None
        slope = math.degrees(math.atan2(abs(hem.path.chord.imag), abs(hem.path.chord.real)))
        assert 2 * (90 - slope) == pytest.approx(90.0)


def test_lockstitch_thread_for_a_printed_example() -> None:
    """301 over 220 units of seam takes 550 of thread (melgeecrafts, after Coats' ratio of 2.5)."""
    compiled = compile_spec(DiskHost(), "specs/plover.garment", sizes=CHART, only=["88"])
    use = next(use for use in compiled.made[0].thread if use.stitch.code == "301")
    assert use.stitch.ratio * 220 == pytest.approx(550)
    assert use.thread == pytest.approx(use.sewn * 2.5)


CIRCLE_SKIRT = """
garment stint "Stint, a circle skirt"
edition 1
measure waist_girth
param skirt_length = 60 cm
param fullness = 100 %
waist_radius = waist_girth / (2 * 3.141592653589793 * fullness)
piece quarter "Quarter of the skirt" {
  cut 2 on fold middle
  grain straight along middle
  turn_by = 90 deg * fullness
  outline {
    middle : (0 cm, -waist_radius) -> (0 cm, -waist_radius - skirt_length)
    hem    : (0 cm, -waist_radius - skirt_length) -> turn((0 cm, -waist_radius - skirt_length), (0 cm, 0 cm), turn_by) arc bulge radius waist_radius + skirt_length
    side   : turn((0 cm, -waist_radius - skirt_length), (0 cm, 0 cm), turn_by) -> turn((0 cm, -waist_radius), (0 cm, 0 cm), turn_by)
    waist  : turn((0 cm, -waist_radius), (0 cm, 0 cm), turn_by) -> (0 cm, -waist_radius) arc hollow radius waist_radius
  }
}
finished waist = 4 * quarter.waist.length
finished hem = 4 * quarter.hem.length
"""


@pytest.mark.parametrize(
    ("fullness", "radius", "hem"),
    [(100, 11.1408, 446.99), (75, 14.8545, 352.74), (50, 22.2817, 258.50), (25, 44.5634, 164.25)],
)
def test_circle_skirt_radius_from_the_waist(fullness: float, radius: float, hem: float) -> None:
    """r = W / (2 pi f), hem = 2 pi f (r + L): waist 70, length 60; hem - waist = 2 pi f L for every fraction."""
    host = MemoryHost({"stint.garment": CIRCLE_SKIRT})
    compiled = compile_spec(host, "stint.garment", settings=[f"fullness={fullness} %"])
    assert compiled.design is not None
    nowhere = Source("waist", "").whole()
    body = Body("70", {"waist_girth": Measured(700.0, nowhere)}, nowhere, nowhere, "")
    made = draft(compiled.design, body, compiled.findings)
    assert made is not None
    values = {one.name: one.value / 10 for one in made[0].finished}
    waist = made[0].piece("quarter").edge("waist")
    assert waist is not None
    assert abs(waist.path.start) / 10 == pytest.approx(radius, abs=0.0001)
    assert values["waist"] == pytest.approx(70.0, abs=1e-6)
    assert values["hem"] == pytest.approx(hem, abs=0.01)
    assert values["hem"] - values["waist"] == pytest.approx(2 * math.pi * fullness / 100 * 60)
