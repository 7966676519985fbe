"""How edges are finished: turned to the wrong side, bound with a strip, or sewn over as they are."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.assembly.model import Assembly, FinishedEdge, JoinedSeam
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.geometry.motion import Motion
from garmentc.numbers import length
from garmentc.output.pictures.arrange import arranged, moved
from garmentc.output.pictures.board import Board, bent
from garmentc.output.pictures.laid import Laid, along, inset, lay, middle
from garmentc.output.pictures.leaf import Line, folds_words, leaves
from garmentc.output.pictures.model import Picture, framed

_LEAST = 4.0  # px; a row nearer to its edge would not be seen
_ARROW = 26.0  # px


def edge_picture(assembly: Assembly, finish: FinishedEdge, sewn: Sequence[JoinedSeam]) -> tuple[Picture, ...]:
    """The pieces of a finish as they lie when it is done; nothing for the ends and sides of strips."""
    join = finish.join
    turned = {name.edge for name in finish.edges} if join.folds else set()
    placed = _placed(assembly, finish.edges, turned, sewn, wrong=bool(join.folds))
    if not placed:
        return ()
    board = _cloths(placed, wrong=bool(join.folds))
    for laid in placed:
        for name in finish.edges:
            if laid.leaf.holds(name):
                for sew, cut in zip(laid.leaf.lines[name.edge], laid.leaf.cut[name.edge], strict=True):
                    _finish(board, finish, laid, sew, cut)
        board.title(laid.leaf.title, middle(board.px(laid.outline)))
    text = _caption(finish) + folds_words(assembly, (laid.leaf for laid in placed))
    return (framed(text, f"{finish.join.title}. {text}", board.strokes, board.words),)


def place_picture(assembly: Assembly, edges: Sequence[EdgeName], sewn: Sequence[JoinedSeam]) -> tuple[Picture, ...]:
    """Where something is done that only the maker's words describe: the pieces as sewn so far, the edges marked."""
    placed = _placed(assembly, edges, set(), sewn, wrong=False)
    if not placed:
        return ()
    board = _cloths(placed, wrong=False)
    for laid in placed:
        for name in edges:
            if laid.leaf.holds(name):
                for line in laid.leaf.lines[name.edge]:
                    board.line("edge", board.px(laid.moved(line)))
        board.title(laid.leaf.title, middle(board.px(laid.outline)))
    text = f"Where it is done. Right side up; thick: the {', '.join(dict.fromkeys(spoken(one.edge) for one in edges))}."
    text += folds_words(assembly, (laid.leaf for laid in placed))
    return (framed(text, text, board.strokes, board.words),)


def _placed(
    assembly: Assembly, edges: Sequence[EdgeName], turned: set[str], sewn: Sequence[JoinedSeam], *, wrong: bool
) -> list[Laid]:
    """The leaves of edges beside each other, those that are sewn together as they lie now."""
    face = Motion.mirror_in(0j, 1j) if wrong else Motion.identity()
    groups = lay(leaves(assembly.pieces, edges, turned), edges, sewn)
    return [laid for group in arranged([moved(group, face) for group in groups]) for laid in group]


def _cloths(placed: Sequence[Laid], *, wrong: bool) -> Board:
    board = Board(p for laid in placed for p in laid.outline)
    for laid in placed:
        board.cloth(board.px(laid.outline), wrong=wrong)
    return board


def _finish(board: Board, finish: FinishedEdge, laid: Laid, sew: Line, cut: Line) -> None:
    """What happens along one edge: ``sew`` and ``cut`` are its lines on the leaf, anticlockwise."""
    join = finish.join
    rows = [work.width for work in join.work if work.word == "pass"]

    def at(depth: float) -> Line:
        return board.px(laid.moved(inset(sew, max(depth, _LEAST / board.scale))))

    edge = board.px(laid.moved(sew))
    if join.folds:
        board.cloth((*edge, *reversed(at(join.folds[0]))), wrong=False)
        board.line("was", board.px(laid.moved(cut)))
        if rows:
            board.line("row", at(join.folds[0] - rows[-1]))
        inner = at(join.folds[0] + _ARROW / board.scale)
        board.arrow(bent(along(board.px(laid.moved(cut)), 0.3), along(inner, 0.3), 9.0))
        return
    if join.binding:
        board.cloth((*edge, *reversed(at(join.binding))), wrong=True)
        board.line("row", at(rows[0] if rows else join.binding / 4))
        return
    board.line("edge", edge)
    if rows:
        board.line("row", at(rows[0]))


def _caption(finish: FinishedEdge) -> str:
    join = finish.join
    edges = ", ".join(dict.fromkeys(spoken(name.edge) for name in finish.edges))
    rows = [work.width for work in join.work if work.word == "pass"]
    if join.folds:
        turned = ", then by ".join(length(depth) for depth in reversed(join.folds))
        text = f"Wrong side up; the {edges} turned by {turned}. Dashes and two dots: where the cut edge was."
    elif join.binding:
        text = f"Right side up; a strip {length(join.binding)} wide lies on the {edges}, wrong side up."
    else:
        text = f"Right side up; thick: the {edges}."
    return f"{text} Broken line: a row of stitching." if rows else text
