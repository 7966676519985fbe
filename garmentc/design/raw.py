"""Edges that no seam and no finish names, as far as they are known without any body."""

from __future__ import annotations

from garmentc.design.model import Design, EdgeName, PiecePlan
from garmentc.diagnostics.finding import Finding, Findings


def raw_edge_words(edge: EdgeName) -> tuple[str, str]:
    """The headline and the help of the finding about an edge that is left raw."""
    of = f"copy {edge.copy} of " if edge.copy else ""
    of += f"the {edge.hand} `{edge.piece}`" if edge.hand else f"`{edge.piece}`"
    headline = f"edge `{edge.edge}` of {of} is left raw and would fray"
    return headline, f"sew it in a seam, or write `finish {edge.text} as …`"


def check_raw_edges(design: Design, findings: Findings) -> None:
    """Report outline edges that are left raw; a piece that is cut along a line may have lost some, and is left out."""
    chains = [seam.edges for seam in design.seams.values()]
    chains += [finish.edges for finish in design.finishes]
    used = {(name.piece, name.edge) for chain in chains for name in chain}
    for piece in design.pieces.values():
        if not piece.made:
            continue
        ancestry = _ancestry(piece, design)
        if any(one.keeps for one in ancestry):
            continue
        cut = next(one.cut for one in ancestry if one.cut is not None)
        folds = {part.across.text for part in piece.parts.values()}
        if cut.fold is not None:
            folds.add(cut.fold.text)
        parts = (edge for one in ancestry for edge in one.made_edges.values())
        for edge in (*ancestry[-1].edges.values(), *parts):
            if edge.name.text not in folds and (piece.name, edge.name.text) not in used:
                headline, help = raw_edge_words(EdgeName(piece.name, edge.name.text, edge.span))
                findings.add(Finding("raw-edge", headline, edge.span, help=help, subject=piece.name))


def _ancestry(plan: PiecePlan, design: Design) -> list[PiecePlan]:
    """The piece itself, then the piece it is taken from, and so on."""
    found = [plan]
    while found[-1].parent is not None:
        found.append(design.pieces[found[-1].parent])
    return found
