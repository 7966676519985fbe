"""The lines of seam types and finishes, stitches and sections, as nodes of the syntax tree."""

from __future__ import annotations

from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax.values import At, Expr, Text, Word


class Stitch(Record):
    span: Span
    code: str
    title: Text
    thread: Expr


class ClassItem(Record):
    span: Span
    text: Text


class Turning(Record):
    """What a seam type encloses, closes or opens.

    It ``encloses`` what is turned, ``closes`` the opening left for that, or ``opens`` when the garment is put on.
    """

    span: Span
    word: str


class Allowance(Record):
    span: Span
    value: Expr


class Corner(Record):
    span: Span
    word: str


class Folds(Record):
    """Depths of the strips that are turned in one after the other, from the finished edge outward."""

    span: Span
    depths: tuple[Expr, ...]


class Pass(Record):
    """A row of stitching, ``width`` from the edge it is guided by."""

    span: Span
    width: Expr
    stitch: Word
    text: Text


class Action(Record):
    """Something done by hand or iron: ``word`` is pin, trim, clip, press, turn or do."""

    span: Span
    word: str
    text: Text


class Tools(Record):
    span: Span
    names: tuple[Text, ...]


class Binding(Record):
    """The cut width of the strip that binds the edge."""

    span: Span
    width: Expr


class Drawn(Record):
    """A line of a section: ``word`` is layer (with a name, and at which ends it goes on), row or gap."""

    span: Span
    word: str
    name: Word | None
    points: tuple[At, ...]
    goes_on: tuple[bool, bool] = (False, False)


class Section(Record):
    """A picture of a seam type or finish cut across: ``of`` is ``seam`` or ``finish``, ``name`` the type's."""

    span: Span
    of: str
    name: Word
    title: Text
    lines: tuple[Drawn, ...]
