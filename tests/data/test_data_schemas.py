"""The shipped schemas: valid, helpful to editors, and of one mind with the reader."""

from __future__ import annotations

import copy
import json
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from garmentc.data import bodies, charts, cloths, forms, lengths, plans, workshops
from garmentc.data.bodies import read_body
from garmentc.data.charts import read_chart
from garmentc.data.cloths import read_cloth
from garmentc.data.faults import schema_text
from garmentc.data.forms import NotOfForm, as_table
from garmentc.data.measures import known_measures
from garmentc.data.plans import PIECE_PATTERN, read_plan
from garmentc.data.workshops import read_workshop
from garmentc.data.yaml_text import read_nodes
from garmentc.diagnostics.finding import Findings
from garmentc.numbers import MM_PER_UNIT
from garmentc.source import Source

SCHEMAS = ["body.schema.json", "chart.schema.json"]
FORMS = {
    "plan": plans._FORM,
    "body": bodies._FORM,
    "chart": charts._FORM,
    "cloth": cloths.form("given", Findings()),
    "workshop": workshops._FORM,
}
READERS = {"plan": read_plan, "body": read_body, "chart": read_chart, "cloth": read_cloth, "workshop": read_workshop}
VALIDATORS = {kind: Draft202012Validator(schema_text(form.schema)) for kind, form in FORMS.items()}

GOOD: dict[str, Any] = {
    "body": {
        "body": "Ilse",
        "note": "over a vest",
        "measures": {"bust_girth": "88 cm", "strap_path": "14 1/2 in"},
    },
    "chart": {
        "chart": "Women",
        "source": "invented",
        "sizes": ["S", "M"],
        "measures": {
            "bust_girth": {"unit": "cm", "values": [84, 92.5], "origin": "invented"},
            "strap_path": {"unit": "in", "values": [14, 15], "origin": "invented"},
        },
    },
}

GOOD["workshop"] = {
    "workshop": "Estuary studio",
    "maker": "Ilse",
    "licence": "for your own use",
    "licence_file": "texts/licence.txt",
    "chart": "sizes/women.yaml",
    "unit": "inch",
    "paper": "roll:914mm",
    "language": "en,de",
}
GOOD["plan"] = {
    "plan": "tern",
    "size": "88",
    "cloth": "ebb",
    "pieces": [
        {"piece": "front", "at": [0, 12.5], "turn": 45, "face": "down", "place": "pinned"},
        {"piece": "strap 2", "part": [0, 20], "at": [0, 12.5], "turn": -90},
    ],
}
GOOD["cloth"] = {
    "cloth": "Ebb",
    "unit": "cm",
    "outline": {
        "corners": [[0, 0], [90, 0], [90, 90.5]],
        "bulges": [0, 2, -1.5],
        "holes": [[[60, 20], [65, 20], [62, 25]]],
    },
    "finished": [{"edges": ["side 1", "side 2"], "kind": "hem", "width": "1 cm"}],
    "threads": "either",
    "sides": "alike",
    "direction": "one way",
    "repeat": {"up": "12 cm"},
    "places": [{"name": "wreath", "at": [60, 10], "round": "5 cm"}],
    "flaws": [{"name": "burn", "from": [60, 10], "to": [62, 12]}],
    "shrinkage": {"along": 3},
    "stretch": {"bias": 12.5},
    "weight": 120,
    "fibre": "linen",
    "photo": {"file": "ebb.jpg", "points": [{"pixel": [0, 0], "at": [0, 0]}, {"pixel": [900, 10], "at": [90, 0]}]},
}

