"""The grade of a garment as files."""

from __future__ import annotations

from garmentc.grade.model import Grade
from garmentc.output.grade.picture import picture
from garmentc.output.grade.table import grade_csv


def grade_files(grade: Grade) -> list[tuple[str, bytes]]:
    """``grade.csv``, and for each piece and strip ``grade-PIECE.svg`` with all sizes."""
    return [("grade.csv", grade_csv(grade)), *((f"grade-{one.name}.svg", picture(grade, one)) for one in grade.pieces)]
