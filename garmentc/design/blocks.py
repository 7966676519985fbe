"""Brings in what a garment takes from the blocks of other files.

The statements of a block join those of the garment under names with the block's name in front: `bodice.front`. Only
what the garment takes comes along, with what that depends on; pieces of a block are rules to take from, and not made.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from garmentc.design.naming import Locals, each, flat, names_inside, names_of, prefixed, rewritten, words_in
from garmentc.diagnostics.finding import Finding, Findings, Label, Severity
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Damaged, File, Statement

Read = Callable[[nodes.Use], File | None]
_TAKEN = (
    nodes.Measure,
    nodes.Param,
    nodes.Choice,
    nodes.Ease,
    nodes.Define,
    nodes.Function,
    nodes.Piece,
    nodes.Strip,
    nodes.Check,
    nodes.Solve,
    nodes.When,
)


class Whole(Record):
    """A file, and the statements that its blocks bring."""

    own: File
    brought: tuple[Statement, ...]

    def file(self) -> File:
        """All of it, as a block that another file may take from."""
        return self.own._replace(statements=(*self.own.statements, *self.brought))


def with_blocks(file: File, read: Read, findings: Findings) -> Whole:
    """A file with all of its blocks; ``read`` gives the file of one, with its own blocks, or None after a finding."""
    work = _Blocks(file, findings)
    for statement in file.statements:
        if isinstance(statement, nodes.Use):
            work.bring(statement, read)
        elif isinstance(statement, nodes.When):
            for inner in flat((statement,)):
                if isinstance(inner, nodes.Use):
                    work.misplaced(inner)
    return work.whole()


def only_taken(whole: Whole, findings: Findings) -> File:
    """A garment without what it does not take from its blocks; a block that it takes nothing from is told."""
    own = whole.own.statements
    kept, taken = _kept(own, whole.brought)
    if not findings.has_errors:
        for use in own:
            if isinstance(use, nodes.Use) and not any(name.startswith(f"{use.name.text}.") for name in taken):
                findings.add(
                    Finding(
                        "unused-name",
                        f"nothing uses the block `{use.name.text}`",
                        use.name.span,
                        help="take a piece or a value from it, or drop it",
                        severity=Severity.WARNING,
                    )
                )
    solves = [one for one in kept if isinstance(one, nodes.Solve)]  # first: the garment may need what they find
    others = [one for one in kept if not isinstance(one, nodes.Solve)]
    return whole.own._replace(statements=(*solves, *own, *others))


class _Blocks:
    """The blocks of one file; ``_names`` are what they hold by the name of the block, None where that is not known."""

    def __init__(self, file: File, findings: Findings) -> None:
        self._file = file
        self._findings = findings
        self._names: dict[str, set[str] | None] = {}
        self._brought: dict[str, tuple[Statement, ...]] = {}
        self._arguments: list[tuple[nodes.Use, nodes.Argument]] = []
        self._damaged: list[Damaged] = list(file.damaged)

    def bring(self, use: nodes.Use, read: Read) -> None:
        """Read a block and put it under its name."""
        name = use.name.text
        if name in self._names:  # the second of one name is reported where names are gathered
            return
        block = read(use)
        if block is None or not block.readable:
            self._names[name] = None
            return
        self._brought[name] = prefixed(tuple(one for one in block.statements if isinstance(one, _TAKEN)), name)
        lost = [
            Damaged(f"{name}.{one.name}", None if one.inside is None else f"{name}.{one.inside}", one.span)
            for one in block.damaged
            if one.name
        ]
        self._names[name] = names_of(self._brought[name]) | {one.name for one in lost if one.name}
        self._damaged += lost
        given: dict[str, Span] = {}
        for argument in use.arguments:
            target = _target(argument)
            first = given.setdefault(target, argument.target.span)
            if first is argument.target.span:
                self._arguments.append((use, argument))
            else:
                others = (Label(first, "first given here"),)
                self._error(
                    "said-twice", f"`{target}` is given twice", argument.target.span, "keep one of them", others
                )

    def misplaced(self, use: nodes.Use) -> None:
        """Report a block that would come and go with a choice."""
        self._names.setdefault(use.name.text, None)
        self._error(
            "use-in-when",
            "a block is brought in for the whole garment",
            use.span,
            "move `use` out of `when`: nothing of a block is made until a piece takes it",
        )

    def whole(self) -> Whole:
        """The file and its blocks, params given their values, names of blocks as one word."""
        for use, argument in self._arguments:
            self._give(use, argument)
        brought = tuple(one for statements in self._brought.values() for one in statements)
        pieces = Locals((*self._file.statements, *brought))
        own = tuple(rewritten(one, pieces, self._joined) for one in self._file.statements)
        return Whole(self._file._replace(statements=own, damaged=tuple(self._damaged)), brought)

    # ---- arguments

    def _give(self, use: nodes.Use, argument: nodes.Argument) -> None:
        """Give a param, ease or choice of a block its value."""
        block, target = use.name.text, _target(argument)
        settable: list[str] = []

        def given(one: Statement) -> Statement:
            if not isinstance(one, nodes.Param | nodes.Ease | nodes.Choice):
                return one
            settable.append(one.name.text.removeprefix(f"{block}."))
            if settable[-1] != target:
                return one
            if isinstance(one, nodes.Choice):
                return self._chosen(one, argument)
            value: nodes.Expr = rewritten(argument.value, Locals(()), self._joined)
            return one._replace(given=value)

        self._brought[block] = each(self._brought[block], given)
        if target not in settable and f"{block}.{target}" not in (self._names[block] or ()):
            headline = f"the block `{block}` has no param, ease or choice `{target}`"
            self._error("unknown-name", headline, argument.target.span, meant_or_known(target, settable))
        elif target not in settable and not any(one.name == f"{block}.{target}" for one in self._damaged):
            self._error(
                "wrong-kind",
                f"`{target}` of the block `{block}` can't be given",
                argument.target.span,
                "only a param, an ease or a choice takes a value from outside",
            )

    def _chosen(self, choice: nodes.Choice, argument: nodes.Argument) -> nodes.Choice:
        value = argument.value
        if isinstance(value, nodes.Ref) and len(value.words) == 1:
            return choice._replace(value=value.words[0])
        options = ", ".join(f"`{word.text}`" for word in choice.options)
        self._error("wrong-kind", f"`{_target(argument)}` is a choice", value.span, f"write one of {options}")
        return choice

    # ---- names

    def _joined(self, words: tuple[nodes.Word, ...]) -> tuple[nodes.Word, ...]:
        """The words of a name, with those that lead into a block as one."""
        parts = [part for word in words for part in word.text.split(".")]
        block = parts[0]
        if block not in self._names or (len(words) == 1 and parts[1:] and words[0].text in (self._names[block] or ())):
            return words
        known = self._names[block]
        for count in range(len(words), 1, -1):
            name = ".".join(parts[:count])
            if known is not None and name in known:
                return nodes.Word(name, words[0].span.to(words[count - 1].span)), *words[count:]
        name = ".".join(parts[:2])
        self._damaged.append(Damaged(name, None, words[0].span))  # has its finding here, and no consequences
        if known is not None:
            inside = sorted(one.removeprefix(f"{block}.") for one in known)
            span, meant = words[min(1, len(words) - 1)].span, ".".join(parts[1:2])
            headline = f"the block `{block}` has nothing called `{meant}`" if meant else f"`{block}` is a whole block"
            help = (
                meant_or_known(meant, inside) if meant else f"name something in it: {block}.{next(iter(inside), '…')}"
            )
            self._error("unknown-name", headline, span, help)
        return nodes.Word(name, words[0].span.to(words[-1].span)), *words[2:]

    def _error(self, slug: str, headline: str, span: Span, help: str, others: tuple[Label, ...] = ()) -> None:
        self._findings.add(Finding(slug, headline, span, others=others, help=help))


def _target(argument: nodes.Argument) -> str:
    return ".".join(word.text for word in argument.target.words)


def _kept(own: Iterable[Statement], brought: tuple[Statement, ...]) -> tuple[tuple[Statement, ...], set[str]]:
    """What of the brought statements the own ones reach, and the names by which they do."""
    needed: dict[str, list[frozenset[str]]] = {}
    waiting = [word for one in own for word in words_in(one)]
    for statement, conditions in _with_conditions(brought):
        for name in _declared(statement):
            needed.setdefault(name, []).append(words_in(statement) | conditions | _hidden(statement))
        if getattr(statement, "given", None) is not None:  # what is given has to fit, used or not
            waiting += _declared(statement)
    reached: set[str] = set()
    while waiting:
        name = waiting.pop()
        if name in needed and name not in reached:
            reached.add(name)
            waiting += [word for words in needed[name] for word in words]
    measures = {one.name.text: one.description for one in flat(own) if isinstance(one, nodes.Measure)}

    def stays(one: Statement) -> Statement | None:
        if isinstance(one, nodes.Check):
            words = {word for word in words_in(one) if word in needed}
            return one if words and words <= reached | measures.keys() else None
        if isinstance(one, nodes.Measure):
            return one if one.name.text in reached and _is_new(one, measures) else None
        return one if any(name in reached for name in _declared(one)) else None

    return tuple(_without_empty(each(brought, stays))), reached


def _without_empty(statements: Iterable[Statement]) -> Iterator[Statement]:
    """The statements without a `when` that holds none."""
    for statement in statements:
        if isinstance(statement, nodes.When):
            statement = statement._replace(statements=tuple(_without_empty(statement.statements)))
        if not isinstance(statement, nodes.When) or statement.statements:
            yield statement


def _is_new(measure: nodes.Measure, measures: dict[str, nodes.Text | None]) -> bool:
    """Whether a measure is not yet asked for, in the same words."""
    name = measure.name.text
    if name in measures:
        known = measures[name]
        return (known and known.text) != (measure.description and measure.description.text)
    measures[name] = measure.description
    return True


def _hidden(statement: Statement) -> set[str]:
    """The names of its block that a piece would hide with names of its own: they come along, so that it is told."""
    if not isinstance(statement, nodes.Piece):
        return set()
    block = statement.name.text.rpartition(".")[0]
    return {f"{block}.{name}" for name in names_inside(statement)}


def _declared(statement: Statement) -> tuple[str, ...]:
    """The names by which a statement of a block is reached: a solve by those of what it finds."""
    if isinstance(statement, nodes.Solve):
        return tuple(word.text for word in statement.unknowns)
    name = getattr(statement, "name", None)
    return (name.text,) if isinstance(name, nodes.Word) else ()


def _with_conditions(
    statements: Iterable[Statement], around: frozenset[str] = frozenset()
) -> Iterator[tuple[Statement, frozenset[str]]]:
    """All statements, inside `when` too, with the names that the conditions around them ask for."""
    for statement in statements:
        if isinstance(statement, nodes.When):
            yield from _with_conditions(statement.statements, around | words_in(statement.condition))
        else:
            yield statement, around
