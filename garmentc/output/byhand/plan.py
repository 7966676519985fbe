"""Plans a piece: which points are measured from where, and which lines join them, in the order of the work."""

from __future__ import annotations

import math
from collections.abc import Sequence

from garmentc.assembly.model import SLITS_APART, CutEdge, CutPiece, JoinedSeam
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedEdge, DraftedPiece, TakeUp
from garmentc.draft.takeups import takeup_lines
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, left
from garmentc.output.byhand.curves import is_ruled, stretches, table
from garmentc.output.byhand.lines import length_of
from garmentc.output.byhand.model import (
    Action,
    Begin,
    Cross,
    Curve,
    HandPiece,
    HandStep,
    Join,
    Measure,
    Notch,
    Parallel,
    Purpose,
    Say,
    Spot,
)
from garmentc.output.byhand.names import letter_name
from garmentc.output.byhand.ruler import Ruler
from garmentc.output.patterns.captions import all_marks
from garmentc.record import Record

_SAME = 0.05  # mm; points nearer than this are one
_EDGE = 20.0  # mm of paper round a piece
_OFF_LINE = 0.3  # mm that the cut line of a curved edge may leave its parallel


def plan_piece(piece: CutPiece, seams: Sequence[JoinedSeam], ruler: Ruler) -> HandPiece:
    """A piece that is no strip."""
    return _Planner(piece, ruler).planned(seams)


class _Line(Record):
    """A drawn line of an edge, and its start and end."""

    action: Join | Curve
    path: Path


