"""Numbers and names of a garment as words of the sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence

from garmentc.assembly.joins import edge_title
from garmentc.design.kinds import ANGLE, AREA, COUNT, LENGTH, RATIO, Kind
from garmentc.design.model import EdgeName
from garmentc.draft.model import Draft, DraftedPiece
from garmentc.numbers import area, decimal, degrees, length, percent

NONE = "none"


def centimetres(mm: float) -> str:
    """A length in cm, to a millimetre."""
    return f"{decimal(mm / 10.0, 1)} cm"


def metres_up(mm: float) -> str:
    """A length to buy: metres, rounded up to the next tenth."""
    return f"{decimal(math.ceil(mm / 100.0 - 1e-9) / 10.0, 1)} m"


def quantity(value: float, kind: Kind) -> str:
    """A value as its kind is written."""
    if kind == LENGTH:
        return length(value)
    if kind == AREA:
        return area(value)
    if kind == ANGLE:
        return degrees(value)
    if kind == RATIO:
        return percent(value)
    return decimal(value, 0 if kind == COUNT else 3)


def spoken(name: str) -> str:
    """A name of the spec as words: ``side_length`` becomes "side length"."""
    return name.replace(".", " ").replace("_", " ")


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


def meets_fold(piece: DraftedPiece, edge: str) -> bool:
    """Whether an edge ends on the fold, so that it runs on into its mirror image once unfolded."""
    names = [one.name for one in piece.edges]
    at = names.index(edge)
    return piece.edges[at - 1].on_fold or piece.edges[(at + 1) % len(names)].on_fold


def edge_length(draft: Draft, name: EdgeName) -> str:
    """An edge with its length to measure: "hem of the Front: 54 cm", "side of the Back: 27 cm, twice"."""
    piece = draft.piece(name.piece)
    edge = piece.edge(name.edge)
    assert edge is not None
    long, copies = edge.path.length, piece.copies
    if meets_fold(piece, name.edge):
        long, copies = 2 * long, copies // 2
    often = f", {times(copies)}" if copies > 1 else ""
    return f"{edge_title(name.edge)} of the {piece.title}: {length(long)}{often}"
