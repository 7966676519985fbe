"""Seams that open: closed in the sewn garment, opened where a body has to pass."""

from __future__ import annotations

from garmentc.assembly.model import Assembly
from garmentc.assembly.sewn import Opening
from tests.language.small import assembled, compiled, found

TUBE = """garment knot "Knot"
edition 1
measure hip_girth
piece tube "Tube" {{
  cut 1
  grain straight
  outline {{
    hem   : (0 cm, 0 cm) -> (76 cm, 0 cm)
    seam  : (76 cm, 0 cm) -> (76 cm, 60 cm)
    waist : (76 cm, 60 cm) -> (0 cm, 60 cm)
    other : (0 cm, 60 cm) -> (0 cm, 0 cm)
  }}
  {parts}
}}
finish tube.waist, tube.hem as pinked
opening waist at tube.waist passes hip_girth
{seams}
"""
PARTS = "part zip_right of seam from 40 cm to 100 %\npart zip_left of other from 0 cm to 20 cm"
LOWER = "seam side joins tube.seam with tube.other as plain\n"


def tube(parts: str, seams: str) -> str:
    return TUBE.format(parts=parts, seams=seams)


def test_a_tube_too_narrow_for_the_hips_is_told_and_a_zip_lets_them_through() -> None:
    """A waist of 76 cm, and hips of 96 cm: a zip of 20 cm adds both its edges, 40 cm."""
    (fault,) = found(tube("", LOWER))
    assert (fault.slug, fault.notes[0]) == ("no-way-in", "it is 76 cm all round, `hip_girth` 96 cm")
    zipped = tube(PARTS, LOWER + "seam closure joins tube.zip_right with tube.zip_left as zip\n")
    opening = _waist(assembled(zipped))
    assert (opening.length, opening.opened, opening.closures) == (760.0, 1160.0, ("closure",))


def test_a_zip_that_is_too_short_is_told_with_what_it_gives() -> None:
    short = PARTS.replace("40 cm", "54 cm").replace("20 cm", "6 cm")
    (fault,) = found(tube(short, LOWER + "seam closure joins tube.zip_right with tube.zip_left as zip\n"))
    assert fault.slug == "no-way-in"
    assert fault.notes == (
        "it is 76 cm all round, `hip_girth` 96 cm",
        "with what it stretches and is opened, 88 cm",
    )


def test_a_seam_that_does_not_open_changes_nothing() -> None:
    sewn = tube(PARTS, LOWER + "seam closure joins tube.zip_right with tube.zip_left as plain\n")
    assert [one.slug for one in found(sewn)] == ["no-way-in"]


def _waist(assembly: Assembly) -> Opening:
    return next(one for one in assembly.surface.openings if ("tube", "waist") in one.edges)


SKIRT = """garment knot "Knot"
edition 1
measure hip_girth
draft block "Block" {
  cut 1 on fold centre
  grain straight
  outline {
    waist  : (0 cm, 60 cm) -> (18 cm, 60 cm)
    side   : (18 cm, 60 cm) -> (26 cm, 0 cm)
    hem    : (26 cm, 0 cm) -> (0 cm, 0 cm)
    centre : (0 cm, 0 cm) -> (0 cm, 60 cm)
  }
}
piece front "Front" from block { MORE }
piece back "Back" from block { MORE }
SEAMS
finish front.waist, back.waist as bound
finish front.hem, back.hem as pinked
finished hips "Hips" = hip_girth
"""


def skirt(more: str, seams: str) -> str:
    return SKIRT.replace("MORE", more).replace("SEAMS", seams)


def test_an_opening_along_an_edge_of_a_draft_is_told_too() -> None:
    """The waist is drawn in a piece that is not cut; the finding points there."""
    told = [
        one for one in found(skirt("", "seam side joins front.side with back.side as plain")) if one.slug == "no-way-in"
    ]
    assert [one.span.text for one in told] == ["waist  : (0 cm, 60 cm) -> (18 cm, 60 cm)"]


def test_a_binding_ends_at_a_zip() -> None:
    """72 cm of waist: a ring where all is sewn shut, a strip with two ends where the left side opens."""
    part = "part top of side from 0 cm to 20 cm"
    shut = "seam side joins front.side with back.side as plain\nseam top joins front.top with back.top as plain"
    zipped = (
        "seam side joins front.side with back.side as plain\nseam zip joins left front.top with left back.top as zip\n"
        "seam top joins right front.top with right back.top as plain { set allowance = 15 mm }"
    )
    runs = [compiled(skirt(part, seams)).made[0].finishes[0].runs for seams in (shut, zipped)]
    assert [(run.ring, run.along) for (run,) in runs] == [(True, 720.0), (False, 720.0)]
