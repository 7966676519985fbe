"""Renders a sheet as Markdown with tables and tick boxes. Pictures are left to the HTML sheet."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from garmentc.output.sheet.document import (
    Block,
    Caution,
    Checklist,
    Document,
    Drawing,
    Figure,
    Heading,
    Items,
    Notes,
    Paragraph,
    Step,
    Steps,
    Table,
    plain,
)

# As entities, because not every reader of Markdown takes a backslash before these inside a table.
_ENTITIES = str.maketrans({"<": "&lt;", ">": "&gt;", "|": "&vert;"})
_ENTITY = re.compile(r"&(?=#?\w+;)")
_SPECIAL = re.compile(r"[\\`*_{}\[\]#~$@]")
_LINK = re.compile(r"(?i)(www)\.|:(?=//)")
_OPENING = re.compile(r"^([-+=:]|\d+[.)](?=\s|$))")


def to_markdown(document: Document) -> str:
    """The sheet as Markdown text."""
    parts = [f"# {_text(document.title)}"]
    parts += [text for block in document.blocks if (text := "\n".join(_block(block)))]
    return "\n\n".join(parts) + "\n"


def _block(block: Block) -> Iterator[str]:
    match block:
        case Heading(level, text):
            yield f"{'#' * level} {_text(text)}"
        case Paragraph(text, of_pictures):
            if not of_pictures:
                yield _text(text)
        case Items(lines):
            yield from _list(lines, "- ")
        case Checklist(lines):
            yield from _list(lines, "- [ ] ")
        case Table():
            yield from _table(block)
        case Steps(steps):
            yield "\n\n".join("\n".join(_step(step)) for step in steps)
        case Caution(title, lines, sources):
            yield f"### {_text(title)}\n"
            yield from _list(lines, "- ")
            if sources:
                yield f"\nWhere this comes from: {_text(' '.join(sources))}"
        case Figure():
            pass
        case Drawing(_, alt):
            yield f"({_text(alt)})"
        case Notes():
            pass  # whoever writes into a file needs no lines to write on


def _list(lines: Iterable[str], bullet: str) -> Iterator[str]:
    return (f"{bullet}{_text(line)}" for line in lines)


def _table(table: Table) -> Iterator[str]:
    yield f"**{_text(table.caption)}**\n"
    yield _row(table.head)
    yield "|" + " --- |" * len(table.head)
    yield from (_row(row) for row in table.rows)


def _row(cells: Iterable[str]) -> str:
    return "| " + " | ".join(_text(cell) for cell in cells) + " |"


def _step(step: Step) -> Iterator[str]:
    yield f"### Step {step.number}. {_text(step.title)}\n"
    yield from _list(step.lines, "- [ ] ")
    if step.after:
        yield f"\nMeasure: {_text('; '.join(step.after))}."


def _text(text: str) -> str:
    """Text that Markdown shows as it is."""
    shown = _SPECIAL.sub(r"\\\g<0>", _ENTITY.sub("&amp;", plain(text)).translate(_ENTITIES))
    shown = _LINK.sub(lambda found: f"{found[1]}\\." if found[1] else "\\:", shown)
    return _OPENING.sub(lambda found: f"{found[0][:-1]}\\{found[0][-1]}", shown)
