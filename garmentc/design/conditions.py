"""What has to hold: checks, and equations that params are solved from."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from garmentc.data.words import count
from garmentc.design import kinds as k
from garmentc.design.kindcheck import TOP, KindChecker, Scope
from garmentc.design.model import CheckPlan, Equation, ParamPlan, SolvePlan
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.source import Span
from garmentc.syntax import nodes


class Conditions:
    """Plans for the checks and solves of one garment; each param is solved for once."""

    def __init__(self, params: Mapping[str, ParamPlan], checker: KindChecker, findings: Findings) -> None:
        self._params = params
        self._checker = checker
        self._findings = findings
        self._solved: dict[str, Span] = {}

    def check(self, check: nodes.Check, scope: Scope) -> CheckPlan:
        """A check of the garment or of a seam type; a condition of another kind is reported."""
        condition = check.condition
        self._checker.expect(condition, k.TRUTH, scope, "a check")
        kind = k.TRUTH
        if isinstance(condition, nodes.Compare):
            kind = self._checker.kind(condition.left, scope)
        if check.within is not None:
            if isinstance(condition, nodes.Compare) and condition.sign == "==":
                self.tolerance(check.within, kind, scope)
            else:
                self._error("wrong-kind", "`within` goes with `==`", check.within.span)
        return CheckPlan(check.severity == "warn", check.text.text, condition, check.within, kind, check.span)

    def tolerance(self, within: nodes.Expr, kind: k.Kind, scope: Scope = TOP) -> None:
        """Report a tolerance that is none."""
        self._checker.expect(within, kind, scope, "the tolerance")
        if isinstance(within, nodes.Negative):
            self._error(
                "negative-tolerance",
                "a tolerance is not less than nothing",
                within.span,
                help="leave the minus sign out: it counts in both directions",
            )

    def solve(self, solve: nodes.Solve) -> SolvePlan | None:
        """A solve with its equations; each unknown is a param with a range, and there is an equation for each."""
        params = self._params
        whole = True
        for word in solve.unknowns:
            param = params.get(word.text)
            if param is None:
                whole = False
                if not self._checker.is_lost(word.text):
                    self._unknown(word.span, f"there is no param `{word.text}` to solve for", word.text, params)
                continue
            self._checker.used.add(word.text)
            if self._solved.setdefault(word.text, word.span) != word.span:
                whole = False
                self._error(
                    "said-twice",
                    f"`{word.text}` is solved for twice",
                    word.span,
                    others=(Label(self._solved[word.text], "first here"),),
                    help="one solve can hold several equations: solve p, q so that … == … and … == …",
                )
                continue
            if param.least is None or param.most is None:
                whole = False
                self._error(
                    "solve-needs-range",
                    f"`{word.text}` has no range to look in",
                    word.span,
                    others=(Label(param.span, "declared here"),),
                    help=f"declare it with `from … to …`: param {word.text} = 10 cm from 5 cm to 20 cm",
                )
            elif param.from_outside:
                whole = False
                self._error(
                    "solved-and-set",
                    f"`{word.text}` is solved for, and set from outside",
                    word.span,
                    help="leave it out of --set, or drop the solve",
                )
        equations = tuple(self._equations(solve.condition))
        if len(equations) != len(solve.unknowns):
            counted = count(len(solve.unknowns), "unknown"), count(len(equations), "equation")
            self._error(
                "unequal-equations",
                f"{' and '.join(counted)} do not make a solve",
                solve.span,
                help="give one equation with `==` for each unknown, joined by `and`",
            )
            return None
        if solve.within is not None:
            self.tolerance(solve.within, equations[0].kind)
        if not whole:
            return None
        names = tuple(word.text for word in solve.unknowns)
        return SolvePlan(names, equations, solve.within, solve.span)

    def _equations(self, condition: nodes.Expr) -> Iterable[Equation]:
        if isinstance(condition, nodes.Logic) and condition.word == "and":
            yield from self._equations(condition.left)
            yield from self._equations(condition.right)
        elif isinstance(condition, nodes.Compare) and condition.sign == "==":
            self._checker.expect(condition, k.TRUTH, TOP, "an equation")
            yield Equation(condition.left, condition.right, self._checker.kind(condition.left, TOP))
        else:
            self._error("wrong-kind", "`solve` takes equations", condition.span, help="write … == …")

    def _unknown(self, span: Span, headline: str, name: str, known: Iterable[str]) -> None:
        self._error("unknown-name", headline, span, help=meant_or_known(name, known))

    def _error(self, slug: str, headline: str, span: Span, help: str = "", others: tuple[Label, ...] = ()) -> None:
        self._findings.add(Finding(slug, headline, span, "", others, (), help))
