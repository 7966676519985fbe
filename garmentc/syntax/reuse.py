"""The nodes of what is used again: functions of a spec's own, blocks from other files, statements under a choice."""

from __future__ import annotations

from typing import Generic, TypeVar

from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax.values import Expr, Ref, Text, Word

Held = TypeVar("Held")


class When(Record, Generic[Held]):
    """Statements, lines of a block or edges that count only when choices stand so."""

    span: Span
    condition: Expr
    statements: tuple[Held, ...]


class Parameter(Record):
    """What a function takes: a name, and the word of its kind."""

    span: Span
    name: Word
    kind: Word


class Function(Record):
    """A value that depends on nothing but what is handed to it."""

    span: Span
    name: Word
    parameters: tuple[Parameter, ...]
    value: Expr


class Argument(Record):
    """The value that a param, ease or choice of a block is given: ``target`` is its name inside the block."""

    span: Span
    target: Ref
    value: Expr


class Use(Record):
    """The block of another file, brought in under a name."""

    span: Span
    name: Word
    path: Text
    arguments: tuple[Argument, ...]
