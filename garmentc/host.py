"""The one door to files and environment. Tests bring a door of their own."""

from __future__ import annotations

import contextlib
import os
import sys
import time
from pathlib import Path
from typing import Protocol


def seconds() -> float:
    """A clock for how long something takes; where it begins means nothing."""
    return time.monotonic()


def is_terminal() -> bool:
    """Whether standard error is looked at by a person: progress is shown then."""
    return sys.stderr.isatty()


def names_in(folder: str) -> list[str]:
    """The names of what lies in a folder, sorted; raises ``OSError``."""
    return sorted(path.name for path in Path(folder).iterdir())


class Host(Protocol):
    """What the compiler may ask of the machine it runs on."""

    def read(self, path: str, most: int = -1) -> bytes:
        """The bytes of a file, at most the first ``most`` of them; raises ``OSError`` when it can't be read."""
        ...

    def write(self, path: str, data: bytes) -> bool:
        """Replace a file atomically if its bytes change; says whether it did. Raises ``OSError``."""
        ...

    def remove(self, path: str) -> None:
        """Remove a file, and its folder if that is empty then. Raises ``OSError``."""
        ...

    def cache_file(self, name: str) -> str | None:
        """A path where a derived file may be kept between runs, or None where nothing may be kept."""
        ...


class DiskHost:
    """The real machine."""

    def __init__(self) -> None:
        self._made: set[Path] = set()

    def read(self, path: str, most: int = -1) -> bytes:
        with Path(path).open("rb") as stream:
            return stream.read(most)

    def write(self, path: str, data: bytes) -> bool:
        target = Path(path)
        with contextlib.suppress(OSError):
            if target.read_bytes() == data:
                return False
        if target.parent not in self._made:
            target.parent.mkdir(parents=True, exist_ok=True)
            self._made.add(target.parent)
        draft = target.parent / f".{target.name}.{os.getpid()}"
        try:
            with draft.open("wb") as stream:
                stream.write(data)
            draft.replace(target)
        except BaseException:
            draft.unlink(missing_ok=True)
            raise
        return True

    def remove(self, path: str) -> None:
        target = Path(path)
        target.unlink()
        with contextlib.suppress(OSError):
            target.parent.rmdir()

    def cache_file(self, name: str) -> str | None:
        root = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "garmentc"
        try:
            root.mkdir(parents=True, exist_ok=True)
        except OSError:
            return None
        return str(root / name)
