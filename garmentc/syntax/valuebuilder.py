"""Builds the values in the syntax tree: one method for each rule of the grammar that gives one."""

from __future__ import annotations

import math
from typing import Any

from garmentc.numbers import MM_PER_UNIT
from garmentc.source import Source, Span
from garmentc.syntax import nodes
from garmentc.syntax.tokens import Extent as Meta
from garmentc.syntax.tokens import Token

Children = list[Any]


class ValueBuilder:
    """What a ``TreeBuilder`` does with values; ``source`` is the text being read."""

    def __init__(self, source: Source) -> None:
        self.source = source

    def span(self, meta: Meta) -> Span:
        if meta.start_pos is None or meta.end_pos is None:
            return Span(self.source, 0, 0)
        return Span(self.source, meta.start_pos, min(meta.end_pos, len(self.source.text)))  # a mended `}` lies behind

    def word(self, token: Token) -> nodes.Word:
        start = token.start_pos
        return nodes.Word(str(token), Span(self.source, start, start + len(token)))

    def text(self, token: Token) -> nodes.Text:
        start = token.start_pos
        return nodes.Text(str(token)[1:-1], Span(self.source, start, start + len(token)))

    def maybe_text(self, token: Token | None) -> nodes.Text | None:
        return None if token is None else self.text(token)

    def path(self, meta: Meta, children: Children) -> nodes.Stroke:
        start, end, *shape = children
        return nodes.Stroke(self.span(meta), start, end, shape[0] if shape else None)

    def curve(self, meta: Meta, children: Children) -> nodes.CurveShape:
        found: dict[str, Any] = dict(children)
        return nodes.CurveShape(self.span(meta), found.get("through", ()), found.get("leaving"), found.get("arriving"))

    def through(self, meta: Meta, children: Children) -> tuple[str, Any]:
        return "through", tuple(children)

    def leaving(self, meta: Meta, children: Children) -> tuple[str, Any]:
        return "leaving", children[0]

    def arriving(self, meta: Meta, children: Children) -> tuple[str, Any]:
        return "arriving", children[0]

    def plain_way(self, meta: Meta, children: Children) -> nodes.Direction:
        return nodes.Direction(self.span(meta), str(children[0]), None)

    def heading_way(self, meta: Meta, children: Children) -> nodes.Direction:
        return nodes.Direction(self.span(meta), "heading", children[0])

    def toward_way(self, meta: Meta, children: Children) -> nodes.Direction:
        return nodes.Direction(self.span(meta), "toward", children[0])

    def square_way(self, meta: Meta, children: Children) -> nodes.Direction:
        return nodes.Direction(self.span(meta), "square", children[-1])

    def along_way(self, meta: Meta, children: Children) -> nodes.Direction:
        return nodes.Direction(self.span(meta), "along", children[0])

    def arc(self, meta: Meta, children: Children) -> nodes.ArcShape:
        bow, radius, amount = children
        return nodes.ArcShape(self.span(meta), str(bow), radius is not None, amount)

    def arc_through(self, meta: Meta, children: Children) -> nodes.ArcThrough:
        return nodes.ArcThrough(self.span(meta), children[0])

    def choose(self, meta: Meta, children: Children) -> nodes.If:
        return nodes.If(self.span(meta), *children)

    def either(self, meta: Meta, children: Children) -> nodes.Logic:
        return nodes.Logic(self.span(meta), "or", *children)

    def both(self, meta: Meta, children: Children) -> nodes.Logic:
        return nodes.Logic(self.span(meta), "and", *children)

    def negation(self, meta: Meta, children: Children) -> nodes.Not:
        return nodes.Not(self.span(meta), children[0])

    def compare(self, meta: Meta, children: Children) -> nodes.Compare:
        left, sign, right = children
        return nodes.Compare(self.span(meta), bare(sign), left, right)

    def chosen(self, meta: Meta, children: Children) -> nodes.Chosen:
        return nodes.Chosen(self.span(meta), children[0], self.word(children[1]))

    def move(self, meta: Meta, children: Children) -> nodes.Move:
        base, way, amount = children
        return nodes.Move(self.span(meta), base, str(way), amount)

    def move_toward(self, meta: Meta, children: Children) -> nodes.MoveToward:
        return nodes.MoveToward(self.span(meta), *children)

    def move_heading(self, meta: Meta, children: Children) -> nodes.MoveHeading:
        return nodes.MoveHeading(self.span(meta), *children)

    def move_square(self, meta: Meta, children: Children) -> nodes.MoveBy:
        return nodes.MoveBy(self.span(meta), children[0], "square", *children[-2:])

    def move_along(self, meta: Meta, children: Children) -> nodes.MoveBy:
        return nodes.MoveBy(self.span(meta), children[0], "along", *children[-2:])

    def add(self, meta: Meta, children: Children) -> nodes.Arithmetic:
        left, sign, right = children
        return nodes.Arithmetic(self.span(meta), bare(sign), left, right)

    multiply = add

    def negative(self, meta: Meta, children: Children) -> nodes.Expr:
        sign, operand = children
        if bare(sign) == "+":
            value: nodes.Expr = operand
            return value
        return nodes.Negative(self.span(meta), operand)

    def quantity(self, meta: Meta, children: Children) -> nodes.Quantity:
        value, unit = read_quantity(str(children[0]))
        return nodes.Quantity(self.span(meta), value, unit)

    def number(self, meta: Meta, children: Children) -> nodes.Quantity:
        return nodes.Quantity(self.span(meta), float(children[0]), "")

    def ref(self, meta: Meta, children: Children) -> nodes.Ref:
        return nodes.Ref(self.span(meta), tuple(self.word(token) for token in children))

    def call(self, meta: Meta, children: Children) -> nodes.Call:
        name, *arguments = children
        return nodes.Call(self.span(meta), dotted(name), tuple(value for value in arguments if value is not None))

    def point(self, meta: Meta, children: Children) -> nodes.At:
        return nodes.At(self.span(meta), *children)


def dotted(ref: nodes.Ref) -> nodes.Word:
    """A name inside a block as one word."""
    return nodes.Word(ref.dotted, ref.span)


def bare(sign: Token) -> str:
    """An operator without the line end it may have swallowed."""
    return str(sign).split("#", 1)[0].strip()


def read_quantity(text: str) -> tuple[float, str]:
    """A number with its unit in base units: mm, radians, or a ratio for a percentage."""
    number = text.rstrip("abcdefghijklmnopqrstuvwxyz%")
    unit = text[len(number) :]
    value = sum(_part(part) for part in number.split())
    if unit == "deg":
        return math.radians(value), unit
    if unit == "%":
        return value / 100.0, unit
    return value * MM_PER_UNIT[unit], unit


def _part(text: str) -> float:
    """A number, or a fraction such as 1/2."""
    upper, slash, lower = text.partition("/")
    return float(upper) / float(lower) if slash else float(upper)
