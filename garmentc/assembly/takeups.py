"""What is done to a piece while it is flat: darts and tucks sewn, pleats laid, all as common practice has it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedPiece, TakeUp
from garmentc.draft.takeups import takeup_lines
from garmentc.numbers import length
from garmentc.record import Record
from garmentc.source import Span


class FlatWork(Record):
    """Work on one piece, ``times`` over; ``sewn`` is how long (mm) the stitching of one time is.

    What is done ``last`` waits for the hems; anything else is done while the piece is flat, before the work on the
    ``edges``, and ``why``. ``kind`` is shaping, interfacing or row.
    """

    name: str
    title: str
    lines: tuple[str, ...]
    times: int
    sewn: float
    span: Span
    last: bool = False
    edges: tuple[tuple[str, str], ...] = ()
    kind: str = "shaping"
    why: str = "its edge is only so long once this is done"


def flat_work(pieces: Iterable[DraftedPiece]) -> Iterator[FlatWork]:
    """The darts, tucks and pleats of all pieces, statement by statement."""
    for piece in pieces:
        statements: dict[Span, list[TakeUp]] = {}
        for one in piece.takeups:
            statements.setdefault(one.span, []).append(one)
        for span, found in statements.items():
            first = found[0]
            sewn = sum(takeup_lines(one).legs[0].length for one in found) if first.kind in ("dart", "tuck") else 0.0
            lines = _LINES.get(first.kind, _pleats)(piece, found)
            if piece.copies > 1:
                lines = [f"Do this {piece.copies} times, left and right alike.", *lines]
            yield FlatWork(
                f"{piece.name}.{first.name}",
                _title(piece, found),
                tuple(lines),
                piece.copies,
                sewn,
                span,
                edges=tuple({(piece.name, one.edge): None for one in found}),
            )


def _title(piece: DraftedPiece, found: list[TakeUp]) -> str:
    what = found[0].title if len(found) == 1 else f"{len(found)} {found[0].kind} pleats"
    return f"{piece.title}: {what}"


def _dart(piece: DraftedPiece, found: list[TakeUp]) -> list[str]:
    dart = found[0]
    legs = takeup_lines(dart).legs
    edge, wide = spoken(dart.edge), length(abs(dart.first - dart.second))
    return [
        f"Mark the tip and both ends of the dart in the {edge}; the ends lie {wide} apart. "
        "Fold right sides together so that the legs lie on each other, and pin.",
        f"Sew from the cut edge of the {edge} to the tip; from the sewing line it is {length(legs[0].length)} along "
        "the stitching. Let the last stitches run along the fold. "
        "Do not sew back at the tip: leave the threads long and knot them.",
        f"Press the dart flat as sewn, then {_pressed(dart)}, over a rounded pad or a rolled towel.",
    ]


def _tuck(piece: DraftedPiece, found: list[TakeUp]) -> list[str]:
    tuck = found[0]
    long = takeup_lines(tuck).legs[0].length
    return [
        f"Fold the tuck in the {spoken(tuck.edge)} along its middle, wrong sides together, so that its two lines "
        "lie on each other, and pin.",
        f"Sew {length(tuck.deep)} from the fold, for {length(long)} from the {spoken(tuck.edge)}; sew back at the end.",
        f"Press it {_pressed(tuck)}.",
    ]


def _pleats(piece: DraftedPiece, found: list[TakeUp]) -> list[str]:
    pleat = found[0]
    edge = spoken(pleat.edge)
    if pleat.kind == "knife":
        how = f"bring its two lines together, so that {length(2 * pleat.deep)} of the edge lies under it, {{way}}"
    else:
        side = "wrong" if pleat.kind == "box" else "right"
        how = (
            f"bring its two outer lines together on the {side} side, and lay the cloth flat to both sides of them, "
            f"{length(pleat.deep)} each way"
        )
    return [
        f"{'Each pleat' if len(found) > 1 else 'The pleat'} in the {edge}: {how.format(way=_pressed(pleat))}; pin.",
        f"Sew a basting row across the pleats inside the allowance of the {edge}; it stays in until that edge is sewn.",
    ]


def _pressed(one: TakeUp) -> str:
    return one.pressed if one.pressed.startswith("toward") else f"to lie {_WAY_WORDS[one.pressed]}"


_WAY_WORDS = {
    "up": "upward",
    "down": "downward",
    "left": "to the left of the pattern",
    "right": "to the right of the pattern",
}
_LINES = {"dart": _dart, "tuck": _tuck}
