"""Gathered seams: the first side so many times as long as the second."""

from __future__ import annotations

import pytest

from garmentc.output.sheet.content import sheet_document
from garmentc.output.sheet.document import Steps
from tests.language.small import assembled, faults

FRILL = """garment knot "Knot"
edition 1
piece panel "Panel" {{
  cut 1
  grain straight
  outline {{
    lower : (0 cm, 0 cm) -> (24 cm, 0 cm)
    one : (24 cm, 0 cm) -> (24 cm, 30 cm)
    upper : (24 cm, 30 cm) -> (0 cm, 30 cm)
    other : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
}}
piece frill "Frill" {{
  cut 1
  grain straight
  outline {{
    hem : (0 cm, 0 cm) -> ({long} cm, 0 cm)
    one : ({long} cm, 0 cm) -> ({long} cm, 9 cm)
    gathers : ({long} cm, 9 cm) -> (0 cm, 9 cm)
    other : (0 cm, 9 cm) -> (0 cm, 0 cm)
  }}
}}
seam frill joins frill.gathers with panel.lower as plain {{ {item} }}
finish panel.one, panel.upper, panel.other, frill.hem, frill.one, frill.other as pinked
"""


@pytest.mark.parametrize("times, long", [("1.5", 36), ("200 %", 48)])
def test_a_gathered_side_may_be_so_many_times_as_long(times: str, long: int) -> None:
    assembly = assembled(FRILL.format(long=long, item=f"gathered {times}"))
    (seam,) = assembly.seams
    assert seam.gathered == pytest.approx(long / 24)
    step = next(step for step in assembly.steps if step.about == "seam")
    assert any(f"from {long} cm to 24 cm" in line and "two rows of long stitches" in line for line in step.lines)


@pytest.mark.parametrize(
    "long, item, slug, text",
    [
        (40, "gathered 1.5", "seam-lengths-differ", "seam frill joins"),
        (36, "gathered 0.5", "gathers-nothing", "0.5"),
        (36, "gathered 12 cm", "wrong-kind", "12 cm"),
        (36, "gathered 1.5; ease 2 cm", "said-twice", "ease 2 cm"),
    ],
)
def test_what_does_not_fit_is_told_at_its_place(long: int, item: str, slug: str, text: str) -> None:
    (fault,) = faults(FRILL.format(long=long, item=item))
    assert fault.slug == slug
    assert fault.text.startswith(text)


def test_a_tolerance_widens_what_is_gathered() -> None:
    assembled(FRILL.format(long=40, item="gathered 1.5 within 5 cm"))


def test_a_stretched_side_is_so_many_times_shorter() -> None:
    """A band of 20 cm stretched to 24 cm."""
    assembly = assembled(FRILL.format(long=20, item="stretched 1.2"))
    (seam,) = assembly.seams
    assert (seam.stretched, seam.gathered, seam.ease) == (1.2, 0.0, pytest.approx(-40))
    lines = next(step for step in assembly.steps if step.name == "frill").lines
    assert any(line.startswith("Stretch the gathers of the Frill from 20 cm to 24 cm as you sew") for line in lines)
    assert any(line.endswith("over 24 cm.") for line in lines)
    # the whole panel edge takes its notches from the band, stretched evenly
    (group,) = seam.matched
    assert group.runs[1] / group.runs[0] == pytest.approx(1.2)


@pytest.mark.parametrize(
    "long, item, slug", [(22, "stretched 1.2", "seam-lengths-differ"), (20, "stretched 0.8", "gathers-nothing")]
)
def test_a_wrong_stretch_is_told(long: int, item: str, slug: str) -> None:
    assert [fault.slug for fault in faults(FRILL.format(long=long, item=item))] == [slug]


@pytest.mark.parametrize("long, item", [(36, "gathered 1.5"), (25, "ease 1 cm"), (20, "stretched 1.2")])
def test_a_seam_is_measured_before_and_after_whatever_is_done_to_its_longer_or_shorter_side(
    long: int, item: str
) -> None:
    """Sewn it is as long as the panel: the frill is gathered or eased to it, the band stretched."""
    sheet = sheet_document(assembled(FRILL.format(long=long, item=item)))
    steps = next(block for block in sheet.blocks if isinstance(block, Steps)).steps
    (seam,) = (step for step in steps if step.title.startswith("Frill:"))
    before = f"Before it is sewn: {long} cm (Frill: gathers) and 24 cm (Panel: lower)"
    assert seam.after == (before, "Seam line: 24 cm")
