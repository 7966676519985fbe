"""Seams and finishes of one body: both sides measured along the stitching line, and held against each other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from operator import or_

from garmentc.assembly.agree import Ease, Side, agree
from garmentc.assembly.bindings import Line, binding_runs, edge_lines, with_runs
from garmentc.assembly.chains import Crossings, Stretch, turned, walk
from garmentc.assembly.copies import LEFT, RIGHT, Hands, Run, Unlike, named_back, runs_of
from garmentc.assembly.drawn import drawn_through, with_drawn
from garmentc.assembly.ends import Ends
from garmentc.assembly.gaps import left_open
from garmentc.assembly.inserts import free_ends, insert_strips
from garmentc.assembly.instances import has_mirror, is_one_sided
from garmentc.assembly.joins import Place, edge_words, fill
from garmentc.assembly.model import FinishedEdge, JoinedSeam, Layer
from garmentc.design.model import Design, EdgeName, FinishPlan, SeamPlan
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Draft, DraftedEdge, DraftedPiece
from garmentc.numbers import decimal, length

TOLERANCE = 1.0
"""How far two sides of a seam may differ (mm) where the spec does not say; common practice, no source."""


def sides_of(
    plan: SeamPlan, draft: Draft, crossings: Crossings, ends: Ends, values: Evaluator
) -> tuple[tuple[Stretch, ...], ...] | None:
    """All sides of a seam from the ends that meet, or None when an edge is missing or does not follow."""
    sides = (plan.first, *(() if plan.mirrored else (plan.second,)), *plan.layers)
    if any(_edges(side, draft, values) is None for side in sides):
        return None
    first, second = (walk(plan.name, side, draft, crossings, values) for side in (plan.first, plan.second))
    if first is None or second is None:
        return None
    layers = [walk(plan.name, side, draft, crossings, values) for side in plan.layers]
    if None in layers:
        return None
    first, second = ends.meeting(plan, first, second)
    return first, second, *(_laid_on(plan, first, layer, ends) for layer in layers if layer is not None)


def _laid_on(plan: SeamPlan, first: tuple[Stretch, ...], layer: tuple[Stretch, ...], ends: Ends) -> tuple[Stretch, ...]:
    """A further layer of a seam, from the end that meets the start of the first side."""
    beside = plan._replace(second=tuple(each.name for each in layer), mirrored=False)
    one, other = ends.meeting(beside, first, layer, inside=True)
    return tuple(other if one[0] == first[0] else turned(other))


def join_seam(
    plan: SeamPlan,
    sides: Sequence[tuple[Stretch, ...]],
    draft: Draft,
    crossings: Crossings,
    hands: Hands,
    values: Evaluator,
) -> JoinedSeam | None:
    """A seam with its numbers, or None when it can't be made so; differences are reported."""
    design = draft.design
    first, second, *layers = sides
    halves = [side[-1].after for side in (first, second)]
    edges = (*first, *second)
    runs_on = not plan.mirrored and any(one.piece.meets_fold(one.name.edge) and not one.name.hand for one in edges)
    lengths = [2 * one for one in halves] if runs_on else halves
    sewn_over = lengths if plan.ease is None else (max(lengths) if plan.ease.how == "stretched" else min(lengths),)
    shown = " / ".join(dict.fromkeys(length(one) for one in sewn_over))
    words = {
        "first_side": edge_words(draft, plan.first),
        "second_side": _mirror_words(plan) if plan.mirrored else edge_words(draft, plan.second),
        "length": shown,
        "toward": _toward(first, second),
        "both": f"all {_NUMBERS[len(layers)]}" if layers else "both",
    }
    try:
        join = fill(design.joins["seam", plan.type], Place(words, plan.changes, plan.span), design, values)
        sewn = _sewn(plan, first, second, hands, values)
        beside = [Layer(layer, _sewn(plan, first, layer, hands, values)) for layer in layers]
        if not plan.mirrored:
            _check_faces(plan, first, second, sewn, values)
        for layer in beside:
            _check_faces(plan, first, layer.side, layer.sewn, values, inside=True)
        times = len(sewn) // 2 if runs_on else len(sewn)
        runs = binding_runs([Line(lengths[0], False)] * times, plan.parts, values) if join.binding else ()
        ease = _ease(plan, second[-1].after, values)
        gap = left_open(plan, first, design, values)
        inserts = insert_strips(plan, (first, second), sewn, draft, crossings, hands, values, runs_on=runs_on)
    except Poisoned:
        return None
    if not any(crossings.is_doubtful(stretch.name, stretch.edge) for stretch in (*first, *second)):
        for side in (second, *layers):
            agree(plan, first, side, ease, lambda piece: _spare(draft.piece(piece), crossings), values)
    return JoinedSeam(
        plan.name,
        with_runs(join, runs, ends=False),
        plan.first,
        plan.second,
        plan.mirrored,
        lengths[0],
        lengths[1],
        ease.amount,
        ease.gathered,
        ease.stretched,
        times,
        inserts,
        _folded(plan, design, draft),
        (first, second),
        sewn,
        ease.within,
        plan.span,
        runs=runs,
        gap=gap,
        layers=tuple(beside),
        closed_by=None if plan.mirrored else _closed_by(plan, first, crossings),
    )


