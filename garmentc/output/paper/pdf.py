"""Writes drawings as PDF, true to scale: millimetres inside, and nothing that changes from run to run."""

from __future__ import annotations

import io
import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from garmentc.geometry.segments import Arc, Box, Cubic, Segment
from garmentc.geometry.vector import Point, heading, left
from garmentc.numbers import decimal
from garmentc.output.paper.fonts import Fonts, Run
from garmentc.output.patterns.letters import CAPITALS, plain, text_width
from garmentc.output.patterns.scene import LOOKS, Look, Stroke, Words
from garmentc.record import Record

if TYPE_CHECKING:
    import pydyf

POINT = 25.4 / 72
"""The unit of PDF in mm."""

_SCALE = decimal(72 / 25.4, 10)
_MOST_TURN = 0.8  # radians of an arc that one cubic draws to 5 micrometres at a radius of 1 m


class Link(Record):
    """A bookmark: what it is called and the number of the page it opens."""

    title: str
    page: int


class Document:
    """A PDF being made; its pages share all fonts, layers and drawings."""

    def __init__(self, fonts: Fonts, title: str, about: str, language: str) -> None:
        # Imported here because only paper needs it.
        import pydyf

        self._kit = pydyf
        self._fonts = fonts
        self._pdf = pydyf.PDF()
        self._layers: dict[str, pydyf.Dictionary] = {}
        self._drawings = pydyf.Dictionary({})
        self._font_names: set[int] = set()
        self._resources = pydyf.Dictionary({})
        self._pdf.add_object(self._resources)
        self._pages: list[pydyf.Dictionary] = []
        self._links: list[Link] = []
        self._pdf.info.update({"Title": pydyf.String(title), "Subject": pydyf.String(about)})
        self._language = language

    @property
    def pages(self) -> int:
        """How many pages there are so far."""
        return len(self._pages)

    def drawing(self, box: Box, ops: Sequence[str]) -> str:
        """Keep a drawing (mm) to be shown on several pages; gives the operation that shows it."""
        name = f"D{len(self._drawings)}"
        area = self._kit.Array([decimal(value) for value in box])
        extra = {"Type": "/XObject", "Subtype": "/Form", "BBox": area, "Resources": self._resources.reference}
        stream = self._kit.Stream(ops, extra, compress=True)
        self._pdf.add_object(stream)
        self._drawings[name] = stream.reference
        return f"/{name} Do"

    def page(self, width: float, height: float, ops: Sequence[str], bookmarks: Sequence[str] = ()) -> None:
        """Add a page of a size (mm), drawn on in mm from its lower left corner."""
        kit = self._kit
        content = kit.Stream([f"{_SCALE} 0 0 {_SCALE} 0 0 cm", *ops], compress=True)
        self._pdf.add_object(content)
        box = kit.Array(["0", "0", decimal(width / POINT, 4), decimal(height / POINT, 4)])
        page = kit.Dictionary(
            {
                "Type": "/Page",
                "Parent": self._pdf.pages.reference,
                "MediaBox": box,
                "Contents": content.reference,
                "Resources": self._resources.reference,
            }
        )
        self._pdf.add_page(page)
        self._pages.append(page)
        self._links += (Link(one, len(self._pages) - 1) for one in bookmarks if one)

    def on_layer(self, layer: str, ops: Sequence[str]) -> list[str]:
        """Operations on a layer that readers can switch (ISO 32000, optional content); without a name, on none."""
        if not layer or not ops:
            return list(ops)
        if layer not in self._layers:
            group = self._kit.Dictionary({"Type": "/OCG", "Name": self._kit.String(layer)})
            self._pdf.add_object(group)
            self._layers[layer] = group
        name = f"L{list(self._layers).index(layer)}"
        return [f"/OC /{name} BDC", *ops, "EMC"]

    def words(self, words: Iterable[Words]) -> list[str]:
        """Operations that write words."""
        ops: list[str] = []
        for one in words:
            ops += self._line(one)
        return ops

    def _line(self, words: Words) -> list[str]:
        text = plain(words.text)
        runs = self._fonts.runs(text)
        size = words.height / CAPITALS
        wide, room = sum(run.width for run in runs) * size / 1000.0, text_width(text, words.height)
        if wide > room > 0.0:
            size *= room / wide
            wide = room
        at = words.at - words.along * wide / 2 if words.centred else words.at
        return ["BT", *self._runs(runs, size, at, words.along), "ET"]

    def text(self, text: str, size: float, at: Point, line: float = 0.0) -> list[str]:
        """Operations that write a text from a point to the right, ``size`` being that of the font (mm).

        With a ``line`` of some width round its letters they come out bold.
        """
        shown = self._runs(self._fonts.runs(plain(text)), size, at, 1 + 0j)
        if not line:
            return ["BT", *shown, "ET"]
        return ["BT", f"2 Tr {decimal(line, 3)} w [] 0 d 1 j", *shown, "0 Tr", "ET"]

    def _runs(self, runs: Iterable[Run], size: float, at: Point, along: complex) -> Iterator[str]:
        for run in runs:
            yield from self._run(run, size, at, along)
            at += along * run.width * size / 1000.0

    def _run(self, run: Run, size: float, at: Point, along: complex) -> list[str]:
        self._font_names.add(run.font)
        turn = f"{decimal(along.real, 5)} {decimal(along.imag, 5)} {decimal(-along.imag, 5)} {decimal(along.real, 5)}"
        ops = [f"/F{run.font} {decimal(size, 4)} Tf"]
        if not any(glyph.right or glyph.up for glyph in run.glyphs):
            shown = "".join(f"{glyph.number:04x}" for glyph in run.glyphs)
            return [*ops, f"{turn} {_pair(at)} Tm <{shown}> Tj"]
        for glyph in run.glyphs:
            here = at + size / 1000.0 * (along * glyph.right + left(along) * glyph.up)
            ops.append(f"{turn} {_pair(here)} Tm <{glyph.number:04x}> Tj")
            at += along * glyph.advance * size / 1000.0
        return ops

    def finish(self) -> bytes:
        """The whole file."""
        self._embed_fonts()
        self._resources["XObject"] = self._drawings
        self._add_layers()
        self._add_bookmarks()
        catalog = self._pdf.catalog
        catalog["ViewerPreferences"] = self._kit.Dictionary(
            {"PrintScaling": "/None", "DisplayDocTitle": "true", "PickTrayByPDFSize": "true"}
        )
        catalog["Lang"] = self._kit.String(self._language)
        data = io.BytesIO()
        self._pdf.write(data, version=b"1.7", identifier=True, compress=True)  # the identifier is drawn from the rest
        return data.getvalue()

    def _embed_fonts(self) -> None:
        kit, named = self._kit, self._kit.Dictionary({})
        for number, data, texts, widths, said in self._fonts.embedded():
            cubic = self._fonts.outlines_are_cubic(number)
            extra = {"Subtype": "/OpenType"} if cubic else {"Length1": len(data)}
            file = self._add(kit.Stream([data], extra, compress=True))
            name = f"/AAAAA{chr(ord('A') + number)}+{self._fonts.name(number)}"
            about = {
                "Type": "/FontDescriptor",
                "FontName": name,
                "Flags": 4,
                "FontBBox": kit.Array([-1000, -500, 2000, 1500]),
                "ItalicAngle": 0,
                "Ascent": 930,
                "Descent": -240,
                "CapHeight": 720,
                "StemV": 80,
                "FontFile3" if cubic else "FontFile2": file.reference,
            }
            described = self._add(kit.Dictionary(about))
            wide = [item for glyph, width in widths.items() for item in (glyph, f"[{decimal(width)}]")]
            glyphs = {
                "Type": "/Font",
                "Subtype": "/CIDFontType0" if cubic else "/CIDFontType2",
                "BaseFont": name,
                "CIDSystemInfo": "<</Registry (Adobe) /Ordering (Identity) /Supplement 0>>",
                "FontDescriptor": described.reference,
                "W": kit.Array(wide),
                "DW": 600,
                **({} if cubic else {"CIDToGIDMap": "/Identity"}),
            }
            below = self._add(kit.Dictionary(glyphs))
            read = self._add(kit.Stream([_to_unicode(texts)], compress=True))
            font = {
                "Type": "/Font",
                "Subtype": "/Type0",
                "BaseFont": name,
                "Encoding": "/Identity-H",
                "DescendantFonts": kit.Array([below.reference]),
                "ToUnicode": read.reference,
            }
            named[f"F{number}"] = self._add(kit.Dictionary(font)).reference
            self._pdf.info["Keywords"] = kit.String(f"fonts: {said}")
        self._resources["Font"] = named

    def _add_layers(self) -> None:
        if not self._layers:
            return
        kit = self._kit
        groups = list(self._layers.values())
        self._resources["Properties"] = kit.Dictionary({f"L{i}": group.reference for i, group in enumerate(groups)})
        listed = kit.Array([group.reference for group in groups])
        shown = kit.Dictionary({"BaseState": "/ON", "Order": listed, "ListMode": "/AllPages"})
        self._pdf.catalog["OCProperties"] = kit.Dictionary({"OCGs": listed, "D": shown})

    def _add_bookmarks(self) -> None:
        if not self._links:
            return
        kit = self._kit
        root = self._add(kit.Dictionary({"Type": "/Outlines", "Count": len(self._links)}))
        items = [
            self._add(
                kit.Dictionary(
                    {
                        "Title": kit.String(link.title),
                        "Parent": root.reference,
                        "Dest": kit.Array([self._pages[link.page].reference, "/Fit"]),
                    }
                )
            )
            for link in self._links
        ]
        for before, after in pairwise(items):
            before["Next"], after["Prev"] = after.reference, before.reference
        root["First"], root["Last"] = items[0].reference, items[-1].reference
        self._pdf.catalog["Outlines"] = root.reference

    def _add(self, one: pydyf.Object) -> pydyf.Object:
        self._pdf.add_object(one)
        return one


