"""Names in a script that only a given font has. The font is made here, by fontTools: squares for two characters."""

from __future__ import annotations

import io

import pypdfium2 as pdfium
import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

from garmentc.cli.main import main
from tests.paper.reading import opened, unpacked
from tests.support import MemoryHost

NAME = "千鳥"
GARMENT = f"""garment dunlin "{NAME}"
edition 1
piece scarf "Scarf" {{
  cut 1
  grain straight
  outline {{
    hem   : (0 cm, 0 cm) -> (40 cm, 0 cm)
    slope : (40 cm, 0 cm) -> (0 cm, 30 cm)
    side  : (0 cm, 30 cm) -> (0 cm, 0 cm)
  }}
}}
finish scarf.hem, scarf.slope, scarf.side as overedged
"""
PRINT = ["print", "dunlin.garment", "--body", "specs/bodies/maren.yaml", "--out", "dunlin.pdf"]
LICENCE = "Made for a test, free to use"


def font(rights: int = 0) -> bytes:
    """A font of two characters, each a filled square of three quarters of its size."""
    builder = FontBuilder(1000, isTTF=True)
    names = [".notdef", "thousand", "bird"]
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap({ord(one): name for one, name in zip(NAME, names[1:], strict=True)})
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    for corner in ((0, 750), (750, 750), (750, 0)):
        pen.lineTo(corner)
    pen.closePath()
    square = pen.glyph()
    builder.setupGlyf(dict.fromkeys(names, square))
    builder.setupHorizontalMetrics(dict.fromkeys(names, (1000, 0)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": "Squares", "styleName": "Regular", "psName": "Squares", "copyright": LICENCE})
    builder.setupOS2(fsType=rights)
    builder.setupPost()
    data = io.BytesIO()
    builder.save(data)
    return data.getvalue()


def first_page(host: MemoryHost) -> pdfium.PdfPage:
    return opened(host.files["dunlin.pdf"])[0]


def test_a_given_font_writes_what_the_shipped_one_lacks() -> None:
    host = MemoryHost({"dunlin.garment": GARMENT, "squares.ttf": font()})
    assert main([*PRINT, "--font", "squares.ttf"], host) == 0
    page = first_page(host)
    reader = page.get_textpage()
    at = reader.get_text_range().index(NAME)
    for place in (at, at + 1):
        left, lower, right, upper = reader.get_charbox(place)
        assert right - left == pytest.approx(upper - lower, rel=0.02)  # the square of our font, no empty box
        shot = page.render(scale=4, crop=(left, lower, page.get_width() - right, page.get_height() - upper)).to_numpy()
        assert shot.mean() < 40  # and black
    inside = unpacked(host.files["dunlin.pdf"])
    assert b"Squares" in inside
    assert LICENCE.encode("utf-16-be") in inside  # the name table of the part that travels along


def test_without_it_the_name_is_a_finding(capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({"dunlin.garment": GARMENT})
    assert main(PRINT, host) == 1
    assert "warning[missing-characters]" in capsys.readouterr().err


def test_a_font_whose_maker_forbids_it_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({"dunlin.garment": GARMENT, "squares.ttf": font(rights=2), "torn.ttf": b"no font"})
    assert main([*PRINT, "--font", "squares.ttf"], host) == 2
    assert "does not allow" in capsys.readouterr().err
    assert main([*PRINT, "--font", "torn.ttf"], host) == 2
    assert "no TrueType" in capsys.readouterr().err
    assert "dunlin.pdf" not in host.files
