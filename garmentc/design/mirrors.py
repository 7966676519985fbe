"""Whether the edges that a seam joins are two: an edge and its mirror image, or two that are not the same."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from garmentc.design.model import EdgeName, PiecePlan
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.syntax import nodes


def check_mirror(
    seam: nodes.Seam, edges: Iterable[EdgeName], pieces: Mapping[str, PiecePlan], findings: Findings
) -> None:
    """Report (``no-mirror``) edges of pieces that are neither cut as a pair nor on the fold."""
    for edge in edges:
        cut = cut_of(pieces[edge.piece], pieces)
        if edge.hand:
            findings.add(
                Finding(
                    "no-mirror",
                    f"seam `{seam.name.text}` joins the left edges with the right ones",
                    edge.span,
                    help=f"leave out `{edge.hand}`",
                )
            )
        if cut is None or cut.pair or cut.fold is not None:
            continue
        findings.add(
            Finding(
                "no-mirror",
                f"seam `{seam.name.text}` joins `{edge.text}` with its mirror image, and there is none",
                edge.span,
                others=(Label(cut.span, f"`{edge.piece}` is cut without a mirror image"),),
                help="write `cut pair` or `cut 1 on fold EDGE`, or name the edge it is sewn to",
            )
        )


def check_itself(
    seam: nodes.Seam,
    first: Iterable[EdgeName],
    second: Iterable[EdgeName],
    pieces: Mapping[str, PiecePlan],
    findings: Findings,
) -> None:
    """Report (``seam-to-itself``) edges on both sides of a seam: the left one would meet the left."""
    known = {(one.piece, one.edge, one.copy): one for one in first}
    for again in second:
        one = known.get((again.piece, again.edge, again.copy))
        cut = cut_of(pieces[again.piece], pieces)
        if one is None or cut is None:
            continue
        if cut.pair or cut.fold is not None:
            name = f"{again.piece}.{again.edge}"
            what = f"seam `{seam.name.text}` joins the left `{name}` to the left one, and the right to the right"
            if again.hand:
                what = f"seam `{seam.name.text}` joins `{one.text}` with `{again.text}`"
            help = f"the left one meets the right one: joins {name} with its mirror"
        else:
            what = f"seam `{seam.name.text}` joins `{again.text}` to itself"
            own = again.piece.rpartition(".")[2]
            help = f'to sew two alike, take the second from the first: piece other_{own} "…" from {again.piece} {{ }}'
        findings.add(Finding("seam-to-itself", what, again.span, others=(Label(one.span, "the same edge"),), help=help))


def exists(edge: EdgeName, pieces: Mapping[str, PiecePlan], findings: Findings) -> bool:
    """Whether a piece is there left and right, or so often, as the name of its edge says; else ``no-such-copy``."""
    cut = cut_of(pieces[edge.piece], pieces)
    if cut is None:
        return True
    has_mirror = cut.pair or cut.fold is not None
    if edge.hand and not has_mirror:
        what, help = f"`{edge.piece}` has no {edge.hand} half or piece", "write `cut pair` or `cut 1 on fold EDGE`"
    elif edge.copy and not 1 <= edge.copy <= cut.number:
        what, help = f"there is no copy {edge.copy} of `{edge.piece}`", "name a copy from 1 on, or cut more of it"
        if edge.copy < 0:
            what = f"copies of `{edge.piece}` are counted from 1"
    else:
        return True
    often = "cut as a pair" if cut.pair else f"cut {cut.number} on the fold" if cut.fold else f"cut {cut.number}"
    label = Label(cut.span, f"it is {often}")
    findings.add(Finding("no-such-copy", what, edge.span, others=(label,), help=help))
    return False


def cut_of(plan: PiecePlan, pieces: Mapping[str, PiecePlan]) -> nodes.Cut | None:
    """How a piece is cut: as it says itself, or as the piece that it is taken from."""
    seen: list[str] = []
    while plan.cut is None and plan.parent is not None and plan.parent in pieces and plan.name not in seen:
        seen.append(plan.name)
        plan = pieces[plan.parent]
    return plan.cut
