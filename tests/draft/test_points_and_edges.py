"""Every way to give a point or an edge, with numbers worked out by hand beside it."""

from __future__ import annotations

import math

import pytest

from tests.language.small import assembled, faults, found, panel

A_CURVE = "bow = (0 cm, 10 cm) -> (20 cm, 10 cm) arc through (10 cm, 20 cm)"  # half a circle about (10, 10), of 10 cm
POINTS = {
    "(3 cm, 4 cm)": (30, 40),
    "(3 cm, 4 cm) up 2 cm right 1 cm down 5 mm left 3 mm": (37, 55),
    "(0 cm, 0 cm) toward (6 cm, 8 cm) by 5 cm": (30, 40),
    "(0 cm, 0 cm) toward (6 cm, 8 cm) by 25 %": (15, 20),
    "(0 cm, 0 cm) heading 60 deg by 10 cm": (50, 50 * math.sqrt(3)),
    "along(bow, 50 %)": (100, 200),
    "along(bow, pi * 5 cm)": (100, 200),
    "(10 cm, 25 cm) square to bow by 3 cm": (100, 280),
    "(10 cm, 25 cm) along bow by 3 cm": (130, 250),
    "meet(level(a up 7 cm), plumb(b))": (200, 70),
    "meet(line(a, c), line(b, d))": (100, 150),
    "meet(level(a up 16 cm), bow, d)": (20, 160),
    "meet(level(a up 16 cm), bow, c)": (180, 160),
    "meet(ending, upper)": (200, 300),
    "meet(circle(a, 25 cm), circle((20 cm, 0 cm), 15 cm), c)": (200, 150),  # 15, 20 and 25 make a right angle
    "meet(bow, circle((10 cm, 20 cm), 10 cm), d)": (100 - 50 * math.sqrt(3), 150),
    "foot((0 cm, 30 cm), line(a, (3 cm, 4 cm)))": (144, 192),
    "foot((10 cm, 40 cm), bow)": (100, 200),
    "mirror((0 cm, 5 cm), line(a, (1 cm, 1 cm)))": (50, 0),
    "turn((10 cm, 0 cm), a, 90 deg)": (0, 100),
    "touch((10 cm, 30 cm), bow, c)": (100 + 50 * math.sqrt(3), 150),  # the tangent from twice the radius
    "mid(a, c)": (100, 150),
    "shift(a, 2 cm, 3 cm)": (20, 30),
    "rest.start": (100 - 50 * math.sqrt(2), 100 + 50 * math.sqrt(2)),
    "panel.c left 2 cm": (180, 300),
}


def test_points_come_out_where_they_are_worked_out() -> None:
    lines = [A_CURVE, "rest = part(bow, along(bow, 25 %), bow.end)"]
    checks = []
    for number, (point, (x, y)) in enumerate(POINTS.items()):
        lines.append(f"p{number} = {point}")
        for part, due in (("x", x), ("y", y)):
            checks.append(f'check "{number}.{part}" panel.p{number}.{part} == {due:.9f} mm within 0.0001 mm')
    assembled(panel("\n".join(lines), "\n".join(checks)))


EDGES = {
    "panel.upper": (None, 200),
    "mirror(panel.bow, plumb(panel.b))": (400, 100 * math.pi),
    "reverse(turn(panel.bow, panel.a, 30 deg))": (None, 100 * math.pi),
    "shift(part(panel.bow, along(panel.bow, 10 %), along(panel.bow, 60 %)), 3 cm, 1 cm)": (None, 50 * math.pi),
    "beside(panel.bow, 4 cm)": (None, 140 * math.pi),
}


@pytest.mark.parametrize("edge", EDGES)
def test_edges_of_other_pieces_keep_their_length(edge: str) -> None:
    start, long = EDGES[edge]
    copy = f"""piece copy "Copy" {{
  cut 1
  grain straight
  outline {{
    taken : {edge}
    back : taken.end -> taken.end down 60 cm
    low : taken.end down 60 cm -> taken.start down 60 cm
    fore : taken.start down 60 cm -> taken.start
  }}
}}
finish copy.taken, copy.back, copy.low, copy.fore as pinked"""
    made = assembled(panel(A_CURVE, copy))
    taken = made.draft.piece("copy").edge("taken")
    assert taken is not None
    assert taken.path.length == pytest.approx(long)
    if start is not None:
        assert taken.own_path.start.real == pytest.approx(start)


def test_a_number_without_unit_is_no_share() -> None:
    told = faults(panel("notch on upper at 6\np = along(upper, 7.5)\nq = a toward c by 40\nr = a toward c by 2"))
    assert [(one.slug, one.text) for one in told] == [("wrong-kind", "6"), ("wrong-kind", "7.5"), ("wrong-kind", "40")]


def test_a_tip_outside_says_what_to_look_for() -> None:
    (told,) = found(panel("dart waist on lower at 50 % to (10 cm, -8 cm) taking 2 cm"))
    assert told.headline == "the tip of the dart does not lie inside the piece"
    assert told.help == "let the tip lie inside the outline: look for a wrong sign, or a place on the wrong edge"
