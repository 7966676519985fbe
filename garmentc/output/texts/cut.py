"""What is cut how often, and for whom, in words."""

from __future__ import annotations

from collections.abc import Sequence

from garmentc.draft.model import DraftedPiece
from garmentc.output.texts.speech import Speech, Voice


def cut_text(piece: DraftedPiece, voice: Voice) -> str:
    """How often a piece or strip is cut."""
    if piece.on_fold:
        return voice.say("cut_unfolded" if piece.is_unfolded else "cut_fold", number=piece.number)
    if piece.pair:
        return voice.say("cut_pair") if piece.number == 1 else voice.say("cut_pairs", number=piece.number)
    return voice.say("cut", number=piece.number)


def strip_text(strip: DraftedPiece, voice: Voice) -> str:
    """How one strip is cut."""
    making = strip.making
    if making is None:
        raise ValueError(f"{strip.name} is no strip")
    long, wide = voice.length(making.length), voice.length(making.cut_width)
    return voice.say("strip_one", title=strip.title, cut=cut_text(strip, voice), length=long, width=wide)


def size_text(names: Sequence[str], are_sizes: bool, speech: Speech) -> str:
    """Which sizes, or for whom."""
    if len(names) == 1:
        return speech.say("size", size=names[0]) if are_sizes else speech.say("person", name=names[0])
    if len(names) > 3:
        return speech.say("sizes_range", first=names[0], last=names[-1])
    return speech.each(lambda voice: voice.say("sizes", sizes=voice.listed(names)))
