"""Data files say which schema they follow, so that editors complete them."""

from __future__ import annotations

from pathlib import Path

import pytest

FILES = sorted(Path("specs").rglob("*.yaml"))
ANNOUNCED = "# yaml-language-server: $schema="


@pytest.mark.parametrize("file", FILES, ids=lambda path: path.stem)
def test_the_first_line_names_a_schema_that_is_there(file: Path) -> None:
    first = file.read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith(ANNOUNCED)
    schema = (file.parent / first.removeprefix(ANNOUNCED)).resolve()
    assert schema.is_relative_to(Path("grammar/schemas").resolve())
    assert schema.exists()
