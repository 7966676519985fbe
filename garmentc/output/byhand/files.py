"""A draft by hand as a file."""

from __future__ import annotations

from garmentc.assembly.model import Assembly
from garmentc.output.byhand.document import hand_document
from garmentc.output.sheet.html import to_html
from garmentc.output.sheet.markdown import to_markdown
from garmentc.output.texts.speech import Speech


def hand_file(assembly: Assembly, speech: Speech, kind: str) -> bytes:
    """The instructions as one HTML file (``html``) with pictures, or as Markdown (``md``)."""
    document = hand_document(assembly, speech)
    return (to_html(document) if kind == "html" else to_markdown(document)).encode()
