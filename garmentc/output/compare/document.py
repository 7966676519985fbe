"""What has changed, as a JSON document for programs; its schema is ``grammar/schemas/comparison.schema.json``."""

from __future__ import annotations

import json
from typing import Any

from garmentc.comparison.model import Bend, Change, Comparison, Move, Rewritten, Statement, Value
from garmentc.geometry.vector import Point
from garmentc.numbers import exact

FORMAT, VERSION = "garmentc-comparison", 1
Json = dict[str, Any]


def comparison_json(comparison: Comparison) -> str:
    """Numbers in mm, mm², radians or plain, by size, rounded to a millionth; y up."""
    sizes = comparison.sizes
    document = {
        "format": FORMAT,
        "version": VERSION,
        "garment": comparison.name,
        "title": comparison.title,
        "old": comparison.old,
        "new": comparison.new,
        "same": comparison.is_same,
        "sizes": list(sizes),
        "renamed": [{"group": one.group, "old": one.old, "new": one.new} for one in comparison.renamed],
        "changes": [_change(sizes, one) for one in comparison.changes],
        "moves": [_move(sizes, one) for one in comparison.moves],
        "bends": [_bend(sizes, one) for one in comparison.bends],
        "statements": [_rewritten(one) for one in comparison.rewritten],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _change(sizes: tuple[str, ...], one: Change) -> Json:
    return {
        "group": one.group,
        "thing": one.thing,
        "quality": one.quality,
        "kind": "words" if one.kind is None else one.kind.name,
        "old": dict(zip(sizes, map(_value, one.old), strict=True)),
        "new": dict(zip(sizes, map(_value, one.new), strict=True)),
    }


def _value(value: Value | None) -> Value | None:
    return exact(value) if isinstance(value, float) else value


def _move(sizes: tuple[str, ...], one: Move) -> Json:
    return {
        "piece": one.piece,
        "point": one.point,
        "old": dict(zip(sizes, map(_point, one.old), strict=True)),
        "new": dict(zip(sizes, map(_point, one.new), strict=True)),
        "distance": {size: exact(abs(way)) for size, way in zip(sizes, one.ways, strict=True)},
    }


def _point(point: Point) -> list[float]:
    return [exact(point.real), exact(point.imag)]


def _bend(sizes: tuple[str, ...], one: Bend) -> Json:
    return {"edge": one.edge, "off": dict(zip(sizes, map(exact, one.off), strict=True))}


def _rewritten(one: Rewritten) -> Json:
    return {"name": one.name, "rule": one.is_rule, "old": _statement(one.old), "new": _statement(one.new)}


def _statement(one: Statement | None) -> Json | None:
    return None if one is None else {"file": one.span.source.name, "line": one.span.line, "text": one.text}
