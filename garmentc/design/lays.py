"""How pieces shall lie on the cloth: whether what is asked names what there is, and can be asked of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.design import kinds as k
from garmentc.design.kindcheck import TOP, KindChecker, Names, Scope
from garmentc.design.model import EdgeName, LayPlan
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes

MOST_LAYERS = 2

MAIN = "main"
"""The cloth of whatever names no other."""


def resolve_lays(
    lays: Iterable[nodes.Lay], names: Names, checker: KindChecker, findings: Findings
) -> dict[str, LayPlan]:
    """The demands by piece or strip; what is faulty is reported (``unknown-name``, ``wrong-kind``, ``said-twice``)."""
    found: dict[str, list[tuple[nodes.Lay, nodes.LayItem]]] = {}
    spans: dict[str, Span] = {}
    work = _Resolver(names, checker, findings)
    for lay in lays:
        for word in lay.names:
            if work.knows(word):
                spans.setdefault(word.text, word.span)
                found.setdefault(word.text, []).extend((lay, item) for item in lay.items)
    return {name: work.plan(name, spans[name], [item for _, item in items]) for name, items in found.items()}


class _Resolver:
    def __init__(self, names: Names, checker: KindChecker, findings: Findings) -> None:
        self._names = names
        self._checker = checker
        self._findings = findings

    def knows(self, word: nodes.Word) -> bool:
        known = [*self._names.pieces, *self._names.strips]
        if word.text in known:
            return True
        if not self._checker.is_lost(word.text):
            self._unknown(word.span, f"there is no piece or strip `{word.text}`", word.text, known)
        return False

    def plan(self, name: str, span: Span, items: Sequence[nodes.LayItem]) -> LayPlan:
        strip = name in self._names.strips
        if strip and self._names.strips[name].way == "bought":
            self._error("wrong-kind", f"strip `{name}` is bought: it does not lie on the cloth", span, "drop it here")
        places = [item for item in items if isinstance(item, nodes.LayPlace)]
        motifs = [item for item in items if isinstance(item, nodes.LayMotif)]
        beside = [item for item in items if isinstance(item, nodes.LayBeside)]
        grains = [item for item in items if isinstance(item, nodes.LayGrain)]
        joins = [item for item in items if isinstance(item, nodes.LayJoins)]
        layers = [item for item in items if isinstance(item, nodes.LayOn) and item.what == "layers"]
        cloths = [item for item in items if isinstance(item, nodes.LayOn) and item.what == "cloth"]
        for several in (grains, joins, layers, cloths):
            self._said_once(several)
        matches = [item for item in beside if item.what == "match"]
        for asked in (*(one.span for one in places), *(one.span for one in motifs), *(one.span for one in matches)):
            if strip:
                self._error("wrong-kind", "this is asked of pieces, not of strips", asked, "drop it")
        for join in joins:
            self._joins(name, join)
        for grain in grains:
            if grain.within is not None:
                self._checker.expect(grain.within, k.ANGLE, TOP, "how far off its grain a piece may lie")
        scope = Scope(None if strip else name)
        for motif in motifs if not strip else ():
            self._checker.expect(motif.at, k.POINT, scope, "the place of a motif")
            if motif.within is not None:
                self._checker.expect(motif.within, k.LENGTH, scope, "how far off a motif may lie")
        return LayPlan(
            name,
            tuple(self._edges(name, places)) if not strip else (),
            tuple(self._corners(scope, places)) if not strip else (),
            grains[0] if grains else None,
            joins[0] if joins else None,
            tuple(motifs),
            tuple(self._matches(name, beside)) if not strip else (),
            tuple(self._mirrored(name, beside)),
            self._layers(layers[0].word) if layers else 0,
            cloths[0].word.text if cloths else MAIN,
            span,
        )

    def _joins(self, name: str, join: nodes.LayJoins) -> None:
        if name not in self._names.strips:
            self._error("wrong-kind", "only strips may be joined of parts", join.span, "split the piece by a seam")
        if join.number < 1:
            self._error("wrong-kind", "a strip has a whole number of joins, one at least", join.span, "write joins 1")
        for place in (join.first, join.last):
            if place is not None:
                self._checker.expect(place, (k.LENGTH, k.RATIO), TOP, "where a strip may be joined")

    def _edges(self, name: str, places: Iterable[nodes.LayPlace]) -> Iterable[EdgeName]:
        for place in places:
            if place.what == "edge" and (edge := self._edge(name, place.ref.words, place.ref.span)):
                yield edge

    def _edge(self, piece: str, words: Sequence[nodes.Word], span: Span) -> EdgeName | None:
        dotted = ".".join(word.text for word in words)
        return EdgeName(piece, dotted, span) if self._checker.edge(piece, dotted, span) else None

    def _corners(self, scope: Scope, places: Iterable[nodes.LayPlace]) -> Iterable[nodes.Ref]:
        for place in places:
            if place.what == "corner":
                self._checker.expect(place.ref, k.POINT, scope, "what lies on a corner of the cloth")
                yield place.ref

    def _matches(self, name: str, beside: Iterable[nodes.LayBeside]) -> Iterable[tuple[EdgeName, EdgeName]]:
        for item in beside:
            if item.what != "match" or item.own is None:
                continue
            piece, *rest = item.other.words
            if piece.text not in self._names.pieces:
                known = self._names.pieces
                self._unknown(piece.span, f"there is no piece `{piece.text}`", piece.text, known)
                continue
            own = self._edge(name, item.own.words, item.own.span)
            other = self._edge(piece.text, rest, item.other.span) if rest else None
            if not rest:
                self._error("wrong-kind", "an edge is due here", item.other.span, "write PIECE.EDGE")
            if own is not None and other is not None:
                yield own, other

    def _mirrored(self, name: str, beside: Iterable[nodes.LayBeside]) -> Iterable[str]:
        for item in beside:
            word = item.other.words[0]
            if item.what == "mirrored" and self.knows(word):
                if word.text == name:
                    self._error(
                        "wrong-kind",
                        "a piece can't be mirrored with itself",
                        word.span,
                        "write `cut pair` in the piece",
                    )
                else:
                    yield word.text

    def _layers(self, word: nodes.Word) -> int:
        number = int(word.text) if word.text.isdigit() and len(word.text) == 1 else 0
        if not 1 <= number <= MOST_LAYERS:
            self._error("wrong-kind", "cloth is cut in one layer or in two", word.span, "write layers 1 or layers 2")
        return number

    def _said_once(self, items: Sequence[nodes.LayItem]) -> None:
        for again in items[1:]:
            self._findings.add(
                Finding(
                    "said-twice",
                    "this is said twice of one piece",
                    again.span,
                    others=(Label(items[0].span, "first said here"),),
                    help="keep one of them",
                )
            )

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._findings.add(Finding("unknown-name", headline, span, help=meant_or_known(name, known)))

    def _error(self, slug: str, headline: str, span: Span, help: str) -> None:
        self._findings.add(Finding(slug, headline, span, help=help))
