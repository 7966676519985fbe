"""Small garments as texts, compiled in memory, and what was found in them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from garmentc.assembly.model import Assembly
from garmentc.diagnostics.finding import Finding
from garmentc.pipeline import Compiled, compile_spec
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"

PANEL = """garment knot "Knot"
edition 1
piece panel "Panel" {
  cut 1
  grain straight
  a = (0 cm, 0 cm)
  b = (20 cm, 0 cm)
  c = (20 cm, 30 cm)
  d = (0 cm, 30 cm)
  outline { lower : a -> b; ending : b -> c; upper : c -> d; opening : d -> a }
"""
"""A panel of 20 by 30 cm, its block still open."""

PINKED = "finish panel.lower, panel.ending, panel.upper, panel.opening as pinked\n"


class Fault(NamedTuple):
    """A finding by its slug and the text it points at."""

    slug: str
    line: int
    text: str


def compiled(
    text: str, *, settings: Iterable[str] = (), size: str | None = "88", every_choice: bool = False
) -> Compiled:
    """A spec compiled for one size of the shipped chart, or only checked."""
    host = MemoryHost({"knot.garment": text})
    sizes = None if size is None else CHART
    only = () if size is None else (size,)
    return compile_spec(host, "knot.garment", sizes=sizes, only=only, settings=settings, every_choice=every_choice)


def found(text: str, *, settings: Iterable[str] = (), size: str | None = "88") -> list[Finding]:
    """What is found in a spec, in the order of its text."""
    return told(compiled(text, settings=settings, size=size).findings)


def told(findings: Iterable[Finding]) -> list[Finding]:
    """The findings without what most small texts leave: values nothing uses, pieces sewn to nothing, bare corners."""
    left = ("pieces-apart", "kink")
    return [one for one in findings if one.slug not in left and not one.headline.startswith("nothing uses the value")]


def faults(text: str, *, settings: Iterable[str] = (), size: str | None = "88") -> list[Fault]:
    """Findings by slug, line and the text they point at."""
    return [Fault(one.slug, one.span.line, one.span.text) for one in found(text, settings=settings, size=size)]


def assembled(text: str, *, settings: Iterable[str] = (), size: str = "88") -> Assembly:
    """A spec that compiles without a finding."""
    made = compiled(text, settings=settings, size=size)
    assert [(one.slug, str(one.span), one.headline) for one in told(made.findings)] == []
    (assembly,) = made.made
    return assembly


def panel(inside: str = "", below: str = "", finish: str = PINKED) -> str:
    """The panel with more lines in the piece and in the garment."""
    return f"{PANEL}{inside}\n}}\n{finish}{below}\n"
