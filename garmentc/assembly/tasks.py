"""The single tasks of the work, each with its title and its lines; which comes when is another matter."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence, Set
from itertools import pairwise

from garmentc.assembly.bindings import TURNED_IN
from garmentc.assembly.chains import Stretch, is_corner
from garmentc.assembly.model import FinishedEdge, Inserted, JoinedSeam
from garmentc.assembly.notches import notch_words, stops
from garmentc.assembly.takeups import FlatWork
from garmentc.assembly.turning import CLOSES, ENCLOSES
from garmentc.design.model import EdgeName
from garmentc.design.texts import one_of, spoken
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes

_SET_IN = "set_in"
"""The seam type of sleeves, which tells itself how they are eased."""
_STRAIGHT = 1.0
"""An edge that leaves the straight line by less than this (mm) needs no clipping; common practice, no source."""

_STRIPS, _SHAPING, _FLAT, _SEAMS, _HEMS, _ROWS, _CLOSING, _OWN = range(8)


class Task(Record):
    """Something to do, before it has a number. ``rank`` orders tasks that nothing else orders."""

    name: str
    title: str
    about: str
    lines: tuple[str, ...]
    rank: int
    span: Span
    thing: DraftedPiece | JoinedSeam | FinishedEdge | None = None
    flat: FlatWork | None = None


def tasks_of(
    strips: Sequence[DraftedPiece],
    flat: Sequence[FlatWork],
    seams: Sequence[JoinedSeam],
    finishes: Iterable[FinishedEdge],
) -> Iterator[Task]:
    """All tasks that follow from the garment, each kind as the spec lists it."""
    for strip in strips:
        if not strip.is_bought:
            yield _make_strip(strip)
    for work in flat:
        rank = _ROWS if work.last else _SHAPING
        yield Task(work.name, work.title, work.kind, work.lines, rank, work.span, flat=work)
    inside = shut_in(seams)
    names = {strip.name for strip in strips}
    for finish in finishes:
        yield _finish(finish, inside, names)
    for seam in seams:
        rank = _CLOSING if seam.join.turning == CLOSES else _SEAMS
        title = f"{seam.join.title}: {spoken(seam.name)}"
        yield Task(seam.name, title, "seam", (), rank, seam.span, seam)
        if seam.gap is not None:
            title = f"{seam.gap.join.title}: {spoken(seam.name)}"
            lines = tuple(work.text for work in seam.gap.join.work)
            yield Task(closing_name(seam), title, "closing", lines, _CLOSING, seam.span)


def with_lines(order: Iterable[Task], draft: Draft, taken_in: Mapping[str, Sequence[EdgeName]]) -> Iterator[Task]:
    """The tasks in their order, with the lines of seams too: which end of a strip a seam catches follows from it.

    ``taken_in`` are the edges, finished before, whose ends a seam takes in.
    """
    order = list(order)
    copies = {strip.name: strip.copies for strip in draft.strips}
    caught = dict.fromkeys(copies, 0)
    raw = {edge.piece for task in order if isinstance(task.thing, FinishedEdge) for edge in task.thing.edges}
    done: set[str] = set()
    for task in order:
        done.add(task.name)
        if isinstance(task.thing, JoinedSeam):
            is_ring = task.thing.closed_by is not None and done.issuperset(task.thing.closed_by)
            ends = [
                f"the {spoken(one.edge)} of the {draft.piece(one.piece).title}" for one in taken_in.get(task.name, ())
            ]
            yield task._replace(lines=tuple(_sewing(task.thing, copies, caught, raw, ends, is_ring=is_ring)))
        elif isinstance(task.thing, FinishedEdge):
            yield task._replace(lines=tuple(_finishing(task.thing, task.lines, done)))
        else:
            yield task


def shut_in(seams: Iterable[JoinedSeam]) -> dict[tuple[str, str], list[str]]:
    """What enclosing seams shut inside the garment, as piece and grown-on part, and by which seams."""
    found: dict[tuple[str, str], list[str]] = {}
    for seam in seams:
        if seam.join.turning == ENCLOSES:
            for leaf in dict.fromkeys(leaf_of(name) for name in seam.second):
                found.setdefault(leaf, []).append(seam.name)
    return found


def leaf_of(name: EdgeName) -> tuple[str, str]:
    """The piece of an edge, and the part grown onto it that the edge belongs to, if any."""
    return name.piece, name.edge.rpartition(".")[0]


def own_task(step: nodes.Step) -> Task:
    """A step of the maker's own."""
    title = spoken(step.name.text)
    return Task(step.name.text, title[0].upper() + title[1:], "own", (step.text.text,), _OWN, step.span)


