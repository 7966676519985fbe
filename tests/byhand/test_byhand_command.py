"""The command that writes a draft by hand."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from garmentc.cli.main import main
from tests.support import MemoryHost

SPEC = "specs/tern.garment"
CHART = ["--sizes", "specs/sizes/women-en13402.yaml"]


def test_it_writes_one_html_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({})
    assert main(["draw-by-hand", SPEC, *CHART, "--size", "88", "--out", "tern.html"], host) == 0
    text = host.files["tern.html"].decode()
    assert text.count("<svg") > 20
    assert not re.search(r"(src|href)=\"(?!#)", text)
    assert "tern.html" in capsys.readouterr().err


def test_it_writes_markdown_on_standard_output(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["draw-by-hand", SPEC, "--body", "specs/bodies/ilse.yaml", "--language", "de"], MemoryHost({})) == 0
    text = capsys.readouterr().out
    assert "Von A aus" in text
    assert "From A" not in text


@pytest.mark.parametrize(
    "words",
    [
        ["--sizes", "chart.yaml"],
        ["--body", "mira.yaml", "--size", "88"],
        [*CHART, "--size", "88", "--out", "tern.pdf"],
        [*CHART, "--size", "88", "--language", "xx"],
    ],
)
def test_wrong_use_is_told(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    host = MemoryHost({})
    assert main(["draw-by-hand", SPEC, *words], host) == 2
    assert capsys.readouterr().err.startswith("garmentc: ")
    assert not host.files


def test_a_piece_that_is_cut_unfolded_has_no_fold_of_the_cloth(capsys: pytest.CaptureFixture[str]) -> None:
    main(["draw-by-hand", SPEC, *CHART, "--size", "88"], MemoryHost({}))
    text = capsys.readouterr().out
    assert "Middle: centre" in text and "where the pattern is turned over, centre" in text
    assert "the fold of the cloth" not in text
    main(["draw-by-hand", "specs/plover.garment", *CHART, "--size", "88"], MemoryHost({}))
    assert "the fold of the cloth, centre" in capsys.readouterr().out
