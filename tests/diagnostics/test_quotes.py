"""Names and words are quoted alike in all findings: between backticks."""

import re
from pathlib import Path

import pytest

from garmentc.diagnostics.explain import slugs
from garmentc.shipped import page_file
from tests.diagnostics.examples import examples, run

STRAIGHT = re.compile(r"(?<![A-Za-z])'[^']+'")


@pytest.mark.parametrize("slug", slugs())
def test_findings_quote_with_backticks(slug: str) -> None:
    page = Path(page_file(slug)).read_text(encoding="utf-8")
    for example in examples(page).values():
        for one in run(example).findings:
            words = [one.headline, one.label, one.help, *one.notes, *(label.text for label in one.others)]
            assert not [text for text in words if STRAIGHT.search(text)]
