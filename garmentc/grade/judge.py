"""Finds where the sizes of a garment do not follow each other evenly, and what the spec declares to be meant."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

from garmentc.design.model import Design
from garmentc.diagnostics.finding import Finding, Findings, Label, Severity
from garmentc.grade.compare import ancestry
from garmentc.grade.crossings import unnested
from garmentc.grade.evenness import jumps, turns
from garmentc.grade.model import ORIGIN, Grade, GradedCorner, GradedEdge, GradedPiece, steps
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span
from garmentc.syntax import nodes

_ALIKE = 0.01  # mm; series that differ by less have one cause
Series = tuple[float, ...]


class _Fault(Record):
    """What is wrong with an edge. ``span`` is the statement at fault: that of the edge, or of a point at its end.

    ``series`` are the numbers in which the fault shows, by size (mm); ``sizes`` those concerned, by number.
    """

    slug: str
    headline: str
    span: Span
    series: Series
    sizes: tuple[int, ...]
    piece: GradedPiece
    edge: GradedEdge
    note: str


def judge(design: Design, grade: Grade, findings: Findings, *, whole: bool) -> None:
    """Warn of edges that turn back, make uneven steps or cross from size to size, unless the spec declares them uneven.

    Each edge has one finding at most; edges moved by one faulty point share theirs, at the statement of that point.
    With ``whole``, when no size of the chart is left out, a declaration that silences nothing is told too. Strips are
    left alone: they have no edges of their own in the spec.
    """
    silenced: set[Span] = set()
    found: list[_Fault] = []
    for piece in grade.pieces:
        if piece.is_strip:
            continue
        declared = [uneven for plan in ancestry(design, piece.name) for uneven in plan.unevens]
        look = _Look(grade, piece)
        for fault in filter(None, map(look.at, piece.edges)):
            meant = [one.span for one in declared if _covers(one, fault.edge.name)]
            silenced.update(meant)
            if not meant:
                found.append(fault)
    for group in _by_cause(found):
        findings.add(_finding(grade, group))
    if whole:
        _needless(design, silenced, findings)


def _covers(uneven: nodes.Uneven, edge: str) -> bool:
    """Whether a declaration speaks of an edge, or of the one it is the mirror image of."""
    name = ".".join(word.text for word in uneven.edge.words)
    return edge == name or edge.endswith(f".{name}")


class _Look:
    """Looks at the edges of one piece for the first thing that is wrong with each."""

    def __init__(self, grade: Grade, piece: GradedPiece) -> None:
        self._sizes = grade.sizes
        self._piece = piece
        self._measured = [
            tuple(after[name] - before[name] for name in before) for before, after in pairwise(grade.measures)
        ]

    def at(self, edge: GradedEdge) -> _Fault | None:
        return self._turn(edge) or self._jump(edge) or self._crossing(edge)

    def _turn(self, edge: GradedEdge) -> _Fault | None:
        if not turns(edge.lengths):
            return None
        corner, series = self._moved_by(edge, turns)
        places = turns(series)
        first = self._sizes[places[0]]
        if corner is not None:
            headline = f"{self._point(corner)} moves one way up to size {first}, then back"
        else:
            ways = ("grows", "shrinks") if _rises(series, places[0]) else ("shrinks", "grows")
            headline = f"{self._named(edge)} {ways[0]} up to size {first}, then {ways[1]}"
        concerned = [i for place in places for i in (place - 1, place, place + 1)]
        return self.fault("length-turns-back", headline, edge, corner, series, concerned)

    def _jump(self, edge: GradedEdge) -> _Fault | None:
        found = jumps(steps(edge.lengths), self._measured)
        if not found:
            return None
        gaps = {jump.gap for jump in found}
        corner, series = self._moved_by(
            edge, lambda series: gaps & {jump.gap for jump in jumps(steps(series), self._measured)}
        )
        first = min(found)
        between = f"from size {self._sizes[first.gap]} to {self._sizes[first.gap + 1]}"
        if corner is not None:
            headline = f"{self._point(corner)} makes an uneven step {between}"
        else:
            headline = f"{self._named(edge)} makes an uneven step {between}"
        fault = self.fault("uneven-step", headline, edge, corner, series, [i for gap in gaps for i in (gap, gap + 1)])
        told = f"`{self._piece.name}.{edge.name}` changes by {length(first.step)} {between}"
        return fault._replace(note=f"{told}; the measures explain {length(first.explained)}")

    def _crossing(self, edge: GradedEdge) -> _Fault | None:
        if "." in edge.name:  # grown on beyond a fold, which moves: it nests when laid back over the fold
            return None
        met = [
            (i, at) for i, (one, other) in enumerate(pairwise(edge.paths)) if (at := unnested(one, other)) is not None
        ]
        if not met:
            return None
        i, at = met[0]
        headline = f"the lines of {self._named(edge)} cross in sizes {self._sizes[i]} and {self._sizes[i + 1]}"
        fault = self.fault(
            "sizes-cross", headline, edge, None, edge.lengths, [i for gap, _ in met for i in (gap, gap + 1)]
        )
        aligned = "its origin (0, 0)" if self._piece.aligned == ORIGIN else f"`{self._piece.aligned}`"
        where = f"{length(abs(at.real))} to the {'left' if at.real < 0 else 'right'} of it"
        where += f" and {length(abs(at.imag))} {'below' if at.imag < 0 else 'above'} it"
        return fault._replace(note=f"with the sizes aligned at {aligned}, they cross {where}")

    def fault(
        self,
        slug: str,
        headline: str,
        edge: GradedEdge,
        corner: GradedCorner | None,
        series: Series,
        concerned: Iterable[int],
    ) -> _Fault:
        """A fault in the numbers of an edge or of the corner that moves it, told with the lengths of the edge."""
        span = edge.span if corner is None or corner.span is None else corner.span
        sizes = tuple(sorted({i for i in concerned if 0 <= i < len(self._sizes)}))
        note = ", ".join(f"{length(edge.lengths[i])} in size {self._sizes[i]}" for i in sizes)
        return _Fault(
            slug, headline, span, series, sizes, self._piece, edge, f"`{self._piece.name}.{edge.name}` is {note}"
        )

    def _moved_by(self, edge: GradedEdge, is_faulty: Callable[[Series], object]) -> tuple[GradedCorner | None, Series]:
        """The named point at an end of an edge that has the fault too, with its numbers; else those of the edge."""
        for corner in self._piece.corners:
            if edge.name not in corner.edges or corner.span is None:
                continue
            own = [at + shift for at, shift in zip(corner.at, self._piece.shifts, strict=True)]
            for series in (tuple(at.real for at in own), tuple(at.imag for at in own)):
                if is_faulty(series):
                    return corner, series
        return None, edge.lengths

    def _named(self, edge: GradedEdge) -> str:
        return f"edge `{edge.name}` of piece `{self._piece.name}`"

    def _point(self, corner: GradedCorner) -> str:
        return f"point `{corner.name}` of piece `{self._piece.name}`"


def _rises(series: Series, place: int) -> bool:
    """Whether a series is higher at a place than it was before."""
    return series[place] > min(series[:place])


def _by_cause(faults: Sequence[_Fault]) -> list[list[_Fault]]:
    """Faults of one kind together that have one statement, or the same numbers, in the order in which they were met."""
    groups: list[list[_Fault]] = []
    for fault in faults:
        group = next((group for group in groups if any(_one_cause(fault, other) for other in group)), None)
        if group is None:
            groups.append([fault])
        else:
            group.append(fault)
    return groups


def _one_cause(one: _Fault, other: _Fault) -> bool:
    if one.slug != other.slug:
        return False
    return _place(one.span) == _place(other.span) or all(
        abs(a - b) < _ALIKE for a, b in zip(one.series, other.series, strict=True)
    )


def _place(span: Span) -> tuple[str, int, int]:
    """A span as a value: sizes compiled in other processes have their own copies of the sources."""
    return span.source.name, span.start, span.end


def _finding(grade: Grade, group: Sequence[_Fault]) -> Finding:
    first = group[0]
    others: dict[tuple[str, int, int], _Fault] = {}
    for fault in group:
        if _place(fault.span) != _place(first.span):
            others.setdefault(_place(fault.span), fault)
    edges = " and ".join(dict.fromkeys(f'`uneven {fault.edge.name} "why"`' for fault in group))
    mend = "align the sizes elsewhere with `--align PIECE.POINT`" if first.slug == "sizes-cross" else "mend the rule"
    return Finding(
        first.slug,
        first.headline,
        first.span,
        others=tuple(Label(fault.span, f"the same in piece `{fault.piece.name}`") for fault in others.values()),
        notes=tuple(dict.fromkeys(fault.note for fault in group)),
        help=f"{mend}, or say in the piece that it is meant: {edges}",
        severity=Severity.WARNING,
        sizes=tuple(grade.sizes[i] for i in sorted({i for fault in group for i in fault.sizes})),
    )


def _needless(design: Design, silenced: set[Span], findings: Findings) -> None:
    """Warn of declarations that silence nothing; those of a base may be needed there."""
    for plan in design.pieces.values():
        for uneven in plan.unevens:
            if uneven.span in silenced or uneven.span.source.name != design.source.name:
                continue
            findings.add(
                Finding(
                    "needless-uneven",
                    f"`{uneven.edge.span.text}` runs evenly through all sizes",
                    uneven.span,
                    help="drop this line: it would hide a mistake made later",
                    severity=Severity.WARNING,
                )
            )
