# ruff: noqa: I001
"""The syntax tree: statements, with the values of ``values.py``. Every node carries the span it was read from."""

from __future__ import annotations

from garmentc.record import Record
from garmentc.source import Source, Span
from garmentc.syntax.jointypes import (
    Action as Action,
    Allowance as Allowance,
    Binding as Binding,
    ClassItem as ClassItem,
    Corner as Corner,
    Drawn as Drawn,
    Folds as Folds,
    Pass as Pass,
    Section as Section,
    Stitch as Stitch,
    Tools as Tools,
    Turning as Turning,
)
from garmentc.syntax.lays import (
    Lay as Lay,
    LayBeside as LayBeside,
    LayGrain as LayGrain,
    LayItem as LayItem,
    LayJoins as LayJoins,
    LayMotif as LayMotif,
    LayOn as LayOn,
    LayPlace as LayPlace,
)
from garmentc.syntax.reuse import (
    Argument as Argument,
    Function as Function,
    Parameter as Parameter,
    Use as Use,
    When as When,
)
from garmentc.syntax.shapes import (
    Close as Close,
    Dart as Dart,
    Divide as Divide,
    Part as Part,
    Pivot as Pivot,
    Pleats as Pleats,
    Redraw as Redraw,
    Shaping as Shaping,
    Shorten as Shorten,
    Spread as Spread,
    Tuck as Tuck,
)
from garmentc.syntax.values import (
    ArcShape as ArcShape,
    ArcThrough as ArcThrough,
    Arithmetic as Arithmetic,
    At as At,
    Call as Call,
    Chosen as Chosen,
    Compare as Compare,
    CurveShape as CurveShape,
    Direction as Direction,
    Expr as Expr,
    If as If,
    Logic as Logic,
    Lookup as Lookup,
    Move as Move,
    MoveBy as MoveBy,
    MoveHeading as MoveHeading,
    MoveToward as MoveToward,
    Negative as Negative,
    Not as Not,
    Quantity as Quantity,
    Ref as Ref,
    Row as Row,
    Shape as Shape,
    Stroke as Stroke,
    Text as Text,
    Word as Word,
)

# ---- what the garment is and depends on


class Header(Record):
    """Which garment a file holds; ``base`` is the file it varies, if it does."""

    span: Span
    name: Word
    title: Text
    base: Text | None


class Edition(Record):
    span: Span
    number: str


class Measure(Record):
    """A body measure that the garment depends on; kind and description only for the spec's own measures."""

    span: Span
    name: Word
    kind: Word | None
    description: Text | None


class Range(Record):
    span: Span
    least: Expr
    most: Expr


class Param(Record):
    """``given`` is what takes the place of its value without changing its kind."""

    span: Span
    name: Word
    value: Expr
    range: Range | None
    description: Text | None
    given: Expr | None = None


class Choice(Record):
    span: Span
    name: Word
    options: tuple[Word, ...]
    value: Word
    description: Text | None


class Ease(Record):
    span: Span
    name: Word
    value: Expr
    range: Range | None
    description: Text | None
    given: Expr | None = None


class Define(Record):
    span: Span
    name: Word
    value: Expr


# ---- pieces and strips


class Cut(Record):
    """How many to cut: ``fold`` names the edge that lies on the fold; a pair is one and its mirror image."""

    span: Span
    number: int
    fold: Word | None
    pair: bool


class Grain(Record):
    """``thread`` is ``straight``, ``cross`` or ``bias``; ``along`` the line it is meant against (else: up)."""

    span: Span
    thread: str
    along: Expr | None


class Edge(Record):
    span: Span
    name: Word
    value: Expr


class Outline(Record):
    span: Span
    edges: tuple[Edge | When[Edge], ...]


class Keep(Record):
    """Cut a piece along ``line`` and keep one side; the new edge is called ``name``.

    With ``edges``, what is kept is a band along them, and ``line`` is its width.
    """

    span: Span
    side: str
    line: Expr
    name: Word
    edges: tuple[Ref, ...] = ()


class Grow(Record):
    """A part of the piece mirrored over one of its straight edges, which becomes a fold."""

    span: Span
    name: Word
    across: Word
    keep: Keep


