"""Fills a seam type or a finish with the numbers of one place."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from garmentc.assembly.model import Join, Section, SectionLine, StitchUse, Work
from garmentc.design.model import Design, EdgeName, JoinPlan, SectionPlan
from garmentc.design.texts import one_of, placeholders, spoken
from garmentc.diagnostics.finding import Severity
from garmentc.draft.draft import hold
from garmentc.draft.evaluate import TOP, Evaluator, Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Expr

_NOTHING: Mapping[str, int] = {}
_WIDEST = 50.0  # mm that the allowance of a seam may take; common practice, no source


class Place(Record):
    """Where a seam type or finish is used: the edges in words, their length, what the spec sets, and its statement."""

    words: Mapping[str, str]
    changes: Mapping[str, nodes.Change]
    span: Span


def fill(plan: JoinPlan, place: Place, design: Design, values: Evaluator) -> Join:
    """A seam type or finish with all its numbers and texts; raises Poisoned when a number has no value."""
    own: dict[str, Expr] = {name: define.value for name, define in plan.defines.items()}
    for name, change in place.changes.items():
        own[name] = nodes.Quantity(change.span, float(values.value(change.value, TOP)), "mm")
    scope = Scope(None, own)

    def number(expr: Expr) -> float:
        return float(values.value(expr, scope))

    _hold_widths(plan, own, number, design, values)
    allowance = number(own["allowance"]) if "allowance" in own else 0.0
    binding = number(own["binding"]) if "binding" in own else 0.0
    folds = tuple(number(depth) for depth in plan.folds)
    for check in plan.checks:
        if not hold(check._replace(span=place.span) if place.changes else check, values, scope):
            raise Poisoned
    _possible(plan, place, allowance, folds, values)
    words = {**place.words, **{name: length(number(expr)) for name, expr in own.items()}}
    work = tuple(_work(item, words, number, design, values) for item in plan.work)
    return Join(
        plan.name,
        plan.of,
        plan.title,
        plan.iso_class,
        plan.turning,
        allowance,
        plan.corner,
        folds,
        work,
        plan.tools,
        binding,
        tuple(_section(section, number) for section in plan.sections),
    )


def _work(
    item: nodes.Pass | nodes.Action,
    words: Mapping[str, str],
    number: Callable[[Expr], float],
    design: Design,
    values: Evaluator,
) -> Work:
    text = item.text.text
    for name in placeholders(text):
        text = text.replace("{" + name + "}", words.get(name, name))
    if isinstance(item, nodes.Action):
        return Work(item.word, text, 0.0, None)
    stitch = design.stitches[item.stitch.text]
    ratio = float(values.value(stitch.thread, TOP))
    return Work("pass", text, number(item.width), StitchUse(stitch.code, stitch.title, ratio))


def _section(plan: SectionPlan, number: Callable[[Expr], float]) -> Section:
    lines = (
        SectionLine(line.word, line.name, tuple((number(at.x), number(at.y)) for at in line.points), line.goes_on)
        for line in plan.lines
    )
    return Section(plan.title, tuple(lines))


def _hold_widths(
    plan: JoinPlan, own: Mapping[str, Expr], number: Callable[[Expr], float], design: Design, values: Evaluator
) -> None:
    """No width, and no thread of a stitch, is less than nothing; raises Poisoned where one is."""
    passes = [item for item in plan.work if isinstance(item, nodes.Pass)]
    widths = [(f"`{name}`", expr) for name, expr in own.items() if name != "allowance"]
    below = [(what, expr) for what, expr in widths if number(expr) < 0]
    below = below or [("a pass", item.width) for item in passes if number(item.width) < 0]
    for what, expr in below:
        values.fault(
            "less-than-nothing",
            f"{what} of `{plan.name}` would be {length(number(expr))} wide",
            expr.span,
            help="a width is zero or more: look for a wrong sign or a subtraction the wrong way round",
        )
    stitches = [design.stitches[code] for code in dict.fromkeys(item.stitch.text for item in passes)]
    threadless = [stitch for stitch in stitches if float(values.value(stitch.thread)) <= 0]
    for stitch in threadless:
        values.fault(
            "less-than-nothing",
            f"stitch {stitch.code} would take no thread",
            stitch.thread.span,
            help="give the length of thread for each length of seam: about 2.5 for a lockstitch",
        )
    if below or threadless:
        raise Poisoned


def _possible(plan: JoinPlan, place: Place, allowance: float, folds: tuple[float, ...], values: Evaluator) -> None:
    if allowance < 0:
        values.fault(
            "negative-allowance",
            f"`{plan.name}` would take {length(allowance)} of cloth here",
            place.span,
            help="set its widths so that the allowance is zero or more",
        )
        raise Poisoned
    if plan.of == "seam" and allowance > _WIDEST:
        change = place.changes.get("allowance")
        values.fault(
            "implausible-allowance",
            f"`{plan.name}` takes an allowance of {length(allowance)}",
            place.span if change is None else change.span,
            notes=(f"more than {length(_WIDEST)} is hardly meant (common practice, no source)",),
            help="is the unit right? cloth that is turned in on purpose is a hem, or a facing grown on",
            severity=Severity.WARNING,
        )
    if folds and (min(folds) <= 0 or max(folds[1:], default=0.0) > folds[0]):
        values.fault(
            "impossible-folds",
            f"`{plan.name}` can't be folded like this",
            place.span,
            notes=(f"its folds are {', '.join(length(depth) for depth in folds)} deep, from the edge outward",),
            help="each fold is deeper than nothing, and what is tucked in fits inside the first",
        )
        raise Poisoned
    if folds and abs(sum(folds) - allowance) > 1e-6:
        values.fault(
            "folds-unlike-allowance",
            f"the folds of `{plan.name}` do not use up its allowance",
            plan.span,
            notes=(f"the folds add up to {length(sum(folds))}, the allowance is {length(allowance)}",),
        )
        raise Poisoned


def edge_words(draft: Draft, names: tuple[EdgeName, ...], free: Mapping[str, int] = _NOTHING) -> str:
    """Edges in words for a sentence: "the side of the Front and the side of the Back".

    ``free`` are how many ends of strips no seam catches.
    """
    shown = [_edge_word(draft.piece(name.piece), name, free) for name in names]
    return " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 2 else shown)


def _edge_word(piece: DraftedPiece, name: EdgeName, free: Mapping[str, int]) -> str:
    if name.edge == "ends" and free.get(name.piece) == piece.copies:
        return f"one end of each {piece.title}" if piece.copies > 1 else f"one end of the {piece.title}"
    return f"the {spoken(name.edge)} of {one_of(piece.title, name.hand, name.copy)}"
