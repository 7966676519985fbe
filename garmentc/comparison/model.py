"""What has changed between two states of a garment, an old one and a new one."""

from __future__ import annotations

from garmentc.design.kinds import Kind
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from garmentc.record import Record
from garmentc.source import Span

PARAM, MEASURE, FINISHED, PIECE, EDGE, NOTCH, MARK, TAKEUP, STRIP = (
    "param",
    "measure",
    "finished",
    "piece",
    "edge",
    "notch",
    "mark",
    "takeup",
    "strip",
)
SEAM, FINISH, STEP, CLOTH, NOTION, PAPER = "seam", "finish", "step", "cloth", "notion", "paper"
GROUPS = (
    PARAM,
    MEASURE,
    FINISHED,
    PIECE,
    EDGE,
    TAKEUP,
    NOTCH,
    MARK,
    STRIP,
    SEAM,
    FINISH,
    STEP,
    CLOTH,
    NOTION,
    PAPER,
)
"""The groups of what is compared, in the order in which they are told."""

Value = float | str
"""A number in mm, mm², radians or plain, as its kind says, or words."""


class Fact(Record):
    """One quality of one thing in one size; ``kind`` is that of a number, None for words."""

    group: str
    thing: str
    quality: str
    value: Value
    kind: Kind | None = None


class Change(Record):
    """One quality that is not as it was; the values stand by size, None where there is nothing of this name.

    A thing that only one side has is told by the first of its qualities.
    """

    group: str
    thing: str
    quality: str
    kind: Kind | None
    old: tuple[Value | None, ...]
    new: tuple[Value | None, ...]

    @property
    def is_added(self) -> bool:
        """Whether only the new side has the thing."""
        return all(value is None for value in self.old)

    @property
    def is_dropped(self) -> bool:
        """Whether only the old side has the thing."""
        return all(value is None for value in self.new)


class Renamed(Record):
    """Something that is still there under another name; ``group`` is piece, edge, strip or seam."""

    group: str
    old: str
    new: str


class Move(Record):
    """A corner or mark of a piece that lies elsewhere, by size; both places are seen from where the new piece lies."""

    piece: str
    point: str
    old: tuple[Point, ...]
    new: tuple[Point, ...]

    @property
    def ways(self) -> tuple[complex, ...]:
        """How far it has moved, by size: to the right and up (mm)."""
        return tuple(after - before for before, after in zip(self.old, self.new, strict=True))


class Bend(Record):
    """An edge that runs otherwise between its ends: how far (mm) at most, by size."""

    edge: str
    off: tuple[float, ...]


class Overlay(Record):
    """A piece or strip that has changed, in one size: its old and its new stitching lines, laid over each other.

    A piece that only one side has stands alone. ``size`` is the number of the size among those compared.
    """

    piece: str
    title: str
    size: int
    old: tuple[Path, ...]
    new: tuple[Path, ...]


class Statement(Record):
    """One statement of a spec: ``name`` says which, with the block it stands in: `piece front: point tip`.

    ``tree`` is what it says, and ``rule`` that part of it whose effect shows in no number of a garment: all of a check,
    the range of a param, and None where there is nothing of the kind.
    """

    name: str
    text: str
    tree: object
    rule: object
    span: Span


class Rewritten(Record):
    """A statement that was added, dropped or changed; the side that lacks it is None.

    ``is_rule`` tells that the garment is another by it, even where no number shows it.
    """

    old: Statement | None
    new: Statement | None
    is_rule: bool

    @property
    def name(self) -> str:
        """Which statement it is."""
        one = self.new or self.old
        assert one is not None
        return one.name


class Comparison(Record):
    """A garment in its old and its new state, in all sizes or for one person; without bodies there are no sizes.

    ``old`` and ``new`` are what the two were read from; ``is_same_text`` tells that both files hold the same text.
    """

    name: str
    title: str
    old: str
    new: str
    sizes: tuple[str, ...]
    renamed: tuple[Renamed, ...]
    changes: tuple[Change, ...]
    moves: tuple[Move, ...]
    bends: tuple[Bend, ...]
    overlays: tuple[Overlay, ...]
    rewritten: tuple[Rewritten, ...]
    is_same_text: bool

    @property
    def is_same(self) -> bool:
        """Whether the garment is the same; without sizes, whether the spec says the same."""
        if not self.sizes:
            return not self.rewritten
        if self.renamed or self.changes or self.moves or self.bends:
            return False
        return not any(one.is_rule for one in self.rewritten)
