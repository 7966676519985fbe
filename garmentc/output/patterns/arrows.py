"""Arrows: the bent one at a fold, which says what to do there, and the straight one along the threads."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.draft.model import DraftedEdge, DraftedPiece
from garmentc.geometry.vector import Point, cross, left, unit
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.scene import Stroke, Words, polyline
from garmentc.output.texts.speech import Speech

_HEAD = 4.0  # mm, length of an arrow head
_LONGEST = 160.0
_DEPTH = 9.0  # mm from the fold to the bent arrow
_ON_FOLD = (("place_on_fold", 3.5), ("place_on_fold", 2.6), ("on_fold", 2.6), ("fold", 2.6))
_UNFOLDED = (("turn_over_here", 3.5), ("turn_over_here", 2.6), ("turn_over", 2.6), ("fold", 2.6))
_ALONG = (0.0, -0.5, 0.5, -1.0, 1.0)  # shares of half the arrow, from its middle


def grain_arrow(start: Point, end: Point) -> tuple[Stroke, ...]:
    """A straight arrow with a head at both ends."""
    along = unit(end - start)
    return (
        Stroke("grain", "narrow", polyline(start + along * _HEAD, end - along * _HEAD)),
        _head("grain", start, -along),
        _head("grain", end, along),
    )


def fold_arrows(piece: DraftedPiece, speech: Speech) -> Iterator[tuple[tuple[Stroke, ...], tuple[Words, ...]]]:
    """A bent arrow with the places for its words, best first, for each straight fold; edges in one line share one."""
    done: list[DraftedEdge] = []
    for edge in sorted((one for one in piece.edges if one.on_fold), key=lambda one: -one.path.length):
        if not any(_in_line(edge, other) for other in done):
            done.append(edge)
            yield _bent(edge, _UNFOLDED if piece.is_unfolded else _ON_FOLD, speech)


def _bent(
    edge: DraftedEdge, words: Sequence[tuple[str, float]], speech: Speech
) -> tuple[tuple[Stroke, ...], tuple[Words, ...]]:
    along, middle = unit(edge.path.chord), (edge.path.start + edge.path.end) / 2
    inward = left(along)
    half = min(0.6 * edge.path.length, _LONGEST) / 2 * along
    low, high = middle - half, middle + half
    deep = inward * min(_DEPTH, edge.path.length / 4)
    tip = inward * 1.0  # the heads stop short of the line of the fold, so that both can be seen
    line = edge.span.line
    strokes = (
        Stroke("fold", "narrow", polyline(low + tip, low + deep, high + deep, high + tip), "", line),
        _head("fold", low + tip, -inward),
        _head("fold", high + tip, -inward),
    )
    reading = upright(along)
    texts = [(speech.say(key), height) for key, height in words]
    fitting = [one for one in texts if text_width(*one) < edge.path.length - 12.0] or texts[-1:]
    places = []
    for text, height in fitting:
        # The words lie on the inner side of the arrow, whichever way up they are read.
        gap = 1.6 if cross(reading, inward) > 0 else 1.6 + height
        for share in _ALONG:
            at = middle + half * share + deep + inward * gap
            places.append(Words("fold", text, at, reading, height, True, "", line))
    return strokes, tuple(places)


def upright(along: complex) -> complex:
    """A direction or its opposite: that in which text is not upside down; upright text reads upward."""
    if abs(along.real) < 1e-6:
        return 1j
    return -along if along.real < 0 else along


def _head(use: str, tip: Point, way: complex) -> Stroke:
    back, side = tip - way * _HEAD, left(way) * _HEAD / 3
    return Stroke(use, "solid", polyline(back + side, tip, back - side))


def _in_line(one: DraftedEdge, other: DraftedEdge) -> bool:
    along = unit(other.path.chord)
    return all(abs(cross(along, p - other.path.start)) < 1e-3 for p in (one.path.start, one.path.end))
