"""Reads a cloth of the stock: what is there to be cut."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Mapping, Sequence
from typing import TypeVar

from garmentc.data.forms import (
    LONGEST_SIZE,
    LONGEST_TITLE,
    Form,
    NotOfForm,
    fields,
    items,
    label,
    matched,
    read_document,
    words,
)
from garmentc.data.lengths import parse_length
from garmentc.data.nodes import Entry, Items, Leaf, Node, Table
from garmentc.data.shapes import area_shape, outline_sides, simple
from garmentc.data.stock import Area, Cloth, ClothSide, Photo, PhotoPin, ThreadShares
from garmentc.data.words import quoted
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.diagnostics.suggest import meant_or_known
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.vector import Point
from garmentc.host import Host
from garmentc.numbers import MM_PER_UNIT
from garmentc.source import Span

T = TypeVar("T")
_LARGEST = 100_000
_MOST_CORNERS = 200
_LENGTHS = ("square", "round", "length", "width", "bottom", "right", "top", "left", "diagonal")
_FINISHES = ("hem", "selvage", "border", "rolled")
PICTURE_PATTERN = r"^[A-Za-z0-9_][A-Za-z0-9_.-]*\.(?:jpg|jpeg|png)$(?!\n)"
_PICTURE = re.compile(PICTURE_PATTERN)


def read_cloth(host: Host, path: str, findings: Findings) -> Cloth | None:
    """A cloth from a YAML file of the ``cloth`` schema; None after at least one finding.

    Besides faults of form: ``cloth-shape`` where the measures of the outline or of a place make no shape,
    ``unknown-name`` for a side that the cloth does not have, ``duplicate-name`` for two places of one name.
    """
    own = Findings()
    key = posixpath.basename(path).removesuffix(".yaml").removesuffix(".yml")
    cloth = read_document(host, path, form(key, own), findings)
    for finding in own:
        findings.add(finding)
    return None if own.has_errors else cloth


def form(key: str, findings: Findings) -> Form[Cloth]:
    """The form of a cloth's document; what its schema can't say is added to the findings."""
    return Form("cloth.schema.json", "cloth", "--cloth", lambda root: _Reader(root, key, findings).cloth())


class _Reader:
    def __init__(self, root: Table, key: str, findings: Findings) -> None:
        self._entries = fields(root, frozenset({"cloth", "outline"}), _OPTIONAL)
        self._key = key
        self._findings = findings
        self._scale = MM_PER_UNIT[self._word("unit", tuple(MM_PER_UNIT), "cm")]

    def cloth(self) -> Cloth:
        """The cloth; raises NotOfForm, and reports what no schema can say."""
        title = self._entries["cloth"]
        name = label(title.node, LONGEST_TITLE)
        lengths, corners, bulges, holes = self._outline()
        finished = self._finished()
        places, flaws = (self._areas(what) for what in ("places", "flaws"))
        note = self._optional("note", words, "")
        fibre = self._optional("fibre", lambda node: label(node, LONGEST_TITLE), "")
        weight = self._optional("weight", _positive, 0.0)
        photo = self._optional("photo", self._photo, None)
        repeat = self._optional("repeat", self._repeat, (0.0, 0.0))
        shrinkage = self._optional("shrinkage", _shares(("along", "across")), ThreadShares(0.0, 0.0))
        stretch = self._optional("stretch", _shares(("along", "across", "bias")), ThreadShares(0.0, 0.0))
        one_way = self._word("direction", ("any", "one way"), "any") == "one way"
        alike = self._word("sides", ("alike", "differ"), "differ") == "alike"
        by_metre = set(lengths) == {"width"} and not corners
        threads = self._word("threads", ("up", "across", "either"), "across" if by_metre else "up")
        sides: tuple[ClothSide, ...] = ()
        selvage = 0.0
        if by_metre:
            selvage = max([width for _, kind, width in finished.values() if kind == "selvage"], default=0.0)
            self._bare(holes)
        else:
            sides = self._sides(lengths, corners, bulges, finished)
        return Cloth(
            self._key,
            name,
            note,
            sides,
            lengths.get("width", 0.0) if by_metre else 0.0,
            "round" in lengths,
            holes,
            selvage,
            threads,
            alike,
            one_way,
            repeat,
            places,
            flaws,
            shrinkage,
            stretch,
            weight,
            fibre,
            photo,
            title.span,
        )

    # ---- parts of the form

    def _optional(self, name: str, read: Callable[[Node], T], default: T) -> T:
        return read(self._entries[name].node) if name in self._entries else default

    def _list(self, name: str) -> tuple[Node, ...]:
        return items(self._entries[name].node) if name in self._entries else ()

    def _word(self, name: str, known: Sequence[str], default: str) -> str:
        return self._optional(name, lambda node: _one_of(node, known), default)

    def _outline(
        self,
    ) -> tuple[dict[str, float], tuple[Point, ...], tuple[float, ...], tuple[Outline, ...]]:
        entries = fields(self._entries["outline"].node, frozenset(), _SHAPES)
        if not entries:
            raise NotOfForm
        lengths = {name: matched(entries[name].node, parse_length) for name in _LENGTHS if name in entries}
        corners = self._ring(entries["corners"].node) if "corners" in entries else ()
        bulges = (
            tuple(_number(node) * self._scale for node in items(entries["bulges"].node)) if "bulges" in entries else ()
        )
        holes = [ring(self._ring(node)) for node in items(entries["holes"].node)] if "holes" in entries else []
        return lengths, corners, bulges, tuple(hole if hole.area > 0 else hole.reversed() for hole in holes)

    def _ring(self, node: Node) -> tuple[Point, ...]:
        corners = items(node)
        if not 3 <= len(corners) <= _MOST_CORNERS:
            raise NotOfForm
        return tuple(self._point(corner) for corner in corners)

    def _point(self, node: Node) -> Point:
        return _pair(node) * self._scale

    def _finished(self) -> dict[str, tuple[Span, str, float]]:
        """What finishes each side: where it is said, the kind and the width."""
        found: dict[str, tuple[Span, str, float]] = {}
        for entry in self._list("finished"):
            parts = fields(entry, frozenset({"edges", "kind"}), frozenset({"width"}))
            kind = _one_of(parts["kind"].node, _FINISHES)
            width = matched(parts["width"].node, parse_length) if "width" in parts else 0.0
            named = {label(node, LONGEST_SIZE): node.span for node in items(parts["edges"].node)}
            if len(named) < len(items(parts["edges"].node)):
                raise NotOfForm
            for name, span in named.items():
                self._once(name, span, {known: one[0] for known, one in found.items()}, "is finished twice")
                found[name] = (span, kind, width)
        return found

    def _areas(self, what: str) -> tuple[Area, ...]:
        found: dict[str, Area] = {}
        for node in self._list(what):
            parts = fields(node, frozenset({"name"}), frozenset({"at", "round", "from", "to", "corners"}))
            name = label(parts["name"].node, LONGEST_SIZE)
            points = {word: self._point(parts[word].node) for word in ("at", "from", "to") if word in parts}
            wide = matched(parts["round"].node, parse_length) if "round" in parts else None
            corners = self._ring(parts["corners"].node) if "corners" in parts else ()
            span = parts["name"].span
            shape = area_shape(points, wide, corners)
            if shape is None:
                self._fault(
                    f"the place `{name}` has no shape",
                    span,
                    "give `at` and `round`, or `from` and `to`, or `corners`, and one of these only",
                )
                continue
            self._once(name, span, {known: one.span for known, one in found.items()}, "is the name of two places")
            found[name] = Area(name, shape, span)
        return tuple(found.values())

    def _photo(self, node: Node) -> Photo:
        parts = fields(node, frozenset({"file", "points"}))
        file = matched(parts["file"].node, lambda text: text if _PICTURE.search(text) else None)
        pins = []
        for pin in items(parts["points"].node):
            known = fields(pin, frozenset({"pixel", "at"}))
            pins.append(PhotoPin(_pair(known["pixel"].node), self._point(known["at"].node)))
        if len(pins) != 2:
            raise NotOfForm
        if abs(pins[0].pixel - pins[1].pixel) < 1.0 or abs(pins[0].at - pins[1].at) < 1.0:
            self._fault(
                "the two points of the photo coincide", parts["points"].key, "take two points as far apart as can be"
            )
        return Photo(file, (pins[0], pins[1]))

    def _repeat(self, node: Node) -> tuple[float, float]:
        parts = fields(node, frozenset(), frozenset({"up", "across"}))
        if not parts:
            raise NotOfForm
        across, up = (matched(parts[word].node, parse_length) if word in parts else 0.0 for word in ("across", "up"))
        return across, up

    # ---- what no schema can say

    def _sides(
        self,
        lengths: Mapping[str, float],
        corners: Sequence[Point],
        bulges: Sequence[float],
        finished: Mapping[str, tuple[Span, str, float]],
    ) -> tuple[ClothSide, ...]:
        outline = self._entries["outline"]
        if bulges and len(bulges) != len(corners):
            self._fault(
                f"{len(bulges)} bulges for {len(corners)} sides",
                outline.key,
                "give one number for each side, 0 for a straight one",
            )
            return ()
        made = outline_sides(lengths, corners, bulges)
        if isinstance(made, str):
            self._fault(made, outline.key, "see how an outline is given: `garmentc explain cloth-shape`")
            return ()
        if not simple([path for _, path in made]):
            self._fault("the sides of the cloth cross each other", outline.key, "list the corners in order, round it")
            return ()
        known = list(dict.fromkeys(name for name, _ in made))
        for name, (span, _, _) in finished.items():
            if name not in known:
                self._findings.add(
                    Finding(
                        "unknown-name",
                        f"the cloth has no side `{name}`",
                        span,
                        help=meant_or_known(name, known),
                    )
                )
        raw = (None, "", 0.0)
        return tuple(ClothSide(name, path, *finished.get(name, raw)[1:]) for name, path in made)

    def _bare(self, holes: Sequence[Outline]) -> None:
        """New cloth by the metre has no places of its own: which part of the bolt it is, nobody knows yet."""
        for what in ("places", "flaws", "photo"):
            if what in self._entries:
                self._fault(
                    f"cloth by the metre has no {what} yet",
                    self._entries[what].key,
                    "leave it out, or give the outline a `length`",
                )
        if holes:
            self._fault("cloth by the metre has no holes yet", self._entries["outline"].key, "give it a `length`")

    def _once(self, name: str, span: Span, known: Mapping[str, Span], said: str) -> None:
        if name in known:
            self._findings.add(
                Finding(
                    "duplicate-name",
                    f"{quoted([name])} {said}",
                    span,
                    others=(Label(known[name], "first here"),),
                    help="keep one of the two, or give it another name",
                )
            )

    def _fault(self, headline: str, span: Span, help: str) -> None:
        self._findings.add(Finding("cloth-shape", headline, span, help=help))


_OPTIONAL = frozenset(
    (
        *("note", "unit", "finished", "threads", "sides", "direction", "repeat", "places", "flaws"),
        *("shrinkage", "stretch", "weight", "fibre", "photo"),
    )
)
_SHAPES = frozenset((*_LENGTHS, "corners", "bulges", "holes"))


def _one_of(node: Node, known: Sequence[str]) -> str:
    return matched(node, lambda text: text if text in known else None)


def _number(node: Node) -> float:
    value = node.value if isinstance(node, Leaf) else None
    if not isinstance(value, float) or not -_LARGEST <= value <= _LARGEST:
        raise NotOfForm
    return value


def _positive(node: Node) -> float:
    value = _number(node)
    if value <= 0.0:
        raise NotOfForm
    return value


def _pair(node: Node) -> Point:
    if not isinstance(node, Items) or len(node.nodes) != 2:
        raise NotOfForm
    return complex(_number(node.nodes[0]), _number(node.nodes[1]))


def _shares(names: Sequence[str]) -> Callable[[Node], ThreadShares]:
    def read(node: Node) -> ThreadShares:
        parts = fields(node, frozenset(), frozenset(names))
        if not parts:
            raise NotOfForm
        return ThreadShares(*(_share(parts, name) for name in ("along", "across", "bias")))

    return read


def _share(parts: Mapping[str, Entry], name: str) -> float:
    if name not in parts:
        return 0.0
    value = _number(parts[name].node)
    if not 0.0 <= value <= 50.0:
        raise NotOfForm
    return value / 100.0
