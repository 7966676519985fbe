"""Works a variant into the garment it varies: values set, things replaced, dropped and added."""

from __future__ import annotations

from collections.abc import Callable, Iterable

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
            self._change(type(new), new.name.text, lambda old: new, new.name.span, type(new).__name__.lower())
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
        name = ".".join(words)

        def altered(old: Statement) -> Statement:
            if isinstance(old, nodes.Choice):
                value = alter.value
                option = value.words[0] if isinstance(value, nodes.Ref) else None
                return old if option is None else old._replace(value=option)
            assert isinstance(old, nodes.Param)
            return old._replace(value=alter.value)

        self._change((nodes.Param, nodes.Choice), name, altered, alter.target.span, "param, ease or choice")

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
        elif drop.what == "lay":
            assert isinstance(target, nodes.Word)
            self._drop_lay(target)
        elif drop.what in ("check", "warn"):
            assert isinstance(target, nodes.Text)
            before = self.statements
            self.statements = _each(
                before, lambda one: None if isinstance(one, nodes.Check) and one.text.text == target.text else one
            )
            if self.statements == before:
                known = [one.text.text for one in _flat(before) if isinstance(one, nodes.Check)]
                self._unknown(target.span, "the base has no such check", target.text, known)
        else:
            self._change(_BY_WORD[drop.what], target.text, lambda old: None, target.span, drop.what)

    def _drop_finish(self, target: nodes.Ref) -> None:
        wanted = tuple(word.text for word in target.words)
        found = False

        def without(one: Statement) -> Statement | None:
            nonlocal found
            if not isinstance(one, nodes.Finish):
                return one
            left = tuple(edge for edge in one.edges if tuple(word.text for word in edge.words) != wanted)
            found = found or len(left) < len(one.edges)
            return one._replace(edges=left) if left else None

        self.statements = _each(self.statements, without)
        if not found:
            self._unknown(target.span, f"the base has no finish of `{'.'.join(wanted)}`", "", ())

    def _drop_lay(self, target: nodes.Word) -> None:
        before = self.statements

        def without(one: Statement) -> Statement | None:
            if not isinstance(one, nodes.Lay):
                return one
            left = tuple(word for word in one.names if word.text != target.text)
            return one._replace(names=left) if left else None

        self.statements = _each(before, without)
        if self.statements == before:
            known = [word.text for one in _flat(before) if isinstance(one, nodes.Lay) for word in one.names]
            self._unknown(target.span, f"the base has no lay of `{target.text}`", target.text, known)

    # ---- finding what is meant

    def _change(self, kind: type | tuple[type, ...], name: str, change: Change, span: Span, what: str) -> None:
        kinds = kind if isinstance(kind, tuple) else (kind,)
        named = [one for one in _flat(self.statements) if isinstance(one, kinds)]
        names = [_name(one) for one in named]
        if name not in names:
            if name not in self._lost:
                eases = [one.name.text for one in _flat(self.statements) if isinstance(one, nodes.Ease)]
                also = [f"ease.{one}" for one in eases] if nodes.Param in kinds else []
                self._unknown(span, f"the base has no {what} `{name}`", name, [*names, *also])
            return
        self.statements = _each(
            self.statements,
            lambda one: change(one) if isinstance(one, kinds) and _name(one) == name else one,
        )

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._findings.add(Finding("unknown-name", headline, span, help=meant_or_known(name, known)))


def _with_item(
    piece: nodes.Piece, word: nodes.Word, replaced: nodes.ReplaceValue
) -> tuple[tuple[nodes.PieceItem, ...], bool, list[str]]:
    """The lines of a piece with one definition or edge replaced, whether it was there, and what is."""
    items: list[nodes.PieceItem] = []
    known: list[str] = []
    found = False
    for item in piece.items:
        if replaced.is_edge and isinstance(item, nodes.Outline):
            edges = []
            for edge in item.edges:
                known.append(edge.name.text)
                same = edge.name.text == word.text
                found = found or same
                edges.append(nodes.Edge(replaced.span, word, replaced.value) if same else edge)
            items.append(item._replace(edges=tuple(edges)))
        elif not replaced.is_edge and isinstance(item, nodes.Define):
            known.append(item.name.text)
            same = item.name.text == word.text
            found = found or same
            items.append(nodes.Define(replaced.span, word, replaced.value) if same else item)
        else:
            items.append(item)
    return tuple(items), found, known


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


def _flat(statements: Iterable[Statement]) -> Iterable[Statement]:
    for statement in statements:
        if isinstance(statement, nodes.When):
            yield from _flat(statement.statements)
        else:
            yield statement


def _each(statements: Iterable[Statement], change: Change) -> tuple[Statement, ...]:
    """All statements changed one by one, inside ``when`` too; None drops one."""
    found: list[Statement] = []
    for statement in statements:
        if isinstance(statement, nodes.When):
            found.append(statement._replace(statements=_each(statement.statements, change)))
        elif (changed := change(statement)) is not None:
            found.append(changed)
    return tuple(found)
