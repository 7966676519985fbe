"""How the two sides of a seam are laid on each other: in one picture, or side by side where they can't lie flat."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.faces import Faces, faces
from garmentc.assembly.model import Assembly, Join, JoinedSeam, Layer
from garmentc.design.texts import spoken
from garmentc.geometry.motion import Motion
from garmentc.geometry.vector import Point
from garmentc.numbers import length
from garmentc.output.pictures.apart import apart_picture
from garmentc.output.pictures.arrange import points_of
from garmentc.output.pictures.board import Board
from garmentc.output.pictures.caught import strips_by_place
from garmentc.output.pictures.laid import Group, Laid, along, chain, cut, halves, inset, inside, lay, long, onto
from garmentc.output.pictures.leaf import Line, folds_words, leaves
from garmentc.output.pictures.model import LETTER, Picture, Word, framed, word_box
from garmentc.record import Record

_NEAR = 4.0  # mm that two sides may be off where they are drawn on each other
_NEAR_SHARE = 0.02  # … and of their length
_SHARES = (0.5, 0.35, 0.65, 0.2, 0.8)  # of a line, where its name may stand
_AWAY = 18.0  # px from a line to its name
_LEVEL = 0.4  # how far sideways a name may lie off a line and still be centred on it
_PEEK = 5 - 5j  # px that the upper layer is drawn off the lower one, so that both are seen


def seam_picture(assembly: Assembly, seam: JoinedSeam, sewn: Sequence[JoinedSeam]) -> Picture:
    """The picture of a seam, when the seams before it are sewn."""
    first, second = (lay(leaves(assembly.pieces, side), side, sewn) for side in (seam.first, seam.second))
    if len(first) == len(second) == 1 and not seam.gathered and not seam.stretched:
        how = faces(seam.join)
        top, below = (first[0], second[0]) if how.first_on_top else (second[0], first[0])
        sides = seam.sides if how.first_on_top else (seam.sides[1], seam.sides[0])
        found = _on_each_other(how, top, below, sides)
        if found is not None:
            return _together(assembly, seam, how, found, sides)
    return apart_picture(assembly, seam, [*first, *(group for group in second if group not in first)])


class _Found(Record):
    """Two groups on each other, and the lines along which they are sewn: one, or both halves."""

    top: Group
    below: Group
    lines: tuple[Line, ...]


Sides = tuple[tuple[Stretch, ...], tuple[Stretch, ...]]


def _on_each_other(how: Faces, top: Group, below: Group, sides: Sides) -> _Found | None:
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


def _together(assembly: Assembly, seam: JoinedSeam, how: Faces, found: _Found, sides: Sides) -> Picture:
    further = [_further(assembly, layer, found, how, first_on_top=how.first_on_top) for layer in seam.layers]
    groups = [group for group in further if group is not None]
    board = Board(points_of((found.top, found.below, *groups)), (p for line in found.lines for p in line))
    under, between, over = strips_by_place(assembly, board, seam, how, found.top, found.below, _PEEK)
    peek = 0j
    for group in groups if not how.first_on_top else ():
        _draw(board, group, wrong=False, peek=-_PEEK)
    board.line("hidden", *under)
    _draw(board, found.below, wrong=how.below_wrong, peek=0j)
    for ring in between:
        board.line("cloth", ring)
    _draw(board, found.top, wrong=how.top_wrong, peek=_PEEK)
    for ring in over:
        board.line("cloth", ring)
    for group in groups if how.first_on_top else ():
        peek += _PEEK
        _draw(board, group, wrong=True, peek=_PEEK + peek)
    board.line("hidden", *(board.px((*laid.outline, laid.outline[0])) for laid in found.below))
    on_edge = how.top_wrong != how.below_wrong  # the cut edges lie on each other: the first row keeps to them
    row = _first_row(seam.join) if on_edge else seam.join.allowance
    insets = [inset(line, row - seam.join.allowance) for line in found.lines]
    rows = [part for line in insets for part in _sewn_parts(line, seam, found)]
    lines = [board.px(line, _PEEK + peek) for line in rows]
    board.line("row", *lines)
    for line in lines:
        board.pins(line)
    named = [", ".join(dict.fromkeys(laid.leaf.title for laid in group)) for group in (found.top, found.below)]
    seen = ["wrong side up" if wrong else "right side up" for wrong in (how.top_wrong, how.below_wrong)]
    text = f"On top, {seen[0]}: {named[0]}. Below, {seen[1]}: {named[1]}."
    for one, layer in zip(further, seam.layers, strict=True):
        text += _further_words(assembly, layer, how, drawn=one is not None)
    for where, caught in (("Between them", between), ("On top of them", over), ("Beneath them", under)):
        titles = dict.fromkeys(caught.values())
        text += f" {where}: {', '.join(titles)}." if titles else ""
    text += folds_words(assembly, (laid.leaf for group in (found.top, found.below) for laid in group))
    text += " Broken line: where you sew"
    text += f", {length(row)} from the cut edge; pins across it." if on_edge else "; pins across it."
    if seam.gap is not None:
        text += f" Where it is left out, {length(seam.gap.high - seam.gap.low)} stay open."
    edges = ", ".join(dict.fromkeys(spoken(one.name.edge.rpartition(".")[2]) for one in sides[0]))
    rings = [board.px(laid.outline, _PEEK) for group in (found.top, found.below) for laid in group]
    board.words.append(_named(lines[0], edges, rings))
    return framed(text, f"{spoken(seam.name).capitalize()}. {text}", board.strokes, board.words)


def _draw(board: Board, group: Group, *, wrong: bool, peek: Point) -> None:
    for laid in group:
        board.cloth(board.px(laid.outline, peek), wrong=wrong)


def _further(assembly: Assembly, layer: Layer, found: _Found, how: Faces, *, first_on_top: bool) -> Group | None:
    """A further layer, its right side toward the outer side of the first one; None where it can't lie flat there."""
    names = tuple(one.name for one in layer.side)
    groups = lay(leaves(assembly.pieces, names), names, ())
    if len(groups) != 1:
        return None
    beside = found.top if first_on_top else found.below
    fixed = found.lines[0]
    beside_wrong = how.top_wrong if first_on_top else how.below_wrong
    mirrored = beside[0].motion.mirrored == (first_on_top == beside_wrong)  # on top it lies wrong side up
    tried = []
    for half in range(halves(groups[0], layer.side)):
        line = chain(groups[0], layer.side, half)
        tried += [onto(way, fixed, mirrored=mirrored) for way in (line.line, line.line[::-1])]
    motion, off = min(tried, key=lambda one: one[1])
    if off > _NEAR + _NEAR_SHARE * long(fixed):
        return None
    return tuple(Laid(one.leaf, one.motion.then(motion)) for one in groups[0])


