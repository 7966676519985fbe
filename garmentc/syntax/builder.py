"""Builds the syntax tree from what the parser reduced: one method for each rule of the grammar."""

from __future__ import annotations

from typing import Any

from garmentc.syntax import nodes
from garmentc.syntax.tokens import Extent as Meta
from garmentc.syntax.tokens import Token
from garmentc.syntax.valuebuilder import Children, ValueBuilder, dotted

_LONGEST_COUNT = 6


class TreeBuilder(ValueBuilder):
    """Turns what the parser reduces into nodes; ``source`` is the text being read."""

    def start(self, meta: Meta, children: Children) -> tuple[nodes.Statement, ...]:
        return flat(children)

    def setting(self, meta: Meta, children: Children) -> nodes.Expr:
        value: nodes.Expr = children[0]
        return value

    # ---- what the garment is and depends on

    def header(self, meta: Meta, children: Children) -> nodes.Header:
        name, title, base = children
        return nodes.Header(self.span(meta), self.word(name), self.text(title), base)

    def varies(self, meta: Meta, children: Children) -> nodes.Text:
        return self.text(children[0])

    def edition(self, meta: Meta, children: Children) -> nodes.Edition:
        return nodes.Edition(self.span(meta), str(children[0]))

    def measure(self, meta: Meta, children: Children) -> tuple[nodes.Measure, ...]:
        return tuple(children)

    def measured(self, meta: Meta, children: Children) -> nodes.Measure:
        name, own = children
        kind, description = own or (None, None)
        return nodes.Measure(self.span(meta), self.word(name), kind, description)

    def own(self, meta: Meta, children: Children) -> tuple[nodes.Word, nodes.Text]:
        return self.word(children[0]), self.text(children[1])

    def param(self, meta: Meta, children: Children) -> nodes.Param:
        name, value, limits, description = children
        return nodes.Param(self.span(meta), self.word(name), value, limits, self.maybe_text(description))

    def choice(self, meta: Meta, children: Children) -> nodes.Choice:
        name, *options, value, description = children
        return nodes.Choice(
            self.span(meta),
            self.word(name),
            tuple(self.word(option) for option in options),
            self.word(value),
            self.maybe_text(description),
        )

    def ease(self, meta: Meta, children: Children) -> nodes.Ease:
        name, value, limits, description = children
        return nodes.Ease(self.span(meta), self.word(name), value, limits, self.maybe_text(description))

    def range(self, meta: Meta, children: Children) -> nodes.Range:
        return nodes.Range(self.span(meta), *children)

    def define(self, meta: Meta, children: Children) -> nodes.Define:
        return nodes.Define(self.span(meta), self.word(children[0]), children[1])

    def when(self, meta: Meta, children: Children) -> nodes.When[Any]:
        condition, *statements = children
        return nodes.When(self.span(meta), condition, flat(statements))

    def function(self, meta: Meta, children: Children) -> nodes.Function:
        name, *parameters, value = children
        taken = tuple(one for one in parameters if one is not None)
        return nodes.Function(self.span(meta), self.word(name), taken, value)

    def parameter(self, meta: Meta, children: Children) -> nodes.Parameter:
        return nodes.Parameter(self.span(meta), self.word(children[0]), self.word(children[1]))

    def table(self, meta: Meta, children: Children) -> nodes.Define:
        name, by, stepped, held, *rows = children
        span = self.span(meta)
        value = nodes.Lookup(span, by, stepped is not None, held is not None, tuple(rows))
        return nodes.Define(span, self.word(name), value)

    def table_row(self, meta: Meta, children: Children) -> nodes.Row:
        return nodes.Row(self.span(meta), *children)

    def use(self, meta: Meta, children: Children) -> nodes.Use:
        name, path, *arguments = children
        given = tuple(one for one in arguments if one is not None)
        return nodes.Use(self.span(meta), self.word(name), self.text(path), given)

    def argument(self, meta: Meta, children: Children) -> nodes.Argument:
        return nodes.Argument(self.span(meta), *children)

    # ---- pieces and strips

    def piece(self, meta: Meta, children: Children) -> nodes.Piece:
        name, title, parent, *items = children
        return nodes.Piece(
            self.span(meta),
            self.word(name),
            self.text(title),
            parent,
            tuple(items),
        )

    def draft(self, meta: Meta, children: Children) -> nodes.Piece:
        return self.piece(meta, children)._replace(made=False)

    def parent(self, meta: Meta, children: Children) -> nodes.Word:
        return dotted(children[0])

    def cut(self, meta: Meta, children: Children) -> nodes.Cut:
        number, fold = children
        return nodes.Cut(self.span(meta), whole(number), None if fold is None else self.word(fold), False)

    def cut_pair(self, meta: Meta, children: Children) -> nodes.Cut:
        return nodes.Cut(self.span(meta), 1, None, True)

    def grain(self, meta: Meta, children: Children) -> nodes.Grain:
        return nodes.Grain(self.span(meta), str(children[0]), children[1])

    def outline(self, meta: Meta, children: Children) -> nodes.Outline:
        return nodes.Outline(self.span(meta), tuple(children))

    def edge(self, meta: Meta, children: Children) -> nodes.Edge:
        return nodes.Edge(self.span(meta), self.word(children[0]), children[1])

    def keep(self, meta: Meta, children: Children) -> nodes.Keep:
        side, line, name = children
        return nodes.Keep(self.span(meta), str(side), line, self.word(name))

    def keep_within(self, meta: Meta, children: Children) -> nodes.Keep:
        width, edges, name = children
        return nodes.Keep(self.span(meta), "within", width, self.word(name), edges)

    def grow(self, meta: Meta, children: Children) -> nodes.Grow:
        name, across, side, line, edge = children
        span = self.span(meta)
        kept = nodes.Keep(span, str(side), line, self.word(edge))
        return nodes.Grow(span, self.word(name), self.word(across), kept)

    def notch(self, meta: Meta, children: Children) -> nodes.Notch:
        double, edge, at = children
        return nodes.Notch(self.span(meta), edge, at, 1 if double is None else 2)

    def mark(self, meta: Meta, children: Children) -> nodes.Mark:
        name, at, text = children
        return nodes.Mark(self.span(meta), self.word(name), at, self.maybe_text(text))

    def guide(self, meta: Meta, children: Children) -> nodes.Guide:
        name, value, folded, text = children
        return nodes.Guide(self.span(meta), self.word(name), value, self.maybe_text(text), folded is not None)

    def lengthen(self, meta: Meta, children: Children) -> nodes.Lengthen:
        name, at, text = children
        return nodes.Lengthen(self.span(meta), self.word(name), at, self.maybe_text(text))

    def button_row(self, meta: Meta, children: Children) -> nodes.ButtonRow:
        kind, name, first, last, number, size, text = children
        return nodes.ButtonRow(
            self.span(meta), str(kind), self.word(name), first, last, number, size, False, self.maybe_text(text)
        )

    def buttonhole_row(self, meta: Meta, children: Children) -> nodes.ButtonRow:
        *row, lengthwise, text = children
        return self.button_row(meta, [*row, text])._replace(lengthwise=lengthwise is not None)

    def dart(self, meta: Meta, children: Children) -> nodes.Dart:
        name, edge, at, tip, taking, legs, pressed = children
        bow, depth = legs or (None, None)
        return nodes.Dart(self.span(meta), self.word(name), edge, at, tip, taking, bow, depth, pressed)

    def dart_between(self, meta: Meta, children: Children) -> nodes.Dart:
        name, edge, first, second, tip, legs, pressed = children
        bow, depth = legs or (None, None)
        return nodes.Dart(self.span(meta), self.word(name), edge, first, tip, None, bow, depth, pressed, second)

    def divide(self, meta: Meta, children: Children) -> nodes.Divide:
        dart, by, part = children
        return nodes.Divide(self.span(meta), self.word(dart), by, self.word(part))

    def shorten(self, meta: Meta, children: Children) -> nodes.Shorten:
        return nodes.Shorten(self.span(meta), self.word(children[0]), children[1])

    def close(self, meta: Meta, children: Children) -> nodes.Close:
        return nodes.Close(self.span(meta), self.word(children[0]))

    def legs(self, meta: Meta, children: Children) -> tuple[str, nodes.Expr]:
        return str(children[0]), children[1]

    def tuck(self, meta: Meta, children: Children) -> nodes.Tuck:
        name, edge, at, deep, long, pressed = children
        return nodes.Tuck(self.span(meta), self.word(name), edge, at, deep, long, pressed)

    def pleats(self, meta: Meta, children: Children) -> nodes.Pleats:
        name, edge, first, last, number, way, deep, pressed = children
        return nodes.Pleats(self.span(meta), self.word(name), edge, first, last, whole(number), str(way), deep, pressed)

    def pressed(self, meta: Meta, children: Children) -> str:
        return str(children[0])

    def pivot(self, meta: Meta, children: Children) -> nodes.Pivot:
        dart, edge, at, share, part = children
        return nodes.Pivot(self.span(meta), self.word(dart), edge, at, share, None if part is None else self.word(part))

    def spread(self, meta: Meta, children: Children) -> nodes.Spread:
        name, first, first_at, second, second_at, by, hinged = children
        return nodes.Spread(
            self.span(meta), self.word(name), first, first_at, second, second_at, by, hinged is not None
        )

    def part(self, meta: Meta, children: Children) -> nodes.Part:
        name, edge, first, last = children
        return nodes.Part(self.span(meta), self.word(name), edge, first, last)

    def redraw(self, meta: Meta, children: Children) -> nodes.Redraw:
        name, closed, *shape = children
        return nodes.Redraw(self.span(meta), self.word(name), closed is not None, shape[0] if shape else None)

    def uneven(self, meta: Meta, children: Children) -> nodes.Uneven:
        return nodes.Uneven(self.span(meta), children[0], self.text(children[1]))

    def interfaced(self, meta: Meta, children: Children) -> nodes.Interfaced:
        text, allowances = children
        return nodes.Interfaced(self.span(meta), self.text(text), allowances is not None)

    def apart(self, meta: Meta, children: Children) -> nodes.Apart:
        return nodes.Apart(self.span(meta), self.text(children[0]))

    def strip(self, meta: Meta, children: Children) -> nodes.Strip:
        name, title, *items = children
        return nodes.Strip(
            self.span(meta),
            self.word(name),
            self.text(title),
            tuple(items),
        )

    def strip_length(self, meta: Meta, children: Children) -> nodes.StripLength:
        return nodes.StripLength(self.span(meta), children[0])

    def strip_width(self, meta: Meta, children: Children) -> nodes.StripWidth:
        return nodes.StripWidth(self.span(meta), children[0])

    def strip_make(self, meta: Meta, children: Children) -> nodes.StripMake:
        return nodes.StripMake(self.span(meta), str(children[0]), children[1])

    # ---- joining

    def seam(self, meta: Meta, children: Children) -> nodes.Seam:
        name, first, second, *rest = children
        kind = next(i for i, one in enumerate(rest) if isinstance(one, Token))
        return nodes.Seam(
            self.span(meta),
            self.word(name),
            first,
            second,
            tuple(rest[:kind]),
            self.word(rest[kind]),
            tuple(rest[kind + 1 :]),
        )

    def its_mirror(self, meta: Meta, children: Children) -> None:
        return None

    def chain(self, meta: Meta, children: Children) -> tuple[nodes.Ref, ...]:
        return tuple(children)

    def of_one(self, meta: Meta, children: Children) -> nodes.Ref:
        *hand, ref, number = children
        copy = 0 if number is None else whole(number) or -1
        return nodes.Ref(self.span(meta), ref.words, str(hand[0]) if hand else "", copy)

    def insert(self, meta: Meta, children: Children) -> nodes.Insert:
        strip, folded, inside, at = children
        return nodes.Insert(self.span(meta), self.word(strip), folded is not None, inside is not None, at)

    def change(self, meta: Meta, children: Children) -> nodes.Change:
        return nodes.Change(self.span(meta), self.word(children[0]), children[1])

    def seam_ease(self, meta: Meta, children: Children) -> nodes.SeamEase:
        return nodes.SeamEase(self.span(meta), children[0], children[1], "ease")

    def seam_gather(self, meta: Meta, children: Children) -> nodes.SeamEase:
        return nodes.SeamEase(self.span(meta), children[0], children[1], "gathered")

    def seam_stretch(self, meta: Meta, children: Children) -> nodes.SeamEase:
        return nodes.SeamEase(self.span(meta), children[0], children[1], "stretched")

    def allowed_corner(self, meta: Meta, children: Children) -> nodes.AllowedCorner:
        edge, text = children
        return nodes.AllowedCorner(self.span(meta), edge, None if text is None else self.text(text))

    def smooth(self, meta: Meta, children: Children) -> nodes.Smooth:
        return nodes.Smooth(self.span(meta), children[0])

    def leave(self, meta: Meta, children: Children) -> nodes.Leave:
        wide, at, kind = children
        return nodes.Leave(self.span(meta), wide, at, None if kind is None else self.word(kind))

    def finish(self, meta: Meta, children: Children) -> nodes.Finish:
        edges, kind, *changes = children
        return nodes.Finish(self.span(meta), edges, self.word(kind), tuple(changes))

    def parts(self, meta: Meta, children: Children) -> nodes.Parts:
        return nodes.Parts(self.span(meta), children[0])

    def draw(self, meta: Meta, children: Children) -> nodes.Draw:
        text, long, wide = children
        return nodes.Draw(self.span(meta), None, self.text(text), long, wide)

    def draw_strip(self, meta: Meta, children: Children) -> nodes.Draw:
        return nodes.Draw(self.span(meta), self.word(children[0]), None, None, None)

    def refs(self, meta: Meta, children: Children) -> tuple[nodes.Ref, ...]:
        return tuple(children)

    # ---- how the pieces lie on the cloth

    def lay(self, meta: Meta, children: Children) -> nodes.Lay:
        names = tuple(self.word(one) for one in children if isinstance(one, Token))
        return nodes.Lay(self.span(meta), names, tuple(one for one in children if not isinstance(one, Token)))

    def lay_edge(self, meta: Meta, children: Children) -> nodes.LayPlace:
        return nodes.LayPlace(self.span(meta), "edge", children[0])

    def lay_corner(self, meta: Meta, children: Children) -> nodes.LayPlace:
        return nodes.LayPlace(self.span(meta), "corner", children[0])

    def lay_grain(self, meta: Meta, children: Children) -> nodes.LayGrain:
        *words, within = children
        return nodes.LayGrain(self.span(meta), tuple(map(str, words)), within)

    def lay_joins(self, meta: Meta, children: Children) -> nodes.LayJoins:
        number, first, last = children
        return nodes.LayJoins(self.span(meta), whole(number), first, last)

    def lay_motif(self, meta: Meta, children: Children) -> nodes.LayMotif:
        name, at, within = children
        return nodes.LayMotif(self.span(meta), self.text(name), at, within)

    def lay_match(self, meta: Meta, children: Children) -> nodes.LayBeside:
        own, other = children
        return nodes.LayBeside(self.span(meta), "match", other, own)

    def lay_mirrored(self, meta: Meta, children: Children) -> nodes.LayBeside:
        other = self.word(children[0])
        return nodes.LayBeside(self.span(meta), "mirrored", nodes.Ref(other.span, (other,)), None)

    def lay_layers(self, meta: Meta, children: Children) -> nodes.LayOn:
        return nodes.LayOn(self.span(meta), "layers", self.word(children[0]))

    def lay_cloth(self, meta: Meta, children: Children) -> nodes.LayOn:
        return nodes.LayOn(self.span(meta), "cloth", self.word(children[0]))

    def check(self, meta: Meta, children: Children) -> nodes.Check:
        severity, text, condition, within = children
        return nodes.Check(self.span(meta), str(severity), self.text(text), condition, within)

    def solve(self, meta: Meta, children: Children) -> nodes.Solve:
        unknowns, condition, within = children
        return nodes.Solve(self.span(meta), tuple(dotted(name) for name in unknowns), condition, within)

    def opening(self, meta: Meta, children: Children) -> nodes.Opening:
        name, title, edge, passes, stretches, opened, by = children
        return nodes.Opening(
            self.span(meta),
            self.word(name),
            self.maybe_text(title),
            edge,
            passes,
            stretches,
            opened,
            self.maybe_text(by),
        )

    def finished(self, meta: Meta, children: Children) -> nodes.Finished:
        name, text, value = children
        return nodes.Finished(self.span(meta), self.word(name), self.maybe_text(text), value)

    def step(self, meta: Meta, children: Children) -> nodes.Step:
        name, text, placing, edges = children
        order, anchor = placing or (None, None)
        return nodes.Step(self.span(meta), self.word(name), self.text(text), order, anchor, tuple(edges or ()))

    def placing(self, meta: Meta, children: Children) -> tuple[str, nodes.Word]:
        return str(children[0]), dotted(children[1])

    def ordering(self, meta: Meta, children: Children) -> nodes.Ordering:
        thing, order, other = children
        return nodes.Ordering(self.span(meta), dotted(thing), str(order), dotted(other))

    # ---- one garment as a variant of another

    def alter(self, meta: Meta, children: Children) -> nodes.Alter:
        return nodes.Alter(self.span(meta), children[0], children[1])

    def replace_define(self, meta: Meta, children: Children) -> nodes.ReplaceValue:
        return nodes.ReplaceValue(self.span(meta), children[0], children[1], False)

    def replace_edge(self, meta: Meta, children: Children) -> nodes.ReplaceValue:
        return nodes.ReplaceValue(self.span(meta), children[0], children[1], True)

    def replace_block(self, meta: Meta, children: Children) -> nodes.ReplaceBlock:
        return nodes.ReplaceBlock(self.span(meta), children[0])

    def drop(self, meta: Meta, children: Children) -> nodes.Drop:
        return nodes.Drop(self.span(meta), str(children[0]), self.word(children[1]))

    def drop_finish(self, meta: Meta, children: Children) -> nodes.Drop:
        return nodes.Drop(self.span(meta), "finish", children[-1])

    def drop_lay(self, meta: Meta, children: Children) -> nodes.Drop:
        return nodes.Drop(self.span(meta), "lay", self.word(children[0]))

    def drop_order(self, meta: Meta, children: Children) -> nodes.Drop:
        thing, order, other = children
        dropped = nodes.Ordering(self.span(meta), dotted(thing), str(order), dotted(other))
        return nodes.Drop(self.span(meta), "order", dropped)

    def drop_check(self, meta: Meta, children: Children) -> nodes.Drop:
        return nodes.Drop(self.span(meta), str(children[0]), self.text(children[1]))

    def extend(self, meta: Meta, children: Children) -> nodes.Extend:
        return nodes.Extend(self.span(meta), self.word(children[0]), tuple(children[1:]))

    # ---- seam types, finishes, stitches

    def stitch(self, meta: Meta, children: Children) -> nodes.Stitch:
        code, title, thread = children
        return nodes.Stitch(self.span(meta), str(code), self.text(title), thread)

    def seam_type(self, meta: Meta, children: Children) -> nodes.JoinType:
        return self._join_type("seam", meta, children)

    def finish_type(self, meta: Meta, children: Children) -> nodes.JoinType:
        return self._join_type("finish", meta, children)

    def _join_type(self, of: str, meta: Meta, children: Children) -> nodes.JoinType:
        name, title, *items = children
        return nodes.JoinType(
            self.span(meta),
            of,
            self.word(name),
            self.text(title),
            tuple(items),
        )

    def class_item(self, meta: Meta, children: Children) -> nodes.ClassItem:
        return nodes.ClassItem(self.span(meta), self.text(children[0]))

    def turning(self, meta: Meta, children: Children) -> nodes.Turning:
        return nodes.Turning(self.span(meta), str(children[0]))

    def allowance(self, meta: Meta, children: Children) -> nodes.Allowance:
        return nodes.Allowance(self.span(meta), children[0])

    def corner(self, meta: Meta, children: Children) -> nodes.Corner:
        return nodes.Corner(self.span(meta), str(children[0]))

    def folds(self, meta: Meta, children: Children) -> nodes.Folds:
        return nodes.Folds(self.span(meta), tuple(children))

    def pass_item(self, meta: Meta, children: Children) -> nodes.Pass:
        width, stitch, text = children
        return nodes.Pass(self.span(meta), width, self.word(stitch), self.text(text))

    def action(self, meta: Meta, children: Children) -> nodes.Action:
        return nodes.Action(self.span(meta), str(children[0]), self.text(children[1]))

    def tools(self, meta: Meta, children: Children) -> nodes.Tools:
        return nodes.Tools(self.span(meta), tuple(self.text(name) for name in children))

    def binding(self, meta: Meta, children: Children) -> nodes.Binding:
        return nodes.Binding(self.span(meta), children[0])

    def section(self, meta: Meta, children: Children) -> nodes.Section:
        of, name, title, *lines = children
        return nodes.Section(self.span(meta), str(of), self.word(name), self.text(title), tuple(lines))

    def layer(self, meta: Meta, children: Children) -> nodes.Drawn:
        name, starts, *points, ends = children
        goes_on = (starts is not None, ends is not None)
        return nodes.Drawn(self.span(meta), "layer", self.word(name), tuple(points), goes_on)

    def row(self, meta: Meta, children: Children) -> nodes.Drawn:
        return nodes.Drawn(self.span(meta), "row", None, tuple(children))

    def gap(self, meta: Meta, children: Children) -> nodes.Drawn:
        return nodes.Drawn(self.span(meta), "gap", None, tuple(children))


def flat(statements: list[Any]) -> tuple[nodes.Statement, ...]:
    """One ``measure`` line declares several measures; everything else is one statement."""
    found: list[nodes.Statement] = []
    for statement in statements:
        if type(statement) is tuple:
            found.extend(statement)
        else:
            found.append(statement)
    return tuple(found)


def whole(number: Token) -> int:
    """A number of things; 0 for what is no whole number or beyond any use."""
    return int(number) if str(number).isdigit() and len(number) <= _LONGEST_COUNT else 0
