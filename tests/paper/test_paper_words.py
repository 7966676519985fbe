"""The words on paper: one language or two, one unit throughout."""

from __future__ import annotations

import re
import string

from garmentc.output.texts.catalogue import LANGUAGES, TEXTS
from tests.paper.printing import printed
from tests.paper.reading import opened, text


def said(languages: str, *, inches: bool, garment: str = "tern") -> str:
    pages = opened(printed(garment, "88", "a0", languages, inches=inches).data)
    return " ".join(text(page) for page in pages)  # type: ignore[attr-defined]


def test_labels_speak_the_language_and_the_unit_that_were_asked_for() -> None:
    words = said("de", inches=True)
    for german in ("offen zuschneiden", "Schnittteil hier wenden", "der eigene Saum", "mit Nahtzugaben"):
        assert german in words
    assert "an den Stoffbruch legen" in said("de", inches=True, garment="plover")
    for english in ("on single cloth", "turn over", "allowances included", "own hem"):
        assert english not in words
    # The test square and the bar in cm are there in every unit.
    assert set(re.findall(r"[\d,./]+ (?:cm|mm)\b", words)) == {"5 cm", "10 cm"}
    assert re.search(r"\d/\d+.Zoll", words)


def test_two_languages_stand_beside_each_other() -> None:
    words = said("en,de", inches=False, garment="plover")
    assert "cut 1 on the fold / 1 × im Stoffbruch zuschneiden" in words.replace("\r\n", " ").replace("\xa0", " ")


def test_all_texts_fill_in_the_same_values_in_all_languages() -> None:
    for key, texts in TEXTS.items():
        assert len(texts) == len(LANGUAGES), key
        fields = [{name for _, name, _, _ in string.Formatter().parse(one) if name} for one in texts]
        assert fields[0] == fields[1], key
