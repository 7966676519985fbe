"""Which statements stand as the choices do: what `when` leaves out is set aside, in pieces and outlines too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from garmentc.design.model import ChoicePlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import File, Statement
from garmentc.syntax.reuse import Held


class Standing:
    """One run over a file. ``asked`` are the choices that a `when` asks, ``aside`` what does not stand."""

    def __init__(self, file: File, choices: Mapping[str, ChoicePlan], findings: Findings) -> None:
        self._file = file
        self._choices = choices
        self._findings = findings
        self.asked: set[str] = set()
        self.aside: list[Span] = []

    def statements(self) -> Iterator[Statement]:
        """The statements of the file that stand, without a `when` in or around them."""
        for statement in self._active(self._file.statements):
            yield self._settled(statement)

    def _settled(self, statement: Statement) -> Statement:
        if isinstance(statement, nodes.Piece):
            return statement._replace(items=tuple(self._line(one) for one in self._active(statement.items)))
        if isinstance(statement, nodes.Strip):
            return statement._replace(items=tuple(self._active(statement.items)))
        if isinstance(statement, nodes.Seam):
            return statement._replace(items=tuple(self._active(statement.items)))
        if isinstance(statement, nodes.Finish):
            return statement._replace(changes=tuple(self._active(statement.changes)))
        return statement

    def _line(self, line: nodes.PieceLine) -> nodes.PieceLine:
        if isinstance(line, nodes.Outline):
            return line._replace(edges=tuple(self._active(line.edges)))
        return line

    def _active(self, held: Iterable[Held]) -> Iterator[Held]:
        for one in held:
            if not isinstance(one, nodes.When):
                yield one
            elif self._holds(one.condition):
                yield from self._active(one.statements)
            else:
                self.aside.append(one.span)

    def _holds(self, condition: nodes.Expr) -> bool:
        """Whether a condition on choices holds; what a garment is made of must not come and go with a measure."""
        if isinstance(condition, nodes.Chosen) and isinstance(condition.choice, nodes.Ref):
            name = condition.choice.words[0].text
            plan = self._choices.get(name)
            self.asked.add(name)
            if plan is not None and len(condition.choice.words) == 1:
                if condition.option.text not in plan.options:
                    self._unknown(
                        condition.option.span,
                        f"the choice `{name}` has no option `{condition.option.text}`",
                        condition.option.text,
                        plan.options,
                    )
                return plan.value == condition.option.text
            if any(lost.name == name for lost in self._file.damaged):
                return False
            if plan is None and not self._declares(name):
                self._unknown(condition.choice.span, f"no choice `{name}` is declared", name, self._choices)
                return False
        elif isinstance(condition, nodes.Logic):
            left, right = self._holds(condition.left), self._holds(condition.right)
            return (left and right) if condition.word == "and" else (left or right)
        elif isinstance(condition, nodes.Not):
            return not self._holds(condition.operand)
        self._findings.add(
            Finding(
                "when-needs-choice",
                "`when` can only ask about a choice",
                condition.span,
                help="declare `param NAME : choice a, b = a` and write `when NAME is a { … }`",
            )
        )
        return False

    def _declares(self, name: str) -> bool:
        """Whether something other than a choice has this name."""
        return any(
            isinstance(getattr(one, "name", None), nodes.Word) and one.name.text == name  # type: ignore[union-attr]
            for one in self._file.statements
        )

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._findings.add(Finding("unknown-name", headline, span, help=meant_or_known(name, known)))
