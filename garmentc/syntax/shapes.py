"""Statements that shape a piece, as nodes of the syntax tree."""

from __future__ import annotations

from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax.values import Expr, Ref, Shape, Word


class Dart(Record):
    """Cloth taken up from an edge to a tip: ``taking`` is the width at the edge, or the angle at the tip.

    Without it, its legs begin at the places ``at`` and ``second``.

    ``bow`` is ``bulge`` or ``hollow`` for curved legs that leave the straight line by ``depth``; ``pressed`` is the
    way its cloth lies once it is sewn.
    """

    span: Span
    name: Word
    edge: Ref
    at: Expr
    tip: Expr
    taking: Expr | None
    bow: str | None
    depth: Expr | None
    pressed: str | None
    second: Expr | None = None


class Tuck(Record):
    """A fold sewn ``deep`` from its edge and for a ``long`` stretch inward, square to the edge it begins at."""

    span: Span
    name: Word
    edge: Ref
    at: Expr
    deep: Expr
    long: Expr
    pressed: str | None


class Pleats(Record):
    """Folds laid in a stretch of an edge: ``way`` is ``knife``, ``box`` or ``inverted``."""

    span: Span
    name: Word
    edge: Ref
    first: Expr
    last: Expr
    number: int
    way: str
    deep: Expr
    pressed: str | None


class Pivot(Record):
    """A dart, or a ``share`` of it called ``part``, moved to another place by turning the piece about its tip."""

    span: Span
    dart: Word
    edge: Ref
    at: Expr
    share: Expr | None
    part: Word | None


class Divide(Record):
    """A dart made two of half its width, ``by`` apart; the second along the edge is called ``part``."""

    span: Span
    dart: Word
    by: Expr
    part: Word


class Shorten(Record):
    """The tip of a dart drawn back toward its edge."""

    span: Span
    dart: Word
    by: Expr


class Close(Record):
    """A dart that runs from edge to edge laid together in the paper, so that it is no dart any more."""

    span: Span
    dart: Word


class Spread(Record):
    """The piece cut from one edge to another and opened: alongside, or about the second place when ``hinged``."""

    span: Span
    name: Word
    first: Ref
    first_at: Expr
    second: Ref
    second_at: Expr
    by: Expr
    hinged: bool


class Redraw(Record):
    """An edge drawn anew between its ends; ``closed``: with its darts and folds closed, which then open again."""

    span: Span
    edge: Word
    closed: bool
    shape: Shape | None


class Part(Record):
    """A part of an edge, between two places of it, made an edge of its own; what is left keeps the old name."""

    span: Span
    name: Word
    edge: Ref
    first: Expr
    last: Expr


Shaping = Dart | Tuck | Pleats | Pivot | Divide | Shorten | Close | Spread | Redraw | Part
