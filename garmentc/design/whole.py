"""Whether a piece says all that it takes to cut it: an outline, how many, and how it lies on the cloth."""

from __future__ import annotations

from garmentc.design.model import PiecePlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.source import Span


def check_whole(plan: PiecePlan, findings: Findings) -> None:
    """Report what a piece lacks, or says besides what it takes from another."""

    def _error(slug: str, headline: str, span: Span, help: str) -> None:
        findings.add(Finding(slug, headline, span, help=help))

    if plan.parent is None:
        if not plan.edges:
            _error(
                "no-outline",
                f"piece `{plan.name}` has no outline",
                plan.span,
                help="add `outline { … }`, or take it from another piece with `from`",
            )
        if plan.cut is None:
            _error(
                "no-cut",
                f"piece `{plan.name}` does not say how many to cut",
                plan.span,
                help="add `cut 1`, `cut pair` or `cut 1 on fold EDGE`",
            )
        if plan.grain is None:
            _error(
                "no-grain",
                f"piece `{plan.name}` does not say how it lies on the cloth",
                plan.span,
                help="add `grain straight`, `grain cross` or `grain bias`",
            )
    elif plan.edges:
        _error(
            "two-outlines",
            f"piece `{plan.name}` is taken from `{plan.parent}` and has an outline of its own",
            plan.span,
            help="drop `from` or the outline",
        )
    if plan.cut is not None and plan.cut.number < 1:
        _error("no-cut", "a piece is cut at least once, in a whole number", plan.cut.span, help="write `cut 1`")
