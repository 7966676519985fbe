"""How a command is told which cloth it is about."""

from __future__ import annotations

import posixpath
import sys
from collections.abc import Sequence


def cloth_path(given: str) -> str:
    """The file of a cloth: a path as it is, or STOCK:NAME for a file NAME.yaml in the folder STOCK."""
    if given.endswith((".yaml", ".yml")):
        return given
    stock, colon, name = given.rpartition(":")
    return posixpath.join(stock or ".", f"{name}.yaml") if colon else f"{given}.yaml"


def part_and_stock(given: str, names: Sequence[str]) -> tuple[str, str] | None:
    """Which cloth of a garment is meant by ``[NAME=]STOCK``, of those it is cut of, and the stock.

    The name may be left out where there is only one; None, and said so, where it is no name of a cloth.
    """
    part, equals, stock = given.partition("=")
    if not equals:
        part, stock = (names[0] if len(names) == 1 else ""), given
    if part not in names:
        known = ", ".join(names)
        print(f"garmentc: --cloth {given}: write --cloth NAME={stock}, where NAME is one of {known}", file=sys.stderr)
        return None
    return part, stock
