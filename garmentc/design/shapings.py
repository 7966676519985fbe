"""Whether what shapes a piece names edges and darts that exist, and gives values of the right kinds."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.design import kinds as k
from garmentc.design.kindcheck import KindChecker, Scope
from garmentc.design.model import PiecePlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.syntax import nodes

_PLACE = (k.LENGTH, k.RATIO, k.POINT)


def check_shaping(node: nodes.Shaping, plan: PiecePlan, checker: KindChecker, findings: Findings) -> None:
    """Report what can be known to be wrong with a shaping statement without any body."""
    scope = Scope(plan.name)

    def place(edge: nodes.Ref, at: nodes.Expr) -> None:
        checker.edge(plan.name, ".".join(word.text for word in edge.words), edge.span)
        checker.expect(at, _PLACE, scope, "the place on an edge")

    def dart(word: nodes.Word) -> None:
        darts = [dart for piece in checker.ancestry(plan) for dart in _darts(piece)]
        if word.text not in darts:
            help = meant_or_known(word.text, darts)
            headline = f"piece `{plan.name}` has no dart `{word.text}`"
            findings.add(Finding("unknown-name", headline, word.span, help=help))

    def a_length(value: nodes.Expr, what: str) -> None:
        checker.expect(value, k.LENGTH, scope, what)

    if isinstance(node, nodes.Dart):
        place(node.edge, node.at)
        checker.expect(node.tip, k.POINT, scope, "the tip of a dart")
        if node.taking is not None:
            checker.expect(node.taking, (k.LENGTH, k.ANGLE), scope, "what a dart takes up")
        if node.second is not None:
            checker.expect(node.second, _PLACE, scope, "the place on an edge")
        if node.depth is not None:
            a_length(node.depth, "the bow of the legs")
    elif isinstance(node, nodes.Tuck):
        place(node.edge, node.at)
        a_length(node.deep, "the depth of a tuck")
        a_length(node.long, "the length of a tuck")
    elif isinstance(node, nodes.Pleats):
        place(node.edge, node.first)
        place(node.edge, node.last)
        a_length(node.deep, "the depth of pleats")
    elif isinstance(node, nodes.Pivot):
        place(node.edge, node.at)
        if node.share is not None:
            checker.expect(node.share, k.RATIO, scope, "the share of a dart")
        dart(node.dart)
    elif isinstance(node, nodes.Divide | nodes.Shorten):
        dart(node.dart)
        a_length(
            node.by, "how far a tip is drawn back" if isinstance(node, nodes.Shorten) else "how far darts lie apart"
        )
    elif isinstance(node, nodes.Close):
        dart(node.dart)
    elif isinstance(node, nodes.Part):
        place(node.edge, node.first)
        place(node.edge, node.last)
    elif isinstance(node, nodes.Spread):
        place(node.first, node.first_at)
        place(node.second, node.second_at)
        checker.expect(node.by, (k.LENGTH, k.ANGLE), scope, "how far a piece is spread")
    else:
        checker.edge(plan.name, node.edge.text, node.edge.span)
        if node.shape is not None:
            checker.operations.shape(node.shape, scope)


def _darts(plan: PiecePlan) -> Iterator[str]:
    """The names of the darts of a piece, those that are moved in part too."""
    for node in plan.shapings:
        if isinstance(node, nodes.Dart):
            yield node.name.text
        elif isinstance(node, nodes.Pivot | nodes.Divide) and node.part is not None:
            yield node.part.text
