"""What a fault of writing is called, and what the writer probably meant."""

from __future__ import annotations

import re

from garmentc.diagnostics.finding import Finding, Label
from garmentc.diagnostics.suggest import closest, did_you_mean
from garmentc.source import Source, Span
from garmentc.syntax.layout import Stretch
from garmentc.syntax.machine import Misfit
from garmentc.syntax.words import ITEM_WORDS, STATEMENT_WORDS, in_words

_NOT_KEYWORDS = {
    "NAME",
    "NUMBER",
    "QUANTITY",
    "INCHES",
    "TEXT",
    "SIGN",
    "TIMES",
    "COMPARE",
    "LBRACE",
    "RBRACE",
    "EQUAL",
}
_FIRST_WORD = re.compile(r"[A-Za-z_][A-Za-z0-9_]*")
_NUMBER = re.compile(r"(?:\d+ +)?\d+(?:\.\d+|/\d+)?$")
_MIXED = re.compile(r"(\d+ +\d+/\d+)[ \t]*(\w+|″|”)")
_UNITS = {
    **dict.fromkeys(("centimetre", "centimetres", "centimeter", "centimeters", "cms"), "cm"),
    **dict.fromkeys(("millimetre", "millimetres", "millimeter", "millimeters", "mms"), "mm"),
    **dict.fromkeys(("metre", "metres", "meter", "meters"), "m"),
    **dict.fromkeys(("inches", "ins", "″", "”"), "in"),
    **dict.fromkeys(("degree", "degrees", "degs", "°"), "deg"),
    **dict.fromkeys(("percent", "pct"), "%"),
}
_OTHER_UNITS = ("foot", "feet", "ft", "yard", "yards", "yd")
_BLANKS = " \t\r\n"


def explain(fault: Misfit, source: Source, span: Span, stretches: tuple[Stretch, ...], breaks_off: bool) -> Finding:
    """The finding about a fault of writing at a place.

    ``stretches`` are the statements around it, outermost first; with ``breaks_off`` the next line seems to go on
    with the last of them.
    """
    if stretches and (meant := _misspelt(source, span, stretches)) is not None:
        return meant
    written = span.text.strip(_BLANKS)
    if not written:
        shown = "the end of the line"
    elif written.isspace() or not written.isprintable():
        shown = f"the sign U+{ord(written[0]):04X}"
    else:
        shown = f"`{written}`"
    expected = in_words(fault.expected) if fault.kind else ""
    label = f"expected {expected}" if expected else "no word, number or sign of the language"
    advice = _advice(fault, source, span)
    if (hint := _hint(source, span, stretches)) is not None:
        label, advice = hint
    elif breaks_off:
        advice = "write it on one line, or break it where lines go on: after a comma, a sign or an opening parenthesis"
    return Finding(
        "unexpected-word",
        f"{shown} does not fit here",
        span,
        label=label,
        others=_begins_above(source, span, stretches),
        help=advice,
    )


def _misspelt(source: Source, span: Span, stretches: tuple[Stretch, ...]) -> Finding | None:
    """A finding about the first word of a statement, when that is none of the language and something came of it."""
    first = _FIRST_WORD.match(source.text, stretches[-1].start)
    if first is None or first.end() > span.start:
        return None
    close = _meant(first.group(), stretches, source.text)
    if not close:
        return None
    return Finding(
        "unknown-statement",
        f"no statement begins with `{first.group()}`",
        Span(source, first.start(), first.end()),
        help=f"did you mean {close}?",
    )


def _meant(word: str, stretches: tuple[Stretch, ...], text: str) -> str:
    """Keywords close to a first word that is none, unless it is the name in ``name =`` or ``name :``."""
    after = text[stretches[-1].start + len(word) : stretches[-1].end].lstrip()
    words = STATEMENT_WORDS if len(stretches) == 1 else ITEM_WORDS + STATEMENT_WORDS
    if after[:1] in ("=", ":") or word in words:
        return ""
    return " or ".join(f"`{name}`" for name in closest(word, words))


def _begins_above(source: Source, span: Span, stretches: tuple[Stretch, ...]) -> tuple[Label, ...]:
    """Where the statement begins, when that is on a line further up."""
    if not stretches or stretches[-1].start >= span.start:
        return ()
    start = stretches[-1].start
    first_line_end = source.text.find("\n", start)
    if first_line_end == -1 or span.start <= first_line_end:
        return ()
    return (Label(Span(source, start, first_line_end), "in the statement that begins here"),)


def _hint(source: Source, span: Span, stretches: tuple[Stretch, ...]) -> tuple[str, str] | None:
    """Label and help where it is plain what was meant, so that a list of words would only confuse."""
    written = span.text.strip(_BLANKS)
    before = source.text[: span.start].rstrip(" \t")
    number = _NUMBER.search(before)
    if number is not None and written.casefold() in _UNITS:
        return "a unit is due here", f"write `{number.group()} {_UNITS[written.casefold()]}`"
    if number is not None and (mixed := _MIXED.match(source.text, number.start())) and mixed[2] in _UNITS:
        return "a unit is due behind the fraction", f"write `{mixed[1]} {_UNITS[mixed[2]]}`"
    if number is not None and written.casefold() in _OTHER_UNITS:
        return "a unit is due here", "lengths are written in mm, cm, m or in"
    if not stretches:
        return None
    inner = source.text[stretches[-1].start : stretches[-1].end]
    outer = source.text[stretches[-2].start : stretches[-2].end] if len(stretches) > 1 else ""
    if re.match(r"(seam|finish)\s(?!\s*type\b)", outer) and re.match(r"[A-Za-z_]\w*\s*=", inner):
        return "a width is changed with `set`", f"write `set {inner}`"
    if found := re.match(r"(insert\s+\w+(?:\s+folded)?\s+at)\b", inner):
        return (
            "a named point is due here",
            f"give the point a name in its piece: place = along(EDGE, 5 cm); then write `{found[1]} place`",
        )
    if found := re.match(r"(cut\s+\d+)\s+fold\b", inner):
        return "`on` is due before it", f"write `{found[1]} on {inner[found.end(1) :].strip()}`"
    if re.match(r"cut\s+\d+\s+on\s+fold\s+\w+\s*\.", inner) and written == ".":
        return "the piece is known here", "name the edge of the fold without its piece"
    if written[:1] in tuple("+-*/=<>") and span.start == stretches[-1].start:
        return "a line can't begin so", f"to go on with the line above, end that with `{written}`"
    return None


def _advice(fault: Misfit, source: Source, span: Span) -> str:
    """What the writer may have meant, where that can be guessed."""
    if fault.kind and span.text.isidentifier():
        keywords = [name.lower() for name in fault.expected if name.isalpha() and name not in _NOT_KEYWORDS]
        if meant := did_you_mean(span.text, keywords):
            return meant
    before = source.text[: span.start].rstrip(" \t")
    if re.match(r"(mm|cm|m|in|inch|deg)\b", span.text) and before.endswith(")"):
        return "a unit stands directly after a number: write the unit inside the brackets"
    if span.text and span.text[0] in "'‘’“”„":
        return 'texts stand between straight double quotes: "…"'
    if span.text.isspace() and span.text.strip(_BLANKS):
        return "this looks like a blank and is none: write a plain one"
    if re.search(r"\d,\d*$", source.text[: span.end]) or (
        re.search(r"\d$", before) and re.match(r",\d", source.text[span.start : span.start + 2])
    ):
        return "decimals are written with a point: 1.5 cm"
    if fault.expected == {"_SEP"}:
        return "end the statement here, or begin a new line for the next one"
    return ""
