"""The nodes of values: numbers, names, points, moves, conditions, and lines drawn from point to point."""

from __future__ import annotations

from garmentc.record import Record
from garmentc.source import Span


class Word(Record):
    """A name or keyword as written."""

    text: str
    span: Span


class Text(Record):
    """A quoted text, without its quotes."""

    text: str
    span: Span


# ---- values


class Quantity(Record):
    """A number with its unit: ``value`` in mm, radians, or as a plain ratio; ``unit`` as written ("" for none)."""

    span: Span
    value: float
    unit: str


class Ref(Record):
    """A name, or a name inside a name: ``front.side.length``.

    Of an edge, ``hand`` says whether that of the left or right half or piece is meant, and ``copy`` of which copy.
    """

    span: Span
    words: tuple[Word, ...]
    hand: str = ""
    copy: int = 0

    @property
    def dotted(self) -> str:
        """The name as it is written, with the instance that is meant."""
        return of_one(".".join(word.text for word in self.words), self.hand, self.copy)


def of_one(dotted: str, hand: str, copy: int) -> str:
    """The name of an edge with the instances of its piece that are meant, as a spec writes it."""
    return (f"{hand} " if hand else "") + dotted + (f" of copy {copy}" if copy else "")


class Call(Record):
    span: Span
    function: Word
    arguments: tuple[Expr, ...]


class At(Record):
    """A point given by its distances right and up of the origin."""

    span: Span
    x: Expr
    y: Expr


class Move(Record):
    """``base`` moved ``up|down|left|right`` by ``amount``."""

    span: Span
    base: Expr
    way: str
    amount: Expr


class MoveToward(Record):
    """``base`` moved toward ``target`` by a length, or by a share of the way."""

    span: Span
    base: Expr
    target: Expr
    amount: Expr


class MoveHeading(Record):
    """``base`` moved in the direction ``angle`` (from right, turning left) by ``amount``."""

    span: Span
    base: Expr
    angle: Expr
    amount: Expr


class MoveBy(Record):
    """``base`` moved ``square`` to a line or curve, to its left, or ``along`` it, by ``amount``."""

    span: Span
    base: Expr
    way: str
    line: Ref
    amount: Expr


class Arithmetic(Record):
    """``sign`` is one of ``+ - * /``."""

    span: Span
    sign: str
    left: Expr
    right: Expr


class Negative(Record):
    span: Span
    operand: Expr


class Compare(Record):
    """``sign`` is one of ``== != < <= > >=``."""

    span: Span
    sign: str
    left: Expr
    right: Expr


class Chosen(Record):
    """Whether a choice stands at an option."""

    span: Span
    choice: Expr
    option: Word


class Logic(Record):
    """``word`` is ``and`` or ``or``."""

    span: Span
    word: str
    left: Expr
    right: Expr


class Not(Record):
    span: Span
    operand: Expr


class If(Record):
    span: Span
    condition: Expr
    then: Expr
    otherwise: Expr


class Direction(Record):
    """A direction of a curve at its end.

    ``way`` is ``up``, ``down``, ``left``, ``right``, ``heading`` (operand: an angle), ``toward`` (a point),
    ``square`` or ``along`` (an edge, curve or line).
    """

    span: Span
    way: str
    operand: Expr | None


class CurveShape(Record):
    """A smooth curve, through further points, with directions at its ends."""

    span: Span
    through: tuple[Expr, ...]
    leaving: Direction | None
    arriving: Direction | None


class ArcShape(Record):
    """A circular arc that bows out of the piece (``bulge``) or into it (``hollow``).

    ``amount`` is its depth, as a length or a share of the chord; or the radius when ``by_radius``.
    """

    span: Span
    bow: str
    by_radius: bool
    amount: Expr


class ArcThrough(Record):
    """The circular arc through a third point."""

    span: Span
    point: Expr


class Row(Record):
    """A row of a table: the value that belongs to a key."""

    span: Span
    key: Expr
    value: Expr


class Lookup(Record):
    """A value read off a table by another: between two rows in proportion, or when ``stepped`` from the row below.

    When ``held``, the first and last row count beyond the ends too.
    """

    span: Span
    by: Expr
    stepped: bool
    held: bool
    rows: tuple[Row, ...]


Shape = CurveShape | ArcShape | ArcThrough


class Stroke(Record):
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
    | Lookup
)
