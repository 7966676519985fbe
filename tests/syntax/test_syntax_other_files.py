"""A file of another kind given as a spec is told as such, and nothing more is found in it."""

from pathlib import Path

import pytest

from tests.language.small import found

CHART = Path("specs/sizes/women-en13402.yaml").read_text(encoding="utf-8")
BODY = "note: over a vest\nbody: Ilse\nmeasures:\n  bust_girth: 88 cm\n"


@pytest.mark.parametrize(
    ("text", "what", "option"), [(CHART, "a size chart", "--sizes"), (BODY, "a body", "--body")], ids=["chart", "body"]
)
def test_a_data_file_is_no_garment(text: str, what: str, option: str) -> None:
    (finding,) = found(text)
    assert (finding.slug, finding.headline) == ("wrong-file", f"this file holds {what}, not a garment")
    assert finding.span.text == what.split()[-1]
    assert f"`{option}`" in finding.help


def test_a_garment_with_an_edge_called_body_is_a_garment() -> None:
    text = 'garment ruff "Ruff"\nedition 1\npiece p "P" {\ncut 1\ngrain straight\noutline {\n'
    text += "body : (0 cm, 0 cm) -> (1 cm, 0 cm)\nmeasures : (1 cm, 0 cm) -> (1 cm, 1 cm)\n"
    text += "last : (1 cm, 1 cm) -> (0 cm, 0 cm)\n}\n}\nfinish p.body, p.measures, p.last as overedged\n"
    assert [one.slug for one in found(text)] == []
