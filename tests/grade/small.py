"""A bib as a text, graded in memory."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.diagnostics.finding import Finding
from garmentc.grade.model import Grade, GradedCorner, GradedEdge, GradedPiece
from garmentc.pipeline import Request, compile_grade
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
SIZES = ("76", "80", "84", "88", "92", "96", "100", "104", "110", "116", "122", "128")
BUST = tuple(10.0 * float(size) for size in SIZES)
"""mm; a size of the chart is named by its bust girth in cm."""


def bib(wide: str = "bust_girth / 4", deep: str = "bust_girth / 8 + 3 cm", more: str = "", measures: str = "") -> str:
    """A rectangle; ``more`` are further lines of the piece, from line 15 on."""
    return f"""garment knot "Knot, a bib"
edition 1
measure bust_girth{measures}
piece bib "Bib" {{
  cut 1
  grain straight
  near = ({wide}, 0 cm)
  far  = near up {deep}
  outline {{
    lower : (0 cm, 0 cm) -> near
    ending : near -> far
    upper : far -> (0 cm, far.y)
    opening : (0 cm, far.y) -> (0 cm, 0 cm)
  }}
{more}
}}
finish bib.lower, bib.ending, bib.upper, bib.opening as pinked
"""


def graded(
    text: str, *, only: Sequence[str] = (), align: Sequence[str] = (), chart: str | None = None
) -> tuple[Grade, list[Finding]]:
    """A spec in the sizes of the shipped chart, or of a chart given as text."""
    files = {"knot.garment": text} if chart is None else {"knot.garment": text, "chart.yaml": chart}
    sizes = CHART if chart is None else "chart.yaml"
    grade, findings = compile_grade(MemoryHost(files), Request("knot.garment", sizes, only=only), align)
    assert grade is not None, [(one.slug, one.headline) for one in findings]
    return grade, list(findings)


def faults(text: str, *, only: Sequence[str] = (), align: Sequence[str] = ()) -> list[tuple[str, int, str]]:
    """Findings by slug, line, and the text they point at."""
    return [(one.slug, one.span.line, one.span.text) for one in graded(text, only=only, align=align)[1]]


def piece(grade: Grade, name: str = "bib") -> GradedPiece:
    return next(one for one in grade.pieces if one.name == name)


def corner(of: GradedPiece, name: str) -> GradedCorner:
    return next(one for one in of.corners if one.name == name)


def edge(of: GradedPiece, name: str) -> GradedEdge:
    return next(one for one in of.edges if one.name == name)
