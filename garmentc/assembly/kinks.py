"""Whether lines run on smoothly where a seam meets them: neckline, armhole, waist and hem."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from math import pi, radians

from garmentc.assembly.chains import Corner
from garmentc.assembly.ends import inner_angle
from garmentc.assembly.model import EdgeUse, JoinedSeam
from garmentc.assembly.turning import ENCLOSES
from garmentc.design.model import SeamPlan
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedEdge
from garmentc.geometry.vector import Point
from garmentc.numbers import decimal, degrees
from garmentc.record import Record

SMOOTH = radians(10)
"""The kink that a line may have at a seam where the spec does not say; common practice, no source."""

_OPEN = radians(150)  # an edge that goes on this nearly straight after the seam is the side of a slit

Uses = Mapping[str, Mapping[str, EdgeUse]]
Sides = Mapping[tuple[str, str], set[tuple[str, int]]]


class Meeting(Record):
    """An end of a seam: the corners that come together there, and the edges that go on from them."""

    one: Corner
    other: Corner
    edges: tuple[DraftedEdge, DraftedEdge]

    @property
    def angles(self) -> tuple[float, float]:
        """The inner angles of both corners (radians)."""
        return inner_angle(self.one), inner_angle(self.other)

    @property
    def kink(self) -> float:
        """How far the two edges are off a smooth line (radians): positive for a peak, negative for a dip."""
        return pi - sum(self.angles)

    @property
    def names(self) -> tuple[tuple[str, str], tuple[str, str]]:
        """Piece and name of both edges."""
        (one, other), (beside, aside) = (self.one, self.other), self.edges
        return (one.piece.name, beside.name), (other.piece.name, aside.name)


def meetings(seam: JoinedSeam) -> Iterator[Meeting]:
    """The ends of a seam."""
    for at_end in (False, True):
        ends = seam.ends(at_end=at_end)
        one, other = (end.corner(at_end=at_end) for end in ends)
        first, second = (end.beside(at_end=at_end) for end in ends)
        yield Meeting(one, other, (first, second))


def check_kinks(plans: Mapping[str, SeamPlan], seams: Iterable[JoinedSeam], uses: Uses, values: Evaluator) -> None:
    """Report kinks above the tolerance, and corners that are allowed where no seam ends.

    A line goes on across the end of a seam where both edges there are finished, or are one after the other in one side
    of another seam. Layers that are turned lie on each other instead.
    """
    seams = tuple(seams)
    sides = sides_of_edges(seams)
    for seam in seams:
        plan = plans[seam.name]
        found = list(meetings(seam))
        allowed = {(name.piece, name.edge) for name in plan.corners}
        _check_corners(plan, {name for one in found for name in one.names}, values)
        most = SMOOTH if plan.smooth is None else float(values.value(plan.smooth))
        for one in found:
            if abs(one.kink) <= most + 1e-9 or not allowed.isdisjoint(one.names) or min(one.angles) >= _OPEN:
                continue
            if seam.join.turning != ENCLOSES and goes_on(one, seam.name, sides, uses):
                _report(seam, one, most, values)


def sides_of_edges(seams: Iterable[JoinedSeam]) -> Sides:
    """Of each edge the seams that sew it, and in which side."""
    found: dict[tuple[str, str], set[tuple[str, int]]] = {}
    for seam in seams:
        for which, names in enumerate((seam.first,) if seam.mirrored else (seam.first, seam.second)):
            for name in names:
                found.setdefault((name.piece, name.edge), set()).add((seam.name, which))
    return found


def goes_on(one: Meeting, seam: str, sides: Sides, uses: Uses) -> bool:
    """Whether the line of the edges beside an end of a seam runs on across it: finished, or as one side of a seam."""
    ways = [uses[piece].get(edge) for piece, edge in one.names]
    if all(use is not None and use.way == "finish" for use in ways):
        return True
    first, second = (sides.get(name, set()) for name in one.names)
    return any(by != seam for by, _ in first & second)


def _check_corners(plan: SeamPlan, ends: set[tuple[str, str]], values: Evaluator) -> None:
    for name in plan.corners:
        if (name.piece, name.edge) not in ends:
            values.fault(
                "corner-beside-seam",
                f"no end of seam `{plan.name}` meets `{name.text}`",
                name.span,
                notes=(f"its ends meet {', '.join(f'`{piece}.{edge}`' for piece, edge in sorted(ends))}",),
                help="name an edge that goes on from an end of the seam",
            )


def _report(seam: JoinedSeam, one: Meeting, most: float, values: Evaluator) -> None:
    (piece, edge), (other, aside) = one.names
    words = [
        f"`{name}` has {degrees(angle)} at {_place(corner.edges[1].path.start)}"
        for name, angle, corner in zip((piece, other), one.angles, (one.one, one.other), strict=True)
    ]
    what = "sticks out" if one.kink > 0 else "dips in"
    values.fault(
        "kink",
        f"`{piece}.{edge}` and `{other}.{aside}` meet with a kink of {degrees(abs(one.kink))} at seam `{seam.name}`",
        seam.span,
        others=tuple(Label(one.span, "goes on from the seam") for one in dict.fromkeys(one.edges)),
        notes=(
            f"{' and '.join(words)}: together {degrees(sum(one.angles))}, where {degrees(pi)} run on smoothly; "
            f"the line {what}; up to {degrees(most)} are let pass",
        ),
        help="let both edges come square to the seam (`arriving square to …`), or say that it is meant: "
        f'{{ corner at {piece}.{edge} "why" }}',
        severity=Severity.WARNING,
        subject=f"{piece}.{edge}",
    )


def _place(at: Point) -> str:
    return f"({decimal(at.real / 10, 1)} cm, {decimal(at.imag / 10, 1)} cm)"
