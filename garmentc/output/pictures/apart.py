"""The two sides of a seam where they can't lie flat on each other: opened out, with letters where they meet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.model import Assembly, JoinedSeam
from garmentc.design.texts import spoken
from garmentc.geometry.vector import Point
from garmentc.output.pictures.arrange import arranged, points_of
from garmentc.output.pictures.board import Board
from garmentc.output.pictures.caught import Rings, strip
from garmentc.output.pictures.laid import Group, Laid, middle
from garmentc.output.pictures.leaf import folds_words
from garmentc.output.pictures.model import LETTER, Picture, framed

_BESIDE = 0.9 * LETTER  # px from the end of an edge to its letter
_SAME = 1.0  # mm; ends that lie so near each other carry one letter


def apart_picture(assembly: Assembly, seam: JoinedSeam, groups: Sequence[Group]) -> Picture:
    """The sides as they lie open, right side up; at their ends, the same letters come onto each other."""
    placed = arranged(groups)
    board = Board(points_of(placed))
    leaves = [laid for group in placed for laid in group]
    for laid in leaves:
        board.cloth(board.px(laid.outline), wrong=False)
    for side in (seam.first, seam.second):
        for name in side:
            for laid in (one for one in leaves if one.leaf.holds(name)):
                board.line("edge", *(board.px(laid.moved(line)) for line in laid.leaf.cut[name.edge]))
    caught: Rings = {}
    for insert in seam.inserts:
        rings = [strip(assembly, board, insert, group, 0j) for group in placed]
        for ring in [one for one in rings if one is not None][:1]:
            board.line("hidden" if insert.inside else "cloth", ring)
            caught[ring] = insert.strip_title
    for walked in seam.sides:
        for letter, (laid, end) in _ends(walked, leaves):
            at = board.px([end])[0]
            away = at - middle(board.px(laid.outline))
            board.word(letter, at + away / (abs(away) or 1.0) * _BESIDE)
    for laid in leaves:
        board.title(laid.leaf.title, middle(board.px(laid.outline)))
    titles = ", ".join(laid.leaf.title for laid in leaves)
    text = f"Right side up, opened out: {titles}. Thick: the edges that are sewn to each other, A on A and B on B."
    if caught:
        unlike = ", as told for the left and the right" if any(one.named.hand for one in seam.inserts) else ""
        text += f" Caught between{unlike}: {', '.join(dict.fromkeys(caught.values()))}."
    text += folds_words(assembly, (laid.leaf for laid in leaves))
    return framed(text, f"{spoken(seam.name).capitalize()}. {text}", board.strokes, board.words)


def _ends(side: Sequence[Stretch], leaves: Sequence[Laid]) -> Iterator[tuple[str, tuple[Laid, Point]]]:
    """Where a side begins (A) and ends (B), in each half and mirror image that is drawn."""
    found: list[tuple[str, Point]] = []
    for letter, stretch, at_end in (("A", side[0], False), ("B", side[-1], True)):
        for laid in (one for one in leaves if one.leaf.holds(stretch.name)):
            for half, line in enumerate(laid.leaf.cut[stretch.name.edge]):
                first = laid.leaf.begins(stretch, half) != at_end
                end = laid.moved(line)[0 if first else -1]
                if all(letter != its or abs(end - there) > _SAME for its, there in found):
                    found.append((letter, end))
                    yield letter, (laid, end)
