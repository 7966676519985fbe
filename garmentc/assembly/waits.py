"""What waits for what: which task has to be done before which, from how the edges of the pieces lie to each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence, Set
from itertools import pairwise, product

from garmentc.assembly.chains import Corner, Crossings
from garmentc.assembly.model import FinishedEdge, JoinedSeam
from garmentc.assembly.takeups import FlatWork
from garmentc.assembly.tasks import Task, closing_name, leaf_of, shut_in
from garmentc.assembly.turning import CLOSES, ENCLOSES, hanging_together
from garmentc.design.model import EdgeName
from garmentc.draft.model import Draft
from garmentc.record import Record
from garmentc.syntax import nodes


class Wait(Record):
    """A task that comes after another, and why; one that is not ``firm`` is custom, and gives way.

    ``asked`` is the statement of the spec that asks for it. ``taken_in`` are the edges of the earlier task
    whose ends the later one takes in: it is done just before that, whatever its kind. Of the waits of a task that are
    ``one_of`` the same, one at least has to be kept.
    """

    later: str
    earlier: str
    why: str
    firm: bool = True
    asked: nodes.Ordering | None = None
    taken_in: tuple[EdgeName, ...] = ()
    one_of: str = ""


def waits_of(tasks: Sequence[Task], draft: Draft, crossings: Crossings) -> Iterator[Wait]:
    """All that follows from the garment; what only custom asks for is left out where the tasks can't agree on it."""
    seams = [task.thing for task in tasks if isinstance(task.thing, JoinedSeam)]
    finishes = [(task.name, task.thing) for task in tasks if isinstance(task.thing, FinishedEdge)]
    mirrored = {seam.name for seam in seams if seam.mirrored}
    for seam in seams:
        yield from _seam(seam, mirrored, draft, crossings)
    yield from _turned(seams, draft)
    inside = shut_in(seams)
    named = {seam.name: seam for seam in seams}
    strips = {strip.name for strip in draft.strips}
    finished = {(edge.piece, edge.edge) for _, finish in finishes for edge in finish.edges}
    for name, finish in finishes:
        if all(edge.piece in strips for edge in finish.edges):
            for edge in finish.edges:
                making = draft.piece(edge.piece).making
                if making is not None and making.way == "quartered":
                    yield Wait(edge.piece, name, "its ends are turned in before it is folded")
                else:
                    yield Wait(name, edge.piece, "its ends and sides are there once it is made")
            continue
        yield from _finish(name, finish, named, draft, crossings)
        for by, edges in _taken_in(finish, named, finished, draft, crossings).items():
            yield Wait(by, name, "it takes in the end of this", taken_in=tuple(edges))
        if not finish.join.folds:
            for shut in dict.fromkeys(by for edge in finish.edges for by in inside.get(leaf_of(edge), ())):
                yield Wait(shut, name, "it shuts this edge in", firm=False)
    yield from _flat(tasks, seams, finishes)


def _seam(seam: JoinedSeam, mirrored: Set[str], draft: Draft, crossings: Crossings) -> Iterator[Wait]:
    for insert in seam.inserts:
        yield Wait(seam.name, insert.strip, "it catches this")
    sides = (seam.first,) if seam.mirrored else (seam.first, seam.second)
    for side in (*sides, *(tuple(one.name for one in layer.side) for layer in seam.layers)):
        for one, other in pairwise(side):
            if set(_corners(one, draft)) & set(_corners(other, draft)):
                continue
            joints = _joints(one, other, seam.name, draft, crossings)
            by = dict.fromkeys(name for joint in joints for name in joint)
            firm = len(joints) == 1 and len(by) == 1
            ways = f"{one.text} {other.text}"
            for name in by:
                yield Wait(seam.name, name, "it runs on over the joint that this makes", firm, one_of=ways)
        for joint in _joints(side[-1], side[0], seam.name, draft, crossings):
            yield from (Wait(seam.name, name, "its ends meet there", firm=False) for name in joint)
    yield from _over_mirrored(seam, sides, mirrored - {seam.name}, draft, crossings)


def _joints(one: EdgeName, other: EdgeName, seam: str, draft: Draft, crossings: Crossings) -> list[list[str]]:
    """The corners where two edges come together, as the seams that bring them there."""
    ends = ((a, b) for a, b in product(_corners(one, draft), _corners(other, draft)) if a != b)
    found = [list(dict.fromkeys(crossings.joining(a, b, seam))) for a, b in ends]
    return [joint for joint in found if joint]


