"""How a strip is made up, cut across."""

from __future__ import annotations

from garmentc.assembly.model import Section, SectionLine
from garmentc.draft.model import DraftedPiece

_OFF = 0.6  # mm; how far a row stays off the fold it lies beside


def strip_sections(strip: DraftedPiece) -> tuple[Section, ...]:
    """The sections of a tube before and after it is turned, of a strip folded in four, or of a flat one."""
    making = strip.making
    assert making is not None
    cut, wide, row = making.cut_width, making.finished_width, making.stitched
    if making.way == "tube":
        inner = min(row, wide - _OFF)
        return (
            Section(
                "folded, wrong side out, and stitched",
                (
                    _layer((0, 0), (cut / 2, 0), (cut / 2, 1), (0, 1)),
                    _line("row", (row, 1), (row, 0)),
                    _line("gap", (0, 2), (row, 2)),
                ),
            ),
            Section(
                "turned",
                (
                    _layer((inner, 2), (0, 2), (0, 3), (wide, 3), (wide, 0), (0, 0), (0, 1), (inner, 1)),
                    _line("row", (_OFF, 2), (_OFF, 1)),
                    _line("gap", (0, 4), (wide, 4)),
                ),
            ),
        )
    if making.way == "quartered":
        return (
            Section(
                "folded in four and stitched",
                (
                    _layer((_OFF, 1), (wide, 1), (wide, 0), (0, 0), (0, 3), (wide, 3), (wide, 2), (_OFF, 2)),
                    _line("row", (row, 3), (row, 0)),
                    _line("row", (wide - row, 3), (wide - row, 0)),
                    _line("gap", (0, 4), (wide, 4)),
                ),
            ),
        )
    return (Section("flat, as cut", (_layer((0, 0), (cut, 0)), _line("gap", (0, 1), (cut, 1)))),)


def _layer(*points: tuple[float, float]) -> SectionLine:
    return SectionLine("layer", "strip", points, (False, False))


def _line(word: str, *points: tuple[float, float]) -> SectionLine:
    return SectionLine(word, "", points, (False, False))
