"""A cutting plan as files: true to scale, to look at on a screen, and as a page to cut by."""

from __future__ import annotations

from garmentc.data.stock import Cloth
from garmentc.output.lay.drawing import Shown, draw_plan
from garmentc.output.lay.page import plan_document, plan_title
from garmentc.output.lay.photo import photo_element
from garmentc.output.patterns.svg import Page, Pen, write_page
from garmentc.output.sheet.document import Document
from garmentc.output.sheet.html import to_html
from garmentc.output.sheet.markdown import to_markdown

_MARGIN = 6.0  # mm around everything drawn
_SCREEN = 240.0  # mm, the longer side of the cloth in a drawing for the screen


def plan_files(shown: Shown, cloth: Cloth, photo: bytes | None = None, *, kept: str = "") -> list[tuple[str, bytes]]:
    """``plan.svg``, ``plan-screen.svg``, ``plan.html`` and ``plan.md``; ``photo`` is the file that the cloth names.

    ``kept`` is the path of the kept plan. ValueError when the photo is no picture.
    """
    screen = _drawing(shown, cloth, photo, _scale(shown))
    document = plan_document(shown, cloth, _inline(screen), kept)
    return [
        ("plan.svg", _drawing(shown, cloth, photo, 1.0)),
        ("plan-screen.svg", screen),
        *_pages(document),
    ]


def _pages(document: Document) -> list[tuple[str, bytes]]:
    return [("plan.html", to_html(document).encode()), ("plan.md", to_markdown(document).encode())]


def _scale(shown: Shown) -> float:
    x0, y0, x1, y1 = shown.plan.ground.box
    return _SCREEN / max(x1 - x0, y1 - y0)


def _drawing(shown: Shown, cloth: Cloth, photo: bytes | None, scale: float) -> bytes:
    drawn = draw_plan(shown, scale)
    x0, y0, x1, y1 = drawn.box
    corner = complex(x0 - _MARGIN, y1 + _MARGIN)
    pen = Pen(corner)
    groups = [pen.group(group.name, group.strokes, group.words) for group in drawn.groups]
    if cloth.photo is not None and photo is not None:
        groups.insert(0, photo_element(cloth.photo, photo, shown.plan.ground, scale, corner))
    true = scale == 1.0
    about = "True to scale: one unit of the drawing is one millimetre." if true else "Made smaller, to look at."
    wide, high = x1 - x0 + 2 * _MARGIN, y1 - y0 + 2 * _MARGIN
    return write_page(Page(wide, high, plan_title(shown, cloth), about, groups, fluid=not true))


def _inline(svg: bytes) -> str:
    """The root element alone."""
    return svg.decode().partition("\n")[2].rstrip()
