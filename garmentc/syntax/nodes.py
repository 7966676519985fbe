"""The syntax tree. Every node carries the span it was read from; nothing here knows what names mean."""

from __future__ import annotations

from typing import NamedTuple

from garmentc.source import Source, Span


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
    | Arithmetic
    | Negative
    | Compare
    | Chosen
    | Logic
    | Not
    | If
    | Stroke
)


# ---- what the garment is and depends on


class Header(NamedTuple):
    """Which garment a file holds; ``base`` is the file it varies, if it does."""

    span: Span
    name: Word
    title: Text
    base: Text | None


class Edition(NamedTuple):
    span: Span
    number: str


class Measure(NamedTuple):
    """A body measure that the garment depends on; kind and description only for the spec's own measures."""

    span: Span
    name: Word
    kind: Word | None
    description: Text | None


class Range(NamedTuple):
    span: Span
    least: Expr
    most: Expr


class Param(NamedTuple):
    span: Span
    name: Word
    value: Expr
    range: Range | None
    description: Text | None


class Choice(NamedTuple):
    span: Span
    name: Word
    options: tuple[Word, ...]
    value: Word
    description: Text | None


class Ease(NamedTuple):
    span: Span
    name: Word
    value: Expr
    range: Range | None
    description: Text | None


class Define(NamedTuple):
    span: Span
    name: Word
    value: Expr


class When(NamedTuple):
    span: Span
    condition: Expr
    statements: tuple[Statement, ...]


# ---- pieces and strips


class Cut(NamedTuple):
    """How many to cut: ``fold`` names the edge that lies on the fold; a pair is one and its mirror image."""

    span: Span
    number: int
    fold: Word | None
    pair: bool


class Grain(NamedTuple):
    """``thread`` is ``straight``, ``cross`` or ``bias``; ``along`` the line it is meant against (else: up)."""

    span: Span
    thread: str
    along: Expr | None


class Edge(NamedTuple):
    span: Span
    name: Word
    value: Expr


class Outline(NamedTuple):
    span: Span
    edges: tuple[Edge, ...]


class Keep(NamedTuple):
    """Cut a piece along ``line`` and keep one side; the new edge is called ``name``."""

    span: Span
    side: str
    line: Expr
    name: Word


class Grow(NamedTuple):
    """A part of the piece mirrored over one of its straight edges, which becomes a fold."""

    span: Span
    name: Word
    across: Word
    keep: Keep


class Notch(NamedTuple):
    span: Span
    edge: Ref
    at: Expr


class Mark(NamedTuple):
    span: Span
    name: Word
    at: Expr
    text: Text | None


class Guide(NamedTuple):
    span: Span
    name: Word
    value: Expr
    text: Text | None


PieceItem = Cut | Grain | Define | Outline | Keep | Grow | Notch | Mark | Guide


class Piece(NamedTuple):
    span: Span
    name: Word
    title: Text
    parent: Word | None
    items: tuple[PieceItem, ...]


class StripLength(NamedTuple):
    span: Span
    value: Expr


class StripWidth(NamedTuple):
    span: Span
    value: Expr


class StripMake(NamedTuple):
    """``way`` is ``tube``, ``quartered`` or ``flat``; ``stitched`` the distance of the seam from the edge."""

    span: Span
    way: str
    stitched: Expr | None


StripItem = Cut | Grain | StripLength | StripWidth | StripMake | Notch


class Strip(NamedTuple):
    span: Span
    name: Word
    title: Text
    items: tuple[StripItem, ...]


# ---- joining


class Insert(NamedTuple):
    """A strip caught in a seam: by one end, or ``folded`` by both."""

    span: Span
    strip: Word
    folded: bool
    at: Ref


class Change(NamedTuple):
    span: Span
    name: Word
    value: Expr


class SeamEase(NamedTuple):
    span: Span
    amount: Expr
    within: Expr | None


class Seam(NamedTuple):
    """Two sides sewn to each other; each side is a chain of edges, one after the other."""

    span: Span
    name: Word
    first: tuple[Ref, ...]
    second: tuple[Ref, ...]
    type: Word
    items: tuple[Insert | Change | SeamEase, ...]