class _Planner:
    def __init__(self, piece: CutPiece, ruler: Ruler) -> None:
        self.piece, self.drafted, self.ruler = piece, piece.drafted, ruler
        self.spots: list[Spot] = []
        self.origin = 0j
        self.letters = 0
        self.numbers = 0
        self.edges: dict[str, list[_Line]] = {}
        self.fold = "turned" if self.drafted.is_unfolded else "fold"

    def planned(self, seams: Sequence[JoinedSeam]) -> HandPiece:
        order = _from_best(self.drafted)
        steps = [HandStep("hand_begin", "", (self._begin(order[0].path.start),))]
        steps += [self._edge(edge) for edge in order]
        steps += self._proof(order)
        steps += [self._taken(one) for one in self.drafted.takeups]
        steps += self._inner()
        steps += self._cut()
        steps += self._notches()
        steps += self._marks(seams)
        steps.append(self._grain())
        lengths = {name: sum(length_of(line.action) for line in lines) for name, lines in self.edges.items()}
        moved = max(abs(spot.at - spot.exact) for spot in self.spots)
        return HandPiece(self.drafted.name, self.drafted.title, tuple(steps), lengths, moved)

    def _begin(self, start: Point) -> Begin:
        self.origin = start
        spot = self._spot(start)
        x0, y0, x1, y1 = self.piece.cut_line.bounds()
        step = self.ruler.mark
        margin_left = math.ceil((start.real - x0 + _EDGE) / step) * step
        margin_low = math.ceil((start.imag - y0 + _EDGE) / step) * step
        wide, high = margin_left + x1 - start.real + _EDGE, margin_low + y1 - start.imag + _EDGE
        return Begin(spot, margin_left, margin_low, self.ruler.up(wide), self.ruler.up(high))

    def _edge(self, edge: DraftedEdge) -> HandStep:
        name = spoken(edge.name)
        if edge.on_fold:
            purpose, key = Purpose(self.fold, name), f"hand_{self.fold}"
        elif self.piece.uses[edge.name].allowance > 0.0:
            purpose, key = Purpose("stitch", name), "hand_edge"
        elif self._has_dart(edge.name):
            purpose, key = Purpose("edge", name), "hand_edge"  # it is cut along the cap of the dart
        else:
            purpose, key = Purpose("both", name), "hand_edge"
        actions, lines = self._drawn(edge.path, purpose)
        self.edges[edge.name] = lines
        return HandStep(key, name, tuple(actions))

    def _drawn(self, path: Path, purpose: Purpose, *, numbered: bool = False) -> tuple[list[Action], list[_Line]]:
        """The points of a path that are still missing, and its lines."""
        actions: list[Action] = []
        lines = []
        for part in stretches(path):
            start, end = (self._at(p, actions, numbered=numbered) for p in (part.start, part.end))
            if start == end:
                continue
            action: Join | Curve = Join(start, end, purpose)
            if not is_ruled(part):
                rows = table(part, start.at + self.origin, end.at + self.origin, self.ruler)
                action = Curve(start, end, rows, purpose) if rows else action
            actions.append(action)
            lines.append(_Line(action, part))
        return actions, lines

    def _at(self, p: Point, actions: list[Action], *, numbered: bool = False, near: bool = False) -> Spot:
        """The spot at a point; when it is new, how it is measured is added to the actions."""
        known = next((spot for spot in self.spots if abs(spot.exact - (p - self.origin)) < _SAME), None)
        if known is not None:
            return known
        before = list(self.spots)
        spot = self._spot(p, numbered=numbered)
        actions.append(_measured(before, spot, near=near or numbered))
        return spot

    def _spot(self, p: Point, *, numbered: bool = False) -> Spot:
        way = p - self.origin
        if numbered:
            self.numbers += 1
            name = str(self.numbers)
        else:
            name = letter_name(self.letters)
            self.letters += 1
        spot = Spot(name, self.ruler.point(way), way)
        self.spots.append(spot)
        return spot

    def _proof(self, order: Sequence[DraftedEdge]) -> list[HandStep]:
        """The two longest ways across between corners that no line joins."""
        joined = {frozenset((line.action.start, line.action.end)) for lines in self.edges.values() for line in lines}
        corners = [self._at(edge.path.start, []) for edge in order]
        pairs = [
            (one, other)
            for i, one in enumerate(corners)
            for other in corners[i + 1 :]
            if frozenset((one, other)) not in joined and min(abs(part) for part in _parts(other.at - one.at)) > 1.0
        ]
        pairs.sort(key=lambda pair: (-round(abs(pair[1].at - pair[0].at), 3), pair[0].name, pair[1].name))
        said = [
            Say("hand_across", {"start": one.name, "end": other.name, "length": abs(other.at - one.at)})
            for one, other in pairs[:2]
        ]
        return [HandStep("hand_proof", "", (*said, Say("hand_across_off", {})))] if said else []

    def _taken(self, one: TakeUp) -> HandStep:
        lines = takeup_lines(one)
        actions: list[Action] = []
        for path in lines.legs:
            actions += self._drawn(path, Purpose("dart" if one.kind == "dart" else "pleat", one.title))[0]
        for path in lines.folds:
            actions += self._drawn(path, Purpose("foldline", one.title))[0]
        return HandStep("hand_taken", one.title, tuple(actions))

    def _inner(self) -> list[HandStep]:
        steps = []
        for line in self.drafted.lines:
            name = spoken(line.name)
            if line.text and line.text not in ("fold", name):
                name = f"{name}, {line.text}"
            purpose = Purpose("foldline" if line.kind == "fold" else line.kind, name)
            steps.append(HandStep("hand_inner", name, tuple(self._drawn(line.path, purpose)[0])))
        return steps

    def _cut(self) -> list[HandStep]:
        """The cut line, edge by edge; where nothing is allowed it is there already."""
        steps = []
        for edge, drafted in zip(self.piece.edges, self.drafted.edges, strict=True):
            actions: list[Action] = []
            wide = 0.0 if drafted.on_fold else self.piece.uses[edge.edge].allowance
            if wide > 0.0:
                actions += self._outside(edge, drafted, wide)
            elif abs(edge.path.length - drafted.path.length) > _SAME:
                purpose = Purpose(self.fold if drafted.on_fold else "cut", spoken(edge.edge))
                actions += self._drawn(edge.path, purpose, numbered=True)[0]
            if edge.corner is not None:
                actions += self._drawn(edge.corner, Purpose("cut", spoken(edge.edge)), numbered=True)[0]
            if actions:
                steps.append(HandStep("hand_cut", spoken(edge.edge), tuple(actions)))
        return steps

    def _outside(self, edge: CutEdge, drafted: DraftedEdge, wide: float) -> list[Action]:
        purpose = Purpose("cut", spoken(edge.edge))
        actions: list[Action] = []
        if is_ruled(edge.path) or self._has_dart(edge.edge) or not _is_parallel(edge.path, drafted.path, wide):
            return self._drawn(edge.path, purpose, numbered=True)[0]
        start, end = (self._at(p, actions, numbered=True) for p in (edge.path.start, edge.path.end))
        points = tuple(p - self.origin for p in edge.path.flatten(0.2))
        actions.append(Parallel(start, end, self.ruler.height(wide), points, purpose))
        return actions

    def _has_dart(self, edge: str) -> bool:
        """Whether the cut line of an edge runs over the cap of a dart."""
        return any(one.kind == "dart" and one.edge == edge for one in self.drafted.takeups)

    def _notches(self) -> list[HandStep]:
        found: list[Action] = []
        for notch in self.piece.notches:
            edge = self.drafted.edge(notch.edge)
            if edge is None:
                continue
            from_start = notch.along <= edge.path.length / 2
            corner = edge.path.start if from_start else edge.path.end
            along = notch.along if from_start else edge.path.length - notch.along
            at = edge.path.point_at(notch.along) - self.origin
            inward = left(edge.path.tangent_at(notch.along))
            away, wide = self.ruler.along(along), self.ruler.along(SLITS_APART)
            found.append(Notch(self._at(corner, []), away, at, inward, spoken(notch.edge), notch.slits, wide))
        return [HandStep("hand_notches", "", tuple(found))] if found else []

    def _marks(self, seams: Sequence[JoinedSeam]) -> list[HandStep]:
        actions: list[Action] = []
        for mark in all_marks(self.piece, seams):
            spot = self._at(mark.at, actions, near=True)
            actions.append(Cross(spot, mark.text or spoken(mark.name)))
        return [HandStep("hand_marks", "", tuple(actions))] if actions else []

    def _grain(self) -> HandStep:
        thread = self.drafted.thread
        thread = -thread if (thread.imag, thread.real) < (0.0, 0.0) else thread
        level, upright = _parts(thread)
        if abs(level) < 1e-3:
            return HandStep("hand_grain", "", (Say("hand_grain_upright", {}),))
        if abs(upright) < 1e-3:
            return HandStep("hand_grain", "", (Say("hand_grain_level", {}),))
        share = 100.0 / max(abs(level), abs(upright))
        way = self.ruler.point(thread * share)
        key = "hand_grain_right" if way.real > 0 else "hand_grain_left"
        return HandStep("hand_grain", "", (Say(key, {"level": abs(way.real), "rise": way.imag}),))


