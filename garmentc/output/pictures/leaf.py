"""A piece as it lies in the hand: unfolded, and each part that is cut in one with it as a leaf of its own."""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence

from garmentc.assembly.chains import Stretch
from garmentc.assembly.model import Assembly, CutPiece
from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.geometry.motion import Motion
from garmentc.geometry.vector import Point
from garmentc.record import Record

_STRAY = 0.7  # mm that a drawn curve may leave the true one

Line = tuple[Point, ...]


class Leaf(Record):
    """One leaf: its outline and the sewing lines of its edges, in mm, y up, right side up.

    ``lines`` holds for each edge its own sewing line, anticlockwise, and then that of its mirror image on the other
    side of a fold; ``cut`` the cut lines in the same way.
    ``is_pair`` when its mirror image is cut as well, ``is_mirrored`` when it is that.
    """

    piece: str
    part: str
    title: str
    outline: Line
    lines: Mapping[str, tuple[Line, ...]]
    cut: Mapping[str, tuple[Line, ...]]
    is_pair: bool = False
    is_mirrored: bool = False

    def mirrored(self) -> Leaf:
        """The other one of a pair, right side up."""

        def over(line: Line) -> Line:
            return tuple(-p.conjugate() for p in reversed(line))

        return self._replace(
            outline=over(self.outline),
            lines={edge: tuple(map(over, lines)) for edge, lines in self.lines.items()},
            cut={edge: tuple(map(over, lines)) for edge, lines in self.cut.items()},
            is_mirrored=True,
        )

    def holds(self, name: EdgeName) -> bool:
        """Whether an edge is one of this leaf."""
        return (self.piece, self.part) == (name.piece, part_of(name.edge))

    def begins(self, stretch: Stretch, half: int) -> bool:
        """Whether the sewing line of an edge starts where the side of a seam comes onto it."""
        return stretch.backward == ((half == 1) != self.is_mirrored)


def part_of(edge: str) -> str:
    """The part cut in one with a piece that an edge belongs to; nothing for the piece itself."""
    head, dot, _ = edge.partition(".")
    return head if dot else ""


def leaf_title(piece: str, part: str) -> str:
    """What a leaf is called: the piece, or a part that is cut in one with it."""
    return f"{spoken(part)} of the {piece}" if part else piece


def folds_words(assembly: Assembly, shown: Iterable[Leaf]) -> str:
    """Which outlines of leaves are no edges but folds, because what lies beyond is a leaf of its own."""
    folds = {
        f" The {spoken(fold)} of the {assembly.draft.piece(leaf.piece).title} is a fold, not an edge."
        for leaf in shown
        for part, fold in assembly.folded_back(leaf.piece)
        if leaf.part in {"", part}
    }
    return "".join(sorted(folds))


def leaves(pieces: Iterable[CutPiece], names: Iterable[EdgeName], turned: Container[str] = ()) -> list[Leaf]:
    """The leaves that these edges belong to, each once; the edges ``turned`` are drawn at their sewing line."""
    by_name = {piece.drafted.name: piece for piece in pieces}
    wanted = dict.fromkeys((name.piece, part_of(name.edge)) for name in names)
    return [_leaf(by_name[piece], part, turned) for piece, part in wanted if piece in by_name]


def whole(piece: CutPiece) -> tuple[Line, Motion | None]:
    """The cut line of all that is cut in one, unfolded, and the motion to its other half when it is on the fold."""
    mirror = _mirror(piece)
    names = [edge.name for edge in piece.drafted.edges if not edge.on_fold]
    start = next((i for i, edge in enumerate(piece.drafted.edges) if edge.on_fold), -1) + 1
    ring = [piece.edges[(start + i) % len(piece.edges)] for i in range(len(piece.edges))]
    outline: list[Point] = []
    for cut in (one for one in ring if one.edge in names):
        outline += cut.path.flatten(_STRAY)
        if cut.corner is not None:
            outline += cut.corner.flatten(_STRAY)
    if mirror is not None:
        outline += [mirror.apply(p) for p in reversed(outline)]
    return tuple(outline), mirror


def _mirror(piece: CutPiece) -> Motion | None:
    fold = next((edge.path for edge in piece.drafted.edges if edge.on_fold), None)
    return None if fold is None else Motion.mirror_in(fold.start, fold.chord)


def _leaf(piece: CutPiece, part: str, turned: Container[str]) -> Leaf:
    drafted = piece.drafted
    ring = list(zip(piece.edges, drafted.edges, strict=True))
    member = [part_of(edge.name) == part and not edge.on_fold for _, edge in ring]
    start = next((i for i, is_in in enumerate(member) if is_in and not member[i - 1]), 0)
    run = [(ring + ring)[i] for i in range(start, start + len(ring)) if (member + member)[i]]
    is_whole = all(member)
    outline: list[Point] = []
    for i, (cut, edge) in enumerate(run):
        if edge.name in turned:
            outline += edge.path.flatten(_STRAY)
            continue
        outline += cut.path.flatten(_STRAY)
        if cut.corner is not None and (is_whole or i < len(run) - 1):
            outline += cut.corner.flatten(_STRAY)
    mirror = _mirror(piece)
    if mirror is not None:
        outline += [mirror.apply(p) for p in reversed(outline)]

    def both(line: Sequence[Point]) -> tuple[Line, ...]:
        own = tuple(line)
        return (own,) if mirror is None else (own, tuple(mirror.apply(p) for p in reversed(own)))

    return Leaf(
        drafted.name,
        part,
        leaf_title(drafted.title, part),
        tuple(outline),
        {edge.name: both(edge.path.flatten(_STRAY)) for _, edge in run},
        {edge.name: both(cut.path.flatten(_STRAY)) for cut, edge in run},
        drafted.pair,
    )
