"""Strips that bind edges: how long each has to be, of how many parts it is cut, and how its ends meet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.copies import Hands, Run, instances
from garmentc.assembly.model import BindingRun, Join, JoinedSeam, LineEnd, Work
from garmentc.assembly.turning import OPENS
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.memo import Poisoned
from garmentc.draft.model import Draft, DraftedEdge, DraftedPiece
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.syntax import nodes

JOIN = 6.0
"""Allowance (mm) of the slanting seam that joins two parts of a bias strip; common practice, no source."""
TAKEN = 2 * JOIN * math.sqrt(2)
"""What a join takes of a strip (mm): both parts end at 45 degrees to it."""
TURNED_IN = 15.0
"""How far (mm) a strip goes on beyond each end of an edge, to be turned in; common practice, no source."""
FREE = 50.0
"""How much (mm) of a strip is left free at first where its ends are joined; common practice, no source."""
_SAME = 0.05  # mm; lines that differ by less are alike
_NEAR = 0.25  # of a seam; corners farther apart along it do not come together


class Line(Record):
    """A line that edges make once the seams are sewn: its length (mm), whether it closes into a ring, else its ends.

    A ring runs ``over`` these seams, if any.
    """

    length: float
    ring: bool
    ends: tuple[LineEnd, ...] = ()
    over: tuple[str, ...] = ()


class _End(Record):
    """One end of an edge; ``at_start`` by the outline of its piece."""

    piece: str
    edge: str
    at_start: bool


class _Onward(Record):
    """Where a line goes on from an end: for which instances of the piece, by number, and with which of the next.

    ``by`` is the seam that it crosses there, if any.
    """

    end: _End
    to: Mapping[int, int]
    by: tuple[str, ...] = ()


class _Place(Record):
    """A corner on a seam: which side, which share of the way along it, and the edge that ends there."""

    seam: JoinedSeam
    side: int
    share: float
    stretch: Stretch


def edge_lines(
    names: Sequence[EdgeName], draft: Draft, of_piece: Mapping[str, Sequence[JoinedSeam]], hands: Hands
) -> tuple[Line, ...]:
    """The lines that edges make, those of all instances of their pieces that are meant."""
    edges: dict[tuple[str, str], tuple[DraftedPiece, DraftedEdge]] = {}
    meant: dict[tuple[str, str], list[int]] = {}
    for name in names:
        piece = draft.piece(name.piece)
        edge = piece.edge(name.edge)
        if edge is not None:
            edges[name.piece, name.edge] = piece, edge
            some = hands.meant(piece, name)
            numbers = [number for number, one in enumerate(instances(piece)) if one in some]
            meant.setdefault((name.piece, name.edge), []).extend(numbers)
    closed = {name: [one for one in seams if one.join.turning != OPENS] for name, seams in of_piece.items()}
    onward = _onward(edges, closed)
    left = [(key, number) for key, numbers in meant.items() for number in numbers]
    found: list[Line] = []
    while left:
        first = left.pop(0)
        total = edges[first[0]][1].sewn_length
        ring = False
        ends: list[LineEnd] = []
        over: dict[str, None] = {}
        for at_start in (False, True):
            (piece_name, edge_name), copy = first
            end = _End(piece_name, edge_name, at_start)
            while not ring and (step := _step(onward.get(end, ()), copy)) is not None:
                copy = step.to[copy]
                here = (step.end.piece, step.end.edge), copy
                over |= dict.fromkeys(step.by)
                if here == first:
                    ring = True
                elif here in left:
                    left.remove(here)
                    total += edges[here[0]][1].sewn_length
                    end = step.end._replace(at_start=not step.end.at_start)
                else:
                    break
            if not ring:
                ends.append(_line_end(end, edges[end.piece, end.edge], of_piece))
        found.append(Line(total, ring, tuple(ends), tuple(over)))
    return tuple(found)


def _line_end(
    end: _End, drawn: tuple[DraftedPiece, DraftedEdge], of_piece: Mapping[str, Sequence[JoinedSeam]]
) -> LineEnd:
    piece, edge = drawn
    at = piece.edges.index(edge)
    beside = piece.edges[at - 1 if end.at_start else (at + 1) % len(piece.edges)]
    taken = [seam for seam in of_piece.get(piece.name, ()) if seam.sews(piece.name, beside.name)]
    where = f"the {spoken(beside.name)} end of the {spoken(edge.name)} of the {piece.title}"
    return LineEnd(where, tuple(seam.name for seam in taken))


def _step(ways: Iterable[_Onward], number: int) -> _Onward | None:
    """The way on for an instance of a piece, if there is one."""
    return next((way for way in ways if number in way.to), None)


def _onward(
    edges: dict[tuple[str, str], tuple[DraftedPiece, DraftedEdge]], of_piece: Mapping[str, Sequence[JoinedSeam]]
) -> dict[_End, list[_Onward]]:
    """Where the line of edges goes on from each of their ends, if it does: across several seams, the nearest first."""
    beside: dict[_End, DraftedEdge] = {}
    for (piece_name, edge_name), (piece, edge) in edges.items():
        at = piece.edges.index(edge)
        beside[_End(piece_name, edge_name, True)] = piece.edges[at - 1]
        beside[_End(piece_name, edge_name, False)] = piece.edges[(at + 1) % len(piece.edges)]
    places = {end: list(_places(end, edge, of_piece.get(end.piece, ()))) for end, edge in beside.items()}
    found: dict[_End, list[_Onward]] = {}
    for end, edge in beside.items():
        corner = _End(end.piece, edge.name, not end.at_start)
        numbers = range(edges[end.piece, end.edge][0].copies)
        if corner in beside:
            found[end] = [_Onward(corner, {number: number for number in numbers})]
        elif edge.on_fold:
            found[end] = [_Onward(end, {number: number ^ 1 for number in numbers})]
        else:
            near = [
                (abs(here.share - there.share), _Onward(across, _across(here, there), (here.seam.name,)))
                for here in places[end]
                for across, others in places.items()
                for there in others
                if there.seam.name == here.seam.name
                and (across == end if here.seam.mirrored else there.side != here.side)
            ]
            found[end] = [way for off, way in sorted(near, key=lambda one: one[0]) if off < _NEAR]
    return found


def _across(here: _Place, there: _Place) -> dict[int, int]:
    """The instances of a piece, by number, and those of the other that a seam joins to them."""
    found: dict[int, int] = {}
    for runs in here.seam.sewn:
        for one, other in (runs, runs[::-1]) if here.seam.mirrored else ((runs[here.side], runs[there.side]),):
            found[_number(here.stretch, one)] = _number(there.stretch, other)
    return found


def _number(stretch: Stretch, run: Run) -> int:
    return instances(stretch.piece).index(run.leaf(stretch))


def _places(end: _End, beside: DraftedEdge, seams: Sequence[JoinedSeam]) -> Iterable[_Place]:
    """Where a corner lies on the seams that end at it."""
    for seam in seams:
        for side, walked in enumerate(seam.sides[:1] if seam.mirrored else seam.sides):
            for stretch in walked:
                if (stretch.piece.name, stretch.edge.name) == (end.piece, beside.name):
                    reached = stretch.after if end.at_start != stretch.backward else stretch.before
                    yield _Place(seam, side, reached / (walked[-1].after or 1.0), stretch)


def binding_runs(lines: Iterable[Line], parts: nodes.Parts | None, values: Evaluator) -> tuple[BindingRun, ...]:
    """The strips that bind lines, alike ones together; parts of them are no longer than the spec says.

    Raises Poisoned when a part would be taken up by its joins.
    """
    longest = math.inf if parts is None else float(values.value(parts.longest))
    if longest <= 2 * TAKEN:
        assert parts is not None
        values.fault(
            "parts-too-short",
            f"the parts of the strip are {length(longest)} long, and their joins take {length(TAKEN)} each",
            parts.longest.span,
            help="give the longest part that the cloth yields on the bias",
        )
        raise Poisoned
    found: list[BindingRun] = []
    for line in lines:
        same = next((i for i, one in enumerate(found) if _alike(one, line)), None)
        if same is not None:
            found[same] = found[same]._replace(times=found[same].times + 1)
            continue
        needed = line.length if line.ring else line.length + 2 * TURNED_IN
        count = 1
        while _part(needed, count, line.ring) > longest + 1e-6:
            count += 1
        begin = 0.0 if line.ring else -TURNED_IN
        joins = tuple(begin + needed * i / count for i in range(1, count))
        found.append(BindingRun(line.length, line.ring, 1, count, _part(needed, count, line.ring), joins))
    return tuple(found)


def _alike(run: BindingRun, line: Line) -> bool:
    return run.ring == line.ring and abs(run.along - line.length) < _SAME


def _part(needed: float, count: int, ring: bool) -> float:
    """How long (mm) each of so many parts is cut."""
    return (needed + TAKEN * (count if ring else count - 1)) / count


def with_runs(join: Join, runs: Sequence[BindingRun], *, ends: bool) -> Join:
    """A join that binds, with what to do about the parts of its strips and, if wanted, about the ends of rings."""
    before = [_joined(run) for run in runs if run.parts > 1]
    after: list[str] = []
    rings = sum(run.times for run in runs if run.ring)
    if ends and rings:
        what = (
            "The edge closes into a ring: begin" if rings == 1 else f"There are {rings} rings, a strip for each: begin"
        )
        after.append(
            f"{what} beside a seam and leave {length(FREE)} of the strip free at both ends. Lay the ends along the "
            f"edge, join them by a slanting seam where they meet, trim it to {length(JOIN)}, press it open, and stitch "
            "the rest on."
        )
    words = [work.word for work in join.work]
    pinned = words.index("pin") + 1 if "pin" in words else words.index("pass") if "pass" in words else len(words)
    told = [tuple(Work("do", text, 0.0, None) for text in texts) for texts in (before, after)]
    return join._replace(work=(*told[0], *join.work[:pinned], *told[1], *join.work[pinned:]))


def _joined(run: BindingRun) -> str:
    often = f"For each of {run.times}, cut" if run.times > 1 else "Cut"
    where = ", ".join(length(at) for at in run.joins)
    return (
        f"{often} {run.parts} parts of the strip, each {length(run.part)} long, their ends along a thread, and join "
        f"them right sides together, {length(JOIN)} from the edge; press open. The joins come to lie {where} from "
        "where the edge begins: shift the strip when one would meet a seam."
    )
