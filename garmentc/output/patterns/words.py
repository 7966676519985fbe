"""What the label of a piece says."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.data.model import Body
from garmentc.design.texts import spoken
from garmentc.draft.model import DraftedPiece, Making
from garmentc.numbers import length
from garmentc.output.patterns.edges import allowance
from garmentc.output.patterns.letters import HARD_SPACE, unbroken
from garmentc.record import Record

TITLE = 5 / 3
"""Height of the title of a piece, as a share of that of the ordinary lines."""

_GRAIN = {
    "straight": "straight grain, as the arrow",
    "cross": "cross grain: lengthwise threads as the arrow",
    "bias": "on the bias: lengthwise threads as the arrow",
}


class Paragraph(Record):
    """Text with its height, as a share of that of the ordinary lines."""

    text: str
    share: float


class Wording(Record):
    """A way to say it all: one block beside the grain arrow, and what then stands elsewhere, if there is room."""

    block: tuple[Paragraph, ...]
    rest: tuple[Paragraph, ...] = ()


class Told(Record):
    """What a label says instead of the size of its body, and a mark by which paper and file are matched later."""

    size: str = ""
    fingerprint: str = ""


PLAINLY = Told()


def wordings(assembly: Assembly, piece: CutPiece, told: Told = PLAINLY) -> tuple[tuple[Wording, ...], ...]:
    """The label: in full, line by line or run together; else in two blocks; else what even a tiny piece needs."""
    design, drafted = assembly.draft.design, piece.drafted
    size, cut = told.size or size_words(assembly.draft.body), cut_words(drafted)
    details = [text for text in (_GRAIN.get(drafted.grain, ""), allowance_words(piece)) if text]
    if drafted.making is not None:
        details.insert(0, _making_words(drafted.making))
    edition = f"{unbroken(f'edition {design.edition}')}, {design.name}"
    if told.fingerprint:
        edition += f", {unbroken(told.fingerprint)}"
    in_lines = (
        Paragraph(design.title, 1.0),
        Paragraph(drafted.title, TITLE),
        Paragraph(size, 1.3),
        *(Paragraph(text, 1.0) for text in (cut, *details)),
        Paragraph(edition, 1.0),
    )
    short = Paragraph(", ".join(map(unbroken, (drafted.title, size, cut))), 1.2)
    rest = Paragraph("; ".join((*details, design.title, edition)), 1.0)
    return (
        (Wording(in_lines), Wording((short, rest))),
        (Wording((short,), (rest,)),),
        (Wording((short._replace(share=1.0),)),),
    )


def size_words(body: Body) -> str:
    """A size of a chart as "size 88", a person by name."""
    return body.shown


def cut_words(piece: DraftedPiece) -> str:
    """How often a piece is cut."""
    if piece.on_fold:
        return f"cut {piece.number} on the fold"
    if piece.pair:
        return "cut a pair" if piece.number == 1 else f"cut {piece.number} pairs"
    return f"cut {piece.number}"


def allowance_words(piece: CutPiece) -> str:
    """The allowances of all edges that are not folds, those of one width together."""
    if piece.drafted.making is not None:
        return "allowances included"
    groups: dict[float, list[str]] = {}
    for edge in piece.drafted.edges:
        if not edge.on_fold:
            groups.setdefault(allowance(piece, edge.name), []).append(spoken(edge.name))
    none = groups.pop(0.0, [])
    if not groups:
        return "no allowances: cut on the line"
    if len(groups) == 1 and not none:
        return f"allowances included: {unbroken(length(next(iter(groups))))} all round"
    parts = [f"{_listed(names)}{HARD_SPACE}{unbroken(length(wide))}" for wide, names in groups.items()]
    if none:
        parts.append(f"{_listed(none)}{HARD_SPACE}none")
    return "allowances included: " + "; ".join(parts)


def _listed(names: Sequence[str]) -> str:
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _making_words(making: Making) -> str:
    cut = f"{unbroken(length(making.length))} long, {unbroken(length(making.cut_width))} wide"
    done = unbroken(length(making.finished_width))
    if making.way == "tube":
        return f"{cut}; a tube stitched {unbroken(length(making.stitched))} from the edge, {done} wide"
    if making.way == "quartered":
        return f"{cut}; folded in four, {done} wide"
    return cut
