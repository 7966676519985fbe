"""Numbers and names of a garment as words of the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from garmentc.assembly.model import Assembly
from garmentc.design import kinds as k
from garmentc.design.kinds import Kind
from garmentc.design.model import EdgeName
from garmentc.design.texts import one_of, spoken
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.draft.shown import shown_as
from garmentc.numbers import decimal

NONE = "none"
_SMALL = 20.0  # mm; below this a seam gauge measures, above it a tape


def centimetres(mm: float) -> str:
    """A length in cm, to a millimetre."""
    return f"{decimal(mm / 10.0, 1)} cm"


def tape(mm: float) -> str:
    """A length as it is measured at the table: half millimetres below 2 cm, whole millimetres above."""
    near = round(mm * 2) / 2
    return f"{decimal(near, 1)} mm" if abs(near) < _SMALL else centimetres(mm)


def tape_up(mm: float) -> str:
    """The length of a strip to cut: up to the next 5 mm, because a strip may be a little long and never short."""
    return centimetres(5.0 * math.ceil(mm / 5.0 - 1e-6))


def square(square_mm: float) -> str:
    """An area of cloth, up to the next cm²."""
    return f"{math.ceil(square_mm / 100.0 - 1e-6)} cm²"


def measured(value: float, kind: Kind) -> str:
    """A finished measurement (mm, mm², radians or plain), no finer than it can be measured."""
    return tape(value) if kind == k.LENGTH else shown_as(value, kind)


def metres_up(mm: float) -> str:
    """A length of thread to have: whole metres, rounded up."""
    return f"{math.ceil(mm / 1000.0 - 1e-9)} m"


def listed(words: Sequence[str]) -> str:
    """Words in a row: "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def times(count: int) -> str:
    """How often something is done."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def capital(text: str) -> str:
    """Text with a capital at its start."""
    return text[:1].upper() + text[1:]


def sentence(text: str) -> str:
    """Text with a capital at its start and a full stop at its end."""
    text = text.strip()
    if not text:
        return ""
    return capital(text) + ("" if text.endswith((".", "!", "?")) else ".")


def takeup_words(assembly: Assembly) -> str:
    """What has to be done to the darts, tucks and pleats of a garment before lengths are right; nothing without any."""
    kinds = {one.kind for piece in assembly.pieces for one in piece.drafted.takeups}
    found = ["darts sewn"] * ("dart" in kinds) + ["tucks sewn"] * ("tuck" in kinds)
    return listed([*found, *["pleats folded"] * bool(kinds - {"dart", "tuck"})])


def by_piece(draft: Draft, names: Iterable[EdgeName]) -> str:
    """Edges piece by piece: "Front: armhole, side; Back: side"."""
    found: dict[str, list[str]] = {}
    for name in names:
        title = one_of(draft.piece(name.piece).title, name.hand, name.copy).removeprefix("the ")
        found.setdefault(capital(title), []).append(spoken(name.edge))
    return "; ".join(f"{title}: {', '.join(edges)}" for title, edges in found.items())


def edges_aloud(draft: Draft, names: Iterable[EdgeName]) -> str:
    """Edges as one says them: "hem of the Front and of the Back", "wrap of the Front and neckline of the Back"."""
    found: dict[str, list[str]] = {}
    for name in names:
        piece = one_of(draft.piece(name.piece).title, name.hand, name.copy)
        found.setdefault(spoken(name.edge), []).append(f"of {piece}")
    return listed([f"{edge} {listed(pieces)}" for edge, pieces in found.items()])


def edge_length(draft: Draft, name: EdgeName) -> str:
    """An edge with its length to measure: "Front: hem 54 cm", "Back: side 27 cm on each side"."""
    piece = draft.piece(name.piece)
    edge = piece.edge(name.edge)
    assert edge is not None
    long, copies = edge.sewn_length, piece.copies
    if name.of_one:
        copies = 1 if name.hand or not (piece.pair or piece.on_fold) else 2
    elif piece.meets_fold(name.edge):
        long, copies = 2 * long, copies // 2
    return f"{by_piece(draft, (name,))} {tape(long)}{how_often(piece, copies)}"


def how_often(piece: DraftedPiece, copies: int) -> str:
    """How often what is on a piece is there, after a comma or as "on each side"; nothing for once."""
    if copies == 1:
        return ""
    return " on each side" if copies == 2 and (piece.on_fold or piece.pair) else f", {times(copies)}"
