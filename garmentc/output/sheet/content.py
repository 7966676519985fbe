"""The whole sheet of one garment in one size, as a document."""

from __future__ import annotations

from collections.abc import Iterator

from garmentc.assembly.model import Assembly
from garmentc.output.sheet.about import about
from garmentc.output.sheet.cautions import cautions
from garmentc.output.sheet.cutting import cutting
from garmentc.output.sheet.document import Block, Document, Heading, Notes, Paragraph
from garmentc.output.sheet.making import before_cutting, steps
from garmentc.output.sheet.needs import needs

NOTE_LINES = 8


def sheet_document(assembly: Assembly, *, inches: bool = False) -> Document:
    """What the maker reads, from the measures to the last step; lengths in mm and cm, or in inches."""
    parts = (needs, cautions, before_cutting, cutting, steps, _ending)
    blocks = (*about(assembly), *(block for part in parts for block in part(assembly)))
    document = Document(f"{assembly.draft.design.title} · {assembly.draft.body.shown}", blocks)
    if inches:
        from garmentc.output.sheet.inches import in_inches

        document = in_inches(document)
    return document


def _ending(assembly: Assembly) -> Iterator[Block]:
    yield Heading(2, "Notes")
    yield Paragraph("Room for what you changed, and for what to do differently next time.")
    yield Notes(NOTE_LINES)
