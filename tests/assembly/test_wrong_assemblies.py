"""Each wrong assembly gives one finding, at the line that one would look at first."""

import pytest

from tests.assembly.wrong import BAG, PATCHES, TOP, WRONG, Wrong
from tests.language.small import found


@pytest.mark.parametrize("garment", [TOP, BAG, PATCHES], ids=["top", "bag", "patches"])
def test_the_garments_can_be_sewn(garment: str) -> None:
    assert found(garment) == []


@pytest.mark.parametrize("wrong", WRONG, ids=[wrong.what for wrong in WRONG])
def test_a_wrong_assembly_gives_the_one_finding(wrong: Wrong) -> None:
    assert wrong.right in wrong.garment
    text = wrong.garment.replace(wrong.right, wrong.wrong)
    lines = [line.strip() for line in text.splitlines()]
    told = [(one.slug, lines[one.span.line - 1]) for one in found(text)]
    assert [slug for slug, _ in told] == [wrong.slug], told
    assert told[0][1].startswith(wrong.line)


def test_each_is_wrong_in_its_own_way() -> None:
    assert (
        len({wrong.what for wrong in WRONG})
        == len({(wrong.garment, wrong.right, wrong.wrong) for wrong in WRONG})
        == len(WRONG)
    )
