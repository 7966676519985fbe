"""The measures the compiler knows by name: what they mean, who defines them, what is plausible."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any, Literal

from garmentc.diagnostics.suggest import alike
from garmentc.shipped import library_file

_PLAIN_WORDS = ("girth", "length", "width", "height", "point", "to", "total")
Trust = Literal["second-hand", "memory"]


@dataclass(frozen=True, slots=True)
class KnownMeasure:
    """One body measure.

    ``standard`` names the standard, with the clause where it is known. ``trust`` says how the name and clause
    are known: quoted by a second document, or from memory. Outside ``least_mm`` to ``most_mm`` a value is
    probably a typing error; ``limits_from`` says where these limits come from.
    """

    name: str
    term: str
    definition: str
    standard: str
    trust: Trust
    least_mm: float
    most_mm: float
    limits_from: str


@cache
def known_measures() -> Mapping[str, KnownMeasure]:
    """All known measures by name, girths before lengths and widths."""
    shipped = json.loads(Path(library_file("measures.json")).read_text(encoding="utf-8"))
    return MappingProxyType({name: _known(name, facts) for name, facts in shipped.items()})


def near_measures(name: str, known: Iterable[str]) -> tuple[str, ...]:
    """Names of measures that were probably meant: a few slips away, or with a telling word in common."""
    return alike(name, known, _PLAIN_WORDS)


def _known(name: str, facts: Any) -> KnownMeasure:
    least, most = facts["limits_cm"]
    return KnownMeasure(
        name=name,
        term=facts["term"],
        definition=facts["definition"],
        standard=facts["standard"],
        trust="second-hand" if facts["trust"] == "second-hand" else "memory",
        least_mm=float(least) * 10.0,
        most_mm=float(most) * 10.0,
        limits_from=facts["limits_from"],
    )
