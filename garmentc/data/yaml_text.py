"""YAML text to a tree of nodes.

Only what two people read alike is taken: tables, lists and words. Aliases, tags and words that YAML readers
disagree about become findings; the rest of the tree is still built, so that one run reports all it can.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import yaml

from garmentc.data.nodes import Entry, Items, Leaf, Node, Table, Unclear
from garmentc.data.scalars import other_reading, plain_value
from garmentc.data.words import short
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.reading import UNSHOWABLE
from garmentc.source import Source, Span

try:
    from yaml import CSafeLoader as _Loader
except ImportError:
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

_DEEPEST = 20
_MOST_FINDINGS = 50


def read_nodes(source: Source, findings: Findings) -> Node | None:
    """The tree of a text; an empty text is an empty leaf. None after a fault that leaves no tree.

    Findings: ``yaml-syntax``, ``yaml-feature``, ``yaml-ambiguous``, ``duplicate-key``.
    """
    builder = _Builder(source, findings)
    try:
        for event in yaml.parse(source.text, Loader=_Loader):
            builder.take(event)
    except yaml.YAMLError as fault:
        findings.add(_syntax_finding(source, fault))
        return None
    except _Stop:
        return None
    return builder.root or Leaf(None, source.whole())


class _Stop(Exception):
    """Reading further would be of no use; a finding has been made."""


@dataclass(slots=True)
class _OpenItems:
    """A list being read."""

    span: Span
    nodes: list[Node] = field(default_factory=list)

    def add(self, node: Node) -> None:
        self.nodes.append(node)

    def close(self) -> Node:
        return Items(tuple(self.nodes), self.span)


@dataclass(slots=True)
class _OpenTable:
    """A table being read. A name that was refused is followed by a value that is kept nowhere."""

    span: Span
    entries: dict[str, Entry] = field(default_factory=dict)
    awaits_key: bool = True
    _named: tuple[str, Span] | None = None

    def take_key(self, named: tuple[str, Span] | None) -> None:
        self._named = named
        self.awaits_key = False

    def add(self, node: Node) -> None:
        if self.awaits_key:
            self.take_key(None)
            return
        if self._named is not None:
            name, key = self._named
            self.entries[name] = Entry(key, node)
        self.awaits_key = True

    def close(self) -> Node:
        first = next(iter(self.entries.values()), None)
        return Table(self.entries, first.key if first else self.span)


class _Builder:
    """Takes parser events one by one; with a stack of its own, so that deep nesting does no harm."""

    def __init__(self, source: Source, findings: Findings) -> None:
        self.root: Node | None = None
        self._source = source
        self._findings = findings
        self._made = 0
        self._open: list[_OpenItems | _OpenTable] = []
        self._documents = 0

    def take(self, event: Any) -> None:
        span = self._source.span(event.start_mark.index, event.end_mark.index)
        match event:
            case yaml.ScalarEvent():
                self._scalar(event, span)
            case yaml.MappingStartEvent():
                self._start(_OpenTable(_first_character(span)), event, span)
            case yaml.SequenceStartEvent():
                self._start(_OpenItems(_first_character(span)), event, span)
            case yaml.MappingEndEvent() | yaml.SequenceEndEvent():
                self._put(self._open.pop().close())
            case yaml.AliasEvent():
                self._refuse_feature(
                    f"`*{short(str(event.anchor))}` repeats a value by alias", span, "write the value out here"
                )
                self._put(Unclear(span))
            case yaml.DocumentStartEvent():
                self._documents += 1
                if self._documents > 1:
                    self._refuse_feature(
                        "a second document begins here",
                        span,
                        "keep one document per file; remove the `---`",
                    )
                    raise _Stop

    def _scalar(self, event: Any, span: Span) -> None:
        text: str = event.value
        plain = event.style in (None, "")
        if event.tag is not None:
            self._refuse_tag(event, span)
            self._put(Unclear(span))
        elif UNSHOWABLE.search(text):
            self._refuse_feature("an escape stands for a control character", span, "write visible characters only")
            self._put(Unclear(span))
        elif plain and (reading := self._reading(text)):
            self._report(
                Finding(
                    "yaml-ambiguous",
                    f"`{short(text)}` without quotes has two readings",
                    span,
                    label=f"some tools read this as {reading}, others as text",
                    help=f'write "{short(text)}" in quotes if it is text, a number in plain digits, like 88.5',
                )
            )
            self._put(Unclear(span))
        elif (table := self._table_awaiting_key()) is not None:
            self._key(table, text, span)
        else:
            self._put(Leaf(plain_value(text) if plain else text, span))

    def _reading(self, text: str) -> str | None:
        if self._table_awaiting_key() is not None and text and not isinstance(plain_value(text), str | float):
            return "a truth value or nothing"
        return other_reading(text)

    def _start(self, opened: _OpenItems | _OpenTable, event: Any, span: Span) -> None:
        if len(self._open) >= _DEEPEST:
            self._refuse_feature(
                f"values are nested deeper than {_DEEPEST} levels",
                _first_character(span),
                "check that this is the file you meant: data files need only a few levels",
            )
            raise _Stop
        if event.tag is not None:
            self._refuse_tag(event, span)
        if self._table_awaiting_key() is not None:
            self._refuse_feature(
                "a list or table can't be a name",
                _first_character(span),
                "use a single word before the colon",
            )
        self._open.append(opened)

    def _table_awaiting_key(self) -> _OpenTable | None:
        innermost = self._open[-1] if self._open else None
        return innermost if isinstance(innermost, _OpenTable) and innermost.awaits_key else None

    def _key(self, table: _OpenTable, name: str, span: Span) -> None:
        known = table.entries.get(name)
        table.take_key((name, span) if known is None else None)
        if known is None:
            return
        self._report(
            Finding(
                "duplicate-key",
                f"`{short(name)}` is given twice",
                span,
                label="given again here",
                others=(Label(known.key, "first given here"),),
                help="keep one of the two",
            )
        )

    def _put(self, node: Node) -> None:
        if self._open:
            self._open[-1].add(node)
        else:
            self.root = node

    def _refuse_tag(self, event: Any, span: Span) -> None:
        word = span.text.split(maxsplit=1)[:1]
        self._refuse_feature(
            f"the tag `{short(event.tag)}` is not used here",
            Span(span.source, span.start, span.start + len("".join(word))),
            "remove the word that begins with `!`",
        )

    def _refuse_feature(self, headline: str, span: Span, help: str) -> None:
        self._report(Finding("yaml-feature", headline, span, help=help))

    def _report(self, finding: Finding) -> None:
        self._findings.add(finding)
        self._made += 1
        if self._made >= _MOST_FINDINGS:
            raise _Stop


def _first_character(span: Span) -> Span:
    return Span(span.source, span.start, min(span.start + 1, len(span.source.text)))


_ADVICE = (
    ("'\\t'", "indent with spaces, not with tabs"),
    (
        "cannot start any token",
        "indent with spaces, not with tabs; put text that begins with a sign in quotes",
    ),
    (
        "mapping values are not allowed",
        "put text that holds a colon in quotes; check the indent, and that the line before has its colon",
    ),
    ("quoted scalar", "close the quotes on the same line"),
    ("undefined alias", "write the value out, or put text that begins with `*` in quotes"),
    ("simple key", "write the name, a colon and a space before the value"),
    ("expected ',' or ']'", "close the list with `]` and part its values with commas"),
    ("expected ',' or '}'", "close the table with `}` and part its entries with commas"),
    ("block", "let all names of one table begin in the same column"),
)


def _syntax_finding(source: Source, fault: yaml.YAMLError) -> Finding:
    mark = getattr(fault, "problem_mark", None) or getattr(fault, "context_mark", None)
    at = min(mark.index, max(0, len(source.text) - 1)) if mark is not None else 0
    problem = " ".join(words for words in (getattr(fault, "context", None), getattr(fault, "problem", None)) if words)
    return Finding(
        "yaml-syntax",
        "this is not well-formed YAML",
        _first_character(source.span(at, at)),
        label=problem.replace("'", "`") or "reading stops here",
        help=next(
            (advice for sign, advice in _ADVICE if sign in problem),
            "write `name: value` lines, indented with spaces",
        ),
    )
