"""Names the files of a build and writes them, each only if its bytes change."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any

from garmentc.assembly.model import Assembly
from garmentc.design.model import Design
from garmentc.host import Host
from garmentc.output.patterns.files import pattern_files
from garmentc.output.patterns.words import Told
from garmentc.output.texts.speech import Speech, Voice
from garmentc.record import Record

if TYPE_CHECKING:
    from garmentc.output.paper.papers import Paper


class Written(Record):
    """How many files a build holds, and how many of them had to be written."""

    files: int
    changed: int


class SizeOutput(Record):
    """What is written for one size or body: its name, its files, and its part of the model."""

    name: str
    files: list[tuple[str, bytes]]
    model: dict[str, Any] | None


def size_output(assembly: Assembly, *, patterns_only: bool = False, inches: bool = False) -> SizeOutput:
    """The patterns of a size and, unless only they are wanted, its sheets and its part of the model."""
    told = Told(speech=Speech((Voice(inches=inches),)))
    patterns = SizeOutput(assembly.draft.body.name, pattern_files(assembly, told), None)
    return patterns if patterns_only else with_sheets(patterns, assembly, inches=inches)


def size_output_on_paper(assembly: Assembly, *, host: Host, paper: Paper, inches: bool = False) -> SizeOutput:
    """All that is written for a size, its sheet as PDF on a paper too."""
    from garmentc.output.paper.fonts import Fonts
    from garmentc.output.sheet.content import sheet_document
    from garmentc.output.sheetpdf.file import sheet_pdf

    output = size_output(assembly, inches=inches)
    document = sheet_document(assembly, inches=inches)
    return output._replace(files=[*output.files, ("sheet.pdf", sheet_pdf(document, paper, Fonts(host)))])


def with_sheets(patterns: SizeOutput, assembly: Assembly, *, inches: bool = False) -> SizeOutput:
    """The patterns of a size with its sheets and its part of the model."""
    from garmentc.output.model_json import size_model
    from garmentc.output.sheet.files import sheet_files

    return patterns._replace(files=patterns.files + sheet_files(assembly, inches=inches), model=size_model(assembly))


def build_files(design: Design, sizes: Sequence[SizeOutput], *, patterns_only: bool = False) -> list[tuple[str, bytes]]:
    """All files of a build, by path below the output folder: one folder for each size, and the model."""
    named = zip(folders(size.name for size in sizes), sizes, strict=True)
    found = [(f"{folder}/{name}", data) for folder, size in named for name, data in size.files]
    if not patterns_only:
        from garmentc.output.model_json import garment_json

        found.append(("garment.json", garment_json(design, [size.model for size in sizes if size.model is not None])))
    return found


def folders(names: Iterable[str]) -> list[str]:
    """Folder names for sizes or bodies: letters, digits, dot, dash and underscore; no two alike."""
    found: dict[str, str] = {}
    for name in names:
        plain = re.sub(r"[^\w.-]+", "-", name).strip("-.") or "body"
        folder, number = plain, 2
        while folder.lower() in found:
            folder, number = f"{plain}-{number}", number + 1
        found[folder.lower()] = folder
    return list(found.values())


def write_files(host: Host, out: str, files: Iterable[tuple[str, bytes]]) -> Written:
    """Write files below a folder; raises ``OSError`` when one can't be written."""
    changed = [host.write(f"{out}/{name}", data) for name, data in files]
    return Written(len(changed), sum(changed))
