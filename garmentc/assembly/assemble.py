"""Assembles a draft: joins, edge accounting, cut lines, order of work, and what the work uses up."""

from __future__ import annotations

from collections.abc import Iterable

from garmentc.assembly.allowance import cut_piece
from garmentc.assembly.chains import Crossings
from garmentc.assembly.copies import Hands
from garmentc.assembly.drawn import check_channels
from garmentc.assembly.edges import account, check_found
from garmentc.assembly.ends import Ends
from garmentc.assembly.girths import Girths
from garmentc.assembly.hems import check_hems
from garmentc.assembly.inserts import check_strips
from garmentc.assembly.inside import check_inside
from garmentc.assembly.interfacing import interfacing_work
from garmentc.assembly.kinks import check_kinks
from garmentc.assembly.lengthening import check_lengthening
from garmentc.assembly.levels import check_levels
from garmentc.assembly.model import (
    Assembly,
    BindingUse,
    CutEdge,
    CutPiece,
    FinishedEdge,
    JoinedSeam,
    StitchUse,
    ThreadUse,
)
from garmentc.assembly.notches import check_notches, match_seams, piece_notches
from garmentc.assembly.openings import check_surface, named_openings
from garmentc.assembly.order import plan_steps
from garmentc.assembly.passing import check_passing
from garmentc.assembly.rows import check_rows, row_work
from garmentc.assembly.seams import check_step_edges, finish_edge, join_seam, sides_of
from garmentc.assembly.sewn import Surface
from garmentc.assembly.surface import sewn_surface
from garmentc.assembly.takeups import FlatWork, flat_work
from garmentc.assembly.turning import check_turning
from garmentc.design.model import Design
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Findings
from garmentc.draft.draft import finished_measures, hold
from garmentc.draft.evaluate import TOP, Evaluator
from garmentc.draft.model import Draft, DraftedPiece

LOCKSTITCH = "301"


def assemble(draft: Draft, values: Evaluator, findings: Findings) -> Assembly | None:
    """The assembled garment, or None when a seam, an edge or an allowance is at fault (which is then reported)."""
    design = draft.design
    crossings = Crossings(design.seams.values(), design.finishes)
    ends = Ends(design)
    walked = [(plan, sides_of(plan, draft, crossings, ends, values)) for plan in design.seams.values()]
    hands = Hands(draft.pieces, ends)
    joined = [
        None if sides is None else join_seam(plan, sides, draft, crossings, hands, values) for plan, sides in walked
    ]
    seams = match_seams(seam for seam in joined if seam is not None)
    of_piece: dict[str, list[JoinedSeam]] = {}
    for seam in seams:
        for name in dict.fromkeys(edge.piece for edge in seam.edges):
            of_piece.setdefault(name, []).append(seam)
    finished = [finish_edge(plan, design, draft, seams, of_piece, hands, values) for plan in design.finishes]
    finishes = [finish for finish in finished if finish is not None]
    sound = len(seams) == len(joined) and len(finishes) == len(finished)
    uses = account(draft.pieces, design.seams.values(), seams, finishes, hands, values, whole=sound)
    if not sound:
        return None
    check_found(draft, uses, values)
    check_strips(draft, seams, finishes, values)
    check_channels(finishes, draft, values)
    check_lengthening(draft, seams, values)
    check_rows(draft.pieces, values)
    check_step_edges(draft, values)
    check_turning(draft.pieces, seams, uses, crossings, values)
    check_kinks(design.seams, seams, uses, values)
    if not findings.has_errors:
        check_notches(seams, values)
    flat = [*interfacing_work(draft.pieces), *flat_work(draft.pieces), *row_work(draft.pieces)]
    steps = plan_steps(draft, flat, seams, finishes, crossings, findings)
    drawn = _drawn_hands(design, hands)
    whole = [piece for piece in draft.pieces if all(edge.name in uses[piece.name] for edge in piece.edges)]
    pieces = [
        cut._replace(notches=piece_notches(piece, of_piece.get(piece.name, ())), hand=drawn.get(piece.name, ""))
        for piece in whole
        if (cut := cut_piece(piece, uses[piece.name], values)) is not None
    ]
    if len(pieces) < len(draft.pieces):
        return None
    check_inside(pieces, values)
    if findings.has_errors:
        return None
    check_hems(finishes, draft, values)
    check_levels(seams, {piece.drafted.name: piece for piece in pieces}, uses, values)
    surface = sewn_surface(draft, seams)
    check_surface(surface, seams, values)
    surface = surface._replace(openings=named_openings(surface, values))
    if findings.has_errors:
        return None
    check_passing(surface.openings, draft, values)
    draft = _finished(draft, surface, values)
    joins = [*(seam.join for seam in seams), *(finish.join for finish in finishes)]
    joins += [seam.gap.join for seam in seams if seam.gap is not None]
    return Assembly(
        draft,
        tuple(pieces),
        tuple(_as_cut(strip) for strip in draft.strips if not strip.is_bought),
        seams,
        tuple(finishes),
        steps,
        _thread(draft, flat, seams, finishes, values),
        _bindings(seams, finishes),
        tuple(dict.fromkeys(tool for join in joins for tool in join.tools)),
        surface,
    )


