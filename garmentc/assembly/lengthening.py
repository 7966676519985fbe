"""Whether lengthening a garment at its lines leaves the sides of every seam as long as each other."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.assembly.model import JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import Draft, DraftedEdge, InnerLine

_ON = 0.02  # mm; an end of a line lies on an edge


def check_lengthening(draft: Draft, seams: Iterable[JoinedSeam], values: Evaluator) -> None:
    """Warn of each seam whose two sides are not crossed by lines of the same names."""
    if not any(line.kind == "lengthen" for piece in draft.pieces for line in piece.lines):
        return
    for seam in seams:
        if seam.mirrored:
            continue
        first, second = (_crossing(draft, side) for side in (seam.first, seam.second))
        alone = [line for one, other in ((first, second), (second, first)) for line in _missing(one, other)]
        if alone:
            values.fault(
                "lengthens-one-side",
                f"lengthening at `{alone[0].name}` makes one side of seam `{seam.name}` longer",
                alone[0].span,
                others=(Label(seam.span, "its other side has no such line"),),
                help=f"lay a line `{alone[0].name}` over the other side too, at the same height",
                severity=Severity.WARNING,
            )


def _crossing(draft: Draft, side: Sequence[EdgeName]) -> list[InnerLine]:
    """The lines that end on the edges of a side."""
    found: list[InnerLine] = []
    for name in side:
        piece = draft.piece(name.piece)
        edge = piece.edge(name.edge)
        if edge is not None:
            found += [line for line in piece.lines if line.kind == "lengthen" and _ends_on(line, edge)]
    return found


def _ends_on(line: InnerLine, edge: DraftedEdge) -> bool:
    return any(edge.path.nearest(end)[1] < _ON for end in (line.path.start, line.path.end))


def _missing(one: list[InnerLine], other: list[InnerLine]) -> list[InnerLine]:
    """The lines of one side that the other has not, or not as often."""
    names = [line.name for line in other]
    return [line for line in one if names.count(line.name) < sum(line.name == same.name for same in one)]
