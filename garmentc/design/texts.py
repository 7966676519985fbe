"""Names as words, and instruction texts: the names in braces that numbers take the place of."""

from __future__ import annotations

GIVEN_NAMES = ("first_side", "second_side", "edges", "length", "toward", "both")
"""What every instruction text may ask for, besides the definitions of its own seam type."""


def placeholders(text: str) -> list[str]:
    """The names in braces, in order."""
    return [part.split("}", 1)[0] for part in text.split("{")[1:] if "}" in part]


def ease_name(name: str) -> str:
    """The whole name of an ease: `ease.bust_girth`, or that of a block's, which says so already."""
    return name if "." in name else f"ease.{name}"


def one_of(title: str, hand: str, copy: int) -> str:
    """A piece by its title, or which of its instances: "the Front", "the left Front", "copy 2 of the Yoke"."""
    return (f"copy {copy} of " if copy else "") + f"the {hand} {title}".replace("  ", " ")


def spoken(name: str) -> str:
    """A name of the spec as words: ``facing.lower_edge`` becomes "facing lower edge"."""
    return name.replace(".", " ").replace("_", " ")
