"""The same changes in a few lines and as a document."""

from __future__ import annotations

import json
from pathlib import Path
from xml.etree import ElementTree

import jsonschema
import pytest

from garmentc.cli.main import main
from garmentc.comparison.model import Comparison
from garmentc.output.compare.document import comparison_json
from garmentc.output.compare.html import comparison_html
from garmentc.output.compare.short import comparison_short
from tests.comparison.small import CHART, DUNLIN, changed, compared
from tests.support import MemoryHost

LESS = DUNLIN.replace(DUNLIN[DUNLIN.index("piece pocket") : DUNLIN.index("finish bib")], "").replace(
    "finish pocket.bottom, pocket.right, pocket.mouth, pocket.left as pinked\n", ""
)


@pytest.fixture(scope="module")
def wider() -> Comparison:
    return compared(changed(("ease bust_girth = 2 cm", "ease bust_girth = 4.6 cm"), ("bulge 6 %", "bulge 5 %")))


def test_the_short_form_fits_a_message(wider: Comparison) -> None:
    lines = comparison_short(wider).splitlines()
    assert lines[:4] == [
        "dunlin, sizes 84 to 88",
        "set: ease.bust_girth 20.0 to 46.0 mm",
        "bib: lower +6.5 mm, top +6.5 mm; 3 points moved",
        "pocket: mouth -0.4 mm",
    ]
    assert "finished: width +6.5 mm" in lines
    assert all(len(line) <= 72 for line in lines)
    assert comparison_short(compared(DUNLIN)) == "dunlin: not changed"
    assert "added: piece pocket" in comparison_short(compared(DUNLIN, LESS))
    many = compared(changed(('"Dunlin', '"A bib called Dunlin')), LESS)
    assert all(len(line) <= 72 for line in comparison_short(many).splitlines())


def test_the_short_form_does_not_part_a_number_from_its_unit() -> None:
    longer = DUNLIN.replace("(12 cm, 14 cm)", "(13 cm, 15 cm)").replace("bust_girth = 2 cm", "bust_girth = 3 cm")
    for line in comparison_short(compared(longer)).splitlines():
        assert len(line) <= 72
        assert not line.strip().startswith(("mm", "cm"))


def test_the_document_follows_its_schema(wider: Comparison) -> None:
    schema = json.loads(Path("grammar/schemas/comparison.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    for comparison in (wider, compared(DUNLIN, LESS), compared(LESS, DUNLIN), compared(DUNLIN)):
        jsonschema.validate(json.loads(comparison_json(comparison)), schema)
    document = json.loads(comparison_json(wider))
    (lower,) = (one for one in document["changes"] if (one["group"], one["thing"]) == ("edge", "bib.lower"))
    assert (lower["old"], lower["new"]) == ({"84": 215.0, "88": 225.0}, {"84": 221.5, "88": 231.5})
    assert {one["point"]: one["distance"]["84"] for one in document["moves"]}["corner"] == 6.5
    assert document["bends"][0]["edge"] == "pocket.mouth"


def test_the_command_writes_each_form(capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({"old.garment": LESS, "new.garment": DUNLIN})
    words = ["compare", "old.garment", "new.garment", "--sizes", CHART, "--only", "84"]
    for shape, begins in (("text", "Dunlin"), ("short", "dunlin, 84\n"), ("json", "{")):
        assert main([*words, "--as", shape], host) == 1
        shown = capsys.readouterr().out
        assert shown.startswith(begins)
        assert main([*words, "--as", shape, "--out", f"out/{shape}"], host) == 1
        assert host.files[f"out/{shape}"].decode() == shown
        assert capsys.readouterr().out == ""


def test_the_page_shows_old_and_new_by_line_pattern_and_arrows(wider: Comparison) -> None:
    page = comparison_html(wider)
    figures = {one.split("</figcaption>")[0]: one for one in page.split("<figcaption>")[1:]}
    assert set(figures) == {"Bib, 88", "Pocket, 88"}
    assert figures["Bib, 88"].count('class="old"') == figures["Bib, 88"].count('class="new"') == 4
    assert ">corner 6.5<" in figures["Bib, 88"]
    assert 'class="arrow"' not in figures["Pocket, 88"]  # only its mouth bends otherwise
    assert ".old { stroke-width: 1.2px; stroke-dasharray" in page
    for picture in page.split("<svg")[1:]:
        ElementTree.fromstring(f"<svg{picture.split('</svg>')[0]}</svg>")
    assert "http://" not in page.replace("http://www.w3.org/2000/svg", "")
    added = comparison_html(compared(DUNLIN, LESS))
    assert "Pocket (new), 88" in added
    assert "<figure" not in comparison_html(compared(DUNLIN))


def test_words_of_a_spec_are_escaped() -> None:
    page = comparison_html(compared(changed(('"Bib"', '"Bib <script>"'), ("deep = 30 cm", "deep = 31 cm"))))
    assert "<script" not in page
    assert "Bib &lt;script&gt;" in page


def test_pages_are_counted_when_paper_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({"old.garment": DUNLIN, "new.garment": changed(("deep = 30 cm", "deep = 60 cm"))})
    words = ["compare", "old.garment", "new.garment", "--sizes", CHART, "--only", "84"]
    assert main([*words, "--paper", "a4"], host) == 1
    text = capsys.readouterr().out
    _, pages = text.split("pages of A4: ")
    before, after = pages.split(" (")[0].split(" to ")
    assert int(before) < int(after)
    assert main([*words, "--paper", "b0rk"], host) == 2
