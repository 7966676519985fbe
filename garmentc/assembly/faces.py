"""Which sides of the cloth look up when the two sides of a seam are pinned."""

from __future__ import annotations

from garmentc.assembly.model import Join
from garmentc.record import Record


class Faces(Record):
    """How the sides lie: which one is on top, and which side of the cloth of each looks up."""

    first_on_top: bool
    top_wrong: bool
    below_wrong: bool


def faces(join: Join) -> Faces:
    """What the first section of a seam type says of it; right sides together when it says nothing."""
    lines = join.sections[0].lines if join.sections else ()
    first, second = (
        next((line.points for line in lines if line.word == "layer" and line.name == name), None)
        for name in ("first", "second")
    )
    if first is None or second is None:
        return Faces(True, True, False)
    first_on_top = first[0][1] > second[0][1]
    wrong = [points[0][0] > points[1][0] for points in (first, second)]
    return Faces(first_on_top, wrong[0 if first_on_top else 1], wrong[1 if first_on_top else 0])
