"""Plans as they are kept, and back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.cloth.model import Plan, Shape, Spot, Spots, Turn
from garmentc.cloth.shapes import Splits
from garmentc.data.plans import SavedPiece, SavedPlan, rounded

_NEAR = 0.1  # mm that the length of a kept part may be off, as it was rounded


def kept(plan: Plan, garment: str, size: str) -> SavedPlan:
    """A plan as it is kept, in numbers of the precision in which it is written."""
    return SavedPlan(garment, size, plan.ground.key, tuple(_piece(plan, shape) for shape in plan.shapes))


def as_kept(plan: Plan) -> Plan:
    """A plan in the numbers in which it is written down; what is pinned stays as it is."""
    spots, _ = spots_of((rounded(one) for one in kept(plan, "", "").pieces), plan.shapes)
    pinned = {key: spot for key, spot in plan.spots.items() if spot.pinned}
    return plan._replace(spots={**spots, **pinned})


def _piece(plan: Plan, shape: Shape) -> SavedPiece:
    spot = plan.spots[shape.key]
    x0, y0, _, _ = plan.outline(shape).bounds()
    return SavedPiece(name(shape), shape.part, complex(x0, y0), spot.turn.angle, spot.turn.over, spot.pinned)


def name(shape: Shape) -> str:
    """What a shape is called in a kept plan; parts of a strip share the name of the strip."""
    return shape.key if shape.part is None else shape.key[:-1]


def splits_of(pieces: Iterable[SavedPiece]) -> Splits:
    """Where strips are joined according to a kept plan."""
    found: dict[str, list[float]] = {}
    for one in pieces:
        if one.part is not None and one.part[0] > _NEAR:
            found.setdefault(one.piece, []).append(one.part[0])
    return {strip: sorted(ends) for strip, ends in found.items()}


def spots_of(pieces: Iterable[SavedPiece], shapes: Sequence[Shape]) -> tuple[Spots, dict[str, SavedPiece]]:
    """Where shapes lie according to a kept plan, and the entry of each; entries without a shape are left out."""
    spots: dict[str, Spot] = {}
    entries: dict[str, SavedPiece] = {}
    for one in pieces:
        shape = next((shape for shape in shapes if shape.key not in spots and _is_of(one, shape)), None)
        if shape is not None:
            turn = Turn(one.turn, one.over)
            x0, y0, _, _ = shape.outline.moved(turn.motion).bounds()
            spots[shape.key] = Spot(turn, one.at - complex(x0, y0), one.pinned)
            entries[shape.key] = one
    return spots, entries


def _is_of(one: SavedPiece, shape: Shape) -> bool:
    if one.piece != name(shape) or (one.part is None) != (shape.part is None):
        return False
    if one.part is None or shape.part is None:
        return True
    return all(abs(a - b) < _NEAR for a, b in zip(one.part, shape.part, strict=True))
