"""What drafting gives: pieces with named edges, lines and marks, all in millimetres, y up."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from garmentc.data.model import Body
from garmentc.design.kinds import Kind
from garmentc.design.lays import MAIN
from garmentc.design.model import Design, EdgeName
from garmentc.geometry.motion import Motion
from garmentc.geometry.outline import Outline
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, heading, unit
from garmentc.record import Record
from garmentc.source import Span

GRAIN_TURNS = {"straight": 0.0, "cross": math.pi / 2, "bias": math.pi / 4}
"""By how much (radians) the lengthwise threads are turned from what the grain is held against."""

OFF_GRAIN = math.radians(1.0)
"""How far a piece may lie off its grain where nothing is said: common practice, no source."""


class DraftedEdge(Record):
    """One edge in the direction of the outline; ``backward`` when the spec draws it the other way.

    ``taken`` is how much of it (mm) darts, tucks and pleats take up.
    """

    name: str
    path: Path
    backward: bool
    on_fold: bool
    span: Span
    taken: float = 0.0

    @property
    def sewn_length(self) -> float:
        """Its length (mm) once its darts and tucks are sewn and its pleats folded."""
        return self.path.length - self.taken

    @property
    def own_path(self) -> Path:
        """The edge in the direction in which the spec draws it."""
        return self.path.reversed() if self.backward else self.path


class InnerLine(Record):
    """A line inside a piece: ``kind`` is ``fold``, ``guide``, ``lengthen`` or ``buttonhole``.

    One that is ``quiet`` has no words of its own on the pattern.
    """

    kind: str
    name: str
    path: Path
    text: str
    span: Span
    quiet: bool = False


class PlacedMark(Record):
    """A point to carry over to the cloth. ``size`` is the width (mm) of a button that comes there."""

    name: str
    at: Point
    text: str
    span: Span
    size: float = 0.0
    quiet: bool = False


class PlacedRow(Record):
    """Buttons, or the buttonholes for them, at equal distances: ``kind`` is ``buttons`` or ``buttonholes``.

    ``places`` are where a button comes to lie, ``size`` is the width of one or the length of a buttonhole (mm).
    ``slits`` are the buttonholes.
    """

    kind: str
    name: str
    size: float
    places: tuple[Point, ...]
    slits: tuple[Path, ...]
    text: str
    span: Span

    @property
    def apart(self) -> float:
        """From one place to the next (mm); 0 when there is only one."""
        return abs(self.places[1] - self.places[0]) if len(self.places) > 1 else 0.0


class PlacedNotch(Record):
    """A notch of so many slits at a distance (mm) along an edge, in the direction of the outline."""

    edge: str
    along: float
    span: Span
    slits: int = 1


class TakeUp(Record):
    """Cloth of an edge that is sewn away or folded under: ``kind`` is dart, tuck, knife, box or inverted.

    ``first`` and ``second`` are where it begins and ends along the outline, ``tip`` is where it runs to. ``deep`` is
    the depth of a fold (mm), ``bow`` how far curved legs of a dart leave the straight line, positive when they take up
    more. ``to_first`` says that its cloth is pressed toward the side of ``first``, in words ``pressed``.
    """

    kind: str
    name: str
    edge: str
    first: Point
    second: Point
    tip: Point
    deep: float
    bow: float
    to_first: bool
    pressed: str
    span: Span

    @property
    def title(self) -> str:
        """What it is called in words."""
        what = {"dart": "dart", "tuck": "tuck"}.get(self.kind, f"{self.kind} pleat")
        name = self.name.replace("_", " ")
        return name if name.endswith(what) else f"{name} {what}"


class Shift(Record):
    """A part of a piece that was moved: what lay in ``part`` now lies where ``motion`` takes it."""

    part: Outline
    motion: Motion


def shifted(p: Point, shifts: Iterable[Shift]) -> Point:
    """Where a point of a piece as drawn lies after its parts were moved, one after the other."""
    for shift in shifts:
        if shift.part.contains(p):
            p = shift.motion.apply(p)
    return p


class Making(Record):
    """How a strip is made up: ``way`` is ``tube``, ``quartered`` or ``flat``; all lengths in mm."""

    way: str
    length: float
    cut_width: float
    stitched: float
    finished_width: float


class Interfacing(Record):
    """A layer on the wrong side of each copy of a piece: what it is, and whether it is cut with the allowances."""

    text: str
    with_allowances: bool
    span: Span


class DraftedPiece(Record):
    """A piece as drafted: stitching lines, without allowances.

    The outline runs anticlockwise. A piece on the fold is its half. ``thread`` is the unit direction of the
    lengthwise threads; ``grain`` is ``straight``, ``cross`` or ``bias``. ``making`` is set for strips.
    """

    name: str
    title: str
    number: int
    pair: bool
    edges: tuple[DraftedEdge, ...]
    outline: Outline
    lines: tuple[InnerLine, ...]
    marks: tuple[PlacedMark, ...]
    notches: tuple[PlacedNotch, ...]
    takeups: tuple[TakeUp, ...]
    shifts: tuple[Shift, ...]
    thread: complex
    grain: str
    making: Making | None
    span: Span
    rows: tuple[PlacedRow, ...] = ()
    interfacing: Interfacing | None = None

    @property
    def on_fold(self) -> bool:
        return any(edge.on_fold for edge in self.edges)

    @property
    def is_unfolded(self) -> bool:
        """Whether it is drawn as its half and cut on single cloth: a fold off the threads does not lie true."""
        return any(edge.on_fold and self._runs_off(edge.path.chord) for edge in self.edges)

    def _runs_off(self, way: complex) -> bool:
        """Whether a direction runs neither along the threads nor across them."""
        turned = unit(way) * self.thread.conjugate()
        return min(abs(turned.real), abs(turned.imag)) > math.sin(OFF_GRAIN)

    @property
    def copies(self) -> int:
        """How many times each drawn edge exists once all is cut and unfolded."""
        return self.number * (2 if self.pair or self.on_fold else 1)

    @property
    def is_bought(self) -> bool:
        """Whether it is a label, tape or elastic that is not cut from the cloth."""
        return self.making is not None and self.making.way == "bought"

    def placed(self, p: Point) -> Point:
        """Where a point lies that the spec names: what was moved after it was drawn is taken along."""
        return shifted(p, self.shifts)

    def thread_under(self, grain: str) -> complex:
        """The unit direction of the lengthwise threads if the piece were laid on another grain."""
        return self.thread * heading(GRAIN_TURNS[grain] - GRAIN_TURNS[self.grain])

    def edge(self, name: str) -> DraftedEdge | None:
        return next((edge for edge in self.edges if edge.name == name), None)

    def meets_fold(self, name: str) -> bool:
        """Whether an edge ends on the fold, so that it runs on into its mirror image once unfolded."""
        at = next((i for i, edge in enumerate(self.edges) if edge.name == name), None)
        return at is not None and (self.edges[at - 1].on_fold or self.edges[(at + 1) % len(self.edges)].on_fold)


class FinishedMeasure(Record):
    """A finished measurement: in mm, mm², radians or as a plain number, as ``kind`` says."""

    name: str
    title: str
    value: float
    kind: Kind


class Motif(Record):
    """A named place of the cloth whose middle lies at a point of the piece, at most ``within`` mm off."""

    name: str
    at: Point
    within: float
    span: Span


class Laid(Record):
    """How a piece or strip shall lie on the cloth, with the numbers of one body.

    ``grains`` are all that it may have, its own first; it may lie ``within`` radians off them. A strip may be cut of
    ``joins`` parts more than one, joined between two places along it (mm). ``layers`` is 0 where nothing is said.
    """

    grains: tuple[str, ...]
    within: float
    edges: tuple[EdgeName, ...] = ()
    corners: tuple[tuple[str, Point, Span], ...] = ()
    joins: int = 0
    joined_between: tuple[float, float] = (0.0, 0.0)
    motifs: tuple[Motif, ...] = ()
    matches: tuple[tuple[EdgeName, EdgeName], ...] = ()
    mirrored: tuple[str, ...] = ()
    layers: int = 0
    cloth: str = MAIN


class Draft(Record):
    """All of a design, drafted for one body. ``strips`` are pieces too, with their making.

    ``lays`` says for those pieces and strips of which something is asked how they lie on the cloth. ``named`` are all
    pieces and strips by name.
    """

    design: Design
    body: Body
    params: Mapping[str, float]
    pieces: tuple[DraftedPiece, ...]
    strips: tuple[DraftedPiece, ...]
    finished: tuple[FinishedMeasure, ...]
    lays: Mapping[str, Laid]
    named: Mapping[str, DraftedPiece]

    def piece(self, name: str) -> DraftedPiece:
        """The piece or strip of this name; KeyError when there is none."""
        return self.named[name]
