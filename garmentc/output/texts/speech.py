"""Speaks the texts of the catalogue in one language or in several, and says lengths in cm or in inches."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from garmentc.numbers import decimal, length
from garmentc.output.texts.catalogue import LANGUAGES, TEXTS
from garmentc.record import Record

INCH = 25.4
_FINE = 16  # parts of an inch in which lengths are said


class Voice(Record):
    """One language, and whether lengths are in inches."""

    language: str = "en"
    inches: bool = False

    def say(self, key: str, **values: object) -> str:
        """A text of the catalogue with its values filled in; KeyError when there is none."""
        return TEXTS[key][LANGUAGES.index(self.language)].format(**values)

    def length(self, mm: float) -> str:
        """A length for people: mm or cm, or inches to a sixteenth."""
        if not self.inches:
            said = length(mm)
            return said.replace(".", ",") if self.language == "de" else said
        return f"{fraction(mm / INCH, _FINE)} {self.say('unit_inch')}"

    def number(self, value: float, places: int) -> str:
        """A number with at most so many decimals."""
        said = decimal(value, places)
        return said.replace(".", ",") if self.language == "de" else said

    def listed(self, words: Iterable[str]) -> str:
        """Words in a row: "a, b and c"."""
        *first, last = words
        return self.say("and", first=", ".join(first), last=last) if first else last


class Speech(Record):
    """The voices in which every text is said, one after the other."""

    voices: tuple[Voice, ...] = (Voice(),)

    def say(self, key: str, **values: object) -> str:
        """A text of the catalogue in all voices."""
        return self.each(lambda voice: voice.say(key, **values))

    def each(self, words: Callable[[Voice], str]) -> str:
        """What each voice says, with a stroke between them; once where they say the same."""
        return " / ".join(dict.fromkeys(words(voice) for voice in self.voices))

    @property
    def first(self) -> Voice:
        """The voice for what is said only once."""
        return self.voices[0]


ENGLISH = Speech()


def fraction(value: float, parts: int) -> str:
    """A number as a whole and a fraction: "3 5/8"; to the nearest of so many parts of one, a power of 2."""
    count = round(abs(value) * parts)
    whole, over = divmod(count, parts)
    below = parts
    while over and over % 2 == 0:
        over, below = over // 2, below // 2
    said = " ".join(([str(whole)] if whole or not over else []) + ([f"{over}/{below}"] if over else []))
    return f"-{said}" if value < 0 and count else said
