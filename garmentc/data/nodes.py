"""The plain tree of a data file, in which every value knows its place."""

from __future__ import annotations

from dataclasses import dataclass

from garmentc.data.scalars import Scalar
from garmentc.source import Span


@dataclass(frozen=True, slots=True)
class Leaf:
    """A word or number."""

    value: Scalar
    span: Span


@dataclass(frozen=True, slots=True)
class Unclear:
    """Something a finding has been made about; nothing more should be said of it."""

    span: Span


@dataclass(frozen=True, slots=True)
class Items:
    """A list; ``span`` is where it opens."""

    nodes: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of a table: where its name stands, and its value."""

    key: Span
    node: Node

    @property
    def span(self) -> Span:
        """Where to point for the value: at the word itself, or at the name of a list, a table or nothing."""
        points_to_itself = isinstance(self.node, Leaf | Unclear) and self.node.span.end > self.node.span.start
        return self.node.span if points_to_itself else self.key


@dataclass(frozen=True, slots=True)
class Table:
    """Names and their values; ``span`` is its first name, or where it opens when it is empty."""

    entries: dict[str, Entry]
    span: Span


Node = Leaf | Unclear | Items | Table