def _over_mirrored(
    seam: JoinedSeam,
    sides: Sequence[Sequence[EdgeName]],
    mirrored: Set[str],
    draft: Draft,
    crossings: Crossings,
) -> Iterator[Wait]:
    """A seam that runs on over the fold of one side runs over a seam in the middle of the other, which comes first."""
    if not mirrored or seam.mirrored:
        return
    over_fold: set[Corner] = set()
    for at_end in (False, True):
        one, other = (end.corner(at_end=at_end) for end in seam.ends(at_end=at_end))
        over_fold |= {here for here, met in ((one, other), (other, one)) if any(edge.on_fold for edge in met.edges)}
    for name in (name for side in sides for name in side):
        for corner in _corners(name, draft):
            for by in sorted({by for by, _ in crossings.meeting(corner)} & mirrored):
                yield Wait(seam.name, by, "it runs on over the joint that this makes", firm=corner in over_fold)


def _turned(seams: Sequence[JoinedSeam], draft: Draft) -> Iterator[Wait]:
    closing = [(seam.name, seam) for seam in seams if seam.join.turning == CLOSES]
    closing += [(closing_name(seam), seam) for seam in seams if seam.gap is not None]
    yield from (Wait(name, seam.name, "it closes what this leaves open") for name, seam in closing if seam.gap)
    if not closing:
        return
    for members, sewn in hanging_together(draft.pieces, seams):
        names = {piece.name for piece in members}
        for last in (name for name, seam in closing if seam.first[0].piece in names):
            for seam in (one for one in sewn if one.join.turning == ENCLOSES):
                yield Wait(last, seam.name, "the work is turned through it")


def _finish(
    name: str, finish: FinishedEdge, seams: Mapping[str, JoinedSeam], draft: Draft, crossings: Crossings
) -> Iterator[Wait]:
    """A finish runs on across the seams of which both sides end at its edges."""
    met: dict[str, set[bool]] = {}
    for edge in finish.edges:
        for corner in _corners(edge, draft):
            for by, is_first in crossings.meeting(corner):
                met.setdefault(by, set()).add(is_first)
    goes_round = bool(finish.join.folds or finish.join.binding)
    for by, sides in met.items():
        seam = seams[by]
        if (len(sides) == 2 or seam.mirrored) and (goes_round or seam.join.turning != ENCLOSES):
            firm = goes_round and len(finish.edges) > 1
            yield Wait(name, by, "it runs on across this", firm)


def _taken_in(
    finish: FinishedEdge,
    seams: Mapping[str, JoinedSeam],
    finished: Set[tuple[str, str]],
    draft: Draft,
    crossings: Crossings,
) -> dict[str, dict[EdgeName, None]]:
    """The seams that take in ends of edges that are turned or bound, where no free edge goes on on their other side."""
    found: dict[str, dict[EdgeName, None]] = {}
    if not (finish.join.folds or finish.join.binding):
        return found
    for edge in finish.edges:
        for corner in _corners(edge, draft):
            for by, is_first in crossings.meeting(corner):
                seam = seams[by]
                if seam.mirrored or seam.join.turning in (ENCLOSES, CLOSES):
                    continue
                others = (at for name in (seam.second if is_first else seam.first) for at in _corners(name, draft))
                met = [at for at in others if by in crossings.joining(corner, at, "")]
                around = {(at.piece.name, one.name) for at in met for one in at.edges}
                beside = {place for place in around if not seam.sews(*place)}
                if beside and not beside & finished:
                    found.setdefault(by, {})[edge] = None
    return found


def _flat(
    tasks: Iterable[Task], seams: Iterable[JoinedSeam], finishes: Iterable[tuple[str, FinishedEdge]]
) -> Iterator[Wait]:
    """What takes up cloth of an edge comes before the work on that edge."""
    by_edge: dict[tuple[str, str], list[FlatWork]] = {}
    for flat in (task.flat for task in tasks if task.flat is not None):
        for taken in flat.edges:
            by_edge.setdefault(taken, []).append(flat)
    if not by_edge:
        return
    works = [(seam.name, seam.edges) for seam in seams] + [(name, finish.edges) for name, finish in finishes]
    for name, edges in works:
        for edge in edges:
            for flat in by_edge.get((edge.piece, edge.edge), ()):
                yield Wait(name, flat.name, flat.why)


def _corners(name: EdgeName, draft: Draft) -> tuple[Corner, ...]:
    piece = draft.piece(name.piece)
    edge = piece.edge(name.edge)
    if edge is None:
        return ()
    at = piece.edges.index(edge)
    return Corner(piece, at), Corner(piece, (at + 1) % len(piece.edges))
