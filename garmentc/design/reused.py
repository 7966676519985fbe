"""The kinds of what is used again: functions of a spec's own, and tables."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from garmentc.design import kinds as k
from garmentc.design.functions import CONSTANTS
from garmentc.design.kinds import Kind
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes

if TYPE_CHECKING:
    from garmentc.design.kindcheck import KindChecker, Scope

Once = Callable[[tuple[str, str], Span, Callable[[], Kind]], Kind]


class Handed(Record):
    """What the body of a function may read: its parameters, by name."""

    function: nodes.Function
    kinds: Mapping[str, Kind]


class Reused:
    """Finds the kinds of functions, calls and tables for one ``KindChecker``.

    ``kind`` finds that of a value inside a function, ``once`` keeps what is known and sees rings.
    """

    def __init__(
        self, checker: KindChecker, kind: Callable[[nodes.Expr, Handed], Kind], once: Once, findings: Findings
    ) -> None:
        self._checker = checker
        self._kind = kind
        self._once = once
        self._findings = findings

    # ---- functions

    def body(self, function: nodes.Function) -> Kind:
        """The kind that a function gives; its body is looked into once."""
        return self._once(("function", function.name.text), function.name.span, lambda: self._body(function))

    def _body(self, function: nodes.Function) -> Kind:
        kinds = {one.name.text: k.HANDED[one.kind.text] for one in function.parameters}
        return self._kind(function.value, Handed(function, kinds))

    def handed(self, ref: nodes.Ref, handed: Handed) -> Kind:
        """The kind of a parameter that a body reads; whatever else it reads is a fault."""
        name = ref.words[0].text
        function = handed.function
        if name in handed.kinds:
            self._checker.used.add(parameter_key(function.name.text, name))
            return handed.kinds[name]
        if name in CONSTANTS:
            return k.RATIO
        if not self._checker.is_lost(name):
            written = ref.span.text
            called = f"`{function.name.span.text}`"
            self._findings.add(
                Finding(
                    "function-reads-outside",
                    f"function {called} reads `{written}`, which is not handed to it",
                    ref.span,
                    others=(Label(function.name.span, "a function reads only its parameters"),),
                    help=f"give {called} one more parameter, and write `{written}` where it is called",
                )
            )
        return k.FAULT

    def call(self, call: nodes.Call, function: nodes.Function, found: tuple[Kind, ...]) -> Kind:
        """The kind that a call gives, after a look at what it hands over."""
        self._checker.used.add(function.name.text)
        name = call.function.span.text
        parameters = function.parameters
        if len(found) != len(parameters):
            due = f"{len(parameters)} value{'' if len(parameters) == 1 else 's'}"
            self._findings.add(
                Finding(
                    "wrong-kind",
                    f"`{name}` takes {due}, and here {'is' if len(found) == 1 else 'are'} {len(found)}",
                    call.span,
                    others=(Label(function.name.span, "declared here"),),
                    notes=(f"it is called as {_described(function)}",),
                )
            )
            return k.FAULT
        fitting = [self._fits(name, *one) for one in zip(call.arguments, found, parameters, strict=True)]
        kind = self.body(function)
        return kind if all(fitting) else k.FAULT

    def _fits(self, name: str, value: nodes.Expr, kind: Kind, parameter: nodes.Parameter) -> bool:
        wanted = k.HANDED[parameter.kind.text]
        if any(k.fits(kind, one) for one in (k.LINE_LIKE if wanted == k.LINE else (wanted,))):
            return kind != k.FAULT
        self._findings.add(
            Finding(
                "wrong-kind",
                f"`{parameter.name.text}` of `{name}` has to be {k.a(wanted)}",
                value.span,
                label=f"this is {k.a(kind)}",
                others=(Label(parameter.span, "declared here"),),
                help=k.unit_advice(kind, (wanted,)),
            )
        )
        return False

    # ---- tables

    def lookup(self, table: nodes.Lookup, scope: Scope) -> Kind:
        """The kind of the values in a table, whose keys rise from row to row."""
        by = self._checker.expect(table.by, k.QUANTITIES, scope, "what a table is read by")
        if len(table.rows) < 2:
            if not self._checker.has_hole(table.span):
                self._rows(table.span, "a table has two rows or more", help="write a plain value where there is one")
            return k.FAULT
        wanted = k.RATIO if by == k.COUNT else by
        keys = [self._checker.expect(row.key, wanted, scope, "what a row begins with") for row in table.rows]
        known = k.FAULT not in (by, *keys)
        for before, after in zip(table.rows, table.rows[1:], strict=False):
            if known and literal_value(before.key) >= literal_value(after.key):
                known = False
                self._rows(
                    after.key.span,
                    "the rows of a table have to rise",
                    notes=(f"{after.key.span.text} comes after {before.key.span.text}",),
                    others=(Label(before.key.span, "the row before"),),
                    help="write the rows in order, each once",
                )
        kind = self._values(table, scope)
        if kind == k.COUNT and not table.stepped:  # between two rows it is no whole number
            kind = k.RATIO
        return kind if known else k.FAULT

    def _values(self, table: nodes.Lookup, scope: Scope) -> Kind:
        first, *rest = table.rows
        kind = self._checker.expect(first.value, k.QUANTITIES, scope, "the value of a row")
        for row in rest:
            own = self._checker.expect(row.value, k.QUANTITIES, scope, "the value of a row")
            both = k.together(kind, own)
            if both is None:
                self._findings.add(
                    Finding(
                        "wrong-kind",
                        "the values of a table have to be of one kind",
                        row.value.span,
                        label=f"this is {k.a(own)}",
                        others=(Label(first.value.span, f"this is {k.a(kind)}"),),
                        help=k.unit_advice(own, (kind,)),
                    )
                )
                return k.FAULT
            kind = both
        return kind

    def _rows(
        self, span: Span, headline: str, *, help: str, notes: tuple[str, ...] = (), others: tuple[Label, ...] = ()
    ) -> None:
        self._findings.add(Finding("table-rows", headline, span, others=others, notes=notes, help=help))


def parameter_key(function: str, parameter: str) -> str:
    """How the uses of a parameter are known."""
    return f"{function}({parameter})"


def literal_kind(value: nodes.Expr) -> Kind:
    """The kind of a param, told by the literal it begins with; a computed one is a length."""
    if isinstance(value, nodes.Quantity):
        return k.of_unit(value.unit, value.value)
    if isinstance(value, nodes.Negative):
        return literal_kind(value.operand)
    return k.LENGTH


def literal_value(key: nodes.Expr) -> float:
    """The plain number that a row begins with, in base units."""
    if isinstance(key, nodes.Negative):
        return -literal_value(key.operand)
    assert isinstance(key, nodes.Quantity)
    return key.value


def _described(function: nodes.Function) -> str:
    taken = ", ".join(f"{one.name.text} : {one.kind.text}" for one in function.parameters)
    return f"{function.name.span.text}({taken})"
