"""The pages of a PDF: the first with its notes, then the drawing page by page."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from garmentc.output.paper.arrange import Arrangement, Block, arrange
from garmentc.output.paper.fonts import Fonts
from garmentc.output.paper.panel import HEIGHT, WIDTH, Notes, panel
from garmentc.output.paper.papers import OVERLAP, Paper
from garmentc.output.paper.parts import PaperPiece, Part
from garmentc.output.paper.pdf import Document, clipped, path, strokes, turned
from garmentc.output.paper.tiles import JOINT, Tile, Tiling, joint_strokes, joint_words, tile_up
from garmentc.output.patterns.letters import text_width
from garmentc.output.patterns.scene import Words, polyline
from garmentc.output.texts.speech import Speech
from garmentc.record import Record

_ROOM = 6.0  # mm round a drawing that its lines and marks may take
_FOOT = 6.0  # mm at the lower edge that the line of text takes, which is cut off where pages are joined
_FOOT_TEXT = 2.4  # mm, height of capitals
_NAME = 3.2  # mm, the name of a page


class Printed(Record):
    """A PDF, how many pages it has and how many of them hold pieces."""

    data: bytes
    pages: int
    tiles: int


class Job(Record):
    """What is printed: pieces, notes, the words at the foot of each page, and the voices."""

    pieces: Sequence[PaperPiece]
    notes: Notes
    foot: str
    speech: Speech


def print_pieces(job: Job, paper: Paper, fonts: Fonts) -> Printed:
    """Lay the pieces on pages and draw these."""
    arrangement = arrange(job.pieces, paper, Block(WIDTH, HEIGHT) if paper.roomy else None)
    if arrangement.paper.endless:
        arrangement = arrangement._replace(paper=_cut_off(arrangement))
    placed = [
        words._replace(at=laid.place(words.at), along=words.along * laid.turn)
        for laid in arrangement.laid
        for part in laid.piece.parts
        for words in part.words
    ]
    tiling = tile_up(arrangement, placed, paper.roomy)
    return _Printer(job, arrangement, tiling, fonts).printed(paper)


def _cut_off(arrangement: Arrangement) -> Paper:
    """An endless paper, cut where the drawing ends, or at the greatest length."""
    paper = arrangement.paper
    needed = max(arrangement.top, HEIGHT) + OVERLAP + 2 * paper.margin
    return paper._replace(height=min(paper.height, needed))


class _Printer:
    def __init__(self, job: Job, arrangement: Arrangement, tiling: Tiling, fonts: Fonts) -> None:
        self.job, self.arrangement, self.tiling = job, arrangement, tiling
        said = ", ".join([job.notes.title, *job.notes.lines])
        language = job.speech.first.language
        self.document = Document(fonts, job.notes.title, said, language)
        self.shown = [
            (laid, self.document.drawing(self._around(laid.piece), self.ops(laid.piece.parts)))
            for laid in arrangement.laid
        ]

    def printed(self, paper: Paper) -> Printed:
        tiles = self.tiling.tiles
        own_page = not paper.roomy
        pages = len(tiles) + own_page
        said = self.job.speech.say
        count = said("one_page") if pages == 1 else said("many_pages", pages=pages)
        notes = self.job.notes
        notes = notes._replace(lines=(*notes.lines, said("paper", paper=paper.name, pages=count)))
        height = paper.window[1] - _FOOT if own_page else HEIGHT
        panel_parts = panel(notes, self.tiling, self.arrangement.laid, 1 + own_page, height, self.job.speech)
        if own_page:
            x, y = paper.margin, paper.height - paper.margin
            ops = ["q", turned(1 + 0j, complex(x, y)), *self.ops(panel_parts), "Q"]
            ops += self.foot(paper, "", 1, pages)
            self.document.page(paper.width, paper.height, ops, (notes.title,))
        for number, tile in enumerate(tiles, 1 + own_page):
            ops = self.tile(tile, panel_parts if paper.roomy and tile.window[:2] == (0.0, 0.0) else ())
            paper_here = self.tiling.paper
            ops += self.foot(paper_here, tile.name if len(tiles) > 1 else "", number, pages)
            self.document.page(paper_here.width, paper_here.height, ops, (tile.name,))
        return Printed(self.document.finish(), self.document.pages, len(tiles))

    def tile(self, tile: Tile, notes: Sequence[Part]) -> list[str]:
        """What a page shows of the drawing, and the marks at its joints."""
        x0, y0, x1, y1 = tile.window
        margin = self.tiling.paper.margin
        # The lowest strip is cut off where pages are joined, and nothing is laid there: it holds the line of text.
        shows = (x0, y0 + OVERLAP / 2 - JOINT.width, x1, y1)
        ops = ["q", turned(1 + 0j, complex(margin - x0, margin - y0)), clipped(shows)]
        for laid, shown in self.shown:
            xs, ys = zip(*((p.real, p.imag) for ring in laid.rings for p in ring), strict=True)
            if min(xs) - _ROOM < x1 and max(xs) + _ROOM > x0 and min(ys) - _ROOM < y1 and max(ys) + _ROOM > y0:
                ops += ["q", turned(laid.turn, laid.by), shown, "Q"]
        joints = self.tiling.joints_of(tile)
        ops += strokes(joint_strokes(joints), JOINT)
        ops += self.document.words(joint_words(joints, tile))
        if notes:
            ops += ["q", turned(1 + 0j, complex(OVERLAP / 2, OVERLAP / 2 + HEIGHT)), *self.ops(notes), "Q"]
        return [*ops, "Q"]

    def ops(self, parts: Iterable[Part]) -> list[str]:
        """The operations that draw parts, each on its layer."""
        found: list[str] = []
        for part in parts:
            drawn = strokes(part.strokes, part.look)
            if part.back:
                drawn.append("1 g")
                drawn += [f"{path(polyline(*ring, ring[0]))} f" for ring in part.back]
                drawn.append("0 g")
            drawn += self.document.words(part.words)
            found += self.document.on_layer(part.layer, drawn)
        return found

    def foot(self, paper: Paper, name: str, number: int, pages: int) -> list[str]:
        """The line of text below the drawing."""
        said = self.job.speech.say
        y = paper.margin + 0.9
        first = said("page_of", page=number, pages=pages)
        text = f"{first}  ·  {self.job.foot}  ·  {said('print_at_100')}"
        words = []
        x = paper.margin + 0.5
        if name:
            words.append(Words("foot", name, complex(x, y), 1 + 0j, _NAME))
            x += text_width(name, _NAME) + 4.0
        height = min(_FOOT_TEXT, _FOOT_TEXT * (paper.width - paper.margin - x) / text_width(text, _FOOT_TEXT))
        words.append(Words("foot", text, complex(x, y), 1 + 0j, height))
        return self.document.words(words)

    def _around(self, piece: PaperPiece) -> tuple[float, float, float, float]:
        x0, y0, x1, y1 = piece.box
        return x0 - _ROOM, y0 - _ROOM, x1 + _ROOM, y1 + _ROOM