class Finish(NamedTuple):
    span: Span
    edges: tuple[Ref, ...]
    type: Word
    changes: tuple[Change, ...]


class Check(NamedTuple):
    """``severity`` is ``check`` (an error when it fails) or ``warn``."""

    span: Span
    severity: str
    text: Text
    condition: Expr
    within: Expr | None


class Solve(NamedTuple):
    """Params found so that equations hold: ``condition`` is one ``==``, or several with ``and``."""

    span: Span
    unknowns: tuple[Word, ...]
    condition: Expr
    within: Expr | None


class Finished(NamedTuple):
    span: Span
    name: Word
    text: Text | None
    value: Expr


class Step(NamedTuple):
    """A step of the maker's own; ``order`` is ``after`` or ``before`` the thing named."""

    span: Span
    name: Word
    text: Text
    order: str | None
    anchor: Word | None


# ---- one garment as a variant of another


class Alter(NamedTuple):
    """A param, ease or choice of the base given another value."""

    span: Span
    target: Ref
    value: Expr


class ReplaceValue(NamedTuple):
    """A definition of the base, or an edge of an outline when ``is_edge``, given another value."""

    span: Span
    target: Ref
    value: Expr
    is_edge: bool


class ReplaceBlock(NamedTuple):
    """A piece, strip or seam in place of the base's one of the same name."""

    span: Span
    statement: Piece | Strip | Seam


class Drop(NamedTuple):
    """Something of the base left out: ``what`` is piece, strip, seam, step, finished, check, warn or finish."""

    span: Span
    what: str
    target: Word | Text | Ref


class Extend(NamedTuple):
    """Statements added to a piece of the base."""

    span: Span
    piece: Word
    items: tuple[PieceItem, ...]


Variation = Alter | ReplaceValue | ReplaceBlock | Drop | Extend


# ---- seam types, finishes, stitches


class Stitch(NamedTuple):
    span: Span
    code: str
    title: Text
    thread: Expr


class ClassItem(NamedTuple):
    span: Span
    text: Text


class Allowance(NamedTuple):
    span: Span
    value: Expr


class Corner(NamedTuple):
    span: Span
    word: str


class Folds(NamedTuple):
    """Depths of the strips that are turned in one after the other, from the finished edge outward."""

    span: Span
    depths: tuple[Expr, ...]


class Pass(NamedTuple):
    """A row of stitching, ``width`` from the edge it is guided by."""

    span: Span
    width: Expr
    stitch: Word
    text: Text


class Action(NamedTuple):
    """Something done by hand or iron: ``word`` is pin, trim, clip, press, turn or do."""

    span: Span
    word: str
    text: Text


class Tools(NamedTuple):
    span: Span
    names: tuple[Text, ...]


class Binding(NamedTuple):
    """The cut width of the strip that binds the edge."""

    span: Span
    width: Expr


TypeItem = ClassItem | Allowance | Corner | Folds | Define | Pass | Action | Tools | Binding | Check


class JoinType(NamedTuple):
    """A seam type (``of`` is ``seam``) or a finish (``of`` is ``finish``)."""

    span: Span
    of: str
    name: Word
    title: Text
    items: tuple[TypeItem, ...]


Statement = (
    Header
    | Edition
    | Measure
    | Param
    | Choice
    | Ease
    | Define
    | When
    | Piece
    | Strip
    | Seam
    | Finish
    | Check
    | Solve
    | Finished
    | Step
    | Stitch
    | JoinType
    | Alter
    | ReplaceValue
    | ReplaceBlock
    | Drop
    | Extend
)


class Damaged(NamedTuple):
    """A statement that could not be read: the name it may have defined, and inside which piece."""

    name: str | None
    inside: str | None
    span: Span


class File(NamedTuple):
    """A whole source: its statements, and what could not be read; not ``readable`` when nothing could."""

    source: Source
    statements: tuple[Statement, ...]
    damaged: tuple[Damaged, ...]
    readable: bool = True
