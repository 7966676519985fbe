"""The nodes of values: numbers, names, points, moves, conditions, and lines drawn from point to point."""

from __future__ import annotations

from typing import NamedTuple

from garmentc.source import Span


class Word(NamedTuple):
    """A name or keyword as written."""

    text: str
    span: Span


class Text(NamedTuple):
    """A quoted text, without its quotes."""

    text: str
    span: Span


# ---- values


class Quantity(NamedTuple):
    """A number with its unit: ``value`` in mm, radians, or as a plain ratio; ``unit`` as written ("" for none)."""

    span: Span
    value: float
    unit: str


class Ref(NamedTuple):
    """A name, or a name inside a name: ``front.side.length``."""

    span: Span
    words: tuple[Word, ...]


class Call(NamedTuple):
    span: Span
    function: Word
    arguments: tuple[Expr, ...]


class At(NamedTuple):
    """A point given by its distances right and up of the origin."""

    span: Span
    x: Expr
    y: Expr


class Move(NamedTuple):
    """``base`` moved ``up|down|left|right`` by ``amount``."""

    span: Span
    base: Expr
    way: str
    amount: Expr


class MoveToward(NamedTuple):
    """``base`` moved toward ``target`` by a length, or by a share of the way."""

    span: Span
    base: Expr
    target: Expr
    amount: Expr


class MoveHeading(NamedTuple):
    """``base`` moved in the direction ``angle`` (from right, turning left) by ``amount``."""

    span: Span
    base: Expr
    angle: Expr
    amount: Expr


class MoveBy(NamedTuple):
    """``base`` moved ``square`` to a line or curve, to its left, or ``along`` it, by ``amount``."""

    span: Span
    base: Expr
    way: str
    line: Ref
    amount: Expr


class Arithmetic(NamedTuple):
    """``sign`` is one of ``+ - * /``."""

    span: Span
    sign: str
    left: Expr
    right: Expr


class Negative(NamedTuple):
    span: Span
    operand: Expr


class Compare(NamedTuple):
    """``sign`` is one of ``== != < <= > >=``."""

    span: Span
    sign: str
    left: Expr
    right: Expr


class Chosen(NamedTuple):
    """Whether a choice stands at an option."""

    span: Span
    choice: Expr
    option: Word


class Logic(NamedTuple):
    """``word`` is ``and`` or ``or``."""

    span: Span
    word: str
    left: Expr
    right: Expr


class Not(NamedTuple):
    span: Span
    operand: Expr


class If(NamedTuple):
    span: Span
    condition: Expr
    then: Expr
    otherwise: Expr


class Direction(NamedTuple):
    """A direction of a curve at its end.

    ``way`` is ``up``, ``down``, ``left``, ``right``, ``heading`` (operand: an angle), ``toward`` (a point),
    ``square`` or ``along`` (an edge, curve or line).
    """

    span: Span
    way: str
    operand: Expr | None


class CurveShape(NamedTuple):
    """A smooth curve, through further points, with directions at its ends."""

    span: Span
    through: tuple[Expr, ...]
    leaving: Direction | None
    arriving: Direction | None


class ArcShape(NamedTuple):
    """A circular arc that bows out of the piece (``bulge``) or into it (``hollow``).

    ``amount`` is its depth, as a length or a share of the chord; or the radius when ``by_radius``.
    """

    span: Span
    bow: str
    by_radius: bool
    amount: Expr


class ArcThrough(NamedTuple):
    """The circular arc through a third point."""

    span: Span
    point: Expr


Shape = CurveShape | ArcShape | ArcThrough


class Stroke(NamedTuple):
    """A line drawn from one point to another: straight without a shape."""

    span: Span
    start: Expr
    end: Expr
    shape: Shape | None


Expr = (
    Quantity
    | Ref
    | Call
    | At
    | Move
    | MoveToward
    | MoveHeading
    | MoveBy
    | Arithmetic
    | Negative
    | Compare
    | Chosen
    | Logic
    | Not
    | If
    | Stroke
)
