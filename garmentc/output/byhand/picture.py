"""The small picture of a step: what is drawn by then in thin lines, what is new in heavy ones."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.geometry.vector import Point, left, unit
from garmentc.output.byhand.lines import line_points
from garmentc.output.byhand.model import Begin, Cross, Curve, HandPiece, HandStep, Join, Measure, Notch, Parallel, Spot
from garmentc.output.pictures.model import LETTER, Picture, Stroke, Word, framed
from garmentc.record import Record

_SIDE = 230.0  # px, the longer side of a piece
_ARM = 3.0  # px, half of a point's cross
_NOTCH = 7.0  # px
_AWAY = 11.0  # px from a point to its letter

_KINDS = {"cut": "cloth", "both": "cloth", "fold": "fold", "turned": "fold", "foldline": "fold"}
"""Kinds of lines that are drawn already; all others are thin."""


class _Scale(Record):
    """From mm of a piece, y up, to px, y down."""

    scale: float
    middle: Point

    def px(self, p: Point) -> Point:
        return p.conjugate() * self.scale


def pictures(piece: HandPiece, caption: str) -> list[Picture]:
    """One picture for each step."""
    every = [p for step in piece.steps for p in _points(step)]
    xs, ys = [p.real for p in every], [p.imag for p in every]
    long = max(max(xs) - min(xs), max(ys) - min(ys), 1.0)
    scale = _Scale(_SIDE / long, complex(min(xs) + max(xs), min(ys) + max(ys)) / 2)
    corners = complex(min(xs), min(ys)), complex(max(xs), max(ys))
    return [_picture(piece.steps[:number], step, scale, corners, caption) for number, step in enumerate(piece.steps)]


def _picture(
    before: Sequence[HandStep], step: HandStep, scale: _Scale, corners: tuple[Point, Point], caption: str
) -> Picture:
    strokes = [stroke for one in before for stroke in _strokes(one, scale, heavy=False)]
    strokes += _strokes(step, scale, heavy=True)
    named = {spot.name: spot for spot in _named(step)}
    if not named:
        named = {spot.name: spot for one in before for spot in _named(one) if not spot.name.isdigit()}
    words: list[Word] = []
    for spot in named.values():
        words.append(_word(spot, scale, words))
    # All pictures of a piece have one frame, so that it grows in place.
    reach = 2 * _AWAY * (1 + 1j)
    low, high = scale.px(corners[0]), scale.px(corners[1])
    frame = Stroke("thin", ((complex(low.real, high.imag) - reach,), (complex(high.real, low.imag) + reach,)))
    return framed("", caption, [*strokes, frame], words, margin=0.0)


def _word(spot: Spot, scale: _Scale, others: Sequence[Word]) -> Word:
    """The letter of a spot, outward from the middle of the piece and clear of other letters."""
    outward = spot.at - scale.middle
    way = unit(outward).conjugate() if abs(outward) > 1e-6 else 1 + 0j
    at = scale.px(spot.at)
    tries = [at + way * turn * _AWAY * far for far in (1.0, 1.7) for turn in (1, 1j, -1j, -1)]
    free = [one for one in tries if all(abs(one + 0.35j * LETTER - other.at) > LETTER for other in others)]
    return Word(spot.name, (free or tries)[0] + 0.35j * LETTER)


def _strokes(step: HandStep, scale: _Scale, *, heavy: bool) -> list[Stroke]:
    found = []
    for action in step.actions:
        match action:
            case Join() | Curve() | Parallel():
                kind = "edge" if heavy else _KINDS.get(action.purpose.use, "thin")
                found.append(Stroke(kind, (tuple(map(scale.px, line_points(action))),)))
                if heavy and isinstance(action, Curve):
                    found.append(_offsets(action, scale))
            case Measure(origin, spot, first_level) if heavy:
                way = spot.at - origin.at
                corner = origin.at + (complex(way.real, 0) if first_level else complex(0, way.imag))
                found.append(Stroke("hidden", (tuple(map(scale.px, (origin.at, corner, spot.at))),)))
                found.append(_cross(scale.px(spot.at)))
            case Begin(spot) | Cross(spot):
                found.append(_cross(scale.px(spot.at)))
            case Notch(_, _, at, inward):
                start = scale.px(at)
                found.append(Stroke("edge" if heavy else "thin", ((start, start + inward.conjugate() * _NOTCH),)))
    return found


def _offsets(curve: Curve, scale: _Scale) -> Stroke:
    """The base line of a curve, with its heights."""
    way = unit(curve.end.at - curve.start.at)
    feet = [curve.start.at + way * row.along for row in curve.rows]
    tops = [foot + left(way) * row.height for foot, row in zip(feet, curve.rows, strict=True)]
    runs = [(curve.start.at, curve.end.at), *zip(feet, tops, strict=True)]
    return Stroke("thin", tuple(tuple(map(scale.px, run)) for run in runs))


def _cross(at: Point) -> Stroke:
    return Stroke("thin", ((at - _ARM, at + _ARM), (at - _ARM * 1j, at + _ARM * 1j)))


def _named(step: HandStep) -> Iterable[Spot]:
    """The points that a step speaks of."""
    for action in step.actions:
        match action:
            case Begin(spot) | Cross(spot):
                yield spot
            case Measure(origin, spot):
                yield from (origin, spot)
            case Join(start, end) | Curve(start, end) | Parallel(start, end):
                yield from (start, end)
            case Notch(origin):
                yield origin


def _points(step: HandStep) -> Iterable[Point]:
    for spot in _named(step):
        yield spot.at
    for action in step.actions:
        if isinstance(action, Curve | Parallel):
            yield from line_points(action)
