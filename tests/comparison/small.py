"""An apron bib of two pieces as a text, to be compared with itself changed."""

from __future__ import annotations

from garmentc.comparison.differences import Side, differences
from garmentc.comparison.model import Change, Comparison
from garmentc.pipeline import Request, compile_side
from tests.support import MemoryHost

CHART = "specs/sizes/women-en13402.yaml"
DUNLIN = """garment dunlin "Dunlin, a bib with a pocket"
edition 1

measure bust_girth

param deep = 30 cm from 10 cm to 60 cm "top to bottom"
ease bust_girth = 2 cm

wide = (bust_girth + ease.bust_girth) / 4

piece bib "Bib" {
  cut 1
  grain straight
  corner = (wide, 0 cm)
  upper  = corner up deep
  outline {
    lower : (0 cm, 0 cm) -> corner
    side  : corner -> upper
    top   : upper -> (0 cm, upper.y)
    other : (0 cm, upper.y) -> (0 cm, 0 cm)
  }
  notch on side at 50 %
  mark pocket_place at (wide / 2, deep / 2) "pocket"
}

piece pocket "Pocket" {
  cut 1
  grain cross
  far = (12 cm, 14 cm)
  outline {
    bottom  : (0 cm, 0 cm) -> (far.x, 0 cm)
    right   : (far.x, 0 cm) -> far
    mouth   : far -> (0 cm, far.y) arc bulge 6 %
    left    : (0 cm, far.y) -> (0 cm, 0 cm)
  }
}

finish bib.lower, bib.side, bib.top, bib.other as pinked
finish pocket.bottom, pocket.right, pocket.mouth, pocket.left as pinked

check "the bib covers" deep >= 10 cm
finished width "Width" = bib.lower.length
step iron "Iron the bib flat."
"""


def changed(*pairs: tuple[str, str], text: str = DUNLIN) -> str:
    """The bib with words replaced; each has to be there."""
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return text


def side(text: str, *, only: tuple[str, ...] = ("84", "88"), sizes: str | None = CHART) -> Side:
    """A text in some sizes of the shipped chart."""
    host = MemoryHost({"dunlin.garment": text})
    made, findings = compile_side(host, Request("dunlin.garment", sizes, only=only), host)
    assert made is not None, [(one.slug, one.headline) for one in findings]
    return made


def compared(new: str, old: str = DUNLIN, *, only: tuple[str, ...] = ("84", "88")) -> Comparison:
    """What has changed from one text to another."""
    return differences(side(old, only=only), side(new, only=only))


def change(comparison: Comparison, group: str, thing: str, quality: str = "") -> Change:
    """The one change of a quality."""
    (found,) = (one for one in comparison.changes if (one.group, one.thing, one.quality) == (group, thing, quality))
    return found
