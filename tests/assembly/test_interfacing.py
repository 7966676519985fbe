"""Interfacing: cut with its piece, and put on before anything is sewn."""

from __future__ import annotations

import pytest

from garmentc.output.model_json import size_model
from garmentc.output.patterns.words import wordings
from garmentc.output.pictures.steps import step_pictures
from garmentc.output.sheet.document import Table
from garmentc.output.sheet.needs import needs
from tests.language.small import PANEL, assembled, found

INSIDE = 'interfaced "light cotton"\ndart d on lower at 50 % to (10 cm, 8 cm) taking 2 cm\n'
FINISHES = "finish panel.lower, panel.ending, panel.upper, panel.opening as overedged\n"


def spec(inside: str = INSIDE) -> str:
    return f"{PANEL}{inside}}}\n{FINISHES}"


def test_it_comes_before_darts_and_finishes() -> None:
    steps = assembled(spec()).steps
    assert [(step.name, step.about) for step in steps][:2] == [
        ("panel.interfacing", "interfacing"),
        ("panel.d", "shaping"),
    ]
    assert any("its edges along the sewing lines" in line for line in steps[0].lines)
    assert len(step_pictures(assembled(spec()), steps[0])) == 1


@pytest.mark.parametrize(("allowances", "size"), [("", "20 cm × 30 cm"), (" allowances", "21 cm × 31 cm")])
def test_the_list_of_needs_gives_its_size(allowances: str, size: str) -> None:
    text = spec(f'interfaced "light cotton"{allowances}\n').replace("overedged", "bias_faced { set seam = 5 mm }")
    table = next(one for one in needs(assembled(text)) if isinstance(one, Table) and one.caption == "Interfacing")
    assert table.rows == (("Panel", "light cotton", "1", size),)


def test_the_label_and_the_model_say_it() -> None:
    assembly = assembled(spec())

    assert "of interfacing too, without allowances: light cotton" in str(wordings(assembly, assembly.pieces[0]))
    assert size_model(assembly)["pieces"][0]["interfacing"] == {"text": "light cotton", "with_allowances": False}


def test_it_is_said_once_and_can_be_ordered() -> None:
    assert [one.slug for one in found(spec('interfaced "a"\ninterfaced "b"\n'))] == ["said-twice"]
    late = spec() + "order panel.d before panel.interfacing\n"
    assert [step.name for step in assembled(late).steps][:2] == ["panel.d", "panel.interfacing"]
