"""Over bodies and params a garment compiles, or gives findings: never an internal fault, never a bad outline.

``GARMENTC_BODIES=500`` tries so many bodies on each garment.
"""

from __future__ import annotations

import math
import os
from functools import cache
from pathlib import Path

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from garmentc.assembly.model import Assembly
from garmentc.data.charts import read_chart
from garmentc.data.model import Body, Measured
from garmentc.design import kinds as k
from garmentc.design.model import Design
from garmentc.diagnostics.finding import Findings
from garmentc.draft.pieces import Drafter
from garmentc.geometry.crossing import find_crossing
from garmentc.geometry.region import polygon
from garmentc.host import DiskHost
from garmentc.pipeline import make, read_design
from garmentc.source import Source

SPECS = sorted(str(path) for path in [*Path("specs").glob("*.garment"), *Path("specs/blocks").glob("*.garment")])
EXAMPLES = int(os.environ.get("GARMENTC_BODIES", "8"))
TRIED = settings(max_examples=EXAMPLES, deadline=None, derandomize=True, phases=(Phase.explicit, Phase.generate))
"""The same examples in every run; a failing one is told as it is, because making it smaller takes minutes."""
HOST = DiskHost()
NOWHERE = Source("body", "").whole()
RULES = {"check-fails", "out-of-range", "no-solution", "several-solutions", "kink"}
"""What a garment says of itself (its checks, its ranges, what it asks to be solved), and lines that odd params break."""
UNLIKE = 0.08
"""How far each measure of a body may be from that of the chart's sizes beside it, as a share."""


@cache
def columns() -> dict[str, list[float]]:
    """The measures of the shipped chart in mm, from size to size."""
    chart = read_chart(HOST, "specs/sizes/women-en13402.yaml", Findings())
    assert chart is not None
    return {name: [body.measures[name].mm for body in chart.bodies] for name in chart.bodies[0].measures}


def body_of(measures: dict[str, float]) -> Body:
    return Body("any", {name: Measured(mm, NOWHERE) for name, mm in measures.items()}, NOWHERE, NOWHERE, "")


def design_of(spec: str, changes: tuple[str, ...]) -> Design:
    findings = Findings()
    design = read_design(HOST, spec, changes, findings)
    assert design is not None, list(findings)
    return design


plain_of = cache(lambda spec: design_of(spec, ()))


def written(value: float, kind: object) -> str:
    if kind is k.ANGLE:
        return f"{math.degrees(value):.4f} deg"
    if kind is k.COUNT:
        return str(round(value))
    return f"{value:.4f} mm" if kind is k.LENGTH else f"{value:.6f}"


def hold_outlines(assembly: Assembly) -> None:
    for piece in (*assembly.pieces, *assembly.strips):
        assert find_crossing(piece.cut_line.edges) is None
        cut, sewn = polygon(piece.cut_line, 0.01), polygon(piece.drafted.outline, 0.01)
        assert cut.is_valid and sewn.is_valid
        assert cut.buffer(0.05).contains(sewn)


@pytest.mark.parametrize("spec", SPECS)
@TRIED
@given(data=st.data())
def test_bodies_and_params_within_their_ranges(spec: str, data: st.DataObject) -> None:
    """Bodies between the sizes of the chart and unlike them in each measure; params and eases within their ranges."""
    sizes = columns()
    at = data.draw(st.floats(0.0, len(sizes["bust_girth"]) - 1.001), label="size")
    below, share = int(at), at - int(at)
    measures = {}
    for name, values in sizes.items():
        like = values[below] * (1 - share) + values[below + 1] * share
        unlike = data.draw(st.floats(1 - UNLIKE, 1 + UNLIKE), label=name)
        measures[name] = min(max(like * unlike, min(values)), max(values))
    body = body_of(measures)
    plain = plain_of(spec)
    values_of = Drafter(plain, body, Findings(), {}).values
    unknowns = {name for one in plain.solves for name in one.unknowns}
    changes = []
    for name, param in plain.params.items():
        if name in unknowns or param.least is None or param.most is None or data.draw(st.booleans(), label=name):
            continue
        low, high = float(values_of.value(param.least)), float(values_of.value(param.most))
        changes.append(f"{name}={written(data.draw(st.floats(low, high), label=name), param.kind)}")
    for name, choice in plain.choices.items():
        changes.append(f"{name}={data.draw(st.sampled_from(choice.options), label=name)}")
    findings = Findings()
    assembly = make(design_of(spec, tuple(changes)), body, findings)
    assert {finding.slug for finding in findings} <= RULES, (changes, list(findings))
    assert (assembly is None) == findings.has_errors
    if assembly is not None:
        hold_outlines(assembly)


@pytest.mark.parametrize("spec", SPECS)
@TRIED
@given(data=st.data())
def test_any_body_and_any_params(spec: str, data: st.DataObject) -> None:
    """Bodies that nobody has, and params far out of their ranges."""
    measures = {
        name: data.draw(st.floats(0.6 * min(values), 1.5 * max(values)), label=name)
        for name, values in columns().items()
    }
    plain = plain_of(spec)
    unknowns = {name for one in plain.solves for name in one.unknowns}
    changes = []
    for name, param in plain.params.items():
        if name not in unknowns and data.draw(st.booleans(), label=f"set {name}"):
            changes.append(f"{name}={written(data.draw(st.floats(0.0, 600.0), label=name), param.kind)}")
    findings = Findings()
    assembly = make(design_of(spec, tuple(changes)), body_of(measures), findings)
    assert assembly is not None or findings.has_errors
    if assembly is not None:
        hold_outlines(assembly)
