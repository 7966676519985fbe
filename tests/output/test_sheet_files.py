"""The sheet as files: well-formed, self-contained, safe against texts that look like markup, the same every time."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
from functools import cache
from html import unescape
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from garmentc.assembly.model import Assembly
from garmentc.host import DiskHost
from garmentc.output.sheet.document import (
    Caution,
    Checklist,
    Document,
    Heading,
    Items,
    Notes,
    Paragraph,
    Step,
    Steps,
    Table,
)
from garmentc.output.sheet.files import sheet_files
from garmentc.output.sheet.html import to_html
from garmentc.output.sheet.markdown import to_markdown
from garmentc.output.sheet.sketch import Label, Sketch, Stroke
from garmentc.output.sheet.style import STYLE
from garmentc.pipeline import compile_spec

CHART = "specs/sizes/women-en13402.yaml"
VOID = {"meta", "input", "polyline"}
HOSTILE = (
    "</style><script>alert(1)</script>",
    "a | b || c \\| d",
    "`code` *bold* _under_ ![x](http://example.org/x.png) [y](http://example.org)",
    '" onload="alert(1)',
    "&lt;b&gt; <img src=x>",
    "# heading\n- item\n1. one\n\n---",
    "www.example.org http://example.org me@example.org",
    "\u202eesrever\u0000 \x1b[31m",
)


@cache
def assemblies(garment: str) -> tuple[Assembly, ...]:
    compiled = compile_spec(DiskHost(), f"specs/{garment}.garment", sizes=CHART)
    assert not compiled.findings.has_errors
    return compiled.made


class Page(HTMLParser):
    """Notes the elements of a page, and that each is closed in its turn."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert len(attrs) == len(dict(attrs))
        self.seen.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.text += data

    def all(self, tag: str) -> list[dict[str, str | None]]:
        return [attrs for name, attrs in self.seen if name == tag]


def read(html: str) -> Page:
    page = Page()
    page.feed(html)
    page.close()
    assert page.open == []
    return page