def _make_strip(strip: DraftedPiece) -> Task:
    making = strip.making
    assert making is not None
    if making.way == "tube":
        how: tuple[str, ...] = (
            f"Fold it lengthwise, right sides together, and stitch {length(making.stitched)} from the long edges.",
            "Trim the allowance to 3 mm where it is wider, so that it turns.",
            f"Turn it right side out and press with the seam along one side: it finishes "
            f"{length(making.finished_width)} wide.",
        )
    elif making.way == "quartered":
        how = (
            "Press both long edges to the middle, wrong sides together, then fold in half and press.",
            f"Stitch {length(making.stitched)} from both long edges: it finishes {length(making.finished_width)} wide.",
        )
    else:
        how = ("It is used flat, as cut.",)
    title = f"Make {strip.copies} of the {strip.title}" if strip.copies > 1 else f"Make the {strip.title}"
    return Task(strip.name, title, "strip", how, _STRIPS, strip.span, strip)


def _finish(finish: FinishedEdge, inside: Mapping[tuple[str, str], object], strips: Container[str]) -> Task:
    """Free edges of what is shut in are finished while flat, ends of strips as soon as the strip is made, hems last."""
    title = f"{finish.join.title}: {finish.words}"
    rank = _HEMS
    if all(name.piece in strips for name in finish.edges):
        rank = _STRIPS
    elif not finish.join.folds and all(leaf_of(name) in inside for name in finish.edges):
        rank = _FLAT
    lines = tuple(work.text for work in finish.join.work)
    return Task(finish_name(finish), title, "finish", lines, rank, finish.span, finish)


def closing_name(seam: JoinedSeam) -> str:
    """What the task is called that closes what a seam leaves open."""
    return f"close {seam.name}"


def finish_name(finish: FinishedEdge) -> str:
    """What the task of a finish is called."""
    return "finish " + ", ".join(name.text for name in finish.edges)


def _sewing(
    seam: JoinedSeam,
    copies: Mapping[str, int],
    caught: dict[str, int],
    raw: Container[str],
    ends: Sequence[str],
    *,
    is_ring: bool,
) -> list[str]:
    """What to do to sew a seam; ``caught`` counts the strips that a seam before has caught by one end.

    ``raw`` are the strips whose other ends are finished, ``ends`` edges that are finished and end at the seam.
    """
    works = [work for work in seam.join.work if work.word != "clip" or _is_curved(seam)]
    lines = [work.text for work in works]
    pinned = next((i for i, work in enumerate(works) if work.word == "pin"), -1)
    before = []
    for insert in seam.inserts:
        before.append(_catch(insert, copies[insert.strip], caught[insert.strip], is_raw=insert.strip in raw))
        caught[insert.strip] += insert.places
    before += [f"Fold the {piece} along its {spoken(fold)} fold, right sides together." for piece, fold in seam.folded]
    if is_ring:
        lines = [line.replace("ends and notches meeting", "seams and notches meeting") for line in lines]
    if not seam.matched:
        lines = [line.replace("ends and notches meeting", "ends meeting") for line in lines]
    if ends:
        lines = [line.replace("ends and notches", "notches").replace("ends meeting", "edges level") for line in lines]
    after = [
        f"Lay {_side_words(layer.side)} against the other side of {_side_words(seam.sides[0])}, edges level, its right "
        "side toward it, so that the same row takes in all layers; pin."
        for layer in seam.layers
    ]
    after += [words for words in (notch_words(seam),) if words]
    after += _eased(seam) if seam.join.name != _SET_IN else []
    after += _left_open(seam)
    sewn = next((i for i, work in enumerate(works) if work.word == "pass" and i > pinned), pinned + 1)
    lines[sewn:sewn] = _on_the_way(seam, ends, is_ring=is_ring)
    lines[pinned + 1 : pinned + 1] = after
    lines[max(pinned, 0) : max(pinned, 0)] = before
    if seam.times > 1:
        alike = (
            "on the left and on the right" if any(one.named.hand for one in seam.inserts) else "left and right alike"
        )
        lines.insert(0, f"Do this {seam.times} times, {alike}.")
    if not any(work.word == "press" for work in seam.join.work):
        lines.append("Press it before anything is sewn across it.")
    return lines


def _finishing(finish: FinishedEdge, lines: Sequence[str], done: Set[str]) -> Iterator[str]:
    """What to do to finish edges: after pinning the ends of a binding, before the first row where a ring begins."""
    words = [work.word for work in finish.join.work]
    pinned = words.index("pin") if "pin" in words else -1
    row = words.index("pass") if "pass" in words else len(words)
    closed = 0 if finish.join.binding else sum(all(name in done for name in over) for over in finish.rings)
    for i, line in enumerate(lines):
        if i == row and closed:
            what = "The edge closes into a ring" if closed == 1 else f"There are {closed} rings"
            yield f"{what}: begin beside a seam, and go 2 cm over the start."
        yield line
        if i == pinned and finish.ends:
            yield from _ends_of_strip(finish, done)


def _ends_of_strip(finish: FinishedEdge, done: Container[str]) -> Iterator[str]:
    """What becomes of the ends of a binding: a later seam takes them in, or they are turned in."""
    later = {end.where: [name for name in end.seams if name not in done] for end in finish.ends}
    for by in dict.fromkeys(tuple(seams) for seams in later.values() if seams):
        places = " and ".join(where for where, seams in later.items() if tuple(seams) == by)
        what = f"the {' and the '.join(spoken(name) for name in by)} {'seam takes' if len(by) == 1 else 'seams take'}"
        yield f"At {places} leave the strip flat and trim it level with the cut edge: {what} it in later."
    turned = " and ".join(where for where, seams in later.items() if not seams)
    if turned:
        yield f"At {turned} let the strip go on {length(TURNED_IN)}, and turn that in before it is folded over."


