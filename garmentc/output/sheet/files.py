"""The sheet of one size as files."""

from __future__ import annotations

from garmentc.assembly.model import Assembly
from garmentc.output.sheet.content import sheet_document
from garmentc.output.sheet.html import to_html
from garmentc.output.sheet.markdown import to_markdown


def sheet_files(assembly: Assembly, *, inches: bool = False) -> list[tuple[str, bytes]]:
    """``sheet.html`` and ``sheet.md``, by name below the folder of the size; lengths in mm and cm, or in inches."""
    document = sheet_document(assembly, inches=inches)
    return [("sheet.html", to_html(document).encode()), ("sheet.md", to_markdown(document).encode())]
