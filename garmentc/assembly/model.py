"""The assembled garment: everything that output needs, with all numbers of one body filled in."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from garmentc.assembly.chains import Stretch
from garmentc.assembly.copies import Run
from garmentc.assembly.sewn import Surface
from garmentc.design.model import EdgeName
from garmentc.design.texts import one_of
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.record import Record
from garmentc.source import Span

SLITS_APART = 6.0
"""How far (mm) the slits of one notch lie apart; common practice, no source."""


class StitchUse(Record):
    """A stitch by its ISO 4915 number; ``ratio`` is the length of thread for each length of seam."""

    code: str
    title: str
    ratio: float


class Work(Record):
    """One thing to do: ``word`` is pass, pin, trim, clip, press, turn or do; a pass has a width (mm) and a stitch."""

    word: str
    text: str
    width: float
    stitch: StitchUse | None


class SectionLine(Record):
    """A line of a section: a layer of cloth with its name, a row of stitching, or a gap whose width is told.

    Points have a distance (mm) and a level: layers that lie on each other are one level apart. The right side of the
    cloth of a layer is on its left; ``goes_on`` says whether it goes on beyond its first and its last point.
    """

    word: str
    name: str
    points: tuple[tuple[float, float], ...]
    goes_on: tuple[bool, bool]


class Section(Record):
    """A seam type or finish cut across, as it looks when ``title`` says."""

    title: str
    lines: tuple[SectionLine, ...]


class Join(Record):
    """A seam type or finish as used in one place, lengths in mm.

    ``folds`` are the depths turned in one after the other from the edge outward; ``binding`` is the cut width of
    the strip that binds, or 0. ``turning`` is as in a ``JoinPlan``. ``sections`` are pictures of it, in the order of
    the work.
    """

    name: str
    of: str
    title: str
    iso_class: str
    turning: str
    allowance: float
    corner: str
    folds: tuple[float, ...]
    work: tuple[Work, ...]
    tools: tuple[str, ...]
    binding: float
    sections: tuple[Section, ...] = ()


class Inserted(Record):
    """A strip caught in a seam at a point of a piece, ``named`` with its instances, by one end or, ``folded``, by both.

    It comes out on the right side of the garment, or ``inside``: it is laid on that side of the piece.
    It is caught in these runs ``sewn`` of the seam, at ``places`` in all: one for two runs that meet there ``at_fold``.
    Each place lies ``run`` mm along the side of the seam. ``mark`` is what the pattern calls it, if it is marked.
    """

    strip: str
    strip_title: str
    folded: bool
    inside: bool
    piece: str
    piece_title: str
    point_name: str
    mark: str
    named: EdgeName
    at: Point
    run: float
    sewn: tuple[int, ...]
    at_fold: bool
    span: Span

    @property
    def of_piece(self) -> str:
        """The piece, or which of its instances, in words."""
        return one_of(self.piece_title, self.named.hand, self.named.copy)

    @property
    def where(self) -> str:
        """The place in words, as the pattern marks it."""
        place = f'mark "{self.mark}"' if self.mark else self.point_name
        return f"at the {place} of {self.of_piece}"

    @property
    def places(self) -> int:
        """How many places there are in all."""
        return len(self.sewn) // 2 if self.at_fold else len(self.sewn)


class Matched(Record):
    """Notches that meet: how far each side has run there (mm), whether they are laid there, and how many slits.

    Where nothing is laid, a notch of the maker's or a seam that crosses there shows the place.
    """

    runs: tuple[float, float]
    laid: tuple[bool, bool]
    slits: int


class BindingRun(Record):
    """A strip that binds a line ``along`` mm long, ``times`` over; ``ring``: its ends are joined to each other.

    It is cut of so many ``parts``, each ``part`` mm long; ``joins`` are where they are joined, from the beginning of
    the line (mm).
    """

    along: float
    ring: bool
    times: int
    parts: int
    part: float
    joins: tuple[float, ...]


class LineEnd(Record):
    """Where a line of edges ends, in words, and the seams that take in the edge it ends at."""

    where: str
    seams: tuple[str, ...]


class Gap(Record):
    """An opening that a seam leaves, from place to place along its first side (mm), and what closes it later."""

    low: float
    high: float
    join: Join


class Layer(Record):
    """A further side of a seam, from the end where the others begin, and its runs beside those of the first side."""

    side: tuple[Stretch, ...]
    sewn: tuple[tuple[Run, Run], ...]


class JoinedSeam(Record):
    """A seam. Lengths are along the stitching line of one run; it is sewn ``times`` over (left and right, say).

    ``gathered`` is how many times as long the first side is when it is gathered, ``stretched`` how many times its
    length it gets when it is stretched, else 0.

    A seam that meets the fold of a piece runs on into its other half: then one run is both halves. ``folded`` are the
    fold lines along which a piece is folded to bring the two sides together, as piece title and name of the line.
    When ``mirrored``, both sides are one chain of edges and its mirror image. ``sides`` are walked from the ends that
    meet, so that places ``matched`` lie on each other; they may be off by ``within``. ``sewn`` are the runs of both
    sides, each half of a run that goes on over a fold on its own. ``layers`` are further sides that the same stitching
    takes in. ``closed_by`` are the seams that make it a ring once they are sewn, if any can.
    """

    name: str
    join: Join
    first: tuple[EdgeName, ...]
    second: tuple[EdgeName, ...]
    mirrored: bool
    first_length: float
    second_length: float
    ease: float
    gathered: float
    stretched: float
    times: int
    inserts: tuple[Inserted, ...]
    folded: tuple[tuple[str, str], ...]
    sides: tuple[tuple[Stretch, ...], tuple[Stretch, ...]]
    sewn: tuple[tuple[Run, Run], ...]
    within: float
    span: Span
    matched: tuple[Matched, ...] = ()
    runs: tuple[BindingRun, ...] = ()
    gap: Gap | None = None
    layers: tuple[Layer, ...] = ()
    closed_by: tuple[str, ...] | None = None

    def ends(self, *, at_end: bool) -> tuple[Stretch, Stretch]:
        """The edges of both sides that lie at its start, or at its end."""
        first, second = self.sides
        return (first[-1], second[-1]) if at_end else (first[0], second[0])

    def sews(self, piece: str, edge: str) -> bool:
        """Whether it sews an edge."""
        return any((name.piece, name.edge) == (piece, edge) for name in self.edges)

    @property
    def sewn_length(self) -> float:
        """How long (mm) it is once it is sewn: what is longer is eased in, what is stretched gets longer."""
        lengths = (self.first_length, self.second_length)
        return max(lengths) if self.stretched else min(lengths)

    @property
    def edges(self) -> tuple[EdgeName, ...]:
        """The edges that it sews, each as often as it is written."""
        sides = (self.first,) if self.mirrored else (self.first, self.second)
        return (*(name for side in sides for name in side), *(one.name for layer in self.layers for one in layer.side))


class Drawn(Record):
    """What is drawn through a channel, ``times`` over: a strip, or something bought, with its sizes (mm)."""

    title: str
    strip: str
    length: float
    width: float
    times: int


class FinishedEdge(Record):
    """Edges with one finish, named in ``words``; ``length`` is that of all their copies together (mm).

    ``ends`` are where a binding along them ends; ``rings`` are the lines that close, by the seams that each runs over.

    Of a strip the edges are its ``ends`` (those that no seam catches) and its ``sides``.
    """

    edges: tuple[EdgeName, ...]
    words: str
    join: Join
    length: float
    span: Span
    runs: tuple[BindingRun, ...] = ()
    drawn: Drawn | None = None
    ends: tuple[LineEnd, ...] = ()
    rings: tuple[tuple[str, ...], ...] = ()

    @property
    def draw_of(self) -> str:
        """The strip that is drawn through it, or an empty text."""
        return "" if self.drawn is None else self.drawn.strip


class EdgeUse(Record):
    """What becomes of an edge: ``way`` is seam, finish or fold; ``by`` names the seam, finish or fold.

    It is that ``of_one`` instance of the piece (in words, or of all); ``others`` are what becomes of the others' edge.
    """

    way: str
    by: str
    join: Join | None
    span: Span
    of_one: str = ""
    others: tuple[EdgeUse, ...] = ()

    @property
    def all(self) -> tuple[EdgeUse, ...]:
        """What becomes of the edge of all instances, one after the other."""
        return (self, *self.others)

    @property
    def allowance(self) -> float:
        """Cloth beyond the stitching line (mm)."""
        return 0.0 if self.join is None else self.join.allowance


class CutEdge(Record):
    """The part of the cut line that belongs to an edge, and the bit after it that rounds the next corner."""

    edge: str
    path: Path
    corner: Path | None


class Notch(Record):
    """Slits in an edge, ``slits`` of them side by side, their middle ``along`` it (mm, as outlined).

    ``seam`` is the seam whose sides they match, or nothing.
    """

    edge: str
    along: float
    slits: int
    seam: str
    span: Span

    def places(self, whole: float) -> tuple[float, ...]:
        """Where each of them lies along an edge of this length (mm)."""
        wide = SLITS_APART * (self.slits - 1)
        begin = min(max(self.along - wide / 2, 0.0), whole - wide)
        return tuple(begin + i * SLITS_APART for i in range(self.slits))


class CutPiece(Record):
    """A piece with its allowances. ``cut_line`` runs anticlockwise; ``edges`` go round it in the order of the draft.

    ``hand`` says which half or piece of a pair is drawn, the left or the right one as worn, where that matters.
    """

    drafted: DraftedPiece
    uses: Mapping[str, EdgeUse]
    edges: tuple[CutEdge, ...]
    cut_line: Outline
    notches: tuple[Notch, ...] = ()
    hand: str = ""


class PlannedStep(Record):
    """One step of the making, in order.

    ``about`` is strip, interfacing, shaping, seam, finish, row (of buttons or buttonholes), closing or own, and
    ``thing`` the strip, seam or finish that it makes; ``lines`` say what to do.
    """

    number: int
    name: str
    title: str
    about: str
    lines: tuple[str, ...]
    thing: DraftedPiece | JoinedSeam | FinishedEdge | None


class ThreadUse(Record):
    """Thread by stitch: length sewn and length of thread, in mm, without waste."""

    stitch: StitchUse
    sewn: float
    thread: float


class BindingUse(Record):
    """Bias strip that edges need: its cut width and their length in mm, and the strips one by one."""

    of: str
    width: float
    length: float
    runs: tuple[BindingRun, ...]


class Assembly(Record):
    """A garment for one body, ready to be drawn and written about."""

    draft: Draft
    pieces: tuple[CutPiece, ...]
    strips: tuple[CutPiece, ...]
    seams: tuple[JoinedSeam, ...]
    finishes: tuple[FinishedEdge, ...]
    steps: tuple[PlannedStep, ...]
    thread: tuple[ThreadUse, ...]
    bindings: tuple[BindingUse, ...]
    tools: tuple[str, ...]
    surface: Surface

    def folded_back(self, piece: str) -> Iterator[tuple[str, str]]:
        """The parts that are cut in one with a piece and folded back, each with the name of its fold line."""
        folds = {line.name for line in self.draft.piece(piece).lines if line.kind == "fold"}
        for name, part in self.draft.design.pieces[piece].parts.items():
            if part.across.text in folds:
                yield name, part.across.text
