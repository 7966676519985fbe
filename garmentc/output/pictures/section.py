"""A seam type or finish cut across: layers of cloth, rows of stitching, and widths, as its section says."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from itertools import pairwise

from garmentc.assembly.model import Section, SectionLine
from garmentc.design.texts import spoken
from garmentc.geometry.vector import Point
from garmentc.numbers import length
from garmentc.output.pictures.marks import between
from garmentc.output.pictures.model import LETTER, Picture, Stroke, Word, framed

_LEVEL = 11.0  # px between layers that lie on each other
_WIDEST = 230.0  # px that the cloth may take
_LARGEST = 5.0  # px for a millimetre
_TICK = 4.0  # px; the ticks that mark the wrong side
_TICKS_APART = 6.0
_BEYOND = 5.0  # px that a needle goes beyond the layers
_WAVE = 3.0
_NEAR_RIGHT = 12.0
_THROUGH = 1.5  # mm
_LOOPS = 5.0  # px to either side that a stitch round an edge takes


def section_picture(section: Section, names: Mapping[str, str]) -> Picture:
    """One section; ``names`` says what its layers are called here."""
    xs = [x for line in section.lines for x, _ in line.points]
    scale = min(_LARGEST, _WIDEST / max(max(xs) - min(xs), 1.0))

    def place(at: tuple[float, float]) -> Point:
        return complex(at[0] * scale, -at[1] * _LEVEL)

    layers = [line for line in section.lines if line.word == "layer"]
    paths = [_rounded([place(at) for at in layer.points]) for layer in layers]
    lowest = max(p.imag for path in paths for p in path)
    strokes: list[Stroke] = []
    words: dict[str, Word] = {}
    for layer, path in zip(layers, paths, strict=True):
        strokes += [Stroke("cloth", (path,)), Stroke("hatch", tuple(_ticks(path)))]
        ends = zip((path[0], path[-1]), layer.goes_on, strict=True)
        strokes += [Stroke("thin", (_wave(end),)) for end, on in ends if on]
        name = names.get(layer.name, spoken(layer.name))
        at_end = _name_at_end(name, path, layer.goes_on) if any(layer.goes_on) else None
        words.setdefault(name, at_end or _name(name, path, paths))
    told: list[Word] = []
    for line in section.lines:
        start, end = place(line.points[0]), place(line.points[-1])
        if line.word == "row":
            strokes.append(_loops(start, end) if _is_along(line) else _needle(start, end))
        elif line.word == "gap":
            wide = abs(line.points[0][0] - line.points[-1][0])
            more, word = between(start, end, length(wide), below=start.imag > lowest)
            strokes += more
            told.append(word)
    return framed(section.title, _alt(section, names), strokes, (*words.values(), *told))


def _rounded(points: list[Point]) -> tuple[Point, ...]:
    """A line with its corners rounded, as cloth folds."""
    path = [points[0]]
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        radius = min(abs(corner - before) / 2, abs(after - corner) / 2, _LEVEL / 2)
        first = corner + radius * _unit(before - corner)
        last = corner + radius * _unit(after - corner)
        for i in range(7):
            t = i / 6
            path.append((1 - t) ** 2 * first + 2 * t * (1 - t) * corner + t**2 * last)
    path.append(points[-1])
    return tuple(path)


def _unit(step: Point) -> Point:
    return step / abs(step) if step else 0j


def _ticks(path: tuple[Point, ...]) -> Iterator[tuple[Point, Point]]:
    """Short slanting ticks on the wrong side: on the right of the line, as seen along it."""
    due = _TICKS_APART / 2
    for start, end in pairwise(path):
        along, long = _unit(end - start), abs(end - start)
        while due < long:
            at = start + along * due
            yield at, at + _TICK * along * complex(math.cos(2.2), math.sin(2.2))
            due += _TICKS_APART
        due -= long


def _wave(at: Point) -> tuple[Point, ...]:
    """The cloth goes on here: a wave across its end."""
    steps = [i / 6 for i in range(-6, 7)]
    return tuple(at + complex(_WAVE * math.sin(math.pi * t) * 0.6, 2 * _WAVE * t) for t in steps)


def _name_at_end(text: str, path: tuple[Point, ...], goes_on: tuple[bool, bool]) -> Word:
    """The name of a layer beside the end where it goes on."""
    end, other = (path[0], path[1]) if goes_on[0] else (path[-1], path[-2])
    right = end.real > other.real
    return Word(text, end + complex(6 if right else -6, 0.35 * LETTER), "start" if right else "end")


def _name(text: str, path: tuple[Point, ...], paths: Iterable[tuple[Point, ...]]) -> Word:
    """The name of a layer that ends inside the picture: on the right when nothing lies there, else below it."""
    right = max(path, key=lambda p: p.real)
    farthest = max(p.real for other in paths for p in other)
    if right.real > farthest - _NEAR_RIGHT:
        return Word(text, complex(farthest + 6, right.imag + 0.35 * LETTER), "start")
    below = complex((min(p.real for p in path) + right.real) / 2, max(p.imag for p in path))
    return Word(text, below + 1.2j * LETTER)


def _is_along(row: SectionLine) -> bool:
    """Whether a row goes over and under an edge; shorter level rows go through an upright bit of a layer."""
    (x0, level), (x1, end) = row.points
    return level == end and abs(x1 - x0) > _THROUGH


def _needle(start: Point, end: Point) -> Stroke:
    beyond = _BEYOND * _unit(end - start)
    return Stroke("needle", ((start - beyond, end + beyond),))


def _loops(start: Point, end: Point) -> Stroke:
    """A stitch that goes over and under one layer."""
    turns = max(2, round(abs(end - start) / 6)) * 2
    run = [start + (end - start) * i / turns + complex(0, _LOOPS if i % 2 else -_LOOPS) for i in range(turns + 1)]
    return Stroke("thread", (tuple(run),))


def _alt(section: Section, names: Mapping[str, str]) -> str:
    layers = [names.get(line.name, spoken(line.name)) for line in section.lines if line.word == "layer"]
    rows = sum(line.word == "row" for line in section.lines)
    gaps = [length(abs(line.points[0][0] - line.points[-1][0])) for line in section.lines if line.word == "gap"]
    text = f"Cut across, {section.title}: layers of {', '.join(dict.fromkeys(layers))}"
    if rows:
        text += f"; {rows} {'row' if rows == 1 else 'rows'} of stitching"
    return text + (f"; marked widths {', '.join(gaps)}" if gaps else "") + "."
