"""How many pages each size takes before and after."""

from __future__ import annotations

from garmentc.assembly.model import Assembly
from garmentc.comparison.differences import Side
from garmentc.comparison.model import PAPER, Change, Comparison
from garmentc.design import kinds as k
from garmentc.output.paper.files import Wanted, print_pdf
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.papers import Paper
from garmentc.output.paper.sizes import size_drawing
from garmentc.output.texts.speech import ENGLISH


def with_pages(comparison: Comparison, old: Side, new: Side, paper: Paper, fonts: Fonts) -> Comparison:
    """A comparison that also tells how many pages change, each size printed on its own as ``garmentc print`` does."""
    before, after = [
        {made.draft.body.name: _pages(side, made, paper, fonts) for made in side.sizes} for side in (old, new)
    ]
    was, now = (tuple(pages[size] for size in comparison.sizes) for pages in (before, after))
    if was == now:
        return comparison
    return comparison._replace(
        changes=(*comparison.changes, Change(PAPER, f"pages of {paper.name}", "", k.COUNT, was, now))
    )


def _pages(side: Side, made: Assembly, paper: Paper, fonts: Fonts) -> float:
    return float(print_pdf(side.design, [size_drawing(made, None)], paper, Wanted(ENGLISH), fonts).pages)
