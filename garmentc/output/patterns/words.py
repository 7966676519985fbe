"""What the label of a piece says."""

from __future__ import annotations

from garmentc.assembly.model import Assembly, CutPiece
from garmentc.design.texts import spoken
from garmentc.draft.model import GRAIN_TURNS, Making
from garmentc.output.patterns.edges import allowance
from garmentc.output.patterns.letters import HARD_SPACE, unbroken
from garmentc.output.texts.cut import cut_text, size_text
from garmentc.output.texts.speech import ENGLISH, Speech, Voice
from garmentc.record import Record

TITLE = 5 / 3
"""Height of the title of a piece, as a share of that of the ordinary lines."""


class Paragraph(Record):
    """Text with its height, as a share of that of the ordinary lines."""

    text: str
    share: float


class Wording(Record):
    """A way to say it all: one block beside the grain arrow, and what then stands elsewhere, if there is room."""

    block: tuple[Paragraph, ...]
    rest: tuple[Paragraph, ...] = ()


class Told(Record):
    """What a label says instead of the size of its body, a mark by which paper and file are matched later, and how."""

    size: str = ""
    fingerprint: str = ""
    speech: Speech = ENGLISH


PLAINLY = Told()


def wordings(assembly: Assembly, piece: CutPiece, told: Told = PLAINLY) -> tuple[tuple[Wording, ...], ...]:
    """The label: in full, line by line or run together; else in two blocks; else what even a tiny piece needs."""
    design, drafted = assembly.draft.design, piece.drafted
    say, each = told.speech.say, told.speech.each
    body = assembly.draft.body
    size = told.size or size_text([body.name], body.is_size, told.speech)
    cut = each(lambda voice: cut_text(drafted, voice))
    details = [each(lambda voice: allowance_words(piece, voice))]
    if drafted.interfacing is not None:
        key = "interfacing_whole" if drafted.interfacing.with_allowances else "interfacing"
        details.insert(0, say(key, text=drafted.interfacing.text))
    if piece.hand:
        details.insert(0, say(f"drawn_{piece.hand}"))
    if drafted.grain in GRAIN_TURNS:
        details.insert(0, say(f"grain_{drafted.grain}"))
    if design.set_outside:
        given = "; ".join(f"{_name(name)}{HARD_SPACE}{unbroken(text)}" for name, text in design.set_outside.items())
        details.append(say("set_outside", settings=given))
    making = drafted.making
    if making is not None:
        details.insert(0, each(lambda voice: _making_words(making, voice)))
    edition = f"{unbroken(say('edition', edition=design.edition))}, {design.name}"
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


def _name(name: str) -> str:
    """The name of a param, ease or choice on a label: that of an ease as it is set, ``ease.bust_girth``."""
    return name if "." in name else spoken(name)


def allowance_words(piece: CutPiece, voice: Voice) -> str:
    """The allowances of all edges that are not folds, those of one width together."""
    if piece.drafted.making is not None:
        return voice.say("allowances")
    groups: dict[float, list[str]] = {}
    for edge in piece.drafted.edges:
        if not edge.on_fold:
            groups.setdefault(allowance(piece, edge.name), []).append(spoken(edge.name))
    none = groups.pop(0.0, [])
    if not groups:
        return voice.say("allowances_none")
    if len(groups) == 1 and not none:
        return voice.say("allowances_round", width=unbroken(voice.length(next(iter(groups)))))
    parts = [f"{voice.listed(names)}{HARD_SPACE}{unbroken(voice.length(wide))}" for wide, names in groups.items()]
    if none:
        parts.append(f"{voice.listed(none)}{HARD_SPACE}{voice.say('allowance_none')}")
    return voice.say("allowances_each", parts="; ".join(parts))


def _making_words(making: Making, voice: Voice) -> str:
    def shown(mm: float) -> str:
        return unbroken(voice.length(mm))

    way = making.way if making.way in ("tube", "quartered") else "flat"
    return voice.say(
        f"strip_{way}",
        length=shown(making.length),
        width=shown(making.cut_width),
        stitched=shown(making.stitched),
        done=shown(making.finished_width),
    )