def strokes(lines: Iterable[Stroke], look: Look | None = None) -> list[str]:
    """Operations that draw lines; a look replaces that of lines of every kind but solid ones."""
    ops: list[str] = []
    before: Look | None = None
    for line in lines:
        if line.kind == "solid":
            ops.append(f"{path(line.segments)} f")
            continue
        wanted = look or LOOKS[line.kind]
        if wanted != before:
            dashes = " ".join(map(decimal, wanted.dashes))
            ops.append(f"{decimal(wanted.width)} w [{dashes}] 0 d {0 if wanted.dashes else 1} J 1 j")
            before = wanted
        ops.append(f"{path(line.segments)} S")
    return ops


def path(segments: Sequence[Segment]) -> str:
    """The segments as operations of a path; arcs become cubics."""
    parts: list[str] = []
    last: Point | None = None
    for segment in segments:
        if last is None or abs(segment.start - last) > 1e-6:
            parts.append(f"{_pair(segment.start)} m")
        last = segment.end
        if isinstance(segment, Cubic):
            parts.append(f"{_pair(segment.c1)} {_pair(segment.c2)} {_pair(last)} c")
        elif isinstance(segment, Arc):
            parts += [f"{_pair(c1)} {_pair(c2)} {_pair(end)} c" for c1, c2, end in _cubics(segment)]
        else:
            parts.append(f"{_pair(last)} l")
    return " ".join(parts)


