"""A design: the statements of a spec in order and by name, with every reference checked."""

from __future__ import annotations

from collections.abc import Mapping

from garmentc.design.kinds import Kind
from garmentc.record import Record
from garmentc.source import Source, Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import Expr
from garmentc.syntax.values import of_one


class MeasurePlan(Record):
    """A body measure the design depends on."""

    name: str
    kind: Kind
    description: str
    span: Span


class ParamPlan(Record):
    """A number that can be set from outside; the name of an ease begins with ``ease.``, behind that of its block."""

    name: str
    kind: Kind
    value: Expr
    least: Expr | None
    most: Expr | None
    description: str
    span: Span
    from_outside: bool


class ChoicePlan(Record):
    """Which of its options a choice stands at."""

    name: str
    options: tuple[str, ...]
    value: str
    description: str
    span: Span
    from_outside: bool


class PiecePlan(Record):
    """A piece by its rules. ``parent`` names the piece it is taken from; then it has no outline of its own.

    One that is not ``made`` belongs to a block: others are taken from it. One that ``is_apart`` is sewn to no other.
    """

    name: str
    title: str
    parent: str | None
    parent_span: Span
    cut: nodes.Cut | None
    grain: nodes.Grain | None
    defines: Mapping[str, nodes.Define]
    edges: Mapping[str, nodes.Edge]
    keeps: tuple[nodes.Keep, ...]
    parts: Mapping[str, nodes.Grow]
    shapings: tuple[nodes.Shaping, ...]
    notches: tuple[nodes.Notch, ...]
    marks: tuple[nodes.Mark, ...]
    guides: tuple[nodes.Guide, ...]
    lengthens: tuple[nodes.Lengthen, ...]
    rows: tuple[nodes.ButtonRow, ...]
    span: Span
    unevens: tuple[nodes.Uneven, ...]
    made: bool
    is_apart: bool
    interfaced: nodes.Interfaced | None = None

    @property
    def made_edges(self) -> Mapping[str, nodes.Keep | nodes.Part]:
        """The edges that its own statements make of the outline: where it is cut, and parts of edges."""
        made: list[nodes.Keep | nodes.Part] = [*self.keeps]
        made += [one for one in self.shapings if isinstance(one, nodes.Part)]
        return {one.name.text: one for one in made}


class StripPlan(Record):
    """A straight strip by its rules; ``way`` says how it is made up."""

    name: str
    title: str
    cut: nodes.Cut
    grain: nodes.Grain | None
    length: Expr
    width: Expr
    way: str
    stitched: Expr | None
    span: Span
    made: bool


class EdgeName(Record):
    """One edge of one piece, as a statement names it; ``edge`` may be dotted: ``facing.side``.

    It is that of all instances of the piece, or only of those on one ``hand``, left or right as worn, or of one
    ``copy`` (from 1).
    """

    piece: str
    edge: str
    span: Span
    hand: str = ""
    copy: int = 0

    @property
    def text(self) -> str:
        return of_one(f"{self.piece}.{self.edge}", self.hand, self.copy)

    @property
    def of_one(self) -> str:
        """The instances that are meant in words: "left", "copy 2"; nothing for all of them."""
        return ", ".join(word for word in (self.hand, f"copy {self.copy}" if self.copy else "") if word)


class StitchPlan(Record):
    """A stitch by its ISO 4915 number; ``thread`` is the length of thread for each length of seam."""

    code: str
    title: str
    thread: Expr


class CheckPlan(Record):
    """A rule that has to hold; ``kind`` is that of the two sides it compares, or truth.

    One that ``is_sewn`` can be held only once the garment is sewn together.
    """

    is_warning: bool
    text: str
    condition: Expr
    within: Expr | None
    kind: Kind
    span: Span
    is_sewn: bool = False


class LinePlan(Record):
    """A line of a section: a layer of cloth by its name, a row of stitching, or a gap whose width is told.

    ``goes_on`` says of the first and the last end whether the cloth goes on beyond the picture.
    """

    word: str
    name: str
    points: tuple[nodes.At, ...]
    goes_on: tuple[bool, bool]


class SectionPlan(Record):
    """A picture of a seam type or finish cut across."""

    title: str
    lines: tuple[LinePlan, ...]


LEVEL = "level"
"""How the cut edge of a seam passes its ends where its type does not say: so that both sides end level."""


class JoinPlan(Record):
    """A seam type or a finish: what it takes of the cloth, and the work it asks for, in order.

    Among its definitions, ``allowance`` is the cloth it takes and ``binding`` the cut width of a strip that binds.
    ``turning`` is ``encloses`` when what it joins is turned right side out afterwards, ``closes`` when it closes the
    opening that was left for that, ``opens`` when it is opened to put the garment on, else nothing.
    """

    name: str
    of: str
    title: str
    iso_class: str
    turning: str
    corner: str
    folds: tuple[Expr, ...]
    defines: Mapping[str, nodes.Define]
    work: tuple[nodes.Pass | nodes.Action, ...]
    tools: tuple[str, ...]
    checks: tuple[CheckPlan, ...]
    span: Span
    sections: tuple[SectionPlan, ...]


