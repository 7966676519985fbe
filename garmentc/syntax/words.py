"""The words that open statements, and the terminals of the grammar in words that stand in messages."""

from __future__ import annotations

from collections.abc import Iterable

STATEMENT_WORDS = (
    *(
        "garment",
        "edition",
        "measure",
        "param",
        "ease",
        "function",
        "table",
        "use",
        "when",
        "piece",
        "draft",
        "strip",
        "seam",
        "finish",
        "check",
        "warn",
        "lay",
    ),
    *("solve", "finished", "opening", "step", "order", "stitch", "set", "replace", "drop", "add", "section"),
)
"""The words that open a statement of a file."""

ITEM_WORDS = (
    *(
        "cut",
        "grain",
        "outline",
        "keep",
        "grow",
        "notch",
        "mark",
        "guide",
        "lengthen",
        "buttons",
        "buttonholes",
        "interfaced",
        "uneven",
        "apart",
        "dart",
        "tuck",
        "pleats",
        "pivot",
        "divide",
        "shorten",
        "close",
        "spread",
        "redraw",
        "part",
        "length",
        "width",
        "make",
        "insert",
        "leave",
        "set",
        "when",
    ),
    *(
        "ease",
        "gathered",
        "stretched",
        "parts",
        "draw",
        "smooth",
        "class",
        "encloses",
        "closes",
        "opens",
        "allowance",
        "corner",
        "folds",
        "pass",
        "pin",
        "trim",
        "clip",
        "press",
        "turn",
        "do",
        "tools",
    ),
    *("binding", "layer", "row", "gap"),
    *("motif", "match", "mirrored", "layers", "cloth"),
)
"""The words that open a line inside a block."""

CONTINUING_WORDS = ("joins", "with", "then", "else", "as", "from", "and", "or", "curve", "arc")
"""Words that no statement begins with: a line that begins with one belongs to the line before."""

_VALUE = {"NAME", "NUMBER", "QUANTITY", "INCHES", "_LPAR"}
_PLAIN = {
    "NAME": "a name",
    "NUMBER": "a number",
    "QUANTITY": "a quantity with a unit",
    "INCHES": "a quantity with a unit",
    "TEXT": 'a text in "quotes"',
    "COMPARE": "a comparison",
    "SIGN": "`+` or `-`",
    "TIMES": "`*` or `/`",
    "EQUAL": "`=`",
    "COLON": "`:`",
    "DOT": "`.`",
    "LBRACE": "`{`",
    "RBRACE": "`}`",
    "_ARROW": "`->`",
    "_COMMA": "`,`",
    "_LPAR": "`(`",
    "_RPAR": "`)`",
    "_SEP": "the end of the line",
    "$END": "the end of the file",
}
_ORDER = ["EQUAL", "COLON", "_ARROW", "_RPAR", "_COMMA", "LBRACE", "RBRACE", "TEXT", "NAME"]
_CONTINUES = {"DOT", "_LPAR", "COMPARE", "SIGN", "TIMES", "_COMMA"}
_MOST = 5


def in_words(terminals: Iterable[str]) -> str:
    """What may stand at a place, in at most five words."""
    left = set(terminals)
    found: list[str] = []
    if left >= _VALUE - {"INCHES"}:
        left -= _VALUE | {"SIGN", "IF", "NOT"}
        found.append("a value")
    elif len(left) > _MOST:
        left -= _CONTINUES
    ranked = sorted(left, key=lambda name: (_ORDER.index(name) if name in _ORDER else len(_ORDER), name))
    for name in ranked:
        words = _PLAIN.get(name) or f"`{name.lower()}`"
        if words not in found:
            found.append(words)
    if len(found) > _MOST:
        return ", ".join(found[:_MOST]) + " …"
    if len(found) > 1:
        return ", ".join(found[:-1]) + " or " + found[-1]
    return found[0] if found else "nothing more"
