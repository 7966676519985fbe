"""Names the files of a build and writes them, each only if its bytes change."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from garmentc.assembly.model import Assembly
from garmentc.design.model import Design
from garmentc.host import Host
from garmentc.output.patterns.files import pattern_files


class Written(NamedTuple):
    """How many files a build holds, and how many of them had to be written."""

    files: int
    changed: int


def build_files(
    design: Design, assemblies: Sequence[Assembly], *, patterns_only: bool = False
) -> list[tuple[str, bytes]]:
    """All files of a build, by path below the output folder: one folder for each size, and the model."""
    found: list[tuple[str, bytes]] = []
    for folder, assembly in zip(folders(one.draft.body.name for one in assemblies), assemblies, strict=True):
        files = pattern_files(assembly)
        if not patterns_only:
            from garmentc.output.sheet.files import sheet_files

            files = files + sheet_files(assembly)
        found += [(f"{folder}/{name}", data) for name, data in files]
    if not patterns_only:
        from garmentc.output.model_json import garment_json

        found.append(("garment.json", garment_json(design, assemblies)))
    return found


def folders(names: Iterable[str]) -> list[str]:
    """Folder names for sizes or bodies: letters, digits, dot, dash and underscore; no two alike."""
    found: list[str] = []
    for name in names:
        plain = re.sub(r"[^\w.-]+", "-", name).strip("-.") or "body"
        folder, number = plain, 2
        while folder.lower() in {one.lower() for one in found}:
            folder, number = f"{plain}-{number}", number + 1
        found.append(folder)
    return found


def write_files(host: Host, out: str, files: Iterable[tuple[str, bytes]]) -> Written:
    """Write files below a folder; raises ``OSError`` when one can't be written."""
    changed = [host.write(f"{out}/{name}", data) for name, data in files]
    return Written(len(changed), sum(changed))
