"""The functions of the language: which kinds they take and give. How they compute stands in ``draft.functions``."""

from __future__ import annotations

import math

from garmentc.design.kinds import (
    ANGLE,
    AREA,
    CURVE,
    EDGE,
    LENGTH,
    LINE,
    LINE_LIKE,
    PATH_LIKE,
    PIECE,
    POINT,
    QUANTITIES,
    RATIO,
    Kind,
    fits,
)
from garmentc.record import Record

Alternatives = tuple[Kind, ...]


class Signature(Record):
    """The kinds a function takes, in order, and the kind it gives (None: that of its first argument).

    ``many`` lets the last parameter repeat; ``alike`` asks for one shared kind of all arguments.
    """

    takes: tuple[Alternatives, ...]
    gives: Kind | None
    many: bool = False
    alike: bool = False

    def accepts(self, kinds: tuple[Kind, ...]) -> bool:
        takes = self.takes
        if self.many and len(kinds) > len(takes):
            takes = takes + (takes[-1],) * (len(kinds) - len(takes))
        if len(kinds) != len(takes):
            return False
        if not all(any(fits(kind, one) for one in wanted) for kind, wanted in zip(kinds, takes, strict=True)):
            return False
        return not self.alike or all(fits(kind, kinds[0]) or fits(kinds[0], kind) for kind in kinds)


_LINES: Alternatives = LINE_LIKE
_PATHS: Alternatives = PATH_LIKE
_FLAT: Alternatives = (LENGTH, ANGLE, RATIO)

FUNCTIONS: dict[str, tuple[Signature, ...]] = {
    "min": (Signature((QUANTITIES, QUANTITIES), None, many=True, alike=True),),
    "max": (Signature((QUANTITIES, QUANTITIES), None, many=True, alike=True),),
    "abs": (Signature((QUANTITIES,), None),),
    "round": (Signature((_FLAT, _FLAT), None, alike=True),),
    "round_up": (Signature((_FLAT, _FLAT), None, alike=True),),
    "round_down": (Signature((_FLAT, _FLAT), None, alike=True),),
    "sqrt": (Signature(((RATIO,),), RATIO), Signature(((AREA,),), LENGTH)),
    "hypot": (Signature(((LENGTH,), (LENGTH,)), LENGTH),),
    "arc_radius": (Signature(((LENGTH,), (ANGLE,)), LENGTH),),
    "arc_length": (Signature(((LENGTH,), (ANGLE,)), LENGTH),),
    "sin": (Signature(((ANGLE,),), RATIO),),
    "cos": (Signature(((ANGLE,),), RATIO),),
    "tan": (Signature(((ANGLE,),), RATIO),),
    "asin": (Signature(((RATIO,),), ANGLE),),
    "acos": (Signature(((RATIO,),), ANGLE),),
    "atan": (Signature(((RATIO,),), ANGLE),),
    "mid": (Signature(((POINT,), (POINT,)), POINT),),
    "along": (Signature((_PATHS, (LENGTH, RATIO)), POINT),),
    "line": (Signature(((POINT,), (POINT,)), LINE),),
    "level": (Signature(((POINT,),), LINE),),
    "plumb": (Signature(((POINT,),), LINE),),
    "circle": (Signature(((POINT,), (LENGTH,)), CURVE), Signature(((POINT,), (POINT,), (POINT,)), CURVE)),
    "meet": (Signature((_LINES, _LINES), POINT), Signature((_LINES, _LINES, (POINT,)), POINT)),
    "touch": (Signature(((POINT,), _PATHS, (POINT,)), POINT),),
    "foot": (Signature(((POINT,), _LINES), POINT),),
    "mirror": (Signature(((POINT,), _LINES), POINT), Signature((_PATHS, _LINES), CURVE)),
    "turn": (Signature(((POINT,), (POINT,), (ANGLE,)), POINT), Signature((_PATHS, (POINT,), (ANGLE,)), CURVE)),
    "shift": (
        Signature(((POINT,), (LENGTH,), (LENGTH,)), POINT),
        Signature((_PATHS, (LENGTH,), (LENGTH,)), CURVE),
        Signature(((POINT,), (POINT,), (POINT,)), POINT),
        Signature((_PATHS, (POINT,), (POINT,)), CURVE),
    ),
    "reverse": (Signature((_PATHS,), CURVE),),
    "part": (Signature((_PATHS, (POINT,), (POINT,)), CURVE),),
    "beside": (Signature((_PATHS, (LENGTH,)), CURVE),),
    "distance": (Signature(((POINT,), (POINT, LINE, CURVE, EDGE)), LENGTH),),
    "heading": (Signature(((POINT,), (POINT,)), ANGLE),),
    "width": (Signature(((PIECE,), _LINES), LENGTH),),
    "girth": (Signature(((PIECE,), (POINT, *_LINES)), LENGTH), Signature(((PIECE,), (POINT,), (EDGE,)), LENGTH)),
    "area": (Signature(((PIECE,),), AREA),),
}

CONSTANTS = {"pi": math.pi}
"""Numbers with a name."""

MEMBERS: dict[str, dict[str, Kind]] = {
    "point": {"x": LENGTH, "y": LENGTH},
    "curve": {"length": LENGTH, "start": POINT, "end": POINT},
    "edge": {"length": LENGTH, "sewn_length": LENGTH, "start": POINT, "end": POINT},
    "opening": {"length": LENGTH},
    "strip": {"length": LENGTH, "cut_width": LENGTH, "finished_width": LENGTH},
}


def describe(name: str) -> str:
    """How a function is called, for messages: ``along(curve or edge, length or ratio)``."""
    shown = []
    for signature in FUNCTIONS[name]:
        takes = [" or ".join(kind.name for kind in wanted) for wanted in signature.takes]
        shown.append(f"{name}({', '.join(takes)}{', …' if signature.many else ''})")
    return " or ".join(shown)
