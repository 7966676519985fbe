"""The sheet of one size as files."""

from __future__ import annotations

from collections.abc import Collection

from garmentc.assembly.model import Assembly
from garmentc.output.sheet.content import sheet_document
from garmentc.output.sheet.html import to_html
from garmentc.output.sheet.markdown import to_markdown


def sheet_files(assembly: Assembly, changed: Collection[str] = ()) -> list[tuple[str, bytes]]:
    """``sheet.html`` and ``sheet.md``, by name below the folder of the size.

    ``changed`` names the params, eases and choices that were set from outside.
    """
    document = sheet_document(assembly, changed)
    return [("sheet.html", to_html(document).encode()), ("sheet.md", to_markdown(document).encode())]
