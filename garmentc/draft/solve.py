"""Finds params so that equations hold, for one body."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from itertools import pairwise, product

from garmentc.data.model import Body
from garmentc.design import kinds as k
from garmentc.design.model import Design, SolvePlan
from garmentc.diagnostics.finding import Finding, Findings
from garmentc.draft.memo import Poisoned
from garmentc.draft.pieces import Drafter
from garmentc.draft.shown import shown_as

_SAMPLES = 25
_NEAR = {k.LENGTH: 0.01, k.AREA: 1.0, k.ANGLE: 1e-6}  # mm, mm², radians
_SAME = 1e-4  # of the range; two solutions nearer than this are one
Unknowns = tuple[float, ...]
Values = list[float]


class _Problem:
    """One solve for one body: how far each equation is from holding, for any values of the unknowns."""

    def __init__(
        self, plan: SolvePlan, design: Design, body: Body, solved: Mapping[str, float], findings: Findings
    ) -> None:
        self.plan = plan
        self.design = design
        plain = Drafter(design, body, findings, solved).values
        self._trial = Drafter(design, body, Findings(), solved).values
        self._solved = solved
        self.has_answers = False  # whether the draft had an answer for any values tried so far
        params = [design.params[name] for name in plan.unknowns]
        self.start = [float(plain.value(param.value)) for param in params]
        self.least = [float(plain.value(param.least)) for param in params if param.least is not None]
        self.most = [float(plain.value(param.most)) for param in params if param.most is not None]
        self.near = [
            _NEAR.get(equation.kind, 1e-9) if plan.within is None else float(plain.value(plan.within))
            for equation in plan.equations
        ]

    def sides(self, at: Sequence[float]) -> list[tuple[float, float]] | None:
        """Both sides of each equation; None where the draft has no answer."""
        values = self._trial
        values.memo.try_anew(dict(zip(self.plan.unknowns, at, strict=True)))
        try:
            found = [(float(values.value(one.left)), float(values.value(one.right))) for one in self.plan.equations]
        except Poisoned:
            return None
        self.has_answers = True
        return found

    def faults(self, body: Body) -> Findings:
        """What keeps the draft from an answer at the params' own values; a trial keeps that to itself."""
        found = Findings()
        at = dict(zip(self.plan.unknowns, self.start, strict=True))
        values = Drafter(self.design, body, found, {**self._solved, **at}).values
        for equation in self.plan.equations:
            for side in (equation.left, equation.right):
                with suppress(Poisoned):
                    values.value(side)
        return found

    def off(self, at: Sequence[float]) -> Values | None:
        """Left side less right side of each equation."""
        sides = self.sides(at)
        return None if sides is None else [left - right for left, right in sides]

    def holds(self, off: Sequence[float]) -> bool:
        return all(abs(one) <= near for one, near in zip(off, self.near, strict=True))


def solve(
    plan: SolvePlan, design: Design, body: Body, solved: Mapping[str, float], findings: Findings
) -> dict[str, float] | None:
    """The values of the unknowns, or None after a finding: no solution in the range, or more than one.

    Where the draft has no answer at all, what is wrong with it is reported instead.
    """
    try:
        problem = _Problem(plan, design, body, solved, findings)
    except Poisoned:
        return None
    found = _one(problem) if len(plan.unknowns) == 1 else _several(problem)
    if len(found) == 1:
        return dict(zip(plan.unknowns, found[0], strict=True))
    names = " and ".join(f"`{name}`" for name in plan.unknowns)
    if found:
        shown = ["; ".join(_named(problem, at)) for at in found]
        _report(
            problem,
            body,
            findings,
            "several-solutions",
            f"more than one {names} solves this",
            tuple(shown),
            "narrow the range so that it holds one of them",
        )
    elif not problem.has_answers and len(faults := problem.faults(body)):
        note = f"found at {', '.join(_named(problem, problem.start))}, before `solve` could try others"
        for fault in faults:
            findings.add(replace(fault, notes=(*fault.notes, note)))
    else:
        _report(
            problem,
            body,
            findings,
            "no-solution",
            f"no {names} in its range solves this",
            _tried(problem),
            "widen the range, or change what is asked for",
        )
    return None


def _one(problem: _Problem) -> list[Unknowns]:
    """All solutions for one unknown: sign changes between samples, closed in by bisection and secant in turn."""
    low, high = problem.least[0], problem.most[0]
    places = [low + (high - low) * i / (_SAMPLES - 1) for i in range(_SAMPLES)]
    offs = [problem.off((place,)) for place in places]
    known = [(place, off[0]) for place, off in zip(places, offs, strict=True) if off is not None]
    found: list[Unknowns] = [(place,) for place, off in known if off == 0.0]
    for (a, fa), (b, fb) in pairwise(known):
        if fa * fb < 0.0 and (root := _closed_in(problem, a, fa, b, fb)) is not None:
            found.append((root,))
    if not found:
        near = min(known, key=lambda one: abs(one[1]), default=None)
        if near is not None and problem.holds([near[1]]):
            found.append((near[0],))
    return _distinct(problem, found)


