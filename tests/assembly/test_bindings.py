"""Strips that bind: which lines edges make, how long strips and their parts are; what is drawn through casings."""

from __future__ import annotations

import math

import pytest

from tests.language.small import PINKED, assembled, faults, found, panel

HEAD = 'garment knot "Knot"\nedition 1\n'
TOP = """piece {name} "{name}" {{
  cut 1 on fold centre
  grain straight
  outline {{
    centre : (0 cm, 0 cm) -> (0 cm, 40 cm)
    neck : (0 cm, 40 cm) -> (10 cm, 42 cm)
    shoulder : (10 cm, 42 cm) -> (20 cm, 40 cm)
    armhole : (20 cm, 40 cm) -> (20 cm, 20 cm)
    side : (20 cm, 20 cm) -> (20 cm, 0 cm)
    hem : (20 cm, 0 cm) -> (0 cm, 0 cm)
  }}
}}
"""


def top(below: str) -> str:
    pieces = TOP.format(name="front") + TOP.format(name="back")
    seams = "".join(f"seam {one} joins front.{one} with back.{one} as plain\n" for one in ("shoulder", "side"))
    return f"{HEAD}{pieces}{seams}{below}\n"


def test_bindings_close_into_rings_over_seams_and_folds() -> None:
    made = assembled(
        top(
            "finish front.neck, back.neck as bound\nfinish front.armhole, back.armhole as bound\n"
            "finish front.hem as bound\nfinish back.hem as pinked"
        )
    )
    neck, armhole, hem = (finish.runs for finish in made.finishes[:3])
    around = 4 * abs(10 + 2j) * 10
    assert [(run.along, run.ring, run.times) for run in neck] == [(pytest.approx(around), True, 1)]
    assert [(run.along, run.ring, run.times) for run in armhole] == [(pytest.approx(400), True, 2)]
    assert [(run.along, run.ring, run.times) for run in hem] == [(pytest.approx(400), False, 1)]
    assert neck[0].part == pytest.approx(around + 12 * math.sqrt(2))
    assert hem[0].part == pytest.approx(400 + 30)  # 1.5 cm beyond both ends
    told = " ".join(line for step in made.steps if step.title.startswith("Bound edge") for line in step.lines)
    assert told.count("The edge closes into a ring: begin beside a seam") == 1
    assert told.count("There are 2 rings, a strip for each: begin beside a seam") == 1
    assert told.count("let the strip go on") == 1
    assert "At the side end of the hem of the front let the strip go on 15 mm" in told


def test_an_end_of_a_binding_that_a_later_seam_takes_in_is_left_flat() -> None:
    """The neck is bound either before or after the shoulders are sewn; only then are its ends free."""
    finishes = (
        "finish front.neck as bound\nfinish back.neck as pinked\n"
        "finish front.armhole, back.armhole, front.hem, back.hem as pinked\n"
    )

    def told(order: str) -> list[str]:
        made = assembled(top(finishes + order))
        (bound,) = (step for step in made.steps if step.title.startswith("Bound edge"))
        return [line for line in bound.lines if line.startswith("At ")]

    end = "the shoulder end of the neck of the front"
    assert told("order front.neck before shoulder") == [
        f"At {end} leave the strip flat and trim it level with the cut edge: the shoulder seam takes it in later."
    ]
    assert told("order shoulder before front.neck") == [
        f"At {end} let the strip go on 15 mm, and turn that in before it is folded over."
    ]


def test_parts_are_no_longer_than_the_cloth_yields() -> None:
    made = assembled(
        top(
            "finish front.neck, back.neck as bound { parts 25 cm }\n"
            "finish front.armhole, back.armhole, front.hem, back.hem as pinked"
        )
    )
    (run,) = made.finishes[0].runs
    around, join = 4 * abs(10 + 2j) * 10, 12 * math.sqrt(2)
    assert run.parts == 2  # 408 mm and two joins: two parts of 221 mm
    assert run.part == pytest.approx(around / 2 + join)
    assert run.joins == pytest.approx((around / 2,))


def test_corners_of_one_piece_go_on() -> None:
    """All edges of a panel make one ring; three of them a line with two ends."""
    ring = assembled(panel(finish=PINKED.replace("pinked", "bound"))).finishes[0].runs
    assert [(run.along, run.ring) for run in ring] == [(pytest.approx(1000), True)]
    three = "finish panel.opening, panel.lower, panel.ending as bound { parts 50 cm }\nfinish panel.upper as pinked\n"
    (line,) = assembled(panel(finish=three)).finishes[0].runs
    assert (line.along, line.ring, line.parts) == (pytest.approx(800), False, 2)
    assert line.part == pytest.approx((800 + 30 + 12 * math.sqrt(2)) / 2)
    assert line.joins == pytest.approx((400,))


def test_an_elastic_is_cut_with_its_lap_and_drawn_through() -> None:
    finish = 'finish panel.upper as casing { draw "Soft elastic" length 15 cm width 2 cm }\n' + PINKED.replace(
        "panel.upper, ", ""
    )
    made = assembled(panel(finish=finish))
    drawn = made.finishes[0].drawn
    assert drawn is not None
    assert (drawn.length, drawn.width, drawn.times) == (150, 20, 1)
    (casing,) = [step for step in made.steps if step.title.startswith("Casing")]
    assert casing.lines[-1].startswith("Cut Soft elastic 17 cm long: 15 cm and 2 cm for its ends.")


@pytest.mark.parametrize(
    ("finish", "slug", "note"),
    [
        (
            'casing { draw "Band" length 15 cm width 23 mm }',
            "not-drawn-through",
            "it is 2.3 cm wide, and the channel 2.2 cm",
        ),
        (
            'casing { draw "Band" length 20 cm width 2 cm }',
            "elastic-unlike-casing",
            "it is 20 cm long, the channel 20 cm",
        ),
        (
            'casing { draw "Band" length 9 cm width 2 cm }',
            "elastic-unlike-casing",
            "it is 9 cm long, the channel 20 cm",
        ),
        ('turned_hem { draw "Band" length 9 cm width 2 cm }', "no-channel", None),
        ("turned_hem { parts 20 cm }", "no-binding", None),
        ("bound { parts 20 mm }", "parts-too-short", None),
    ],
)
def test_what_does_not_fit_is_told(finish: str, slug: str, note: str | None) -> None:
    text = panel(finish=f"finish panel.upper as {finish}\n" + PINKED.replace("panel.upper, ", ""))
    (told,) = found(text)
    assert told.slug == slug
    if note:
        assert told.notes == (note,)


@pytest.mark.parametrize(("long", "slugs"), [("30 cm", []), ("19 cm", ["not-drawn-through"])])
def test_a_cord_has_to_reach_through(long: str, slugs: list[str]) -> None:
    strip = f'strip cord "Cord" {{ cut 1; length {long}; width 4 cm; make quartered }}\nfinish cord.ends as tucked_in\n'
    finish = "finish panel.upper as casing { draw cord }\n" + PINKED.replace("panel.upper, ", "")
    assert [one.slug for one in faults(panel(finish=finish, below=strip))] == slugs
