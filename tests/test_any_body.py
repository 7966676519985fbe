"""Over wide bodies and params a demo garment compiles, or gives findings: never an internal fault, never a bad outline."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from garmentc.assembly.assemble import assemble
from garmentc.data.model import Body, Measured
from garmentc.design.library import Library
from garmentc.design.resolve import resolve
from garmentc.design.settings import read_settings
from garmentc.diagnostics.finding import Findings
from garmentc.draft.draft import draft
from garmentc.geometry.crossing import find_crossing
from garmentc.geometry.region import polygon
from garmentc.host import DiskHost
from garmentc.reading import read_text
from garmentc.source import Source
from garmentc.syntax.parser import Parser

HOST = DiskHost()
PARSER = Parser(HOST)
LIBRARY = Library(HOST, PARSER)
NOWHERE = Source("body", "").whole()
RANGES = {
    "bust_girth": (50.0, 180.0),
    "strap_path": (20.0, 60.0),
    "upper_arm_girth": (15.0, 60.0),
    "back_neck_point_to_waist": (25.0, 55.0),
    "neck_girth": (25.0, 60.0),
    "head_girth": (45.0, 65.0),
    "waist_girth": (40.0, 180.0),
    "shoulder_length": (8.0, 20.0),
}


@pytest.mark.parametrize("spec", ["tern", "plover", "curlew"])
@settings(max_examples=60, deadline=None, derandomize=True)
@given(data=st.data())
def test_any_body_and_any_params(spec: str, data: st.DataObject) -> None:
    findings = Findings()
    source = read_text(HOST, str(Path("specs") / f"{spec}.garment"), findings)
    assert source is not None
    file = PARSER.file(source, findings)
    plain = resolve(file, LIBRARY, {}, findings)
    assert plain is not None
    values = {}
    for name in plain.params:
        if data.draw(st.booleans(), label=f"set {name}"):
            values[name] = data.draw(st.floats(0.0, 60.0), label=name)
    given_texts = [f"{name}={value:.2f} cm" for name, value in values.items()]
    design = resolve(file, LIBRARY, read_settings(given_texts, PARSER, findings), findings)
    assert design is not None
    measures = {
        name: Measured(10 * data.draw(st.floats(*RANGES[name]), label=name), NOWHERE) for name in plain.measures
    }
    body = Body("any", measures, NOWHERE, NOWHERE, "")
    made = draft(design, body, findings)
    if made is None:
        assert len(findings)
        return
    assembly = assemble(made[0], made[1].values, findings)
    if assembly is None:
        assert len(findings)
        return
    for piece in (*assembly.pieces, *assembly.strips):
        assert find_crossing(piece.cut_line.edges) is None
        cut, sewn = polygon(piece.cut_line, 0.01), polygon(piece.drafted.outline, 0.01)
        assert cut.is_valid and sewn.is_valid
        assert cut.buffer(0.05).contains(sewn)