def _closed_by(plan: SeamPlan, first: Side, crossings: Crossings) -> tuple[str, ...] | None:
    """The seams that bring both ends of a side together, none where both lie on folds; None where it stays open."""
    start, end = first[0].corner(at_end=False), first[-1].corner(at_end=True)
    if not any(one.name.hand for one in first) and all(any(edge.on_fold for edge in at.edges) for at in (start, end)):
        return ()
    by = tuple(dict.fromkeys(crossings.joining(end, start, plan.name)))
    return by or None


_NUMBERS = ("two", "three", "four", "five", "six")


def _toward(first: Side, second: Side) -> str:
    """To which side allowances are pressed: custom is toward the back, where one side is of the back alone."""
    backs = [named_back(*(one.piece for one in side)) for side in (first, second)]
    return "toward the back" if backs[0] != backs[1] else "to one side"


def _mirror_words(plan: SeamPlan) -> str:
    return f"{'its' if len(plan.first) == 1 else 'their'} mirror image"


def _ease(plan: SeamPlan, second: float, values: Evaluator) -> Ease:
    """What a seam says of its ease or gathers, the second side being so long (mm)."""
    if plan.ease is None:
        return Ease(0.0, TOLERANCE)
    within = TOLERANCE if plan.ease.within is None else float(values.value(plan.ease.within))
    amount = float(values.value(plan.ease.amount))
    if plan.ease.how == "ease":
        return Ease(amount, within)
    if amount <= 1.0:
        values.fault(
            "gathers-nothing",
            "a gathered side is longer than the other"
            if plan.ease.how == "gathered"
            else "a stretched side becomes longer than it is",
            plan.ease.amount.span,
            notes=(f"it is {decimal(amount, 2)} times as long here",),
            help="give a number above 1: 1.5 gathers lightly, 2 fully; 1.1 to 1.3 stretches a band (common practice); "
            "name the side that is gathered or stretched first",
        )
        raise Poisoned
    if plan.ease.how == "stretched":
        return Ease((1 / amount - 1.0) * second, within, 0.0, amount)
    return Ease((amount - 1.0) * second, within, amount)


def _spare(piece: DraftedPiece, crossings: Crossings) -> list[DraftedEdge]:
    """The edges of a piece that nothing uses."""
    return [edge for edge in piece.edges if not edge.on_fold and not crossings.uses(piece.name, edge.name)]


def _sewn(plan: SeamPlan, first: Side, second: Side, hands: Hands, values: Evaluator) -> tuple[tuple[Run, Run], ...]:
    """Each time a seam is sewn; all its edges have to exist equally often, and to meet as they are worn."""
    try:
        return runs_of(first, second, hands, mirrored=plan.mirrored)
    except Unlike as fault:
        if fault.stretch is None:
            _report_unequal(plan, first, second, hands, values)
        else:
            _report_crossed(plan, first[0], fault.stretch, values)
        raise Poisoned from None


def _report_unequal(plan: SeamPlan, first: Side, second: Side, hands: Hands, values: Evaluator) -> None:
    sides = [[len(hands.meant(stretch.piece, stretch.name)) for stretch in side] for side in (first, second)]
    alike = all(len(set(side)) == 1 for side in sides)
    many = f"{sides[0][0]} edges" if sides[0][0] != 1 else "1 edge"
    joined = f"{many} with {sides[1][0]}" if alike else "edges that do not exist equally often"
    of_one = any(stretch.name.hand or stretch.name.copy for stretch in (*first, *second))
    values.fault(
        "unequal-copies",
        f"seam `{plan.name}` joins {joined}",
        plan.span,
        others=tuple(
            Label(stretch.name.span, _often(stretch, number))
            for side, numbers in zip((first, second), sides, strict=True)
            for stretch, number in zip(side, numbers, strict=True)
        ),
        help="say on both sides which one is meant, as in `left front.side with left back.side`"
        if of_one
        else "a fold or a pair gives two; change `cut` of one of the pieces, or name one: left, right, copy 1",
    )


def _often(stretch: Stretch, meant: int) -> str:
    cut = f"cut {_times(stretch.piece.copies)}"
    return cut if meant == stretch.piece.copies else f"{cut}, {meant} of them meant"


def _report_crossed(plan: SeamPlan, one: Stretch, other: Stretch, values: Evaluator) -> None:
    hands = {LEFT: RIGHT, RIGHT: LEFT}
    name = other.name
    values.fault(
        "left-to-right",
        f"seam `{plan.name}` joins {one.name.hand or 'a'} `{one.piece.name}` to {name.hand or 'a'} "
        f"`{other.piece.name}`, and they do not lie so",
        name.span,
        others=(Label(one.name.span, "is to meet this"),) if one is not other else (),
        notes=("right sides together, one of them would have its wrong side out",),
        help=f"write {hands[name.hand]} {name.piece}.{name.edge}" if name.hand else "name left and right on both sides",
    )


