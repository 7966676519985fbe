"""The kinds of values, and how arithmetic combines them."""

from __future__ import annotations

from garmentc.record import Record


class Kind(Record):
    """What a value is; ``options`` only for choices."""

    name: str
    options: tuple[str, ...] = ()


LENGTH = Kind("length")
AREA = Kind("area")
ANGLE = Kind("angle")
RATIO = Kind("ratio")
COUNT = Kind("count")
POINT = Kind("point")
LINE = Kind("line")
CURVE = Kind("curve")
EDGE = Kind("edge")
TRUTH = Kind("truth")
PIECE = Kind("piece")
PART = Kind("part")
STRIP = Kind("strip")
OPENING = Kind("opening")
FAULT = Kind("fault")  # stands for a value whose fault is already reported

QUANTITIES = (LENGTH, AREA, ANGLE, RATIO, COUNT)
LINE_LIKE = (LINE, CURVE, EDGE)
PATH_LIKE = (CURVE, EDGE)
NAMED = {kind.name: kind for kind in (LENGTH, ANGLE, RATIO, COUNT)}
HANDED = NAMED | {kind.name: kind for kind in (AREA, TRUTH, POINT, LINE, CURVE)}
"""The kinds of what functions take, by their words."""

_LENGTH_POWER = {LENGTH: 1, AREA: 2, RATIO: 0, COUNT: 0}
_BY_POWER = {0: RATIO, 1: LENGTH, 2: AREA}


def of_unit(unit: str, value: float) -> Kind:
    """The kind of a literal."""
    if unit == "":
        return COUNT if value.is_integer() else RATIO
    if unit == "%":
        return RATIO
    return ANGLE if unit == "deg" else LENGTH


def fits(kind: Kind, wanted: Kind) -> bool:
    """Whether a value of one kind may stand where another is due."""
    return (
        kind == wanted
        or FAULT in (kind, wanted)
        or (kind == COUNT and wanted == RATIO)
        or (kind == EDGE and wanted == CURVE)
    )


def together(left: Kind, right: Kind) -> Kind | None:
    """The kind that both values share, if they can be added or compared."""
    if fits(left, right):
        return right
    return left if fits(right, left) else None


def product(left: Kind, right: Kind) -> Kind | None:
    """The kind of ``left * right``."""
    if FAULT in (left, right):
        return FAULT
    for one, other in ((left, right), (right, left)):
        if one == ANGLE:
            return ANGLE if other in (RATIO, COUNT) else None
    if left == right == COUNT:
        return COUNT
    if left in _LENGTH_POWER and right in _LENGTH_POWER:
        return _BY_POWER.get(_LENGTH_POWER[left] + _LENGTH_POWER[right])
    return None


def quotient(left: Kind, right: Kind) -> Kind | None:
    """The kind of ``left / right``."""
    if FAULT in (left, right):
        return FAULT
    if left == ANGLE:
        return RATIO if right == ANGLE else ANGLE if right in (RATIO, COUNT) else None
    if left in _LENGTH_POWER and right in _LENGTH_POWER:
        return _BY_POWER.get(_LENGTH_POWER[left] - _LENGTH_POWER[right])
    return None


def a(kind: Kind) -> str:
    """The kind with its article, for messages."""
    if kind.options:
        return "a choice"
    return f"{'an' if kind.name[0] in 'aeiou' else 'a'} {kind.name}"


def unit_advice(kind: Kind, wanted: tuple[Kind, ...]) -> str:
    """What to write so that a value of one kind becomes one of another, where that can be told."""
    if LENGTH in wanted and kind in (COUNT, RATIO):
        return "write the unit: mm, cm, m or in"
    if ANGLE in wanted and kind in (COUNT, RATIO):
        return "write the unit: deg"
    if LENGTH in wanted and kind == AREA:
        return "an area becomes a length when it is divided by a length, or by sqrt()"
    return ""
