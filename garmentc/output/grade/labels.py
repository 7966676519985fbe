"""Where the lines of the sizes are labelled with the size's name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.geometry.path import Path
from garmentc.geometry.vector import Point, cross, left
from garmentc.grade.model import Grade, GradedEdge, GradedPiece
from garmentc.output.patterns.arrows import upright
from garmentc.output.patterns.letters import line_step, text_width
from garmentc.output.patterns.scene import Stroke, Words, polyline
from garmentc.record import Record

_HEIGHTS = (3.2, 2.6, 2.0, 1.6)  # mm of capitals, the largest that the lines leave room for
_AIR = 0.5  # mm of white around a label, over and under it
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)  # of an edge at which its labels may stand
_MOST = 4  # edges that carry labels on their lines
_STRETCHES = ((0.2, 0.8), (0.45, 0.95), (0.05, 0.55), (0.65, 0.97), (0.03, 0.35))  # of an edge, for leaders to begin
_TOLD_APART = 0.3  # mm between lines
_LED = 2.0  # mm of capitals at the end of a leader
_BEYOND = 7.0  # mm that a leader reaches past the last line
_DOT = 0.5  # mm, half the width of the dot where it begins

Lines = Sequence[tuple[str, Path]]
"""The lines of an edge, each with its size."""


class Label(Record):
    """A size's name: on its line, with the corners of the white below it, or at the end of a leader."""

    words: Words
    back: tuple[Point, ...]
    leader: tuple[Stroke, ...]


def size_labels(grade: Grade, piece: GradedPiece) -> list[Label]:
    """Labels across the edges whose lines lie farthest apart, else with leaders; none if no lines can be told apart."""
    edges = [(edge, _lines(grade, edge)) for edge in piece.edges]
    rows = [row for edge, lines in edges if (row := _best_row(edge, lines)) is not None]
    if rows:
        best = sorted(rows, key=lambda row: -row[0])[:_MOST]
        return [label for _, row in best for label in row]
    spread = [
        (min(_apart(lines, first), _apart(lines, last)), edge, lines, (first, last))
        for edge, lines in edges
        for first, last in _STRETCHES
        if all((last - first) * path.length >= line_step(_LED) * len(lines) for _, path in lines)
    ]
    apart, edge, lines, stretch = max(spread, key=lambda one: one[0], default=(0.0, piece.edges[0], [], (0.0, 1.0)))
    return list(_led(edge, lines, stretch)) if apart > _TOLD_APART else []


def _lines(grade: Grade, edge: GradedEdge) -> list[tuple[str, Path]]:
    return list(zip(grade.sizes, edge.paths, strict=True))


def _apart(lines: Lines, share: float) -> float:
    """The least distance of a place on a line from the lines of the sizes beside it (mm)."""
    return min(_distances([path for _, path in lines], share), default=0.0)


def _distances(paths: Sequence[Path], share: float) -> Iterator[float]:
    for i, path in enumerate(paths):
        at = path.point_at(share * path.length)
        for other in (*paths[max(i - 1, 0) : i], *paths[i + 1 : i + 2]):
            yield other.nearest(at)[1]


def _best_row(edge: GradedEdge, lines: Lines) -> tuple[float, list[Label]] | None:
    """The labels of all sizes across an edge, with the distance between its lines (mm) where they stand."""
    for height in _HEIGHTS:
        if any(text_width(size, height) > 0.5 * path.length for size, path in lines):
            continue
        for share in _SHARES:
            apart = _apart(lines, share)
            if apart >= height / 2 + 2 * _AIR:
                return apart, _row(edge, lines, share, height)
    return None


def _row(edge: GradedEdge, lines: Lines, share: float, height: float) -> list[Label]:
    """A label on each line, moved along its line where it would touch one before it."""
    row: list[Label] = []
    for size, path in lines:
        aside = text_width(size, height) + 2.0
        places = [_on_line(edge, size, path, share * path.length + k * aside, height) for k in (0, 1, -1, 2, -2)]
        row.append(next((one for one in places if not any(_touch(one, other) for other in row)), places[0]))
    return row


def _touch(one: Label, other: Label) -> bool:
    """Whether two labels on lines that run nearly alike come too near to each other."""
    away = (sum(other.back) - sum(one.back)) / len(one.back) / one.words.along
    long, high = abs(one.back[1] - one.back[0]), abs(one.back[2] - one.back[1])
    return abs(away.real) < long and abs(away.imag) < high


def _on_line(edge: GradedEdge, size: str, path: Path, s: float, height: float) -> Label:
    at = path.point_at(s)
    along = upright(path.tangent_at(s))
    up = along * 1j
    words = Words("size", size, at - up * height / 2, along, height, True, edge.name, edge.span.line)
    half, over = (text_width(size, height) / 2 + 0.8) * along, (height / 2 + _AIR) * up
    return Label(words, (at - half - over, at + half - over, at + half + over, at - half + over), ())


def _led(edge: GradedEdge, lines: Lines, stretch: tuple[float, float]) -> Iterator[Label]:
    """A leader from each line past the last size's, one after the other along the edge, with the name at its end."""
    last = lines[-1][1]
    first, step = stretch[0], (stretch[1] - stretch[0]) / len(lines)
    for i, (size, path) in enumerate(lines):
        s = (first + step * (i + 0.5)) * path.length
        at = path.point_at(s)
        across = last.nearest(lines[0][1].point_at(s))[0]
        outward = last.point_at(across) - lines[0][1].point_at(s)
        way = left(path.tangent_at(s)) * (1 if cross(last.tangent_at(across), outward) > 0 else -1)
        end = at + (last.nearest(at)[1] + _BEYOND) * way
        reading = upright(way)
        start = end + way * 0.8
        if abs(reading - way) > 1e-6:  # read toward the edge: begin farther out
            start += text_width(size, _LED) * way
        words = Words("size", size, start - reading * 1j * _LED / 2, reading, _LED, False, edge.name, edge.span.line)
        dot = polyline(at - _DOT, at - _DOT * 1j, at + _DOT, at + _DOT * 1j)
        leader = (Stroke("leader", "narrow", polyline(at, end), edge.name), Stroke("leader", "solid", dot, edge.name))
        yield Label(words, (), leader)
