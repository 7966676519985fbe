"""The finder: plans that pass the verifier, in a counted number of steps, the same ones again."""

from __future__ import annotations

import math

import pytest

from garmentc.cloth.finder import Limits, find
from garmentc.cloth.model import Match, Plan
from garmentc.cloth.room import holds
from garmentc.cloth.verify import verify
from garmentc.draft.model import Motif
from garmentc.geometry.vector import heading
from garmentc.source import Source
from tests.cloth.laying import at, box, cloth_of
from tests.cloth.puzzles import puzzle

SPAN = Source("none", "").whole()


def laid(cloth, shapes, pinned=None, steps=300, seed=1):
    ground = cloth_of(cloth) if isinstance(cloth, str) else cloth
    return find(ground, shapes, pinned or {}, Limits(steps, seed))


@pytest.mark.parametrize("number", [3, 5, 7, 11])
def test_a_cloth_that_was_cut_up_is_put_together_again(number):
    ground, shapes, solution, fill = puzzle(number, parts=7)
    assert verify(Plan(ground, shapes, solution)) == ()
    assert fill > 0.5
    found = find(ground, shapes, {}, Limits(600))
    assert found.plan is not None
    assert verify(found.plan) == ()


def test_the_same_seed_finds_the_same_plan():
    ground, shapes, _, _ = puzzle(5, parts=6)
    one, again = (find(ground, shapes, {}, Limits(400, seed=3)) for _ in range(2))
    assert one.plan is not None
    assert one == again


@pytest.mark.parametrize("w", [100.0, 250.0, 500.0, 848.0])
def test_a_rectangle_lies_on_the_true_bias_of_a_square_when_its_sides_together_are_the_diagonal(w):
    """Of a square of side s turned by 45 degrees, a w by h rectangle needs (w + h) / sqrt 2 both ways: geometry."""
    ground = cloth_of("{square: 60 cm}\n")
    h = 600 * math.sqrt(2) - w
    bias = box("front", w, h, thread=heading(math.pi / 4), within=0.0)
    fitting = laid(ground, [bias])
    assert fitting.plan is not None
    assert verify(fitting.plan) == ()
    longer = box("front", w, h + 0.5, thread=heading(math.pi / 4), within=0.0)
    assert holds(longer, ground) == ()
    assert laid(ground, [longer]).homeless == ("front",)


def test_pinned_shapes_stay():
    ground = "{length: 60 cm, width: 40 cm}\n"
    pinned = {"front": at(150, 0)}
    found = laid(ground, [box("front", 200, 400), box("left", 140, 350), box("right", 240, 350)], pinned)
    assert found.plan is not None
    assert found.plan.spots["front"] == pinned["front"]._replace(pinned=True)
    assert found.plan.spots["left"].at.real < 150
    assert laid(ground, [box("front", 200, 400), box("back", 300, 300)], pinned).plan is None


def test_demands_are_met_together():
    text = """{square: 90 cm}
finished: [{edges: [bottom, right, top, left], kind: hem, width: 1 cm}]
sides: alike
repeat: {up: 10 cm}
places: [{name: wreath, at: [60, 60], round: 12 cm}]
flaws: [{name: burn, at: [20, 45], round: 6 cm}]
"""
    front = box("front", 300, 400, hems=[0])._replace(corners=(("tip", 0j),))
    back = box("back", 300, 400, hems=[0])._replace(matches=(Match(300 + 200j, "front", 300 + 200j),))
    yoke = box("yoke", 250, 250)._replace(motifs=(Motif("wreath", 125 + 125j, 20.0, SPAN),))
    found = laid(text, [front, back, yoke, box("strap", 40, 500, is_strip=True)])
    assert found.plan is not None
    assert verify(found.plan) == ()


def test_a_round_cloth_and_an_odd_one():
    found = laid("{round: 80 cm}\n", [box("front", 400, 500), box("back", 100, 400)])
    assert found.plan is not None
    bay = "{corners: [[0, 0], [168, 0], [168, 118], [20, 118], [0, 96]], bulges: [9, 0, 0, 0, 0]}\n"
    found = laid(bay, [box("front", 1600, 600), box("back", 1000, 520)])
    assert found.plan is not None


def test_a_pair_lies_on_mirrored_threads():
    threads = (heading(math.pi / 4), heading(-math.pi / 4))
    one = box("one", 300, 200)._replace(lengthwise=threads)
    other = one._replace(key="other", title="Other", mirrored=True, beside="one")
    found = laid("{square: 60 cm}\n", [one, other])
    assert found.plan is not None
    assert verify(found.plan) == ()


def test_steps_are_counted_and_end():
    found = laid("{square: 60 cm}\n", [box("front", 400, 400), box("back", 400, 400)], steps=60)
    assert (found.plan, found.steps) == (None, 60)