class Notch(Record):
    """Slits in an edge, side by side."""

    span: Span
    edge: Ref
    at: Expr
    slits: int


class Mark(Record):
    span: Span
    name: Word
    at: Expr
    text: Text | None


class Guide(Record):
    """A line to draw inside a piece; where it ``is_fold`` the cloth is folded along it."""

    span: Span
    name: Word
    value: Expr
    text: Text | None
    is_fold: bool = False


class Lengthen(Record):
    """A line at which a piece is made longer or shorter."""

    span: Span
    name: Word
    at: Expr
    text: Text | None


class ButtonRow(Record):
    """Buttons, or the buttonholes for them, at equal distances: ``kind`` is ``buttons`` or ``buttonholes``.

    ``size`` is the width of a button or the length of a buttonhole; one that is not ``lengthwise`` lies across the row.
    """

    span: Span
    kind: str
    name: Word
    first: Expr
    last: Expr
    number: Expr
    size: Expr
    lengthwise: bool
    text: Text | None


class Uneven(Record):
    """An edge that is meant to change unevenly from size to size, and why."""

    span: Span
    edge: Ref
    reason: Text


class Interfaced(Record):
    """A layer of interfacing on the wrong side of each copy of a piece, with its allowances or without."""

    span: Span
    text: Text
    with_allowances: bool


class Apart(Record):
    """A piece that is meant to be sewn to no other, and why."""

    span: Span
    reason: Text


PieceItem = (
    Cut
    | Grain
    | Define
    | Outline
    | Keep
    | Grow
    | Notch
    | Mark
    | Guide
    | Lengthen
    | ButtonRow
    | Interfaced
    | Uneven
    | Apart
    | Shaping
)
PieceLine = PieceItem | When["PieceLine"]


class Piece(Record):
    """A piece; one that is not ``made`` belongs to a block, for others to be taken from."""

    span: Span
    name: Word
    title: Text
    parent: Word | None
    items: tuple[PieceLine, ...]
    made: bool = True


class StripLength(Record):
    span: Span
    value: Expr


class StripWidth(Record):
    span: Span
    value: Expr


class StripMake(Record):
    """``way`` is ``tube``, ``quartered``, ``flat`` or ``bought``; ``stitched`` how far the seam is from the edge."""

    span: Span
    way: str
    stitched: Expr | None


StripItem = Cut | Grain | StripLength | StripWidth | StripMake | When["StripItem"]


class Strip(Record):
    span: Span
    name: Word
    title: Text
    items: tuple[StripItem, ...]
    made: bool = True


# ---- joining


class Insert(Record):
    """A strip caught in a seam: by one end, or ``folded`` by both; ``inside`` lies on the wrong side of the cloth."""

    span: Span
    strip: Word
    folded: bool
    inside: bool
    at: Ref


class Change(Record):
    span: Span
    name: Word
    value: Expr


class SeamEase(Record):
    """How the first side meets the second: by ``ease``, a length, or ``gathered`` or ``stretched``.

    The longer one is then so many times as long as the other.
    """

    span: Span
    amount: Expr
    within: Expr | None
    how: str


class Parts(Record):
    """The strip that binds an edge is cut of parts, none longer than this."""

    span: Span
    longest: Expr


class Draw(Record):
    """What is drawn through a casing: a strip of the garment, or an elastic or cord with its length and width."""

    span: Span
    strip: Word | None
    text: Text | None
    length: Expr | None
    width: Expr | None


class AllowedCorner(Record):
    """An edge that is meant to turn a corner where it goes on from an end of the seam, and why."""

    span: Span
    edge: Ref
    text: Text | None


class Smooth(Record):
    """The kink up to which a line counts as smooth where it crosses an end of the seam."""

    span: Span
    within: Expr


class Leave(Record):
    """An opening that a seam leaves, ``wide`` with its middle ``at`` a place of the first side; ``type`` closes it."""

    span: Span
    wide: Expr
    at: Expr
    type: Word | None


