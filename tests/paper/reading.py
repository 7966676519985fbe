"""Reads a PDF back: its paths in mm, its texts, its pixels. Nothing here knows how the PDF was written."""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from ctypes import byref, c_float
from typing import Any, NamedTuple

import pypdfium2 as pdfium
import pypdfium2.raw as raw

POINT = 25.4 / 72

Matrix = tuple[float, float, float, float, float, float]


class PathRead(NamedTuple):
    """The points of a path on its page (mm from the lower left corner); ``depth`` counts the drawings it lies in."""

    points: tuple[complex, ...]
    depth: int

    @property
    def length(self) -> float:
        return abs(self.points[-1] - self.points[0])


def opened(data: bytes) -> pdfium.PdfDocument:
    return pdfium.PdfDocument(data)


def paths(page: pdfium.PdfPage) -> list[PathRead]:
    """All paths of a page, those in drawings that it shows too."""
    count = raw.FPDFPage_CountObjects(page.raw)
    objects = [raw.FPDFPage_GetObject(page.raw, i) for i in range(count)]
    return list(_paths(objects, (1, 0, 0, 1, 0, 0), 0))


def shown_drawings(page: pdfium.PdfPage) -> list[Matrix]:
    """Where a page shows its drawings: their matrices, the shifts in mm."""
    count = raw.FPDFPage_CountObjects(page.raw)
    objects = [raw.FPDFPage_GetObject(page.raw, i) for i in range(count)]
    found = [_matrix(one) for one in objects if raw.FPDFPageObj_GetType(one) == raw.FPDF_PAGEOBJ_FORM]
    return [(a, b, c, d, e * POINT, f * POINT) for a, b, c, d, e, f in found]


def texts(page: pdfium.PdfPage) -> list[tuple[str, complex]]:
    """The texts that a page holds outside its drawings, and where each begins (mm)."""
    reader, found = page.get_textpage(), []
    for i in range(raw.FPDFPage_CountObjects(page.raw)):
        one = raw.FPDFPage_GetObject(page.raw, i)
        if raw.FPDFPageObj_GetType(one) == raw.FPDF_PAGEOBJ_TEXT:
            buffer = (raw.FPDF_WCHAR * 2000)()
            raw.FPDFTextObj_GetText(one, reader.raw, buffer, 2000)
            words = bytes(buffer).decode("utf-16-le").partition("\0")[0]
            right, up = _matrix(one)[4:]
            found.append((words, complex(right, up) * POINT))
    return found


def _paths(objects: list[Any], outer: Matrix, depth: int) -> Iterator[PathRead]:
    for one in objects:
        kind = raw.FPDFPageObj_GetType(one)
        matrix = _times(_matrix(one), outer)
        if kind == raw.FPDF_PAGEOBJ_FORM:
            inner = [raw.FPDFFormObj_GetObject(one, i) for i in range(raw.FPDFFormObj_CountObjects(one))]
            yield from _paths(inner, matrix, depth + 1)
        elif kind == raw.FPDF_PAGEOBJ_PATH:
            points = []
            for i in range(raw.FPDFPath_CountSegments(one)):
                x, y = c_float(), c_float()
                raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(one, i), byref(x), byref(y))
                points.append(_placed(matrix, x.value, y.value))
            yield PathRead(tuple(points), depth)


def _matrix(one: Any) -> Matrix:
    found = raw.FS_MATRIX()
    raw.FPDFPageObj_GetMatrix(one, byref(found))
    return found.a, found.b, found.c, found.d, found.e, found.f


def _times(inner: Matrix, outer: Matrix) -> Matrix:
    a, b, c, d, e, f = inner
    p, q, r, s, t, u = outer
    return a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s, e * p + f * r + t, e * q + f * s + u


def _placed(matrix: Matrix, x: float, y: float) -> complex:
    a, b, c, d, e, f = matrix
    return complex((a * x + c * y + e) * POINT, (b * x + d * y + f) * POINT)


def text(page: pdfium.PdfPage) -> str:
    return str(page.get_textpage().get_text_bounded())


def pixels(page: pdfium.PdfPage, per_mm: float) -> Any:
    """The page in grey, as rows of numbers."""
    return page.render(scale=per_mm * POINT, grayscale=True).to_numpy()


def prints_unscaled(document: pdfium.PdfDocument) -> bool:
    return not raw.FPDF_VIEWERREF_GetPrintScaling(document.raw)


def unpacked(data: bytes) -> bytes:
    """All streams of a file, unpacked, one after the other."""
    found = []
    for packed in re.findall(rb"stream\n(.*?)\nendstream", data, re.DOTALL):
        try:
            found.append(zlib.decompress(packed))
        except zlib.error:
            found.append(packed)
    return b"\n".join(found)