NAMES = ["body", "chart", "note", "source", "sizes", "measures", "unit", "values", "origin", "bust_girth"]
WORDS = [
    "",
    " ",
    "88 cm",
    "88 cm\n",
    " 88 cm",
    "0 cm",
    "1/2 in",
    "0 1/2 in",
    "cm",
    "m",
    "inch",
    "ell",
    "S",
    "S ",
    "a\nb",
]
WORDS += [
    "a\tb",
    "a  b",
    "x" * 24,
    "x" * 25,
    "x" * 80,
    "x" * 81,
    "y" * 2000,
    "y" * 2001,
    "Åse",
    "\u2028",
    "1 000 cm",
]
numbers = st.one_of(st.integers(-3, 100_002), st.decimals(-3, 100_001, places=2).map(float))
scalars = st.one_of(st.none(), st.booleans(), numbers, st.sampled_from(WORDS), st.text("ab 1.cm_", max_size=8))
names = st.one_of(
    st.sampled_from([*NAMES, "A", "_a", "a" * 60, "a" * 61, "a\n", "true", ""]), st.text("aZ_1 ", max_size=4)
)
values = st.recursive(
    scalars, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(names, inner, max_size=3), max_leaves=5
)


@st.composite
def mutated(draw: st.DrawFn, kind: str) -> Any:
    """A good document with up to four places replaced, removed, added to, renamed or doubled."""
    document = copy.deepcopy(GOOD[kind])
    for _ in range(draw(st.integers(0, 4))):
        spot = document
        for _ in range(draw(st.integers(0, 3))):
            below = list(spot.values()) if isinstance(spot, dict) else spot
            containers = [one for one in below if isinstance(one, dict | list) and one]
            if not containers:
                break
            spot = draw(st.sampled_from(containers))
        if isinstance(spot, dict):
            key = draw(st.sampled_from(sorted(spot)) if spot else names)
            change = draw(st.sampled_from(["replace", "remove", "add", "rename"]))
            if change == "remove":
                spot.pop(key, None)
            elif change == "rename":
                spot[draw(names)] = spot.pop(key, None)
            else:
                spot[key if change == "replace" else draw(names)] = draw(values)
        else:
            at = draw(st.integers(0, max(0, len(spot) - 1)))
            change = draw(st.sampled_from(["replace", "remove", "double"]))
            if change == "double" and spot:
                spot.append(spot[at])
            elif spot:
                spot[at : at + 1] = [] if change == "remove" else [draw(values)]
    return document if draw(st.integers(0, 30)) else draw(values)


def reader_accepts(kind: str, text: str) -> bool:
    findings = Findings()
    root = read_nodes(Source("given.yaml", text), findings)
    assert root is not None and len(findings) == 0, [str(finding) for finding in findings]
    try:
        FORMS[kind].read(as_table(root))
    except NotOfForm:
        return False
    return True


@pytest.mark.parametrize("kind", list(FORMS))
@given(st.data())
@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_reader_and_schema_accept_the_same_documents(kind: str, data: st.DataObject) -> None:
    document = data.draw(mutated(kind))
    # JSON is YAML, save that names of nothing or truth must not stand bare; JSON quotes them.
    assert reader_accepts(kind, json.dumps(document)) == VALIDATORS[kind].is_valid(document)


@pytest.mark.parametrize("kind", list(FORMS))
@given(st.data())
@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.too_slow])
def test_a_document_is_either_read_or_has_findings_inside_its_text(kind: str, data: st.DataObject) -> None:
    document = data.draw(mutated(kind))
    read_or_explained(kind, json.dumps(document, indent=data.draw(st.sampled_from([None, 1]))).encode())


@pytest.mark.parametrize("kind", list(FORMS))
@given(st.data())
@settings(max_examples=300, deadline=None)
def test_no_text_and_no_bytes_break_the_reader(kind: str, data: st.DataObject) -> None:
    good = json.dumps(GOOD[kind], indent=1)
    at = data.draw(st.integers(0, len(good)))
    alphabet = "&*!|>%@`'\"#:,-?{}[]\n\t \x00\x85é\u2028ab0.~<=\\"
    scrap = data.draw(st.one_of(st.text(alphabet, max_size=6).map(str.encode), st.binary(max_size=6)))
    cut = data.draw(st.integers(0, 4))
    read_or_explained(kind, good[:at].encode() + scrap + good[at + cut :].encode())