def _on_the_way(seam: JoinedSeam, ends: Sequence[str], *, is_ring: bool) -> Iterator[str]:
    """Where the rows of a seam begin and end, where they turn, and what is kept out of them."""
    if is_ring and seam.join.name != _SET_IN:
        yield "The seam closes into a ring: begin beside a seam, stitch all round, and 2 cm over the start."
    for piece, fold in seam.folded:
        yield f"Begin and end exactly at the {spoken(fold)} fold of the {piece}."
    if ends:
        yield (
            f"At {' and at '.join(dict.fromkeys(ends))}, finished already, the other piece reaches beyond by its own "
            "allowance: begin and end exactly at the finished edge, with a few stitches back."
        )
    for at_end, beyond in enumerate(stops(seam)):
        sides = zip(seam.ends(at_end=bool(at_end)), beyond, strict=True)
        places = [f"the {spoken(edge.name)} of the {end.piece.title}" for end, edge in sides if edge is not None]
        for place in places[:1]:
            yield (
                f"Stop exactly at the notch where {place} begins: it goes straight on there. Sew a few stitches back."
            )
    corners = [
        f"between the {spoken(one.name.edge)} and {_side_words((other,))}"
        for one, other in pairwise(seam.sides[0])
        if one.piece.name == other.piece.name and is_corner(one.direction(at_end=True), other.direction(at_end=False))
    ]
    if corners:
        yield f"Turn the work with the needle down at the corner {'; and '.join(dict.fromkeys(corners))}."
    kept = dict.fromkeys(insert.strip_title for insert in seam.inserts)
    if kept:
        yield f"Keep the rest of the {' and the '.join(kept)} clear of the stitching."


def _is_curved(seam: JoinedSeam) -> bool:
    """Whether a side of a seam is curved somewhere, so that its allowance has to be clipped."""
    return any(not one.edge.path.is_straight(_STRAIGHT) for side in seam.sides for one in side)


def _left_open(seam: JoinedSeam) -> list[str]:
    """Where a seam is not sewn yet."""
    if seam.gap is None:
        return []
    low, high = (length(float(round(run))) for run in (seam.gap.low, seam.gap.high))
    wide = length(seam.gap.high - seam.gap.low)
    return [
        f"Leave {wide} open, between the notches at {low} and {high}: stop at the one, sew a few stitches back, and "
        "begin again at the other. The work is turned, or filled, through it."
    ]


def _eased(seam: JoinedSeam) -> list[str]:
    """How the longer side is brought to the length of the other."""
    if seam.gathered:
        wide = f"from {length(seam.first_length)} to {length(seam.second_length)}"
        return [
            f"Gather {_side_words(seam.sides[0])} {wide}: sew two rows of long stitches inside the allowance, draw "
            "up both lower threads, and spread the fullness evenly."
        ]
    if seam.stretched:
        wide = f"from {length(seam.first_length)} to {length(seam.second_length)}"
        return [
            f"Stretch {_side_words(seam.sides[0])} {wide} as you sew: halve and quarter both sides, pin these places "
            "and the notches on each other, and sew with that side on top, pulling only it. A stitch that gives, such "
            "as a narrow zigzag, keeps it from breaking."
        ]
    if seam.ease:
        longer = _side_words(seam.sides[0 if seam.ease > 0 else 1])
        return [
            f"Ease in {longer} by {length(abs(seam.ease))}: pin the ends and notches first, then spread what is longer "
            "between them without a pleat."
        ]
    return []


def _side_words(side: Iterable[Stretch]) -> str:
    """A side of a seam in words, by its edges and pieces."""
    words = (f"the {spoken(one.name.edge)} of {one_of(one.piece.title, one.name.hand, one.name.copy)}" for one in side)
    return " and ".join(dict.fromkeys(words))


def _catch(insert: Inserted, copies: int, caught: int, *, is_raw: bool) -> str:
    """How strips are put on before the seam is stitched, when some were caught before."""
    where = insert.where
    which = f"the {insert.strip_title}" if copies == 1 else f"each {insert.strip_title}"
    if insert.places < copies:
        which = f"a {insert.strip_title}" if insert.places == 1 else f"{insert.places} of the {insert.strip_title}"
    side = "wrong side, so that it lies inside the garment" if insert.inside else "right side"
    if insert.folded:
        return (
            f"Fold {which} in half and lay both its ends on the edge {where}, on the {side}: level with the cut edge, "
            "the loop lying into the piece. Baste them there, to be caught in the seam."
        )
    end = "the other end" if caught >= copies else "the raw end" if is_raw else "one end"
    return (
        f"Lay {end} of {which} on the edge {where}, on the {side}: centred there and square to the edge, its end level "
        "with the cut edge, the rest lying into the piece, not twisted. Baste it there, to be caught in the seam."
    )
