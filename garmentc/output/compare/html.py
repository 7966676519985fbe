"""What has changed, with a picture of each piece that has, as one HTML file."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from garmentc.comparison.model import Comparison
from garmentc.output.compare.picture import overlay_svg
from garmentc.output.compare.text import comparison_text

_STYLE = """\
:root { color-scheme: light; }
body { margin: 0 auto; padding: 1rem; max-width: 60rem; color: #000; background: #fff;
  font: 1rem/1.5 system-ui, sans-serif; }
h1 { font-size: 1.5rem; line-height: 1.2; }
h2 { font-size: 1.2rem; margin: 1.6rem 0 0.4rem; border-bottom: 2px solid #000; }
pre { overflow-x: auto; font-size: 0.875rem; line-height: 1.35; }
figure { margin: 1rem 0; break-inside: avoid; }
figcaption { font-weight: bold; }
svg { display: block; max-width: 100%; height: auto; }
svg text { font: 13px system-ui, sans-serif; stroke: #fff; stroke-width: 3px; paint-order: stroke; }
.old, .new, .arrow { fill: none; stroke: #000; }
.old, .new { vector-effect: non-scaling-stroke; }
.old { stroke-width: 1.2px; stroke-dasharray: 6 4; }
.new { stroke-width: 2px; }
.arrow { stroke-width: 1px; }
@page { size: A4; margin: 15mm; }
"""


def comparison_html(comparison: Comparison) -> str:
    """The whole page: pictures first, then everything in words and numbers."""
    return "\n".join(
        [
            "<!DOCTYPE html>",
            '<html lang="en">',
            "<head>",
            '<meta charset="utf-8">',
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{escape(comparison.title)}: what has changed</title>",
            f"<style>{_STYLE}</style>",
            "</head>",
            "<body><main>",
            *_body(comparison),
            "</main></body>",
            "</html>",
            "",
        ]
    )


def _body(comparison: Comparison) -> Iterator[str]:
    head, source, *rest = comparison_text(comparison).splitlines()
    yield f"<h1>{escape(head)}</h1>"
    yield f"<p>{escape(source)}</p>"
    if comparison.overlays:
        yield "<h2>Pieces laid over each other</h2>"
        yield (
            "<p>Stitching lines, without allowances: the old ones dashed and thin, the new ones continuous. Arrows and "
            "rings show points that moved, with the distance in mm. Not to scale.</p>"
        )
    for overlay in comparison.overlays:
        only = " (new)" if not overlay.old else " (dropped)" if not overlay.new else ""
        caption = f"{overlay.title}{only}, {comparison.sizes[overlay.size]}"
        yield f"<figure><figcaption>{escape(caption)}</figcaption>"
        yield overlay_svg(comparison, overlay)
        yield "</figure>"
    yield from _sections(rest)


def _sections(lines: list[str]) -> Iterator[str]:
    """Each heading of the text with the lines below it."""
    for block in "\n".join(lines).strip("\n").split("\n\n"):
        heading, _, body = block.partition("\n")
        if heading:
            yield f"<h2>{escape(heading)}</h2>"
            yield f'<pre tabindex="0">{escape(body)}</pre>'