def _drawn_hands(design: Design, hands: Hands) -> dict[str, str]:
    """Of each piece whose left and right are told apart, which one is drawn."""
    names = [name for seam in design.seams.values() for name in (*seam.edges, *(one.at for one in seam.inserts))]
    names += [name for finish in design.finishes for name in finish.edges]
    return {name.piece: hands.of(name.piece, mirrored=False) for name in names if name.hand}


def _finished(draft: Draft, surface: Surface, values: Evaluator) -> Draft:
    """The draft with the measurements that only the sewn garment has, and what is asked of it held against it."""
    values.sewn = Girths(surface, values)
    for check in draft.design.checks:
        if check.is_sewn:
            hold(check, values, TOP)
    known = {one.name: one for one in (*draft.finished, *finished_measures(draft.design, values, is_sewn=True))}
    return draft._replace(
        finished=tuple(known[plan.name] for plan in draft.design.finished if plan.name in known),
    )


def _as_cut(strip: DraftedPiece) -> CutPiece:
    """A strip is cut as drafted: its width and length already hold what its seam takes."""
    edges = tuple(CutEdge(edge.name, edge.path, None) for edge in strip.edges)
    return CutPiece(strip, {}, edges, strip.outline)


def _thread(
    draft: Draft,
    flat: Iterable[FlatWork],
    seams: Iterable[JoinedSeam],
    finishes: Iterable[FinishedEdge],
    values: Evaluator,
) -> tuple[ThreadUse, ...]:
    """Thread by stitch: length sewn times the ratio of the stitch (ISO 4915 types, ratios in the library)."""
    sewn: dict[str, tuple[StitchUse, float]] = {}

    def add(stitch: StitchUse, length: float) -> None:
        known = sewn.get(stitch.code, (stitch, 0.0))
        sewn[stitch.code] = (stitch, known[1] + length)

    for seam in seams:
        for work in seam.join.work:
            if work.stitch is not None:
                add(work.stitch, max(seam.first_length, seam.second_length) * seam.times)
        for work in seam.gap.join.work if seam.gap else ():
            if work.stitch is not None and seam.gap is not None:
                add(work.stitch, (seam.gap.high - seam.gap.low) * seam.times)
    for finish in finishes:
        for work in finish.join.work:
            if work.stitch is not None:
                add(work.stitch, finish.length)
    if LOCKSTITCH in draft.design.stitches:
        plan = draft.design.stitches[LOCKSTITCH]
        use = StitchUse(LOCKSTITCH, plan.title, float(values.value(plan.thread)))
        for strip in draft.strips:
            if strip.making is not None and strip.making.way in ("tube", "quartered"):
                add(use, strip.making.length * strip.copies * (2 if strip.making.way == "quartered" else 1))
        for task in flat:
            if task.sewn:
                add(use, task.sewn * task.times)
    return tuple(ThreadUse(stitch, length, length * stitch.ratio) for stitch, length in sewn.values())


def _bindings(seams: Iterable[JoinedSeam], finishes: Iterable[FinishedEdge]) -> tuple[BindingUse, ...]:
    found = [
        BindingUse(spoken(seam.name), seam.join.binding, seam.first_length * seam.times, seam.runs)
        for seam in seams
        if seam.join.binding
    ]
    found += [
        BindingUse(finish.words, finish.join.binding, finish.length, finish.runs)
        for finish in finishes
        if finish.join.binding
    ]
    return tuple(found)
