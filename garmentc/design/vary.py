"""Works a variant into the garment it varies: values set, things replaced, dropped and added."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from garmentc.design.naming import each, flat
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Damaged, File, Statement

VARIATIONS = (nodes.Alter, nodes.ReplaceValue, nodes.ReplaceBlock, nodes.Drop, nodes.Extend)
_BY_WORD: dict[str, type] = {
    "piece": nodes.Piece,
    "strip": nodes.Strip,
    "seam": nodes.Seam,
    "step": nodes.Step,
    "finished": nodes.Finished,
    "opening": nodes.Opening,
    "function": nodes.Function,
    "table": nodes.Define,
    "use": nodes.Use,
}
Change = Callable[[Statement], Statement | None]


def vary(file: File, base: File, findings: Findings) -> File:
    """The statements of a base with those of a variant worked in; what names nothing of the base is reported."""
    work = _Variant(base, (*base.damaged, *file.damaged), findings)
    for statement in file.statements:
        if isinstance(statement, VARIATIONS):
            work.apply(statement)
    own = [one for one in file.statements if not isinstance(one, VARIATIONS)]
    kept = [one for one in work.statements if not isinstance(one, nodes.Header | nodes.Edition)]
    return File(file.source, (*own, *kept), (*base.damaged, *file.damaged))


class _Variant:
    def __init__(self, base: File, damaged: Iterable[Damaged], findings: Findings) -> None:
        self.statements = base.statements
        self._lost = {lost.name for lost in damaged}
        self._findings = findings

    def apply(self, variation: nodes.Variation) -> None:
        if isinstance(variation, nodes.Alter):
            self._alter(variation)
        elif isinstance(variation, nodes.ReplaceValue):
            self._replace_value(variation)
        elif isinstance(variation, nodes.ReplaceBlock):
            new = variation.statement
            what = "table" if isinstance(new, nodes.Define) else type(new).__name__.lower()
            self._change(type(new), new.name.text, lambda old: new, new.name.span, what)
        elif isinstance(variation, nodes.Extend):
            added = variation.items
            self._change(
                nodes.Piece,
                variation.piece.text,
                lambda old: _piece(old)._replace(items=(*_piece(old).items, *added)),
                variation.piece.span,
                "piece",
            )
        else:
            self._drop(variation)

    # ---- one kind of variation each

    def _alter(self, alter: nodes.Alter) -> None:
        words = [word.text for word in alter.target.words]
        if len(words) == 2 and words[0] == "ease":
            self._change(
                nodes.Ease, words[1], lambda old: _ease(old)._replace(value=alter.value), alter.target.span, "ease"
            )
            return
        if len(words) > 1 and self._alter_block(alter):
            return
        name = ".".join(words)

        def altered(old: Statement) -> Statement:
            if isinstance(old, nodes.Choice):
                value = alter.value
                option = value.words[0] if isinstance(value, nodes.Ref) else None
                return old if option is None else old._replace(value=option)
            assert isinstance(old, nodes.Param)
            return old._replace(value=alter.value)

        self._change((nodes.Param, nodes.Choice), name, altered, alter.target.span, "param, ease or choice")

    def _alter_block(self, alter: nodes.Alter) -> bool:
        """Whether a value is for something in a block of the base; then the block is given it."""
        block, *inside = alter.target.words
        given = nodes.Argument(alter.span, nodes.Ref(inside[0].span.to(inside[-1].span), tuple(inside)), alter.value)
        wanted = [word.text for word in inside]
        uses = [one for one in flat(self.statements) if isinstance(one, nodes.Use) and one.name.text == block.text]

        def with_value(old: Statement) -> Statement:
            if old not in uses:
                return old
            assert isinstance(old, nodes.Use)
            kept = [one for one in old.arguments if [word.text for word in one.target.words] != wanted]
            return old._replace(arguments=(*kept, given))

        self.statements = each(self.statements, with_value)
        return bool(uses)

    def _replace_value(self, replaced: nodes.ReplaceValue) -> None:
        words = [word.text for word in replaced.target.words]
        span = replaced.target.span
        if len(words) == 1 and not replaced.is_edge:
            self._change(
                nodes.Define,
                words[0],
                lambda old: nodes.Define(replaced.span, replaced.target.words[0], replaced.value),
                span,
                "definition",
            )
            return
        if len(words) != 2:
            self._unknown(span, "`replace` names a definition, or one inside a piece: front.tip", "", ())
            return
        piece, name = words
        word = replaced.target.words[1]

        def within(old: Statement) -> Statement:
            items, found, known = _with_item(_piece(old), word, replaced)
            if not found:
                what = "edge" if replaced.is_edge else "definition"
                self._unknown(word.span, f"piece `{piece}` of the base has no {what} `{name}`", name, known)
            return _piece(old)._replace(items=items)

        self._change(nodes.Piece, piece, within, replaced.target.words[0].span, "piece")

    def _drop(self, drop: nodes.Drop) -> None:
        target = drop.target
        if isinstance(target, nodes.Ref):
            self._drop_finish(target)
        elif isinstance(target, nodes.Ordering):
            self._drop_order(target)
        elif drop.what == "lay":
            assert isinstance(target, nodes.Word)
            self._drop_lay(target)
        elif drop.what in ("check", "warn"):
            assert isinstance(target, nodes.Text)
            before = self.statements
            self.statements = each(
                before, lambda one: None if isinstance(one, nodes.Check) and one.text.text == target.text else one
            )
            if self.statements == before:
                known = [one.text.text for one in flat(before) if isinstance(one, nodes.Check)]
                self._unknown(target.span, "the base has no such check", target.text, known)
        else:
            self._change(_BY_WORD[drop.what], target.text, lambda old: None, target.span, drop.what)

    def _drop_finish(self, target: nodes.Ref) -> None:
        wanted = target.dotted
        found = False

        def without(one: Statement) -> Statement | None:
            nonlocal found
            if not isinstance(one, nodes.Finish):
                return one
            left = tuple(edge for edge in one.edges if edge.dotted != wanted)
            found = found or len(left) < len(one.edges)
            return one._replace(edges=left) if left else None

        self.statements = each(self.statements, without)
        if not found:
            self._unknown(target.span, f"the base has no finish of `{wanted}`", "", ())

    def _drop_order(self, target: nodes.Ordering) -> None:
        """An order is known by what comes earlier and what later, however it is written."""
        before = self.statements
        wanted = _earlier_and_later(target)
        self.statements = each(
            before, lambda one: None if isinstance(one, nodes.Ordering) and _earlier_and_later(one) == wanted else one
        )
        if self.statements == before:
            known = [one.span.text for one in flat(before) if isinstance(one, nodes.Ordering)]
            self._unknown(target.span, "the base asks for no such order", target.span.text, known)

    def _drop_lay(self, target: nodes.Word) -> None:
        before = self.statements

        def without(one: Statement) -> Statement | None:
            if not isinstance(one, nodes.Lay):
                return one
            left = tuple(word for word in one.names if word.text != target.text)
            return one._replace(names=left) if left else None

        self.statements = each(before, without)
        if self.statements == before:
            known = [word.text for one in flat(before) if isinstance(one, nodes.Lay) for word in one.names]
            self._unknown(target.span, f"the base has no lay of `{target.text}`", target.text, known)

    # ---- finding what is meant

    def _change(self, kind: type | tuple[type, ...], name: str, change: Change, span: Span, what: str) -> None:
        kinds = kind if isinstance(kind, tuple) else (kind,)

        def fits(one: Statement) -> bool:
            return isinstance(one, kinds) and (what != "table" or _is_table(one))

        names = [_name(one) for one in flat(self.statements) if fits(one)]
        if name not in names:
            if name not in self._lost:
                eases = [one.name.text for one in flat(self.statements) if isinstance(one, nodes.Ease)]
                also = [f"ease.{one}" for one in eases] if nodes.Param in kinds else []
                self._unknown(span, f"the base has no {what} `{name}`", name, [*names, *also])
            return
        self.statements = each(
            self.statements,
            lambda one: change(one) if fits(one) and _name(one) == name else one,
        )

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._findings.add(Finding("unknown-name", headline, span, help=meant_or_known(name, known)))


def _earlier_and_later(order: nodes.Ordering) -> tuple[str, str]:
    pair = (order.other.text, order.thing.text)
    return pair if order.order == "after" else (pair[1], pair[0])


def _with_item(
    piece: nodes.Piece, word: nodes.Word, replaced: nodes.ReplaceValue
) -> tuple[tuple[nodes.PieceLine, ...], bool, list[str]]:
    """The lines of a piece with one definition or edge replaced, whether it was there, and what is."""
    known: list[str] = []

    def item(old: nodes.PieceLine) -> nodes.PieceLine:
        if isinstance(old, nodes.Outline):
            return old._replace(edges=each(old.edges, edge)) if replaced.is_edge else old
        if replaced.is_edge or not isinstance(old, nodes.Define):
            return old
        known.append(old.name.text)
        return old._replace(span=replaced.span, name=word, value=replaced.value) if known[-1] == word.text else old

    def edge(old: nodes.Edge | nodes.When[nodes.Edge]) -> nodes.Edge | nodes.When[nodes.Edge]:
        assert isinstance(old, nodes.Edge)
        known.append(old.name.text)
        return nodes.Edge(replaced.span, word, replaced.value) if known[-1] == word.text else old

    items = each(piece.items, item)
    return items, word.text in known, known


def _piece(statement: Statement) -> nodes.Piece:
    assert isinstance(statement, nodes.Piece)
    return statement


def _ease(statement: Statement) -> nodes.Ease:
    assert isinstance(statement, nodes.Ease)
    return statement


def _name(statement: Statement) -> str:
    """The name of a statement that has one, or an empty text."""
    name = getattr(statement, "name", None)
    return name.text if isinstance(name, nodes.Word) else ""


def _is_table(statement: Statement) -> bool:
    return isinstance(statement, nodes.Define) and isinstance(statement.value, nodes.Lookup)
