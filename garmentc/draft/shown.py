"""Values in the units people read for their kind."""

from __future__ import annotations

from garmentc.design import kinds as k
from garmentc.design.kinds import Kind
from garmentc.numbers import area, decimal, degrees, length, percent

_BY_KIND = {k.LENGTH: length, k.AREA: area, k.ANGLE: degrees, k.RATIO: percent}


def shown_as(value: float, kind: Kind) -> str:
    """A value (mm, mm², radians or plain) as text for people."""
    return _BY_KIND.get(kind, decimal)(value)
