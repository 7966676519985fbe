"""Cloths against sizes as a picture: boxes told apart by their lines and their words, not by colour."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from garmentc.cloth.fit import FITS, JOINED, NOT, Fit
from garmentc.geometry.vector import Point
from garmentc.output.fits.model import FitTable
from garmentc.output.fits.tables import shown
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.scene import Stroke, Words, polyline
from garmentc.output.patterns.svg import Page, Pen, write_page

_CELL, _ROW = 17.0, 9.0  # mm
_TEXT = 3.2  # mm, height of capitals
_MARGIN = 8.0
_LEGEND = (
    (FITS, "heavy box: it fits; the share of the cloth that is used"),
    (JOINED, "dashed box: it fits with joins in strips"),
    (NOT, "crossed: it can't be, which is proved"),
    ("", "question mark: no way was found in the time; empty: not looked at"),
)


def fits_picture(tables: Sequence[FitTable]) -> bytes:
    """All tables below each other, as one SVG file."""
    strokes: list[Stroke] = []
    words: list[Words] = []
    low = wide = 0.0
    for table in tables:
        part = f", its {table.part}" if table.is_named else ""
        words.append(Words("heading", f"{table.title}{part}", complex(0, low - 5.0), 1 + 0j, 4.5))
        names = [_name(table, key) for key in table.cloths]
        left = max(text_width(name, _TEXT) for name in names) + 4.0
        top = low - 16.0
        for i, size in enumerate((*table.sizes, "largest")):
            words.append(Words("size", size, complex(left + (i + 0.5) * _CELL, top), 1 + 0j, _TEXT, True))
        for row, (key, name) in enumerate(zip(table.cloths, names, strict=True)):
            y = top - 4.0 - (row + 1) * _ROW
            words.append(Words("cloth", name, complex(0, y + 3.0), 1 + 0j, _TEXT))
            for i, size in enumerate(table.sizes):
                cell = table.cells.get((key, size))
                corner = complex(left + i * _CELL, y)
                strokes += _box(cell, corner)
                if cell is not None and cell.verdict != NOT:
                    at = corner + complex(_CELL / 2, _ROW / 2 - _TEXT / 2)
                    words.append(Words("cell", shown(cell), at, 1 + 0j, _TEXT, True))
            at = complex(left + (len(table.sizes) + 0.5) * _CELL, y + 3.0)
            words.append(Words("largest", table.largest(key) or "none", at, 1 + 0j, _TEXT, True))
        low = top - 4.0 - len(names) * _ROW - 10.0
        wide = max(wide, left + (len(table.sizes) + 1) * _CELL)
    for verdict, text in _LEGEND:
        strokes += _box(Fit("", "", "", verdict) if verdict else None, complex(0, low - 6.0))
        words.append(Words("legend", text, complex(_CELL + 3.0, low - 3.6), 1 + 0j, _TEXT))
        wide = max(wide, _CELL + 6.0 + text_width(text, _TEXT))
        low -= _ROW
    group = Pen(complex(-_MARGIN, _MARGIN)).group("fits", strokes, words)
    about = "Cloths in rows, sizes in columns."
    return write_page(Page(wide + 2 * _MARGIN, -low + 2 * _MARGIN, f"{tables[0].title}: cloths", about, [group]))


def _name(table: FitTable, key: str) -> str:
    return f"{key}: {table.cloths[key].partition(',')[0]}"


def _box(cell: Fit | None, corner: Point) -> Iterator[Stroke]:
    a, c = corner + complex(1, 1), corner + complex(_CELL - 1, _ROW - 1)
    b, d = complex(c.real, a.imag), complex(a.real, c.imag)
    verdict = "" if cell is None else cell.verdict
    if verdict == NOT:
        yield Stroke("cell", "narrow", (*polyline(a, c), *polyline(d, b)))
    elif verdict in (FITS, JOINED):
        yield Stroke("cell", "wide" if verdict == FITS else "dashed", polyline(a, b, c, d, a))
