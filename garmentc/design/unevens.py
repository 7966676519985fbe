"""Whether the edges that a piece declares uneven are there, each declared once."""

from __future__ import annotations

from garmentc.design.kindcheck import KindChecker
from garmentc.design.model import PiecePlan
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.source import Span


def check_unevens(plan: PiecePlan, checker: KindChecker, findings: Findings) -> None:
    """Report what a piece declares uneven and has not (``unknown-name``) or has declared before (``said-twice``)."""
    said: dict[str, Span] = {}
    for uneven in plan.unevens:
        name = ".".join(word.text for word in uneven.edge.words)
        checker.edge(plan.name, name, uneven.edge.span)
        if said.setdefault(name, uneven.span) != uneven.span:
            findings.add(
                Finding(
                    "said-twice",
                    f"`{name}` is declared uneven twice",
                    uneven.span,
                    others=(Label(said[name], "first here"),),
                    help="keep one of them",
                )
            )
