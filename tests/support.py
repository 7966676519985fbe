"""What tests of several rooms share."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from garmentc.host import DiskHost


class MemoryHost:
    """A door to files that lays texts over the disk, keeps what is written in memory, and touches nothing.

    ``root`` is where relative paths that are not among the texts are looked for. Derived files are kept between
    runs where the real door keeps them, so that tests read the grammar once.
    """

    def __init__(self, texts: Mapping[str, str | bytes], root: Path | None = None) -> None:
        self.files = {path: text.encode() if isinstance(text, str) else text for path, text in texts.items()}
        self._root = root
        self._disk = DiskHost()
        self._derived: set[str] = set()

    def read(self, path: str, most: int = -1) -> bytes:
        if path in self.files:
            data = self.files[path]
            return data if most < 0 else data[:most]
        return self._disk.read(str(self._root / path) if self._root else path, most)

    def write(self, path: str, data: bytes) -> bool:
        if path in self._derived:
            return self._disk.write(path, data)
        changed = self.files.get(path) != data
        self.files[path] = data
        return changed

    def remove(self, path: str) -> None:
        del self.files[path]

    def cache_file(self, name: str) -> str | None:
        kept = self._disk.cache_file(name)
        self._derived.add(kept or "")
        return kept