def check_form(html: str) -> Page:
    """What every sheet keeps to."""
    page = read(html)
    assert html.startswith("<!DOCTYPE html>\n")
    assert page.all("html") == [{"lang": "en"}]
    ids = [attrs["id"] for _, attrs in page.seen if "id" in attrs]
    assert len(ids) == len(set(ids))
    levels = [int(tag[1]) for tag, _ in page.seen if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(next_ - before <= 1 for before, next_ in pairwise(levels))
    inputs = [attrs["id"] for attrs in page.all("input")]
    assert [attrs["for"] for attrs in page.all("label")] == inputs
    assert all(attrs["type"] == "checkbox" for attrs in page.all("input"))
    assert all(attrs["scope"] in ("col", "row") for attrs in page.all("th"))
    assert len(page.all("caption")) == len(page.all("table"))
    assert all(attrs["role"] == "img" and attrs["aria-label"] for attrs in page.all("svg"))
    parts = {attrs["id"] for attrs in page.all("h2")}
    assert {attrs["href"] for attrs in page.all("a")} == {f"#{part}" for part in parts}
    return page


@pytest.mark.parametrize("garment", ["tern", "plover"])
def test_html_is_well_formed_in_every_size(garment: str) -> None:
    for made in assemblies(garment):
        name, data = sheet_files(made)[0]
        assert name == "sheet.html"
        page = check_form(data.decode())
        assert len(page.all("input")) >= sum(len(step.lines) for step in made.steps)


@pytest.mark.parametrize("garment", ["tern", "plover"])
def test_html_asks_for_nothing_from_outside(garment: str) -> None:
    html = sheet_files(assemblies(garment)[0])[0][1].decode()
    page = read(html)
    assert {"script", "link", "img", "iframe", "object", "use"}.isdisjoint(tag for tag, _ in page.seen)
    assert not any({"src", "srcset", "style", "data"} & set(attrs) for _, attrs in page.seen)
    assert "://" not in html
    assert "url(" not in html
    assert "@import" not in html


@pytest.mark.parametrize("garment", ["tern", "plover"])
def test_files_have_unix_line_ends_and_end_in_one(garment: str) -> None:
    for _, data in sheet_files(assemblies(garment)[0]):
        assert b"\r" not in data
        assert data.endswith(b"\n")
        assert not data.endswith(b"\n\n")
        assert all(line == line.rstrip() for line in data.decode().split("\n"))


def hostile(text: str) -> Document:
    """A sheet that has the same text everywhere."""
    return Document(
        text,
        (
            Heading(2, text),
            Heading(3, text),
            Paragraph(text),
            Items((text,)),
            Checklist((text, text)),
            Table(text, (text, text), ((text, text),)),
            Steps((Step(1, text, (text, text), (text,)),)),
            Caution(text, (text,), (text,)),
            Sketch(text, text, 10.0, 10.0, 1.0, (Stroke("cut", (0j, 1j)),), (Label(text, 0j, "start"),)),
            Notes(2),
        ),
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_html_shows_hostile_texts_and_never_runs_them(text: str) -> None:
    page = check_form(to_html(hostile(text)))
    harmless = check_form(to_html(hostile("plain")))
    assert [tag for tag, _ in page.seen] == [tag for tag, _ in harmless.seen]
    assert [set(attrs) for _, attrs in page.seen] == [set(attrs) for _, attrs in harmless.seen]
    shown = " ".join(re.sub("[\u202e\x00\x1b]", " ", text).split())
    assert shown in page.text


@pytest.mark.parametrize("text", HOSTILE)
def test_markdown_keeps_its_form_under_hostile_texts(text: str) -> None:
    marked, harmless = to_markdown(hostile(text)), to_markdown(hostile("plain"))
    assert marked.count("\n") == harmless.count("\n")
    assert marked.count("|") == harmless.count("|")
    assert "<" not in marked
    bare = re.sub(r"\\.", "", re.sub(r"(?m)^(\*\*.*\*\*|- \[ \] .*|#+ .*)$", "", marked))
    assert not re.search(r"[`*_\[\]#~@]|\w://|www\.", bare)


@pytest.mark.parametrize("opening", ["- x", "+ x", "1. x", "12) x", "# x", "> x", "=== x", ": x"])
def test_markdown_does_not_take_the_start_of_a_text_for_markup(opening: str) -> None:
    paragraph = to_markdown(Document("t", (Paragraph(opening),))).split("\n\n")[1]
    assert not re.match(r"([-+#>=:]|\d+[.)])", paragraph)


@pytest.mark.parametrize("garment", ["tern", "plover"])
def test_markdown_tables_have_as_many_cells_in_each_row(garment: str) -> None:
    for made in assemblies(garment):
        name, data = sheet_files(made)[1]
        assert name == "sheet.md"
        for part in data.decode().split("\n\n"):
            rows = [line for line in part.split("\n") if line.startswith("|")]
            assert len({row.count("|") for row in rows}) <= 1


def test_markdown_escapes_an_ampersand_only_where_it_would_begin_an_entity() -> None:
    text = to_markdown(Document("t", (Paragraph("A&E, b & c, &amp; &#38; &copy;"),)))
    assert "A&E, b & c, &amp;amp; &amp;#38; &amp;copy;" in text.replace("\\", "")


def test_markdown_has_no_empty_bullets_and_no_blank_lines_to_write_on() -> None:
    for garment in ("tern", "plover"):
        text = sheet_files(assemblies(garment)[0])[1][1].decode()
        assert not re.search(r"(?m)^-?\s*$\n^-?\s*$", text)


def test_markdown_and_html_hold_the_same_steps() -> None:
    html, text = (data.decode() for _, data in sheet_files(assemblies("tern")[3]))
    titles = [unescape(title) for title in re.findall(r"<section class=\"step\">\n<h3>(\d+\. .*)</h3>", html)]
    assert [f"{number}. {title}" for number, title in re.findall(r"(?m)^### Step (\d+)\. (.*)$", text)] == titles


@pytest.mark.parametrize("garment", ["tern", "plover"])
def test_each_sketch_has_a_caption_and_its_lines_are_told(garment: str) -> None:
    for made in assemblies(garment):
        html = sheet_files(made)[0][1].decode()
        figures = re.findall(r'<figure class="sketch">\n<figcaption>(.*)</figcaption>\n<svg role="img"', html)
        assert len(figures) == len(made.pieces) == html.count("<svg role=")
        for piece, caption in zip(made.pieces, figures, strict=True):
            assert caption.startswith(f"Sketch of the {piece.drafted.title}, drawn as its half")
        assert "In them the thick line is where you cut, the dashed line where you sew" in html


def test_a_sheet_of_a_size_says_so_in_its_title() -> None:
    html = sheet_files(assemblies("tern")[3])[0][1].decode()
    assert "<h1>Tern, a bias camisole from one square cloth · size 88</h1>" in html


def test_on_paper_headings_and_captions_stay_with_what_follows_and_steps_stay_whole() -> None:
    paper = STYLE[STYLE.index("@media print") :]
    assert re.search(r"h2, h3, caption, thead \{ break-after: avoid; \}", paper)
    assert re.search(r"\.step, \.sketch, \.notes \{ break-inside: avoid; \}", paper)


def test_letters_stand_out_from_the_paper() -> None:
    """Contrast of 7 to 1 (WCAG 2.2, 1.4.6), the formula of its definition of relative luminance."""

    def luminance(colour: str) -> float:
        digits = colour if len(colour) == 6 else "".join(2 * digit for digit in colour)
        parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
        red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue

    colours = re.findall(r"(?<![-\w])color: #([0-9a-f]{3,6});", STYLE)
    assert len(colours) >= 3
    assert all(1.05 / (luminance(colour) + 0.05) >= 7 for colour in colours)


def test_bytes_are_the_same_under_any_hash_seed() -> None:
    code = (
        "import hashlib\n"
        "from garmentc.host import DiskHost\n"
        "from garmentc.pipeline import compile_spec\n"
        "from garmentc.output.sheet.files import sheet_files\n"
        "for name in ('tern', 'plover'):\n"
        f"    compiled = compile_spec(DiskHost(), f'specs/{{name}}.garment', sizes={CHART!r}, only=['88'])\n"
        "    for _, data in sheet_files(compiled.made[0]):\n"
        "        print(hashlib.sha256(data).hexdigest())\n"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": "."},
            capture_output=True,
            text=True,
            check=True,
        ).stdout.split()
        for seed in ("1", "4242")
    ]
    here = [
        hashlib.sha256(data).hexdigest()
        for garment in ("tern", "plover")
        for _, data in sheet_files(next(made for made in assemblies(garment) if made.draft.body.name == "88"))
    ]
    assert runs == [here, here]
