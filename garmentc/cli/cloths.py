"""How a command is told which cloth it is about."""

from __future__ import annotations

import posixpath


def cloth_path(given: str) -> str:
    """The file of a cloth: a path as it is, or STOCK:NAME for a file NAME.yaml in the folder STOCK."""
    if given.endswith((".yaml", ".yml")):
        return given
    stock, colon, name = given.rpartition(":")
    return posixpath.join(stock or ".", f"{name}.yaml") if colon else f"{given}.yaml"
