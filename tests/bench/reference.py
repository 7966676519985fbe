"""Tern by hand, as one would script it once: numpy, shapely's buffer, svgwrite. Writes the same pieces in 12 sizes."""

import sys
from pathlib import Path

import numpy as np
import svgwrite
from shapely.geometry import Polygon

BUSTS = [76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128]


def bezier(a, b, c, d, n=40):
    t = np.linspace(0, 1, n)[:, None]
    a, b, c, d = (np.array(p, float) for p in (a, b, c, d))
    return (1 - t) ** 3 * a + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t**2 * c + t**3 * d


def pieces(bust):
    half_front, half_back = bust / 4 + 20, bust / 4
    rise, tip, side, facing = bust / 10 + 40, bust / 16 + 30, 160, 40
    armhole = bezier((tip, rise), (tip, rise * 0.45), (tip + (half_front - tip) * 0.45, 0), (half_front, 0))
    mirrored = (armhole * [1, -1] + [0, 2 * rise])[::-1]
    front = np.vstack(
        [
            [(0, -side - half_front)],
            [(half_front, -side)],
            armhole[::-1],
            mirrored[::-1],
            [(half_front, 2 * rise + facing), (0, 2 * rise + facing)],
        ]
    )
    top = bezier((half_back, 0), (half_back * 0.6, 0), (half_back * 0.4, 25), (0, 25))
    back = np.vstack([[(0, -side - half_back), (half_back, -side)], top])
    back_facing = np.vstack([[(0, -facing), (half_back, -facing)], top])
    strap = np.array([(0, 0), (30, 0), (30, 440), (0, 440)])
    return {"front": front, "back": back, "back_facing": back_facing, "strap": strap}


def write(path, shapes):
    outlines = [(Polygon(points), Polygon(points).buffer(10, join_style="mitre")) for points in shapes]
    x0, y0, x1, y1 = (f(o[1].bounds[i] for o in outlines) for i, f in enumerate((min, min, max, max)))
    drawing = svgwrite.Drawing(path, size=(f"{x1 - x0}mm", f"{y1 - y0}mm"), viewBox=f"{x0} {-y1} {x1 - x0} {y1 - y0}")
    for sewn, cut in outlines:
        for polygon, dash in ((sewn, "3,2"), (cut, "none")):
            points = [(round(x, 3), round(-y, 3)) for x, y in polygon.exterior.coords]
            drawing.add(drawing.polygon(points, fill="none", stroke="black", stroke_dasharray=dash))
    drawing.save()


for bust in BUSTS:
    folder = Path(sys.argv[1]) / str(bust)
    folder.mkdir(parents=True, exist_ok=True)
    shapes = pieces(bust * 10)
    for name, points in shapes.items():
        write(str(folder / f"{name}.svg"), [points])
    write(str(folder / "all-pieces.svg"), list(shapes.values()))
