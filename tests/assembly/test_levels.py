"""Cut edges of seams end level: square where the stitching ends aslant, and told where allowances differ."""

from __future__ import annotations

import math

import pytest
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.geometry.vector import Point
from tests.language.small import assembled, found

# Two halves of a panel 40 cm wide and 30 cm high, split by a line that leans by an angle from the upright.
SPLIT = """garment knot "Knot"
edition 1
piece one "One" {{
  cut 1
  grain straight
  outline {{
    low  : (0 cm, 0 cm) -> (20 cm, 0 cm)
    join : (20 cm, 0 cm) -> ({top} mm, 30 cm)
    high : ({top} mm, 30 cm) -> (0 cm, 30 cm)
    end  : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
}}
piece two "Two" {{
  cut 1
  grain straight
  outline {{
    low  : (20 cm, 0 cm) -> (40 cm, 0 cm)
    end  : (40 cm, 0 cm) -> (40 cm, 30 cm)
    high : (40 cm, 30 cm) -> ({top} mm, 30 cm)
    join : ({top} mm, 30 cm) -> (20 cm, 0 cm)
  }}
}}
seam join joins one.join with two.join as {kind}
finish one.low, one.high, one.end, two.low, two.high, two.end as {finish}
"""


def split(lean: float, kind: str = "plain", finish: str = "bias_faced") -> str:
    return SPLIT.format(top=200 + 300 * math.tan(math.radians(lean)), kind=kind, finish=finish)


def ends_beyond(piece: CutPiece, start: Point, end: Point) -> tuple[float, float]:
    """How far the strip beside the seam reaches beyond both ends of its stitching (mm), measured with shapely.

    The outermost half of the allowance, 10 mm wide, is cut out of the piece and measured along the seam.
    """
    along = (end - start) / abs(end - start)
    ring = [(p.real, p.imag) for p in piece.cut_line.flatten(0.01)]
    outward = along * (-1j if piece.drafted.name == "one" else 1j)
    far = [start - 100 * along, end + 100 * along]
    strip = Polygon(
        [
            (p.real, p.imag)
            for p in (far[0] + 9 * outward, far[1] + 9 * outward, far[1] + 11 * outward, far[0] + 11 * outward)
        ]
    )
    cut = Polygon(ring).intersection(strip)
    line = LineString([(p.real, p.imag) for p in far])
    places = [line.project(Spot(x, y)) - 100 for x, y in cut.exterior.coords]
    return -min(places), max(places) - abs(end - start)


def reaches(assembly: Assembly) -> list[tuple[float, float]]:
    edge = assembly.draft.piece("one").edge("join")
    assert edge is not None
    return [ends_beyond(piece, edge.path.start, edge.path.end) for piece in assembly.pieces]


@pytest.mark.parametrize("lean", [-30, -15, 0, 10, 25])
def test_both_cut_edges_reach_equally_far_beyond_the_stitching(lean: float) -> None:
    """The crossing edges have one allowance, so that its border is met equally far beyond both ends."""
    one, two = reaches(assembled(split(lean)))
    assert one == pytest.approx(two, abs=0.2)


def test_a_type_may_ask_for_mitres_and_then_the_ends_are_told() -> None:
    """At 25 degrees from the square both sides of 10 mm miss each other by 2 * 10 * tan(25 deg) = 9.3 mm."""
    mitred = (
        'seam type pointed "Pointed" {\n  class "1"\n  allowance 10 mm\n  corner mitred\n'
        '  pass allowance stitch 301 "Stitch {allowance} from the edge."\n}\n'
    )
    faults = found(split(25, "pointed") + mitred)
    assert [one.slug for one in faults] == ["ends-not-level", "ends-not-level"]
    assert "reaches 9.3 mm beyond" in faults[0].headline


def test_unlike_allowances_beside_a_seam_are_told() -> None:
    unlike = split(0).replace(
        "finish one.low, one.high, one.end, two.low, two.high, two.end as bias_faced",
        "finish one.low, two.low, one.end, two.end as bias_faced\nfinish one.high as bias_faced\nfinish two.high as bound",
    )
    (fault,) = found(unlike)
    assert fault.slug == "ends-not-level"
    assert fault.headline.startswith("where seam `join` ends, the cut edge of `one` reaches ")
