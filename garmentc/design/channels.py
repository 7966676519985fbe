"""What a binding is cut of, and what is drawn through a casing, as far as it is known without any body."""

from __future__ import annotations

from collections.abc import Container, Iterable

from garmentc.design import kinds as k
from garmentc.design.kindcheck import TOP, KindChecker
from garmentc.design.model import JoinPlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.syntax import nodes

ROOM = "room"
"""The width by which a finish says how wide the channel is that it makes."""


def bound_parts(
    items: Iterable[object], join: JoinPlan | None, checker: KindChecker, findings: Findings
) -> nodes.Parts | None:
    """The longest part that a binding is cut of, where the spec gives one."""
    found = [item for item in items if isinstance(item, nodes.Parts)]
    _once(found, findings)
    for item in found[:1]:
        checker.expect(item.longest, k.LENGTH, TOP, "the longest part of a strip")
        if join is not None and "binding" not in join.defines:
            headline = f"`{join.name}` takes no strip that could be cut of parts"
            findings.add(Finding("no-binding", headline, item.span, help="drop it, or choose a type that binds"))
    return found[0] if found else None


def drawn_through(
    items: Iterable[object], join: JoinPlan | None, strips: Container[str], checker: KindChecker, findings: Findings
) -> nodes.Draw | None:
    """What is drawn through the channel of a finish."""
    found = [item for item in items if isinstance(item, nodes.Draw)]
    _once(found, findings)
    for item in found[:1]:
        if item.strip is not None and item.strip.text not in strips:
            if not checker.is_lost(item.strip.text):
                headline = f"there is no strip `{item.strip.text}`"
                help = 'declare it, or write what is bought: draw "elastic" length 60 cm width 15 mm'
                findings.add(Finding("unknown-name", headline, item.strip.span, help=help))
            return None
        if item.strip is not None:
            checker.used.add(item.strip.text)
        for value, what in ((item.length, "length"), (item.width, "width")):
            if value is not None:
                checker.expect(value, k.LENGTH, TOP, f"the {what} of what is drawn through")
        if join is not None and ROOM not in join.defines:
            headline = f"`{join.name}` makes no channel to draw anything through"
            help = f"finish the edge as casing, or give a type of your own a width called `{ROOM}`"
            findings.add(Finding("no-channel", headline, item.span, help=help))
            return None
    return found[0] if found else None


def _once(found: list[nodes.Parts] | list[nodes.Draw], findings: Findings) -> None:
    for again in found[1:]:
        findings.add(Finding("said-twice", "this is said twice", again.span, help="keep one of them"))