def _from_best(piece: DraftedPiece) -> list[DraftedEdge]:
    """The edges in their order, the fold first, else the longest straight one that lies square."""

    def worth(edge: DraftedEdge) -> tuple[bool, bool, bool, float]:
        square = is_ruled(edge.path) and min(map(abs, _parts(edge.path.chord))) < _SAME
        return edge.on_fold, square, is_ruled(edge.path), round(edge.path.length, 3)

    first = max(range(len(piece.edges)), key=lambda i: (worth(piece.edges[i]), -i))
    return [*piece.edges[first:], *piece.edges[:first]]


def _measured(known: Sequence[Spot], spot: Spot, *, near: bool) -> Measure:
    """How a new point is found: in one straight measure if there is one, or from the nearest point."""

    def cost(item: tuple[int, Spot]) -> tuple[int, float, int]:
        number, origin = item
        way = spot.at - origin.at
        measures = sum(abs(part) > 1e-6 for part in _parts(way))
        return 0 if near else measures, round(abs(way), 3), -number

    origin = min(enumerate(known), key=cost)[1]
    level, upright = _parts(spot.at - origin.at)
    return Measure(origin, spot, abs(level) >= abs(upright))


def _is_parallel(cut: Path, stitched: Path, wide: float) -> bool:
    """Whether a cut line lies beside its edge at one distance, as far as the edge goes."""
    for share in (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9):
        at, away = stitched.nearest(cut.point_at(share * cut.length))
        if 1.0 < at < stitched.length - 1.0 and abs(away - wide) > _OFF_LINE:
            return False
    return True


def _parts(way: complex) -> tuple[float, float]:
    return way.real, way.imag
