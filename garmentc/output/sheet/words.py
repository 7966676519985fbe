"""Numbers and names of a garment as words of the sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence

from garmentc.design.model import EdgeName
from garmentc.design.texts import spoken
from garmentc.draft.model import Draft
from garmentc.numbers import decimal, length

NONE = "none"


def centimetres(mm: float) -> str:
    """A length in cm, to a millimetre."""
    return f"{decimal(mm / 10.0, 1)} cm"


def metres_up(mm: float) -> str:
    """A length to buy: metres, rounded up to the next tenth."""
    return f"{decimal(math.ceil(mm / 100.0 - 1e-9) / 10.0, 1)} m"


def listed(words: Sequence[str]) -> str:
    """Words in a row: "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def times(count: int) -> str:
    """How often something is done."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def sentence(text: str) -> str:
    """Text with a capital at its start and a full stop at its end."""
    text = text.strip()
    if not text:
        return ""
    return text[0].upper() + text[1:] + ("" if text.endswith((".", "!", "?")) else ".")


def edge_length(draft: Draft, name: EdgeName) -> str:
    """An edge with its length to measure: "hem of the Front: 54 cm", "side of the Back: 27 cm, twice"."""
    piece = draft.piece(name.piece)
    edge = piece.edge(name.edge)
    assert edge is not None
    long, copies = edge.path.length, piece.copies
    if piece.meets_fold(name.edge):
        long, copies = 2 * long, copies // 2
    often = f", {times(copies)}" if copies > 1 else ""
    return f"{spoken(name.edge)} of the {piece.title}: {length(long)}{often}"
