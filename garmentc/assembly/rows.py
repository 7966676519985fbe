"""Buttons and buttonholes: whether a row of the one fits a row of the other, how many there are, and their steps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from garmentc.assembly.takeups import FlatWork
from garmentc.design.texts import spoken
from garmentc.diagnostics.finding import Label
from garmentc.draft.evaluate import Evaluator
from garmentc.draft.model import DraftedPiece, PlacedRow
from garmentc.numbers import length

_MAY_DIFFER = 1.0  # mm from one place to the next; common practice, no source
_ON = 0.05  # mm; a place nearer to the fold lies on it


def check_rows(pieces: Iterable[DraftedPiece], values: Evaluator) -> None:
    """Report buttons and buttonholes of one name that differ in number or in their distances."""
    rows = [row for piece in pieces for row in piece.rows]
    for holes in (row for row in rows if row.kind == "buttonholes"):
        for buttons in (row for row in rows if row.kind == "buttons" and row.name == holes.name):
            fewer = len(holes.places) != len(buttons.places)
            if not fewer and abs(holes.apart - buttons.apart) <= _MAY_DIFFER:
                continue
            shown = [
                f"{len(row.places)} {row.kind}" if fewer else f"{row.kind} {length(row.apart)} apart"
                for row in (buttons, holes)
            ]
            values.fault(
                "rows-differ",
                f"the buttonholes `{holes.name}` do not fit their buttons",
                holes.span,
                others=(Label(buttons.span, "the buttons"),),
                notes=(f"{shown[0]}, {shown[1]}",),
                help="give both rows the same number and the same length",
            )


def made_of(piece: DraftedPiece, row: PlacedRow) -> int:
    """How many buttons or buttonholes a row makes, all copies of its piece together.

    A pair closes over itself: buttons come on the one piece, buttonholes on the other.
    """
    folds = [edge.path for edge in piece.edges if edge.on_fold]
    aside = sum(all(fold.nearest(at)[1] > _ON for fold in folds) for at in row.places) if folds else 0
    return piece.number * (len(row.places) + aside)


def row_work(pieces: Iterable[DraftedPiece]) -> Iterator[FlatWork]:
    """A step for each row, buttonholes first."""
    found = [(piece, row) for piece in pieces for row in piece.rows]
    for piece, row in sorted(found, key=lambda one: one[1].kind == "buttons"):
        what = f"{row.kind}, {spoken(row.name)}" if spoken(row.name) != row.kind else row.kind
        lines = _buttons(piece, row) if row.kind == "buttons" else _buttonholes(piece, row)
        name = f"{piece.name}.{row.kind}.{row.name}"
        yield FlatWork(name, f"{piece.title}: {what}", tuple(lines), 1, 0.0, row.span, True, kind="row")


def _buttonholes(piece: DraftedPiece, row: PlacedRow) -> Iterator[str]:
    yield from _on_a_pair(piece, "upper")
    yield (
        f"Work one buttonhole, {length(row.size)} long, on a scrap with as many layers as here, and try the button in "
        "it: it has to pass, and no more."
    )
    apart = f", {length(row.apart)} from one to the next" if row.apart else ""
    yield f"Mark {made_of(piece, row)} buttonholes from the pattern{apart}, and work them."
    yield (
        "Cut each open from both ends toward its middle, with a pin across each end: the blade must not run into the "
        "stitches or toward your hand."
    )


def _buttons(piece: DraftedPiece, row: PlacedRow) -> Iterator[str]:
    yield from _on_a_pair(piece, "lower")
    yield (
        "Lay the closing as it is worn and mark through the buttonholes where there are any; else take the places "
        "from the pattern."
    )
    yield (
        f"Sew on {made_of(piece, row)} buttons, {length(row.size)} wide, through all layers, with a shank of thread as "
        "long as the buttonhole side is thick. For a small child pull hard at each: a loose button can be swallowed."
    )


def _on_a_pair(piece: DraftedPiece, which: str) -> Iterator[str]:
    if piece.pair:
        yield f"On that of the two that lies {'on top' if which == 'upper' else 'below'} when the garment is closed."
