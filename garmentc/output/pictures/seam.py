"""How the two sides of a seam are laid on each other: in one picture, or side by side where they can't lie flat."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.assembly.model import Assembly, Inserted, Join, JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.geometry.motion import Motion
from garmentc.geometry.vector import Point
from garmentc.numbers import length
from garmentc.output.pictures.board import Board
from garmentc.output.pictures.laid import Group, Laid, along, chain, halves, inset, lay, long, middle, onto
from garmentc.output.pictures.leaf import Line, leaves
from garmentc.output.pictures.model import Picture, framed
from garmentc.record import Record

_NEAR = 4.0  # mm that two sides may be off where they are drawn on each other
_NEAR_SHARE = 0.02  # … and of their length
_PEEK = 5 - 5j  # px that the upper layer is drawn off the lower one, so that both are seen
_APART = 40.0  # mm between groups that lie side by side
_STRIP = 46.0  # px of a strip that are drawn


class Laying(Record):
    """How the sides lie: which one is on top, and which side of the cloth of each looks up."""

    first_on_top: bool
    top_wrong: bool
    below_wrong: bool


def laying(join: Join) -> Laying:
    """What the first section of a seam type says of it; right sides together when it says nothing."""
    lines = join.sections[0].lines if join.sections else ()
    first, second = (
        next((line.points for line in lines if line.word == "layer" and line.name == name), None)
        for name in ("first", "second")
    )
    if first is None or second is None:
        return Laying(True, True, False)
    first_on_top = first[0][1] > second[0][1]
    wrong = [points[0][0] > points[1][0] for points in (first, second)]
    return Laying(first_on_top, wrong[0 if first_on_top else 1], wrong[1 if first_on_top else 0])


def seam_picture(assembly: Assembly, seam: JoinedSeam, sewn: Sequence[JoinedSeam]) -> Picture:
    """The picture of a seam, when the seams before it are sewn."""
    first, second = (lay(leaves(assembly.pieces, side), side, sewn) for side in (seam.first, seam.second))
    if len(first) == len(second) == 1 and not seam.gathered and not seam.stretched:
        how = laying(seam.join)
        top, below = (first[0], second[0]) if how.first_on_top else (second[0], first[0])
        sides = (seam.first, seam.second) if how.first_on_top else (seam.second, seam.first)
        found = _on_each_other(how, top, below, sides)
        if found is not None:
            return _together(assembly, seam, how, found, sides)
    return _side_by_side(assembly, seam, [*first, *(group for group in second if group not in first)])


class _Found(Record):
    """Two groups on each other, and the lines along which they are sewn: one, or both halves."""

    top: Group
    below: Group
    lines: tuple[Line, ...]


Sides = tuple[tuple[EdgeName, ...], tuple[EdgeName, ...]]


def _on_each_other(how: Laying, top: Group, below: Group, sides: Sides) -> _Found | None:
    """The groups laid on each other with their sewing lines meeting; None where these do not fit."""
    moves_top = not (how.below_wrong and not how.top_wrong)
    (moved, its), (fixed, other) = (
        ((top, sides[0]), (below, sides[1])) if moves_top else ((below, sides[1]), (top, sides[0]))
    )
    stays = chain(fixed, other)
    near = _NEAR + _NEAR_SHARE * long(stays.line)
    mirrored = how.top_wrong != how.below_wrong
    tried = []
    for half in range(halves(moved, its)):
        line = chain(moved, its, half)
        if line.gap > near:
            continue
        if line.begins != stays.begins:
            tried.append(onto(line.line[::-1], stays.line, mirrored=mirrored))
        elif halves(moved, its) > 1:  # the same on both sides of its fold: seen from the other side it lies turned
            tried.append(onto(line.line, stays.line, mirrored=not mirrored))
    motion, off = min(tried, key=lambda one: one[1], default=(Motion.identity(), near + 1))
    if off > near or stays.gap > near:
        return None
    laid = tuple(Laid(one.leaf, one.motion.then(motion)) for one in moved)
    lines = [stays.line]
    if halves(moved, its) > 1 and halves(fixed, other) > 1:
        beyond = chain(fixed, other, 1)
        under = [chain(laid, its, half).line for half in (0, 1)]
        if beyond.gap <= near and min(_between(beyond.line, one) for one in under) <= near:
            lines.append(beyond.line)
    return _Found(laid, fixed, tuple(lines)) if moves_top else _Found(fixed, laid, tuple(lines))


def _between(one: Line, other: Line) -> float:
    """How far (mm) two lines are from each other at most, in whichever direction they are drawn."""
    shares = [i / 4 for i in range(5)]
    return min(max(abs(along(one, share) - along(way, share)) for share in shares) for way in (other, other[::-1]))


def _together(assembly: Assembly, seam: JoinedSeam, how: Laying, found: _Found, sides: Sides) -> Picture:
    board = Board(p for group in (found.top, found.below) for laid in group for p in laid.outline)
    for laid in found.below:
        board.cloth(board.px(laid.outline), wrong=how.below_wrong)
    for insert in seam.inserts:
        _strip(assembly, board, insert, (found.top, found.below))
    for laid in found.top:
        board.cloth(board.px(laid.outline, _PEEK), wrong=how.top_wrong)
    board.line("hidden", *(board.px((*laid.outline, laid.outline[0])) for laid in found.below))
    on_edge = how.top_wrong != how.below_wrong  # the cut edges lie on each other: the first row keeps to them
    row = _first_row(seam.join) if on_edge else seam.join.allowance
    lines = [board.px(inset(line, row - seam.join.allowance), _PEEK) for line in found.lines]
    board.line("row", *lines)
    for line in lines:
        board.pins(line)
    named = [", ".join(dict.fromkeys(laid.leaf.title for laid in group)) for group in (found.top, found.below)]
    seen = ["wrong side up" if wrong else "right side up" for wrong in (how.top_wrong, how.below_wrong)]
    text = f"On top, {seen[0]}: {named[0]}. Below, {seen[1]}: {named[1]}. Broken line: where you sew"
    text += f", {length(row)} from the cut edge; pins across it." if on_edge else "; pins across it."
    edges = ", ".join(dict.fromkeys(spoken(name.edge.rpartition(".")[2]) for name in sides[0]))
    board.word(edges, _outside(lines[0], [p for laid in found.top for p in board.px(laid.outline, _PEEK)]))
    return framed(text, f"{spoken(seam.name).capitalize()}. {text}", board.strokes, board.words)


def _first_row(join: Join) -> float:
    """How far (mm) from the cut edge the row runs that joins the pinned layers; the allowance when none does."""
    after_pinning = False
    for work in join.work:
        after_pinning = after_pinning or work.word == "pin"
        if after_pinning and work.word == "pass":
            return min(work.width, join.allowance)
    return join.allowance


def _outside(line: Line, ring: Iterable[Point]) -> Point:
    """A place for a word beside the middle of a line, away from the middle of the cloth."""
    points = list(ring)
    at, middle = along(line, 0.5), sum(points) / len(points)
    away = at - middle
    away /= abs(away) or 1.0
    return at + complex(34 * away.real, 20 * away.imag)


def _strip(assembly: Assembly, board: Board, insert: Inserted, groups: Iterable[Group]) -> None:
    """A strip that lies between the layers: its end at the seam, and a bit of it."""
    strip = assembly.draft.piece(insert.strip)
    assert strip.making is not None
    half = strip.making.finished_width / 2 * board.scale
    for group in groups:
        for laid in group:
            if laid.leaf.piece != insert.piece or laid.leaf.part:
                continue
            at = board.px([laid.motion.apply(insert.at)])[0]
            ring = board.px(laid.outline)
            way = middle(ring) - at
            way /= abs(way) or 1.0
            side = way * 1j * max(half, 2.5)
            board.line("cloth", (at + side, at + side + way * _STRIP, at - side + way * _STRIP, at - side, at + side))
            return


def _side_by_side(assembly: Assembly, seam: JoinedSeam, groups: Sequence[Group]) -> Picture:
    """The sides as they lie open, right side up, with the same letter where their ends meet."""
    placed: list[Group] = []
    right = 0.0
    for group in groups:
        points = [p for laid in group for p in laid.outline]
        shift = Motion.shift_by(complex(right - min(p.real for p in points), -min(p.imag for p in points)))
        placed.append(tuple(Laid(laid.leaf, laid.motion.then(shift)) for laid in group))
        right += max(p.real for p in points) - min(p.real for p in points) + _APART
    board = Board(p for group in placed for laid in group for p in laid.outline)
    for group in placed:
        for laid in group:
            board.cloth(board.px(laid.outline), wrong=False)
            ring = board.px(laid.outline)
            board.word(laid.leaf.title, middle(ring))
    for side in (seam.first, seam.second):
        for name in side:
            for laid in (one for group in placed for one in group if one.leaf.holds(name)):
                board.line("edge", *(board.px(laid.moved(line)) for line in laid.leaf.cut[name.edge]))
    titles = ", ".join(laid.leaf.title for group in placed for laid in group)
    text = f"Right side up, opened out: {titles}. Thick: the edges that are sewn to each other."
    return framed(text, f"{spoken(seam.name).capitalize()}. {text}", board.strokes, board.words)
