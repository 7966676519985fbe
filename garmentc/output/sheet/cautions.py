"""The warnings of the shipped library that a garment calls for."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from garmentc.assembly.model import Assembly
from garmentc.output.sheet.document import Block, Caution, Heading
from garmentc.record import Record
from garmentc.shipped import library_file

_APPLIES: Mapping[str, Callable[[Assembly], bool]] = MappingProxyType(
    {
        "always": lambda assembly: True,
        "strips": lambda assembly: (
            bool(assembly.draft.strips) or any(finish.drawn is not None for finish in assembly.finishes)
        ),
    }
)


class ShippedCaution(Record):
    """A caution of the library; ``when`` names the garments it is for: ``always`` or ``strips``."""

    name: str
    when: str
    caution: Caution


def cautions(assembly: Assembly) -> Iterator[Block]:
    """The cautions, in the order of the library."""
    yield Heading(2, "Take care")
    for shipped in shipped_cautions():
        if _APPLIES[shipped.when](assembly):
            yield shipped.caution


@cache
def shipped_cautions() -> tuple[ShippedCaution, ...]:
    """All cautions of the shipped library."""
    entries = json.loads(Path(library_file("cautions.json")).read_text(encoding="utf-8"))
    return tuple(_shipped(entry) for entry in entries)


def _shipped(entry: Any) -> ShippedCaution:
    caution = Caution(entry["title"], tuple(entry["lines"]), tuple(entry["sources"]))
    return ShippedCaution(entry["name"], entry["when"], caution)
