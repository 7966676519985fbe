"""The cut line of a piece: its outline grown by the allowance of each edge, corners shaped for how they are sewn."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import accumulate
from math import pi, radians, tan

from garmentc.assembly.chains import Corner
from garmentc.assembly.edges import FOUND
from garmentc.assembly.ends import inner_angle
from garmentc.assembly.model import CutEdge, CutPiece, EdgeUse
from garmentc.design.model import LEVEL
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedPiece
from garmentc.draft.reshape import Mouth, cap
from garmentc.geometry.faults import GeometryFault
from garmentc.geometry.path import Path
from garmentc.geometry.widen import Corner as Shape
from garmentc.geometry.widen import FoldedBack, Mitre, Square, widen
from garmentc.numbers import decimal, length

_STEEP = radians(70)
"""A seam whose edge meets the next one farther off the square than this goes on to its point; no source."""
_OFF = 1.0
"""How far (mm) the cut edges of a seam may miss each other at its end before they are squared; no source."""
_WORDS = {
    "too-tight": "is curved too tightly for its allowance",
    "self-crossing": "has allowances that run into each other",
    "no-meeting": "has allowances that do not meet at a corner",
    "too-sharp": "meets its hem at too sharp an angle for the hem to fold back",
    "too-short": "is too short beside its hem for the hem to fold back",
}
_HELP = {
    "too-tight": "flatten the curve there, or choose a seam with a smaller allowance",
    "self-crossing": "choose smaller allowances there, or open the angle",
    "no-meeting": "make the two allowances more alike, or open the angle",
    "too-sharp": "open the angle, or choose a smaller hem",
    "too-short": "choose a smaller hem",
}


def cut_piece(piece: DraftedPiece, uses: Mapping[str, EdgeUse], values: Evaluator) -> CutPiece | None:
    """A piece with its cut line, or None when the allowances are impossible (which is then reported)."""
    widths = [uses[edge.name].allowance for edge in piece.edges]
    corners = [_corner(piece, uses, i) for i in range(len(piece.edges))]
    try:
        grown = widen(piece.outline, widths, corners)
        grown = replace(grown, edges=tuple(_capped(piece, i, path) for i, path in enumerate(grown.edges)))
    except GeometryFault as fault:
        _report(piece, uses, fault, values)
        return None
    count = len(piece.edges)
    edges = tuple(
        CutEdge(edge.name, grown.edges[i], grown.joins[(i + 1) % count]) for i, edge in enumerate(piece.edges)
    )
    return CutPiece(piece, uses, edges, grown.ring)


def _capped(piece: DraftedPiece, i: int, path: Path) -> Path:
    """A cut line with its course over the darts of its edge."""
    for dart in piece.takeups:
        if dart.kind == "dart" and dart.edge == piece.edges[i].name:
            try:
                path = cap(path, Mouth(dart.edge, dart.first, dart.second, dart.tip), dart.to_first)
            except GeometryFault as fault:
                raise fault.on(i) from None
    return path


def _corner(piece: DraftedPiece, uses: Mapping[str, EdgeUse], i: int) -> Shape:
    """How the border passes the corner between an edge and the one before; hems first, then seams with square ends.

    A seam that ends aslant ends square too where nothing is said: only so do the cut edges of both sides end level.
    """
    before, after = (uses[piece.edges[at].name] for at in (i - 1, i))
    for side, use, other in (("before", before, after), ("after", after, before)):
        if use.join is not None and use.join.folds and not (other.join is not None and other.join.folds):
            if other.way == "fold":
                continue
            depths = tuple(accumulate(use.join.folds))
            return FoldedBack("before" if side == "before" else "after", depths)
    for side, use, other in (("before", before, after), ("after", after, before)):
        if use.join is not None and use.join.corner == "square" and use.allowance > 0 and _can_be_crossed(other):
            return Square("before" if side == "before" else "after")
    for side, use, other in (("before", before, after), ("after", after, before)):
        if _ends_aslant(Corner(piece, i), use, other):
            return Square("before" if side == "before" else "after")
    return Mitre()


def _can_be_crossed(use: EdgeUse) -> bool:
    """Whether the allowance of the edge beside may go on beyond this one: not where the cloth is folded or ends."""
    return use.allowance > 0 or (use.way == "finish" and use.join is not None and use.join.name != FOUND)


def _ends_aslant(corner: Corner, use: EdgeUse, other: EdgeUse) -> bool:
    """Whether a seam ends at a corner at which its cut edge would end before, or beyond, the end of its stitching."""
    if use.way != "seam" or use.join is None or use.join.corner != LEVEL or use.by == other.by:
        return False
    if use.allowance <= 0 or not _can_be_crossed(other):
        return False
    angle = inner_angle(corner)
    return abs(angle - pi / 2) < _STEEP and abs(use.allowance / tan(angle)) > _OFF


def _report(piece: DraftedPiece, uses: Mapping[str, EdgeUse], fault: GeometryFault, values: Evaluator) -> None:
    concerned = [piece.edges[i] for i in dict.fromkeys(fault.edges)] or [piece.edges[0]]
    edges = sorted(concerned, key=lambda edge: -uses[edge.name].allowance)
    at = f"at ({decimal(fault.at.real / 10, 1)} cm, {decimal(fault.at.imag / 10, 1)} cm)"
    numbers = [f"{name.replace('-', ' ')} {length(value)}" for name, value in fault.numbers.items()]
    allowances = [f"`{edge.name}` has {length(uses[edge.name].allowance)}" for edge in edges]
    values.fault(
        f"allowance-{fault.reason}",
        f"edge `{edges[0].name}` of `{piece.name}` {_WORDS.get(fault.reason, 'has an impossible allowance')}",
        edges[0].span,
        label=at,
        others=tuple(
            Label(uses[edge.name].span, f"takes {length(uses[edge.name].allowance)} of allowance")
            for edge in edges
            if uses[edge.name].allowance
        ),
        notes=(", ".join([*numbers, *allowances]),),
        help=_HELP.get(fault.reason, ""),
        subject=piece.name,
    )
