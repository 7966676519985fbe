"""Saved plans: where the pieces of a garment lie on a cloth. People may move pieces in them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

from garmentc.data.forms import LONGEST_TITLE, Form, NotOfForm, fields, items, label, matched, read_document
from garmentc.data.nodes import Entry, Items, Leaf, Node, Table
from garmentc.diagnostics.finding import Findings
from garmentc.geometry.vector import Point
from garmentc.host import Host
from garmentc.numbers import decimal
from garmentc.record import Record
from garmentc.source import Span

PIECE_PATTERN = r"^[a-z][a-z0-9_]{0,59}(?: [1-9][0-9]{0,2})?$(?!\n)"
LARGEST = 100_000
_MM = 10.0  # a plan counts in centimetres
_PIECE = re.compile(PIECE_PATTERN)
_FACES, _PLACES = ("up", "down"), ("found", "pinned")


class SavedPiece(Record):
    """Where one shape lies. ``piece`` is a piece or strip, with the number of the copy where there are several.

    ``part`` is the stretch of a strip that is cut for itself (mm). ``at`` is the lower left corner of the box around
    the shape as it lies (mm), ``turn`` how far it is turned (radians, anticlockwise), before that turned ``over``.
    """

    piece: str
    part: tuple[float, float] | None
    at: Point
    turn: float
    over: bool
    pinned: bool
    span: Span | None = None


class SavedPlan(Record):
    """A plan as it is kept: of which garment, size and cloth, and where its shapes lie."""

    garment: str
    size: str
    cloth: str
    pieces: tuple[SavedPiece, ...]
    span: Span | None = None


def read_plan(host: Host, path: str, findings: Findings) -> SavedPlan | None:
    """A plan from a YAML file of the ``plan`` schema; None after at least one finding."""
    return read_document(host, path, _FORM, findings)


def rounded(one: SavedPiece) -> SavedPiece:
    """An entry in the precision in which it is written: a hundredth of a millimetre, a ten-thousandth of a degree."""
    at = complex(round(one.at.real, 2), round(one.at.imag, 2))
    return one._replace(at=at, turn=math.radians(round(math.degrees(one.turn), 4)))


def plan_text(plan: SavedPlan) -> str:
    """The text of a plan, in which a person can move pieces and pin them."""
    lines = [
        "# Where each piece lies. `at` is the lower left corner of the box around it, in cm from the lower left corner",
        "# of the cloth; `turn` is in degrees, anticlockwise from how it is drawn. To move a piece, change its",
        "# numbers, add `place: pinned`, and lay again: what is pinned stays, the rest is found anew.",
        f"plan: {plan.garment}",
        f'size: "{plan.size}"',
        f'cloth: "{plan.cloth}"',
        "pieces:",
    ]
    return "\n".join([*lines, *map(_line, plan.pieces)]) + "\n"


def _line(one: SavedPiece) -> str:
    parts = [f"piece: {one.piece}"]
    if one.part is not None:
        parts.append(f"part: {_pair_text(one.part)}")
    parts += [f"at: {_pair_text((one.at.real, one.at.imag))}", f"turn: {decimal(math.degrees(one.turn), 4)}"]
    if one.over:
        parts.append("face: down")
    if one.pinned:
        parts.append("place: pinned")
    return f"  - {{{', '.join(parts)}}}"


def _pair_text(pair: Iterable[float]) -> str:
    return f"[{', '.join(decimal(value / _MM, 3) for value in pair)}]"


def _plan(root: Table) -> SavedPlan:
    entries = fields(root, frozenset({"plan", "size", "cloth", "pieces"}))
    title = entries["plan"]
    return SavedPlan(
        label(title.node, LONGEST_TITLE),
        label(entries["size"].node, LONGEST_TITLE),
        label(entries["cloth"].node, LONGEST_TITLE),
        tuple(_piece(node) for node in items(entries["pieces"].node)),
        title.span,
    )


def _piece(node: Node) -> SavedPiece:
    parts = fields(node, frozenset({"piece", "at", "turn"}), frozenset({"part", "face", "place"}))
    x, y = _pair(parts["at"].node)
    return SavedPiece(
        matched(parts["piece"].node, lambda text: text if _PIECE.search(text) else None),
        _pair(parts["part"].node) if "part" in parts else None,
        complex(x, y),
        math.radians(_number(parts["turn"].node)),
        _word(parts.get("face"), _FACES) == "down",
        _word(parts.get("place"), _PLACES) == "pinned",
        parts["piece"].span,
    )


def _number(node: Node) -> float:
    value = node.value if isinstance(node, Leaf) else None
    if not isinstance(value, float) or not -LARGEST <= value <= LARGEST:
        raise NotOfForm
    return value


def _pair(node: Node) -> tuple[float, float]:
    if not isinstance(node, Items) or len(node.nodes) != 2:
        raise NotOfForm
    first, second = (_number(one) * _MM for one in node.nodes)
    return first, second


def _word(entry: Entry | None, known: tuple[str, ...]) -> str:
    return known[0] if entry is None else matched(entry.node, lambda text: text if text in known else None)


_FORM = Form("plan.schema.json", "plan", "--plan", _plan)
