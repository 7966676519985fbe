"""What is computed again when a param is tried at another value, and what is kept."""

from __future__ import annotations

import pytest

from garmentc.draft.memo import Memo, Poisoned

CAP, ARMHOLE, EASE = ("sleeve", "cap"), ("front", "armhole"), ("", "cap_ease")


class Book:
    """A memo of three values, with a record of which were found anew."""

    def __init__(self) -> None:
        self.memo = Memo({"cap_height": 1.0})
        self.found: list[str] = []

    def armhole(self) -> float:
        return self.memo.once(ARMHOLE, lambda: self._find("armhole", 20.0))

    def cap(self) -> float:
        return self.memo.once(CAP, lambda: self._find("cap", self.height() + self.armhole()))

    def height(self) -> float:
        return self.memo.once(("", "cap_height"), lambda: 0.0)

    def _find(self, name: str, value: float) -> float:
        self.found.append(name)
        return value


def test_another_trial_keeps_what_does_not_lean_on_it() -> None:
    book = Book()
    assert (book.cap(), book.cap()) == (21.0, 21.0)
    assert book.found == ["armhole", "cap"]
    book.found.clear()
    book.memo.try_anew({"cap_height": 2.0})
    assert book.cap() == 22.0
    assert book.found == ["cap"]


def test_what_was_read_out_of_the_memo_still_counts_as_leaning() -> None:
    book = Book()
    book.cap()
    seam = book.memo.once(EASE, lambda: book.cap() - book.armhole())
    book.memo.try_anew({"cap_height": 5.0})
    assert (seam, book.memo.once(EASE, lambda: book.cap() - book.armhole())) == (1.0, 5.0)


def test_a_fault_of_one_trial_is_gone_in_the_next() -> None:
    memo = Memo({"depth": 0.0})

    def root() -> float:
        depth: float = memo.once(("", "depth"), lambda: 0.0)
        if depth <= 0:
            raise Poisoned
        return depth

    for _ in range(2):
        with pytest.raises(Poisoned):
            memo.once(CAP, root)
    memo.try_anew({"depth": 4.0})
    assert memo.once(CAP, root) == 4.0


def test_a_value_that_asks_for_itself_has_none() -> None:
    memo = Memo({})
    with pytest.raises(Poisoned):
        memo.once(CAP, lambda: memo.once(CAP, lambda: 1.0))
    assert CAP in memo