FinishItem = Change | Parts | Draw | When["FinishItem"]
SeamItem = Insert | Change | SeamEase | Parts | AllowedCorner | Smooth | Leave | When["SeamItem"]


class Seam(Record):
    """Two sides sewn to each other; each side is a chain of edges, one after the other.

    Without a ``second`` side the first is sewn to its own mirror image. ``layers`` are further sides that the same
    stitching takes in.
    """

    span: Span
    name: Word
    first: tuple[Ref, ...]
    second: tuple[Ref, ...] | None
    layers: tuple[tuple[Ref, ...], ...]
    type: Word
    items: tuple[SeamItem, ...]


class Finish(Record):
    span: Span
    edges: tuple[Ref, ...]
    type: Word
    changes: tuple[FinishItem, ...]


class Check(Record):
    """``severity`` is ``check`` (an error when it fails) or ``warn``."""

    span: Span
    severity: str
    text: Text
    condition: Expr
    within: Expr | None


class Solve(Record):
    """Params found so that equations hold: ``condition`` is one ``==``, or several with ``and``."""

    span: Span
    unknowns: tuple[Word, ...]
    condition: Expr
    within: Expr | None


class Finished(Record):
    span: Span
    name: Word
    text: Text | None
    value: Expr


class Opening(Record):
    """An opening of the sewn garment that an edge belongs to: what has to pass, and by what share it stretches.

    ``opened`` is how far it can be opened by a closure, such as a zip.
    """

    span: Span
    name: Word
    title: Text | None
    edge: Ref
    passes: Expr | None
    stretches: Expr | None
    opened: Expr | None
    by: Text | None


class Step(Record):
    """A step of the maker's own; ``order`` is ``after`` or ``before`` the thing named, with dots where it has some.

    ``edges`` are where it is done.
    """

    span: Span
    name: Word
    text: Text
    order: str | None
    anchor: Word | None
    edges: tuple[Ref, ...]


class Ordering(Record):
    """That one thing is done ``after`` or ``before`` another; both are named with dots where they have some."""

    span: Span
    thing: Word
    order: str
    other: Word


class Alter(Record):
    """A param, ease or choice of the base given another value."""

    span: Span
    target: Ref
    value: Expr


class ReplaceValue(Record):
    """A definition of the base, or an edge of an outline when ``is_edge``, given another value."""

    span: Span
    target: Ref
    value: Expr
    is_edge: bool


class ReplaceBlock(Record):
    """A piece, strip, seam, function, table or block in place of the base's one of the same name."""

    span: Span
    statement: Piece | Strip | Seam | Function | Define | Use


class Drop(Record):
    """Something of the base left out: ``what`` is the word before its name, or before the ``of`` in front of it."""

    span: Span
    what: str
    target: Word | Text | Ref | Ordering


class Extend(Record):
    """Statements added to a piece of the base."""

    span: Span
    piece: Word
    items: tuple[PieceLine, ...]


Variation = Alter | ReplaceValue | ReplaceBlock | Drop | Extend


# ---- seam types, finishes, stitches


TypeItem = ClassItem | Turning | Allowance | Corner | Folds | Define | Pass | Action | Tools | Binding | Check


class JoinType(Record):
    """A seam type (``of`` is ``seam``) or a finish (``of`` is ``finish``)."""

    span: Span
    of: str
    name: Word
    title: Text
    items: tuple[TypeItem, ...]


_Fact = Header | Edition | Measure | Param | Choice | Ease | Define | Function | Use | When["Statement"]
_Made = Piece | Strip | Seam | Finish | Lay | Check | Solve | Finished | Opening | Step | Ordering
_Kept = Stitch | JoinType | Section
Statement = _Fact | _Made | _Kept | Alter | ReplaceValue | ReplaceBlock | Drop | Extend


class Damaged(Record):
    """A statement that could not be read: the name it may have defined, and inside which piece."""

    name: str | None
    inside: str | None
    span: Span


class File(Record):
    """A whole source: its statements, and what could not be read; not ``readable`` when nothing could."""

    source: Source
    statements: tuple[Statement, ...]
    damaged: tuple[Damaged, ...]
    readable: bool = True