def _closed_in(problem: _Problem, a: float, fa: float, b: float, fb: float) -> float | None:
    """A root between two places of opposite sign, by the Illinois form of false position; None at a jump."""
    exact = min(problem.near[0], 1e-4) / 100
    for _ in range(60):
        middle = b - fb * (b - a) / (fb - fa)
        off = problem.off((middle,))
        if off is None:
            return None
        if abs(off[0]) <= exact:
            return middle
        if off[0] * fb < 0.0:
            a, fa = b, fb
        else:
            fa /= 2
        b, fb = middle, off[0]
        if abs(b - a) < 1e-12 * (1.0 + abs(b)):
            break
    return b if abs(fb) <= problem.near[0] else None


def _several(problem: _Problem) -> list[Unknowns]:
    """Solutions for several unknowns: Newton's method from the params' own values and from a grid of starts."""
    shares = product((0.2, 0.5, 0.8), repeat=len(problem.start))
    grid = [
        [low + (high - low) * share for low, high, share in zip(problem.least, problem.most, one, strict=True)]
        for one in shares
    ]
    found = [root for start in [problem.start, *grid] if (root := _newton(problem, start)) is not None]
    return _distinct(problem, found)


def _newton(problem: _Problem, start: Values) -> Unknowns | None:
    at = list(start)
    off = problem.off(at)
    for _ in range(30):
        if off is None:
            return None
        if problem.holds(off) and max(map(abs, off)) < 1e-6:
            return tuple(at)
        step = _step(problem, at, off)
        if step is None:
            return None
        share = 1.0
        while share > 1e-3:
            tried = [
                min(max(one + share * move, low), high)
                for one, move, low, high in zip(at, step, problem.least, problem.most, strict=True)
            ]
            fresh = problem.off(tried)
            if fresh is not None and max(map(abs, fresh)) < max(map(abs, off)):
                at, off = tried, fresh
                break
            share /= 2
        else:
            break
    return tuple(at) if off is not None and problem.holds(off) else None


def _step(problem: _Problem, at: Values, off: Values) -> Values | None:
    """The Newton step, from differences over a thousandth of each range; None where it is not defined."""
    columns: list[Values] = []
    for i, (low, high) in enumerate(zip(problem.least, problem.most, strict=True)):
        width = (high - low) * 1e-3
        aside = list(at)
        aside[i] += width if at[i] + width <= high else -width
        moved = problem.off(aside)
        if moved is None:
            return None
        columns.append([(new - old) / (aside[i] - at[i]) for new, old in zip(moved, off, strict=True)])
    rows = [
        [column[i] for column in columns] + [-off[i]] for i in range(len(off))
    ]  # the matrix of slopes, and beside it what has to be made up
    return _eliminated(rows)


def _eliminated(rows: list[Values]) -> Values | None:
    """The solution of a small linear system (Gauss, with row exchange); None when it has none."""
    size = len(rows)
    for i in range(size):
        pivot = max(range(i, size), key=lambda row: abs(rows[row][i]))
        if abs(rows[pivot][i]) < 1e-12:
            return None
        rows[i], rows[pivot] = rows[pivot], rows[i]
        for row in range(size):
            if row != i:
                share = rows[row][i] / rows[i][i]
                rows[row] = [one - share * other for one, other in zip(rows[row], rows[i], strict=True)]
    return [rows[i][size] / rows[i][i] for i in range(size)]


def _distinct(problem: _Problem, found: Sequence[Unknowns]) -> list[Unknowns]:
    kept: list[Unknowns] = []
    spans = [high - low for low, high in zip(problem.least, problem.most, strict=True)]
    for one in sorted(found):
        if not any(
            all(abs(a - b) <= _SAME * span for a, b, span in zip(one, other, spans, strict=True)) for other in kept
        ):
            kept.append(one)
    return kept


# ---- findings


def _named(problem: _Problem, at: Sequence[float]) -> list[str]:
    params = problem.design.params
    return [
        f"{name} = {shown_as(value, params[name].kind)}" for name, value in zip(problem.plan.unknowns, at, strict=True)
    ]


def _tried(problem: _Problem) -> tuple[str, ...]:
    """The nearest that can be had, and how the equation runs over the range of a single unknown."""
    if len(problem.plan.unknowns) > 1:
        sides = problem.sides(problem.start)
        return () if sides is None else (f"at their own values: {_sides(problem, sides)}",)
    low, high = problem.least[0], problem.most[0]
    tried = [low + (high - low) * i / 8 for i in range(9)]
    known = [(at, sides) for at in tried if (sides := problem.sides((at,))) is not None]
    if not known:
        return ("the draft has no answer anywhere in the range",)
    at, sides = min(known, key=lambda one: abs(one[1][0][0] - one[1][0][1]))
    nearest = f"nearest at {_named(problem, (at,))[0]}: {_sides(problem, sides)}"
    return (nearest, *(f"{_named(problem, (at,))[0]}: {_sides(problem, sides)}" for at, sides in known))


def _sides(problem: _Problem, sides: Sequence[tuple[float, float]]) -> str:
    return ", ".join(
        f"{shown_as(left, one.kind)} against {shown_as(right, one.kind)}"
        for (left, right), one in zip(sides, problem.plan.equations, strict=True)
    )


def _report(
    problem: _Problem,
    body: Body,
    findings: Findings,
    slug: str,
    headline: str,
    notes: tuple[str, ...],
    help: str,
) -> None:
    findings.add(Finding(slug, headline, problem.plan.span, notes=notes, help=help, sizes=(body.name,)))
