"""What is drawn through a casing: whether it fits, how long it is, and how it is done."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.assembly.bindings import Line
from garmentc.assembly.model import Drawn, FinishedEdge, Join, Work
from garmentc.design.channels import ROOM
from garmentc.design.model import FinishPlan
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator, Scope
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Draft
from garmentc.numbers import decimal, length

LAPPED = 20.0
"""How much (mm) the ends of an elastic are laid over each other; common practice, no source."""
_FULLEST = 2.0  # lengths of a casing to its elastic above which it hardly stretches so far; common practice, no source


def drawn_through(plan: FinishPlan, lines: Sequence[Line], draft: Draft, values: Evaluator) -> Drawn:
    """What a finish draws through its channels; raises Poisoned where it can't go through."""
    draw = plan.draw
    assert draw is not None
    along = max(line.length for line in lines)
    if draw.strip is not None:
        strip = draft.piece(draw.strip.text)
        assert strip.making is not None
        found = Drawn(strip.title, strip.name, strip.making.length, strip.making.finished_width, len(lines))
    else:
        assert draw.text is not None and draw.length is not None and draw.width is not None
        sizes = [float(values.value(one)) for one in (draw.length, draw.width)]
        found = Drawn(draw.text.text, "", sizes[0], sizes[1], len(lines))
    join = draft.design.joins["finish", plan.type]
    change = plan.changes.get(ROOM)
    own = {name: define.value for name, define in join.defines.items()}
    room = float(values.value(own[ROOM], Scope(None, own)) if change is None else values.value(change.value))
    fault = ""
    if found.width > room + 1e-6 or found.width <= 0:
        fault = f"it is {length(found.width)} wide, and the channel {length(room)}"
    elif found.strip and found.length < along:
        fault = f"it is {length(found.length)} long, and the channel {length(along)}"
    elif found.length <= 0:
        fault = f"it is {length(found.length)} long"
    if fault:
        values.fault(
            "not-drawn-through",
            f"{found.title} can't be drawn through the {plan.type.replace('_', ' ')}",
            draw.span,
            notes=(fault,),
            help=f"set {ROOM} = … wider, or take another width or length",
        )
        raise Poisoned
    if not found.strip and not found.length < along <= _FULLEST * found.length:
        values.fault(
            "elastic-unlike-casing",
            f"{found.title} is {decimal(found.length / along * 100, 0)} % as long as its channel",
            draw.span,
            notes=(f"it is {length(found.length)} long, the channel {length(along)}",),
            help="an elastic is shorter than its channel, and at least half as long, so that it stretches so far",
            severity=Severity.WARNING,
        )
    return found


def check_channels(finishes: Iterable[FinishedEdge], draft: Draft, values: Evaluator) -> None:
    """Report strips that are not cut as often as there are channels, of all finishes, to draw them through."""
    by_strip: dict[str, list[FinishedEdge]] = {}
    for finish in finishes:
        if finish.draw_of:
            by_strip.setdefault(finish.draw_of, []).append(finish)
    for name, found in by_strip.items():
        cut, channels = draft.piece(name).copies, sum(one.drawn.times for one in found if one.drawn is not None)
        if cut != channels:
            through = "1 channel" if channels == 1 else f"{channels} channels"
            values.fault(
                "strips-unlike-places",
                f"strip `{name}` is cut {'once' if cut == 1 else f'{cut} times'}, and drawn through {through}",
                found[0].span,
                others=tuple(Label(one.span, "and here") for one in found[1:]),
                help=f"write `cut {channels}`",
            )


def with_drawn(join: Join, drawn: Drawn) -> Join:
    """A finish with what is drawn through it, in place of what its type says in general."""
    often = f", {drawn.times} times over" if drawn.times > 1 else ""
    if drawn.strip:
        text = (
            f"Draw the {drawn.title}, {length(drawn.length)} long, through the channel with a bodkin{often}, without "
            "twisting it; let both ends hang out equally."
        )
    else:
        text = (
            f"Cut {drawn.title} {length(drawn.length + LAPPED)} long{often}: {length(drawn.length)} and "
            f"{length(LAPPED)} for its ends. Draw it through with a bodkin, without twisting it; try it on, lap its "
            f"ends by {length(LAPPED)} and sew them together, let them slip in and stitch the opening shut."
        )
    work = list(join.work)
    general = next((i for i in reversed(range(len(work))) if work[i].word == "do" and "Draw " in work[i].text), None)
    made = Work("do", text, 0.0, None)
    if general is None:
        work.append(made)
    else:
        work[general] = made
    return join._replace(work=tuple(work))