def _further_words(assembly: Assembly, layer: Layer, how: Faces, *, drawn: bool) -> str:
    titles = ", ".join(dict.fromkeys(assembly.draft.piece(one.name.piece).title for one in layer.side))
    where = "On top of all" if how.first_on_top else "Beneath all"
    seen = "wrong side up" if how.first_on_top else "right side up"
    return f" {where}, {seen}: {titles}{'' if drawn else ' (not drawn)'}."


def _sewn_parts(line: Line, seam: JoinedSeam, found: _Found) -> list[Line]:
    """The parts of a line of a seam that are sewn: all of it, or both beside what is left open."""
    if seam.gap is None:
        return [line]
    group = next(one for one in (found.top, found.below) if any(laid.leaf.holds(seam.first[0]) for laid in one))
    shares = [seam.gap.low / seam.first_length, seam.gap.high / seam.first_length]
    starts = []
    for half in range(halves(group, seam.sides[0])):
        side = chain(group, seam.sides[0], half)
        starts.append(side.line[0] if side.begins else side.line[-1])
    if min(abs(line[-1] - at) for at in starts) < min(abs(line[0] - at) for at in starts):
        shares = [1 - share for share in reversed(shares)]
    return [cut(line, 0.0, shares[0]), cut(line, shares[1], 1.0)]


def _first_row(join: Join) -> float:
    """How far (mm) from the cut edge the row runs that joins the pinned layers; the allowance when none does."""
    after_pinning = False
    for work in join.work:
        after_pinning = after_pinning or work.word == "pin"
        if after_pinning and work.word == "pass":
            return min(work.width, join.allowance)
    return join.allowance


def _named(line: Line, text: str, rings: Sequence[Line]) -> Word:
    """The name of an edge beside its line (px) that has the cloth on its left: where it covers no cloth, if it can."""
    words = [_beside(line, share, text) for share in _SHARES]

    def covers(word: Word) -> int:
        low, high = word_box(word)
        corners = (low, high, complex(low.real, high.imag), complex(high.real, low.imag), (low + high) / 2)
        return sum(inside(corner, ring) for corner in corners for ring in rings)

    return min(words, key=covers)


def _beside(line: Line, share: float, text: str) -> Word:
    step = along(line, min(share + 0.02, 1.0)) - along(line, share - 0.02)
    away = 1j * step / (abs(step) or 1.0)  # y runs down
    anchor = "middle" if abs(away.real) < _LEVEL else "start" if away.real > 0 else "end"
    return Word(text, along(line, share) + _AWAY * away + complex(0, 0.35 * LETTER), anchor)
