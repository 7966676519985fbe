"""Searches in other processes: heard as they find, ended in time, harmless when they fail."""

import os
import time
from collections.abc import Callable

from garmentc.aside import search_aside


def _searches(item: str, tell: Callable[[str], None]) -> None:
    tell(f"{item} begins")
    if item == "dies":
        os._exit(1)
    if item == "goes on":
        time.sleep(60)
    tell(f"{item} ends")


def test_each_is_heard_and_none_holds_up_the_rest() -> None:
    heard: list[tuple[int, str]] = []
    began = time.monotonic()
    done = search_aside(_searches, ["works", "dies", "goes on"], lambda i, found: heard.append((i, found)), 0.5)
    assert done
    assert time.monotonic() - began < 10
    assert sorted(heard) == [(0, "works begins"), (0, "works ends"), (1, "dies begins"), (2, "goes on begins")]


def test_breaking_off_keeps_what_was_heard() -> None:
    heard: list[str] = []

    def hear(_: int, found: str) -> None:
        heard.append(found)
        raise KeyboardInterrupt

    assert not search_aside(_searches, ["goes on"], hear, 60)
    assert heard == ["goes on begins"]