class InsertPlan(Record):
    """A strip caught in a seam at a named point of a piece, or of one instance of it."""

    strip: str
    folded: bool
    inside: bool
    at: EdgeName
    point: nodes.Ref
    span: Span

    @property
    def piece(self) -> str:
        """The piece that the point is of."""
        return self.at.piece


class LeavePlan(Record):
    """An opening that a seam leaves in its first side, and the seam type that closes it."""

    wide: Expr
    at: Expr
    type: str
    span: Span


class SeamPlan(Record):
    """Two chains of edges sewn to each other; when ``mirrored``, one chain to its mirror image, and both are alike.

    ``layers`` are further chains that lie on the other side of the first one and are taken in by the same stitching.

    The line of an edge that goes on from an end of it may have a kink up to ``smooth`` there, or any at one of the
    ``corners``.
    """

    name: str
    first: tuple[EdgeName, ...]
    second: tuple[EdgeName, ...]
    mirrored: bool
    type: str
    changes: Mapping[str, nodes.Change]
    ease: nodes.SeamEase | None
    inserts: tuple[InsertPlan, ...]
    corners: tuple[EdgeName, ...]
    smooth: Expr | None
    span: Span
    parts: nodes.Parts | None = None
    leave: LeavePlan | None = None
    layers: tuple[tuple[EdgeName, ...], ...] = ()

    @property
    def edges(self) -> tuple[EdgeName, ...]:
        """The edges that it sews, each as often as it is written."""
        sides = (self.first,) if self.mirrored else (self.first, self.second)
        return tuple(name for side in (*sides, *self.layers) for name in side)


class FinishPlan(Record):
    """Edges that are not sewn to another, and what becomes of them."""

    edges: tuple[EdgeName, ...]
    type: str
    changes: Mapping[str, nodes.Change]
    span: Span
    parts: nodes.Parts | None = None
    draw: nodes.Draw | None = None


class LayPlan(Record):
    """How a piece or strip shall lie on the cloth, besides what its grain and its ``found`` edges ask for."""

    name: str
    edges: tuple[EdgeName, ...]
    corners: tuple[nodes.Ref, ...]
    grain: nodes.LayGrain | None
    joins: nodes.LayJoins | None
    motifs: tuple[nodes.LayMotif, ...]
    matches: tuple[tuple[EdgeName, EdgeName], ...]
    mirrored: tuple[str, ...]
    layers: int
    cloth: str
    span: Span


class Equation(Record):
    """Two values of one kind that have to become equal."""

    left: Expr
    right: Expr
    kind: Kind


class SolvePlan(Record):
    """Params to be found, as many as there are equations; ``within`` is how near is near enough."""

    unknowns: tuple[str, ...]
    equations: tuple[Equation, ...]
    within: Expr | None
    span: Span


class OpeningPlan(Record):
    """An opening by an edge of it; ``passes`` is what has to go through, ``stretches`` the share by which it gives.

    ``opened`` is how deep a closure opens it, ``by`` what it is.
    """

    name: str
    title: str
    edge: EdgeName
    passes: Expr | None
    stretches: Expr | None
    opened: Expr | None
    by: str
    span: Span


class FinishedPlan(Record):
    """A measurement of the finished garment; one that ``is_sewn`` is known only once the garment is sewn together."""

    name: str
    title: str
    value: Expr
    kind: Kind
    span: Span
    is_sewn: bool


class Design(Record):
    """Everything a spec says, ready to be drafted for any body.

    ``shares`` are the values that are shares of a length, or angles, where a length could stand too.
    """

    source: Source
    name: str
    title: str
    edition: str
    measures: Mapping[str, MeasurePlan]
    params: Mapping[str, ParamPlan]
    choices: Mapping[str, ChoicePlan]
    values: Mapping[str, nodes.Define]
    pieces: Mapping[str, PiecePlan]
    strips: Mapping[str, StripPlan]
    seams: Mapping[str, SeamPlan]
    finishes: tuple[FinishPlan, ...]
    lays: Mapping[str, LayPlan]
    joins: Mapping[tuple[str, str], JoinPlan]
    stitches: Mapping[str, StitchPlan]
    checks: tuple[CheckPlan, ...]
    solves: tuple[SolvePlan, ...]
    finished: tuple[FinishedPlan, ...]
    openings: Mapping[str, OpeningPlan]
    steps: tuple[nodes.Step, ...]
    step_edges: Mapping[str, tuple[EdgeName, ...]]
    orderings: tuple[nodes.Ordering, ...]
    shares: frozenset[Span]
    functions: Mapping[str, nodes.Function]

    @property
    def set_outside(self) -> Mapping[str, str]:
        """The params, eases and choices that were set from outside, by name, as they were given."""
        params = {name: plan.value.span.text.strip() for name, plan in self.params.items() if plan.from_outside}
        return params | {name: plan.value for name, plan in self.choices.items() if plan.from_outside}
