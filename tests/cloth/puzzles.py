"""Puzzles with a known solution: a cloth is cut up along lines and curves, some of the parts are kept and shuffled.

Each part keeps the grain it lay on, and some that lay on a hem have to lie on one again. They are invented, and made
anew from their number alone.
"""

from __future__ import annotations

import cmath
import math
from random import Random
from typing import NamedTuple

import shapely
from shapely import LineString, Polygon, box
from shapely.ops import split

from garmentc.cloth.model import Ground, Shape, Spot, Turn
from garmentc.geometry.outline import ring
from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, heading, unit
from tests.cloth.laying import cloth_of
from tests.cloth.laying import shape as laid_shape

CUT = 1.5
"""What is lost on each side of a cut (mm)."""


class Puzzle(NamedTuple):
    ground: Ground
    shapes: tuple[Shape, ...]
    solution: dict[str, Spot]
    fill: float


def puzzle(number: int, parts: int = 0, keep: float = 0.0) -> Puzzle:
    """A puzzle of 6 to 12 shapes that cover a share of the cloth, from about 55 to 80 %."""
    random = Random(number)
    wide, high = random.choice(((900, 900), (1120, 1120), (1400, 700), (1560, 520), (1300, 1000)))
    alike, either = random.random() < 0.3, random.random() < 0.3
    flawed = random.random() < 0.3
    hems = random.choice((["bottom", "top"], ["bottom", "right", "top", "left"], []))
    text = f"{{length: {wide} mm, width: {high} mm}}\nunit: mm\n"
    if hems:
        text += f"finished: [{{edges: [{', '.join(hems)}], kind: hem}}]\n"
    text += f"threads: {'either' if either else 'up'}\nsides: {'alike' if alike else 'differ'}\n"
    flaw = None
    if flawed:
        x, y = random.uniform(0.3, 0.7) * wide, random.uniform(0.3, 0.7) * high
        text += f"flaws: [{{name: burn, at: [{x:.1f}, {y:.1f}], round: 40 mm}}]\n"
        flaw = shapely.Point(round(x, 1), round(y, 1)).buffer(21)
    ground = cloth_of(text)
    cloth = box(0, 0, wide, high)
    cells = _cut_up([cloth], parts or random.randint(8, 15), random)
    if flaw is not None:
        cells = [cell for cell in cells if not cell.intersects(flaw)]
    random.shuffle(cells)
    share = keep or random.uniform(0.55, 0.8)
    kept: list[Polygon] = []
    for cell in cells:
        if sum(one.area for one in kept) + cell.area <= share * cloth.area or len(kept) < 2:
            kept.append(cell)
    made = [_shape(f"part {i}", cell, cloth, hems, random, alike) for i, cell in enumerate(kept)]
    shapes = tuple(shape for shape, _ in made)
    fill = sum(shape.outline.area for shape in shapes) / cloth.area
    return Puzzle(ground, shapes, {shape.key: spot for shape, spot in made}, fill)


def _cut_up(cells: list[Polygon], parts: int, random: Random) -> list[Polygon]:
    while len(cells) < parts:
        cells.sort(key=lambda cell: -cell.area)
        cell = cells.pop(0)
        x0, y0, x1, y1 = cell.bounds
        level = (y1 - y0) > (x1 - x0)
        at = random.uniform(0.35, 0.65)
        lean, bow = random.uniform(-0.25, 0.25), random.choice((0.0, 0.0, 1.0)) * random.uniform(-0.15, 0.15)
        line = []
        for step in range(13):
            t = step / 12
            off = at + lean * (t - 0.5) + bow * 4 * t * (1 - t)
            line.append(
                (x0 - 1 + t * (x1 - x0 + 2), y0 + off * (y1 - y0))
                if level
                else (x0 + off * (x1 - x0), y0 - 1 + t * (y1 - y0 + 2))
            )
        halves = [part for part in split(cell, LineString(line)).geoms if isinstance(part, Polygon)]
        if len(halves) == 2 and min(half.area for half in halves) > 0.25 * cell.area:
            cells += halves
        else:
            cells.append(cell)
    return cells


def _shape(key: str, cell: Polygon, cloth: Polygon, hems: list[str], random: Random, alike: bool) -> tuple[Shape, Spot]:
    """A cell less the cut, with its edges on the border of the cloth left where they are, and then turned away."""
    inner = cell.buffer(-CUT, join_style="mitre").union(
        cell.intersection(cloth.exterior.buffer(2 * CUT)).difference(
            cell.exterior.difference(cloth.exterior.buffer(1e-6)).buffer(CUT)
        )
    )
    inner = inner if isinstance(inner, Polygon) else max(inner.geoms, key=lambda one: one.area)
    points = [complex(x, y) for x, y in shapely.geometry.polygon.orient(inner.simplify(0.05)).exterior.coords[:-1]]
    angle = random.uniform(0, 2 * math.pi)
    lying = Spot(Turn(angle), complex(random.uniform(-500, 500), random.uniform(-500, 500)))
    if alike and random.random() < 0.5:
        lying = Spot(Turn(angle, True), lying.at)
    back = lying.motion.inverse()
    bias = random.random() < 0.3
    threads = [heading(math.pi / 4), heading(3 * math.pi / 4)] if bias else [1j]
    outline = ring([back.apply(p) for p in points])
    outline = outline if outline.area > 0 else outline.reversed()
    edges = _on_hems(points, cloth, hems)
    wanted = edges[: random.choice((0, 1, 1))]
    paths = [_directed(outline, [back.apply(a), back.apply(b)]) for a, b in wanted]
    threads = [unit(back.apply_vector(thread)) for thread in threads]
    # on the bias the threads of the cloth are at 45 degrees to the thread line of the piece, which lies upright
    return laid_shape(
        key,
        outline,
        thread=tuple(threads) if not bias else tuple(t * cmath.rect(1, math.pi / 4) for t in threads),
        hems=[(f"hem {i}", path) for i, path in enumerate(paths)],
    ), lying


def _on_hems(points: list[Point], cloth: Polygon, hems: list[str]) -> list[tuple[Point, Point]]:
    x0, y0, x1, y1 = cloth.bounds
    found = []
    for a, b in zip(points, [*points[1:], points[0]], strict=True):
        on = {
            "bottom": a.imag == b.imag == y0,
            "top": a.imag == b.imag == y1,
            "left": a.real == b.real == x0,
            "right": a.real == b.real == x1,
        }
        if any(on[name] for name in hems):
            found.append((a, b))
    return sorted(found, key=lambda edge: -abs(edge[1] - edge[0]))


def _directed(outline, ends: list[Point]) -> Path:
    for edge in outline.edges:
        if {round(abs(edge.start - end), 6) for end in ends} & {0.0} and {
            round(abs(edge.end - end), 6) for end in ends
        } & {0.0}:
            return edge
    raise AssertionError("the edge is not in the outline")
