"""Doors to files that stand before another door, or let only some files through."""

from __future__ import annotations

import errno
from collections.abc import Mapping
from contextlib import suppress
from hashlib import sha256

from garmentc.host import DiskHost, Host
from garmentc.shipped import is_shipped


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


class Recorder:
    """A door that remembers which files were asked for behind another door, and what they held."""

    def __init__(self, host: Host) -> None:
        self._host = host
        self._asked: dict[str, int] = {}
        self._derived: set[str] = set()
        self.held: dict[str, str] = {}
        """Digests by path, in the order in which they were first read; empty for what could not be read."""

    def is_stale(self) -> bool:
        """Whether any file no longer holds what it held, or has come or gone; files of the compiler do not count."""
        now = Recorder(self._host)
        for path in self.own:
            with suppress(OSError):
                now.read(path, self._asked[path])
        return any(now.held[path] != self.held[path] for path in self.own)

    @property
    def own(self) -> list[str]:
        """The files that do not travel with the compiler."""
        return [path for path in self.held if not is_shipped(path) and path not in self._derived]

    def read(self, path: str, most: int = -1) -> bytes:
        self._asked[path] = most
        self.held[path] = ""
        data = self._host.read(path, most)
        self.held[path] = sha256(data).hexdigest()
        return data

    def write(self, path: str, data: bytes) -> bool:
        return self._host.write(path, data)

    def remove(self, path: str) -> None:
        self._host.remove(path)

    def cache_file(self, name: str) -> str | None:
        derived = self._host.cache_file(name)
        self._derived |= {derived} if derived else set()
        return derived
