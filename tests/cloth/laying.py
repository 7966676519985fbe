"""Small shapes and cloths for the tests of laying."""

from __future__ import annotations

import math
from collections.abc import Sequence

from garmentc.cloth.ground import ground
from garmentc.cloth.model import Ground, Shape, Spot, Turn
from garmentc.data.cloths import read_cloth
from garmentc.diagnostics.finding import Findings
from garmentc.geometry.outline import Outline, ring
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point
from tests.support import MemoryHost

WITHIN = math.radians(1.0)


def cloth_of(text: str, name: str = "rag", length: float | None = None) -> Ground:
    """The ground of a cloth written as YAML; the text begins with its outline."""
    findings = Findings()
    cloth = read_cloth(MemoryHost({f"{name}.yaml": f'cloth: "Rag"\noutline: {text}'}), f"{name}.yaml", findings)
    assert cloth is not None, list(findings)
    return ground(cloth, length)


def box(key: str, wide: float, high: float, *, thread: complex = 1j, hems: Sequence[int] = (), **more: object) -> Shape:
    """A rectangle; ``hems`` are the sides (from the lower one on, anticlockwise) that lie on finished edges."""
    outline = ring([0j, complex(wide, 0), complex(wide, high), complex(0, high)])
    return shape(key, outline, thread=thread, hems=[(f"side {i}", outline.edges[i]) for i in hems], **more)


def shape(
    key: str,
    outline: Outline,
    *,
    thread: complex | Sequence[complex] = 1j,
    hems: Sequence[tuple[str, Path]] = (),
    within: float = WITHIN,
    is_strip: bool = False,
    mirrored: bool = False,
    **more: object,
) -> Shape:
    threads = (thread,) if isinstance(thread, complex) else tuple(thread)
    made = Shape(key, key.title(), key, 1, None, mirrored, is_strip, outline, threads, within, tuple(hems))
    return made._replace(**more)


def at(x: float, y: float, turn: float = 0.0, over: bool = False) -> Spot:
    """A spot in mm and degrees."""
    return Spot(Turn(math.radians(turn), over), complex(x, y))


def corner_of(points: Sequence[Point]) -> Point:
    return complex(min(p.real for p in points), min(p.imag for p in points))
