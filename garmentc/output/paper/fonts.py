"""Fonts for paper: which characters they hold, and how words become glyphs.

The shipped font holds the Latin, Greek, Cyrillic, Armenian, Georgian, Arabic and Hebrew letters; other scripts need a
font of their own.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from garmentc.host import Host
from garmentc.record import Record
from garmentc.shipped import library_file

SHIPPED = "fonts/DejaVuSans.ttf"
SHIPPED_LICENCE = "fonts/LICENSE"

_FULL_NAME = 4  # of the table of names
_LICENCE_NAMES = (0, 13, 14)  # of the table of names: copyright, licence, and where to read it
_RESTRICTED = 0x2  # of the embedding rights in the table OS/2
_RIGHTS = 8  # where they stand in it (bytes)


class FontFault(Exception):
    """A font that can't be used; the text says why."""


class Glyph(NamedTuple):
    """A glyph by its number in its font; advance and offsets in thousandths of the font size."""

    number: int
    advance: float
    right: float
    up: float


class Run(Record):
    """Neighbouring glyphs of one font, from left to right, and the text they show."""

    font: int
    glyphs: tuple[Glyph, ...]
    text: str

    @property
    def width(self) -> float:
        """In thousandths of the font size."""
        return sum([glyph.advance for glyph in self.glyphs])


class Fonts:
    """Fonts in the order in which a character is looked for; notes which glyphs of each are used."""

    def __init__(self, host: Host, given: Sequence[str] = ()) -> None:
        """Reads the given files and the shipped font; raises ``OSError`` or ``FontFault``."""
        files = [*given, library_file(SHIPPED)]
        self._faces = [_face(host.read(path), path) for path in files]
        self._shipped_licence = host.read(library_file(SHIPPED_LICENCE)).decode()
        self._used: list[dict[int, str]] = [{} for _ in files]
        self._runs: dict[str, tuple[Run, ...]] = {}
        self._holding: dict[str, int | None] = {}

    def missing(self, text: str) -> list[str]:
        """The characters of a text that no font holds."""
        return sorted({char for char in text if self._font_of(char) is None})

    def runs(self, text: str) -> tuple[Run, ...]:
        """The text as glyphs; a character that no font holds becomes the shipped font's empty box."""
        if text not in self._runs:
            found = tuple(self._shaped(font, part) for font, part in self._parts(text))
            for run in found:
                self._note(run)
            self._runs[text] = found
        return self._runs[text]

    def embedded(self) -> Iterator[tuple[int, bytes, dict[int, str], dict[int, float], str]]:
        """For each font in use: its number, the part of it that is needed, its glyphs as text and their widths, and
        what its makers say of copyright."""
        import uharfbuzz as hb

        for number, used in enumerate(self._used):
            if not used:
                continue
            face, font = self._faces[number]
            wanted = hb.SubsetInput()
            wanted.glyph_set.update(used)
            wanted.flags = hb.SubsetFlags.RETAIN_GIDS | hb.SubsetFlags.NO_HINTING
            wanted.name_id_set.clear()
            wanted.name_id_set.update(_LICENCE_NAMES)
            for table in ("GSUB", "GPOS", "GDEF", "kern"):
                wanted.drop_table_tag_set.add(_tag(table))
            data = hb.subset(face, wanted).blob.data
            widths = {glyph: font.get_glyph_h_advance(glyph) * 1000.0 / face.upem for glyph in sorted(used)}
            yield number, bytes(data), used, widths, face.get_name(hb.OTNameIdPredefined.COPYRIGHT) or ""

    def licences(self) -> list[str]:
        """What the makers of the given fonts say of copyright and licence, and the licence of the shipped font."""
        said = [
            "\n".join(filter(None, (face.get_name(number) for number in (_FULL_NAME, *_LICENCE_NAMES)))) + "\n"
            for face, _ in self._faces[:-1]
        ]
        return [*said, self._shipped_licence]

    def outlines_are_cubic(self, number: int) -> bool:
        """Whether the outlines of a font are in the form of PostScript."""
        return bool(len(self._faces[number][0].reference_table("CFF ")))

    def name(self, number: int) -> str:
        """What a font is called among programs."""
        import uharfbuzz as hb

        said = self._faces[number][0].get_name(hb.OTNameIdPredefined.POSTSCRIPT_NAME) or f"font{number}"
        return "".join(char for char in said if char.isascii() and (char.isalnum() or char == "-"))

    def _note(self, run: Run) -> None:
        used = self._used[run.font]
        plain = len(run.glyphs) == len(run.text)
        for i, glyph in enumerate(run.glyphs):
            used.setdefault(glyph.number, run.text[i] if plain else (run.text if i == 0 else ""))

    def _font_of(self, char: str) -> int | None:
        if char not in self._holding:
            shown = char if char.isprintable() else " "  # the hard space, and what drawings leave out
            fonts = enumerate(font for _, font in self._faces)
            holding = (number for number, font in fonts if font.get_nominal_glyph(ord(shown)) is not None)
            self._holding[char] = next(holding, None)
        return self._holding[char]

    def _parts(self, text: str) -> Iterator[tuple[int, str]]:
        """The text where its font or its direction changes."""
        last, start, way = -1, 0, False
        for i, char in enumerate(text):
            found = self._font_of(char)
            font = len(self._faces) - 1 if found is None else found
            sense = unicodedata.bidirectional(char)
            leftward = sense in ("R", "AL") or (way and sense in ("NSM", "CS", "ON"))
            if unicodedata.combining(char) and last >= 0:
                continue
            if (font, leftward) != (last, way):
                if i > start:
                    yield last, text[start:i]
                last, start, way = font, i, leftward
        if text:
            yield last, text[start:]

    def _shaped(self, number: int, text: str) -> Run:
        import uharfbuzz as hb

        face, font = self._faces[number]
        buffer = hb.Buffer()
        buffer.add_str(text)
        buffer.guess_segment_properties()
        hb.shape(font, buffer, {"liga": False})
        scale = 1000.0 / face.upem
        placed = zip(buffer.glyph_infos, buffer.glyph_positions, strict=True)
        glyphs = [
            Glyph(info.codepoint, at.x_advance * scale, at.x_offset * scale, at.y_offset * scale) for info, at in placed
        ]
        shown = text[::-1] if str(buffer.direction) == "rtl" else text
        return Run(number, tuple(glyphs), shown)


def _face(data: bytes, path: str) -> tuple[Any, Any]:
    # Imported here because only paper needs it.
    import uharfbuzz as hb

    face = hb.Face(data)
    if not face.glyph_count or not len(face.reference_table("cmap")):
        raise FontFault(f"'{path}' is no TrueType or OpenType font")
    rights = face.reference_table("OS/2").data
    if len(rights) >= _RIGHTS + 2 and int.from_bytes(rights[_RIGHTS : _RIGHTS + 2], "big") & 0xF == _RESTRICTED:
        raise FontFault(f"'{path}' says that its maker does not allow it in documents")
    return face, hb.Font(face)


def _tag(name: str) -> int:
    return int.from_bytes(name.encode(), "big")