def _cubics(arc: Arc) -> Iterable[tuple[Point, Point, Point]]:
    count = max(1, math.ceil(abs(arc.sweep) / _MOST_TURN))
    turn = arc.sweep / count
    reach = 4 / 3 * math.tan(turn / 4)
    for i in range(count):
        first, second = (arc.radius * heading(arc.start_angle + turn * k) for k in (i, i + 1))
        yield arc.centre + first + left(first) * reach, arc.centre + second - left(second) * reach, arc.centre + second


def turned(turn: complex, by: complex) -> str:
    """The operation that turns by a unit complex number and then moves."""
    return f"{decimal(turn.real)} {decimal(turn.imag)} {decimal(-turn.imag)} {decimal(turn.real)} {_pair(by)} cm"


def clipped(box: Box) -> str:
    """The operation that leaves white all outside a box."""
    x0, y0, x1, y1 = box
    return f"{decimal(x0)} {decimal(y0)} {decimal(x1 - x0)} {decimal(y1 - y0)} re W n"


def _pair(p: Point) -> str:
    return f"{decimal(p.real, 4)} {decimal(p.imag, 4)}"


def _to_unicode(texts: dict[int, str]) -> bytes:
    """How readers get from glyphs to text when they search or copy."""
    lines = [f"<{glyph:04x}> <{text.encode('utf-16-be').hex()}>" for glyph, text in sorted(texts.items()) if text]
    blocks = [lines[i : i + 100] for i in range(0, len(lines), 100)]
    body = "\n".join(f"{len(block)} beginbfchar\n" + "\n".join(block) + "\nendbfchar" for block in blocks)
    return (
        "/CIDInit /ProcSet findresource begin 12 dict begin begincmap /CMapName /G def /CMapType 2 def\n"
        f"1 begincodespacerange <0000> <ffff> endcodespacerange\n{body}\n"
        "endcmap CMapName currentdict /CMap defineresource pop end end"
    ).encode()