def read_or_explained(kind: str, data: bytes) -> None:
    class Host:
        def read(self, path: str, most: int = -1) -> bytes:
            return data

    findings = Findings()
    value = READERS[kind](Host(), "given.yaml", findings)  # type: ignore[operator]
    assert (value is None) == findings.has_errors
    for finding in findings:
        assert 0 <= finding.span.start <= finding.span.end <= len(finding.span.source.text)
        assert finding.headline and finding.help


@pytest.mark.parametrize("name", [*SCHEMAS, "cloth.schema.json", "workshop.schema.json", "plan.schema.json"])
def test_schemas_are_valid(name: str) -> None:
    schema = schema_text(name)
    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(schema)


@pytest.mark.parametrize("name", [*SCHEMAS, "cloth.schema.json", "workshop.schema.json", "plan.schema.json"])
def test_every_part_of_a_schema_has_words_for_editors(name: str) -> None:
    def parts(schema: Any) -> list[Any]:
        below = [*schema.get("properties", {}).values(), *schema.get("$defs", {}).values()]
        return [schema, *(part for one in below for part in parts(one))]

    for part in parts(schema_text(name)):
        assert part.get("description"), part
        assert part.get("title") or part.get("$ref"), part


@pytest.mark.parametrize("name", SCHEMAS)
def test_schemas_offer_every_known_measure_with_its_meaning(name: str) -> None:
    offered = schema_text(name)["properties"]["measures"]["properties"]
    assert {one: part["description"] for one, part in offered.items()} == {
        one: f"{known.term}: {known.definition}. {known.standard}" for one, known in known_measures().items()
    }


def test_reader_and_schemas_share_patterns_and_limits() -> None:
    body, chart = map(schema_text, SCHEMAS)
    cloth = schema_text("cloth.schema.json")
    workshop = schema_text("workshop.schema.json")
    assert workshop["properties"]["unit"]["enum"] == list(workshops.UNITS)
    assert workshop["properties"]["paper"]["pattern"] == workshops.PAPER_PATTERN
    assert workshop["properties"]["language"]["pattern"] == workshops.LANGUAGE_PATTERN
    assert workshop["$defs"]["file"]["pattern"] == workshops.PATH_PATTERN
    assert workshop["$defs"]["file"]["maxLength"] == workshops.LONGEST_PATH
    assert workshop["$defs"]["line"]["pattern"] == forms.LABEL_PATTERN
    assert workshop["$defs"]["line"]["maxLength"] == forms.LONGEST_TITLE
    assert cloth["$defs"]["length"] == body["$defs"]["length"]
    assert cloth["properties"]["photo"]["properties"]["file"]["pattern"] == cloths.PICTURE_PATTERN
    assert cloth["properties"]["unit"]["enum"] == list(MM_PER_UNIT)
    assert schema_text("plan.schema.json")["$defs"]["piece"]["properties"]["piece"]["pattern"] == PIECE_PATTERN
    assert body["$defs"]["length"]["pattern"] == lengths.LENGTH_PATTERN
    assert body["$defs"]["measure_name"] == chart["$defs"]["measure_name"]
    assert body["$defs"]["measure_name"]["pattern"] == forms.MEASURE_NAME_PATTERN
    assert body["properties"]["body"]["pattern"] == forms.LABEL_PATTERN
    assert body["properties"]["body"]["maxLength"] == forms.LONGEST_TITLE
    assert chart["$defs"]["size"]["maxLength"] == forms.LONGEST_SIZE
    assert chart["properties"]["source"]["maxLength"] == forms.LONGEST_WORDS
    assert chart["$defs"]["value"]["maximum"] == forms.LARGEST_NUMBER
    assert chart["$defs"]["column"]["properties"]["unit"]["enum"] == list(MM_PER_UNIT)
