"""Statements about how pieces lie on the cloth, as nodes of the syntax tree."""

from __future__ import annotations

from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax.values import Expr, Ref, Text, Word


class LayPlace(Record):
    """What lies where on the cloth: an edge on a finished ``edge``, or a point on a ``corner``."""

    span: Span
    what: str
    ref: Ref


class LayGrain(Record):
    """The grains a piece may have, and how far off it may lie."""

    span: Span
    words: tuple[str, ...]
    within: Expr | None


class LayJoins(Record):
    """Of how many parts more than one a strip may be cut, and between which places on it they may be joined."""

    span: Span
    number: int
    first: Expr | None
    last: Expr | None


class LayMotif(Record):
    """A named place of the cloth whose middle shall come to lie at a point of the piece."""

    span: Span
    name: Text
    at: Expr
    within: Expr | None


class LayBeside(Record):
    """How a piece lies in regard to another: ``match`` at two edges, or ``mirrored``; the other one is named first."""

    span: Span
    what: str
    other: Ref
    own: Ref | None


class LayOn(Record):
    """Through how many ``layers`` a piece is cut, or from which ``cloth``."""

    span: Span
    what: str
    word: Word


LayItem = LayPlace | LayGrain | LayJoins | LayMotif | LayBeside | LayOn


class Lay(Record):
    """How pieces or strips lie on the cloth."""

    span: Span
    names: tuple[Word, ...]
    items: tuple[LayItem, ...]