def _check_faces(
    plan: SeamPlan, first: Side, second: Side, sewn: Iterable[tuple[Run, Run]], values: Evaluator, inside: bool = False
) -> None:
    """Report pieces one of which would show its wrong side beside the right side of the other.

    ``inside``: the second is a further layer, which is to show its wrong side there.
    """
    for run, met in sewn:
        ways = {one.backward != run.leaf(one)[1] for one in first}
        other = next((one for one in second if ((one.backward != met.leaf(one)[1]) in ways) != inside), None)
        if other is None:
            continue
        pieces = [one.piece for one in (*first, *second)]
        sided = [is_one_sided(piece) for piece in pieces]
        if not any(sided) or not all(map(or_, sided, map(has_mirror, pieces))):
            continue
        one = first[0]
        values.fault(
            "wrong-side-out",
            f"seam `{plan.name}` joins `{one.piece.name}` to `{other.piece.name}` with one of them wrong side out",
            other.name.span,
            others=(Label(one.name.span, "is to meet this"),) if one.name.span != other.name.span else (),
            notes=("laid right sides together, a right-hand edge lies on a left-hand one, unless a piece is mirrored",),
            help="name the edge on the other side of one of them; or `cut pair` what is to be there left and right"
            if all(sided)
            else f"write `cut pair` in `{pieces[sided.index(True)].name}`, so that it is there left and right",
            severity=Severity.WARNING,
        )
        return


def _times(number: int) -> str:
    return "once" if number == 1 else f"{number} times"


def finish_edge(
    plan: FinishPlan,
    design: Design,
    draft: Draft,
    seams: Sequence[JoinedSeam],
    of_piece: Mapping[str, Sequence[JoinedSeam]],
    hands: Hands,
    values: Evaluator,
) -> FinishedEdge | None:
    """A finish with its numbers, or None when one of its edges is missing. ``of_piece`` are the seams by piece."""
    if _edges((name for name in plan.edges if draft.piece(name.piece).making is None), draft, values) is None:
        return None
    total = sum(_finished_length(name, draft, seams, hands) for name in plan.edges)
    shown = edge_words(draft, plan.edges, {strip.name: free_ends(strip, seams) for strip in draft.strips})
    words = {"edges": shown, "length": length(total)}
    try:
        join = fill(design.joins["finish", plan.type], Place(words, plan.changes, plan.span), design, values)
        lines = edge_lines(plan.edges, draft, of_piece, hands)
        runs = binding_runs(lines, plan.parts, values) if join.binding else ()
        drawn = None if plan.draw is None else drawn_through(plan, lines, draft, values)
    except Poisoned:
        return None
    join = with_runs(join, runs, ends=True) if runs else join
    join = join if drawn is None else with_drawn(join, drawn)
    rings = tuple(line.over for line in lines if line.ring)
    ends = tuple(dict.fromkeys(end for line in lines for end in line.ends)) if runs else ()
    return FinishedEdge(plan.edges, shown, join, total, plan.span, runs, drawn, ends, rings)


def _finished_length(name: EdgeName, draft: Draft, seams: Sequence[JoinedSeam], hands: Hands) -> float:
    piece = draft.piece(name.piece)
    if piece.making is None:
        edge = piece.edge(name.edge)
        assert edge is not None
        return edge.sewn_length * len(hands.meant(piece, name))
    if name.edge == "ends":
        return free_ends(piece, seams) * piece.making.finished_width
    return 2 * piece.making.length * piece.copies


def check_step_edges(draft: Draft, values: Evaluator) -> None:
    """Report edges at which the maker's own steps are done, and that do not exist once all is cut."""
    for names in draft.design.step_edges.values():
        _edges(names, draft, values)


def _edges(names: Iterable[EdgeName], draft: Draft, values: Evaluator) -> list[DraftedEdge] | None:
    found: list[DraftedEdge] = []
    whole = True
    for name in names:
        piece = draft.piece(name.piece)
        edge = piece.edge(name.edge)
        if edge is not None:
            found.append(edge)
            continue
        whole = False
        fold = next((line for line in piece.lines if line.kind == "fold" and line.name == name.edge), None)
        if fold is None:
            values.edge_gone(name.piece, name.edge, piece, name.span)
        else:
            values.fault(
                "edge-is-fold",
                f"edge `{name.text}` is a fold inside the piece, not an edge",
                name.span,
                others=(Label(fold.span, "a part is grown on here"),),
            )
    return found if whole else None


def _folded(plan: SeamPlan, design: Design, draft: Draft) -> tuple[tuple[str, str], ...]:
    """The fold lines that bring a piece's own grown part onto it."""
    found: dict[tuple[str, str], None] = {}
    for name in (*plan.first, *plan.second):
        head, dot, _ = name.edge.partition(".")
        if dot and any(other.piece == name.piece and "." not in other.edge for other in (*plan.first, *plan.second)):
            across = design.pieces[name.piece].parts[head].across.text
            found[draft.piece(name.piece).title, across] = None
    return tuple(found)
