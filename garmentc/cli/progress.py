"""A bar that tells on a terminal how far something is."""

from __future__ import annotations

import sys

from garmentc.host import is_terminal, seconds

_WIDE = 28  # characters of the bar
_PAUSE = 0.1  # seconds between two pictures


class Progress:
    """Shows how many of a known number of things are done; nothing where no person looks on."""

    def __init__(self, whole: int) -> None:
        self._whole = whole
        self._began = seconds()
        self._shown = self._began
        self._on = is_terminal()
        self._width = 0

    def show(self, done: int, words: str = "") -> None:
        """Say that so many are done; ``words`` stand behind it."""
        now = seconds()
        if not self._on or (now - self._shown < _PAUSE and done < self._whole):
            return
        self._shown = now
        full = _WIDE * done // self._whole
        left = (now - self._began) / done * (self._whole - done) if done else 0.0
        text = f"[{'#' * full}{'.' * (_WIDE - full)}] {done:,} of {self._whole:,}{words}{_time_left(left)}"
        sys.stderr.write(f"\r{text.ljust(self._width)}")
        sys.stderr.flush()
        self._width = len(text)

    def clear(self) -> None:
        """Take the bar away, so that other words can follow."""
        if self._width:
            sys.stderr.write(f"\r{' ' * self._width}\r")
            self._width = 0


def _time_left(left: float) -> str:
    if left < 1.0:
        return ""
    return f", about {left / 60:.0f} min left" if left >= 90.0 else f", about {left:.0f} s left"
