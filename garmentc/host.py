"""The one door to files and environment. Tests bring a door of their own."""

from __future__ import annotations

import contextlib
import errno
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Protocol

from garmentc.shipped import is_shipped


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
        self._mask = os.umask(0)
        os.umask(self._mask)

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
        handle, draft = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
        try:
            with os.fdopen(handle, "wb") as stream:
                stream.write(data)
            os.chmod(draft, 0o666 & ~self._mask)  # noqa: PTH101
            os.replace(draft, target)  # noqa: PTH105
        except BaseException:
            Path(draft).unlink(missing_ok=True)
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


class Overlay:
    """A door that finds some texts of its own, and all else behind another door."""

    def __init__(self, host: Host, texts: Mapping[str, str]) -> None:
        self._host = host
        self._texts = {path: text.encode() for path, text in texts.items()}

    def read(self, path: str, most: int = -1) -> bytes:
        data = self._texts.get(path)
        if data is None:
            return self._host.read(path, most)
        return data if most < 0 else data[:most]

    def write(self, path: str, data: bytes) -> bool:
        return self._host.write(path, data)

    def remove(self, path: str) -> None:
        self._host.remove(path)

    def cache_file(self, name: str) -> str | None:
        return self._host.cache_file(name)


class ShippedHost:
    """A door to the files that travel with the compiler and to what it derives from them, and to nothing else."""

    def __init__(self) -> None:
        self._disk = DiskHost()
        self._derived: set[str] = set()

    def read(self, path: str, most: int = -1) -> bytes:
        if not is_shipped(path) and path not in self._derived:
            raise FileNotFoundError(errno.ENOENT, "it is not among the texts given", path)
        return self._disk.read(path, most)

    def write(self, path: str, data: bytes) -> bool:
        if path not in self._derived:
            raise PermissionError(errno.EACCES, "there is no folder to write to", path)
        return self._disk.write(path, data)

    def remove(self, path: str) -> None:
        raise PermissionError(errno.EACCES, "there is no folder to remove from", path)

    def cache_file(self, name: str) -> str | None:
        derived = self._disk.cache_file(name)
        if derived is not None:
            self._derived.add(derived)
        return derived
