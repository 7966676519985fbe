"""What is told of cloths and sizes."""

from __future__ import annotations

from collections.abc import Mapping

from garmentc.cloth.fit import FITS, JOINED, Fit, Need
from garmentc.record import Record


class FitTable(Record):
    """A garment, its sizes, the cloths by key with their titles, and a cell for each that was looked at.

    ``part`` is the cloth of the garment that is cut; ``is_named`` where it has several. ``limit`` is how long each
    search was allowed (s).
    """

    name: str
    title: str
    part: str
    is_named: bool
    sizes: tuple[str, ...]
    cloths: Mapping[str, str]
    cells: Mapping[tuple[str, str], Fit]
    limit: float

    def largest(self, cloth: str) -> str:
        """The last size of the chart that a cloth gives, or ""."""
        given = [size for size in self.sizes if self._gives(cloth, size)]
        return given[-1] if given else ""

    def _gives(self, cloth: str, size: str) -> bool:
        cell = self.cells.get((cloth, size))
        return cell is not None and cell.verdict in (FITS, JOINED)


class NeedTable(Record):
    """How large a cloth each size needs: a square, or the length of one that is ``width`` mm wide."""

    name: str
    title: str
    width: float | None
    hem: float | None
    needs: tuple[Need, ...]
    limit: float
