"""Strips: their sizes, and the parts of theirs that a finish may name."""

from __future__ import annotations

from collections.abc import Container, Iterable

from garmentc.design import kinds as k
from garmentc.design.kindcheck import TOP, KindChecker
from garmentc.design.model import EdgeName, StripPlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.syntax import nodes


def check_strip(strip: StripPlan, checker: KindChecker) -> None:
    """Hold the sizes of a strip to being lengths."""
    checker.expect(strip.length, k.LENGTH, TOP, "the length of a strip")
    checker.expect(strip.width, k.LENGTH, TOP, "the width of a strip")
    if strip.stitched is not None:
        checker.expect(strip.stitched, k.LENGTH, TOP, "the distance of the stitching")


def strip_parts(
    refs: Iterable[nodes.Ref], strips: Container[str], checker: KindChecker, findings: Findings
) -> tuple[list[EdgeName], list[nodes.Ref]]:
    """Of what a finish names, the ends and sides of strips, and the rest."""
    parts: list[EdgeName] = []
    rest: list[nodes.Ref] = []
    for ref in refs:
        strip, *inner = (word.text for word in ref.words)
        if strip not in strips:
            rest.append(ref)
        elif inner in (["ends"], ["sides"]):
            checker.used.add(strip)
            parts.append(EdgeName(strip, inner[0], ref.span))
        else:
            headline = f"of strip `{strip}` the `ends` or the `sides` are finished"
            findings.add(Finding("unknown-name", headline, ref.span, help=f"write {strip}.ends or {strip}.sides"))
    return parts, rest
