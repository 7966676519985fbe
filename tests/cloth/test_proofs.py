"""Proofs of impossibility: true ones are told with their reason, and nothing feasible is ever called impossible."""

from __future__ import annotations

import math

import pytest

from garmentc.cloth.proofs import impossible
from garmentc.draft.model import Motif
from garmentc.geometry.vector import heading
from garmentc.source import Source
from tests.cloth.laying import box, cloth_of
from tests.cloth.puzzles import puzzle

HEMMED = "{square: 60 cm}\nfinished: [{edges: [bottom, right, top, left], kind: hem}]\n"


def told(cloth, *shapes, joinable=()):
    return [(one.kind, one.keys, one.words) for one in impossible(cloth_of(cloth), shapes, joinable)]


@pytest.mark.parametrize("number", range(24))
def test_what_has_a_solution_is_never_called_impossible(number):
    ground, shapes, _, _ = puzzle(number)
    assert impossible(ground, shapes) == ()


def test_more_cloth_than_there_is():
    ((kind, keys, words),) = told("{square: 60 cm}\n", box("front", 400, 500), box("back", 400, 500))
    assert (kind, keys) == ("area", ("front", "back"))
    assert words == "the pieces together are 4000 cm², the cloth without its flaws 3600 cm²: 11.1 % too much"


def test_a_piece_that_does_not_fit_alone_is_told_with_what_is_missing():
    ((kind, keys, words),) = told("{square: 60 cm}\n", box("front", 300, 640, within=0.0))
    assert (kind, keys) == ("alone", ("front",))
    short = float(words.split(" at least ")[1].split(" ")[0])
    assert 15 < short * (1 if "mm" in words else 10) <= 20  # it is 20 mm short on each side; a proof may say less
    assert told("{square: 60 cm}\n", box("front", 300, 598)) == []


def test_the_bias_of_a_square_is_judged_by_its_diagonal():
    """A w by h rectangle lies on the true bias of a square of side s when w + h <= s sqrt 2: geometry."""
    diagonal = 600 * math.sqrt(2)
    bias = {"thread": heading(math.pi / 4)}
    assert told("{square: 60 cm}\n", box("front", 400, diagonal - 400 - 0.1, **bias)) == []
    for within, more in ((0.0, 3.0), (math.radians(1), 12.0)):
        ((kind, _, _),) = told("{square: 60 cm}\n", box("front", 400, diagonal - 400 + more, within=within, **bias))
        assert kind == "alone"
    # it may lie up to 10 degrees off the bias, and so fits where on the true bias it would not
    assert told("{square: 60 cm}\n", box("front", 100, 760, within=math.radians(12), **bias)) == []


def test_edges_that_find_no_finished_edge():
    assert [kind for kind, _, _ in told("{square: 60 cm}\n", box("front", 300, 500, hems=[0]))] == ["edges"]
    ((_, _, words),) = told(
        "{square: 60 cm}\n" + "finished: [{edges: [top], kind: hem}]\n", box("front", 300, 500, hems=[1])
    )
    assert "fits on the cloth, but not with its side 1" in words
    assert told(HEMMED, box("front", 300, 500, hems=[0])) == []
    one, other = (box(name, 550, 250, hems=[3])._replace(corners=(("tip", 0j),)) for name in ("one", "other"))
    assert told(HEMMED, one, other) == []


def test_two_pieces_on_corners_that_would_overlap():
    # both need the whole height at the left or, upside down, at the right: together they are too wide
    one, other = (box(name, 310, 600, hems=[3])._replace(corners=(("tip", 0j),)) for name in ("one", "other"))
    area = told(HEMMED.replace("60 cm", "62 cm"), one, other._replace(corners=(("tip", 0j),)))
    assert area == []
    high = [box(name, 320, 500, hems=[3])._replace(corners=(("tip", 0j),)) for name in ("one", "other")]
    assert [kind for kind, _, _ in told(HEMMED, *high)] == ["together"]


def test_a_picture_that_the_cloth_does_not_have():
    wanting = box("front", 300, 300)._replace(motifs=(Motif("ship", 100 + 100j, 10.0, Source("x", "").whole()),))
    ((kind, _, words),) = told("{square: 60 cm}\n", wanting)
    assert (kind, words) == ("picture", "the cloth has no place `ship`, which Front wants")


def test_a_strip_that_may_be_joined_is_not_judged_alone():
    strip = box("strap", 40, 900, is_strip=True)
    assert [kind for kind, _, _ in told("{square: 60 cm}\n", strip)] == ["alone"]
    assert told("{square: 60 cm}\n", strip, joinable=("strap",)) == []
