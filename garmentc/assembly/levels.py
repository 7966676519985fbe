"""Whether the cut edges of a seam end level, so that they can be laid on each other from end to end."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from garmentc.assembly.chains import Stretch
from garmentc.assembly.kinks import SMOOTH, Meeting, Uses, goes_on, meetings, sides_of_edges
from garmentc.assembly.model import CutPiece, JoinedSeam
from garmentc.assembly.turning import ENCLOSES
from garmentc.diagnostics.finding import Label, Severity
from garmentc.draft.evaluate import Evaluator
from garmentc.geometry.vector import dot
from garmentc.numbers import length

LEVEL = 2.0
"""How far (mm) one cut edge may reach beyond the other at an end of a seam; common practice, no source."""


def check_levels(seams: Iterable[JoinedSeam], pieces: Mapping[str, CutPiece], uses: Uses, values: Evaluator) -> None:
    """Report ends of seams at which one cut edge reaches beyond the other, where the line there runs on smoothly."""
    seams = tuple(seams)
    sides = sides_of_edges(seams)
    for seam in seams:
        if seam.mirrored or seam.join.turning == ENCLOSES:
            continue
        for at_end, meeting in enumerate(meetings(seam)):
            if abs(meeting.kink) > SMOOTH or not goes_on(meeting, seam.name, sides, uses):
                continue
            ends = seam.ends(at_end=bool(at_end))
            reach = [_reach(one, pieces[one.piece.name], at_end=bool(at_end)) for one in ends]
            if abs(reach[0] - reach[1]) > LEVEL:
                _report(seam, meeting, reach, values)


def _reach(stretch: Stretch, cut: CutPiece, *, at_end: bool) -> float:
    """How far (mm) the cut edge goes on beyond the end of the stitching line, in the direction of that."""
    onward = stretch.direction(at_end=at_end) * (1 if at_end else -1)
    path = next(one.path for one in cut.edges if one.edge == stretch.edge.name)
    at_path_end = at_end != stretch.backward
    tip = path.end if at_path_end else path.start
    corner = stretch.edge.path.end if at_path_end else stretch.edge.path.start
    return dot(tip - corner, onward)


def _report(seam: JoinedSeam, meeting: Meeting, reach: list[float], values: Evaluator) -> None:
    long, short = (0, 1) if reach[0] > reach[1] else (1, 0)
    pieces = [meeting.one.piece, meeting.other.piece]
    crossing = [edge.name for edge in meeting.edges]
    values.fault(
        "ends-not-level",
        f"where seam `{seam.name}` ends, the cut edge of `{pieces[long].name}` reaches "
        f"{length(reach[long] - reach[short])} beyond that of `{pieces[short].name}`",
        seam.span,
        others=tuple(Label(edge.span, "goes on from the seam") for edge in dict.fromkeys(meeting.edges)),
        notes=(
            f"beyond the stitching `{pieces[0].name}` goes on for {length(reach[0])} at its {crossing[0]}, "
            f"`{pieces[1].name}` for {length(reach[1])} at its {crossing[1]}",
        ),
        help="give both edges that go on the same allowance",
        severity=Severity.WARNING,
        subject=f"{pieces[0].name}.{crossing[0]}",
    )
