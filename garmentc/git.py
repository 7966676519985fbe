"""Reads files as they stood in a revision that git keeps, without touching the working tree or the index.

Git is asked as the command ``git``; nothing of it is imported. A path in a revision is written ``REVISION:PATH`` with a
path seen from the current folder, like all other paths; an empty revision is what is staged for the next commit.
"""

from __future__ import annotations

import errno
import subprocess
from pathlib import Path, PurePosixPath

from garmentc.host import Host


class NoRevision(OSError):
    """There is no such revision, no repository around a file, or no git; the text says which."""


def split_revision(text: str) -> tuple[str, str] | None:
    """The revision and the path of ``REVISION:PATH``; None for the path of a file on disk.

    What begins with a dot or a slash (or, where there are drives, with a drive) is on disk, whatever its name holds.
    """
    revision, colon, path = text.rpartition(":")
    on_disk = text.startswith((".", "/", "\\")) or (len(revision) == 1 and path.startswith(("/", "\\")))
    return None if not colon or on_disk or not path else (revision, path)


class GitHost:
    """A door through which the files of one revision are read; all other files come through the door given."""

    def __init__(self, host: Host, revision: str, path: str) -> None:
        """``path`` is a file of the repository that is meant. Raises ``NoRevision``."""
        self._host = host
        self._lead = f"{revision}:"
        self._folder = _existing_folder(path)
        self._top = Path(self._ask("rev-parse", "--show-toplevel"))
        self._tree = ""
        if revision:
            try:
                self._tree = self._ask("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{tree}}")
            except NoRevision as fault:
                reason = str(fault) or "there is no such revision, branch or tag"
                raise NoRevision(f"'{revision}' is no revision: {reason}") from None

    def named(self, path: str) -> str:
        """What a file of the revision is called here and in findings, so that it leads to its neighbours there."""
        return f"{self._lead}{path if '/' in path else f'./{path}'}"

    def read(self, path: str, most: int = -1) -> bytes:
        """The bytes of a file in the revision; raises ``OSError`` when it has none."""
        if not path.startswith(self._lead):
            return self._host.read(path, most)
        inside = self._inside(path.removeprefix(self._lead))
        follow = ["--follow-symlinks"] if self._tree else []
        done = _git(self._folder, ["cat-file", "--batch", *follow], f"{self._tree}:{inside}\n".encode())
        head, _, data = done.stdout.partition(b"\n")
        words = head.split()
        if done.returncode or len(words) != 3 or words[1] != b"blob":
            revision = self._lead[:-1]
            where = f"in revision {revision}" if revision else "among what is staged"
            raise FileNotFoundError(errno.ENOENT, f"there is no such file {where}", path)
        size = int(words[2])
        return data[: size if most < 0 else min(size, most)]

    def write(self, path: str, data: bytes) -> bool:
        return self._host.write(path, data)

    def remove(self, path: str) -> None:
        self._host.remove(path)

    def cache_file(self, name: str) -> str | None:
        return self._host.cache_file(name)

    def _inside(self, path: str) -> str:
        """A path as git names it, from the top of the repository; raises ``OSError`` for one outside."""
        whole = _without_dots(Path.cwd() / path)
        folder = _existing_folder(str(whole))
        real = folder.resolve() / whole.relative_to(_without_dots(folder))
        try:
            inside = PurePosixPath(real.relative_to(self._top.resolve()).as_posix())
        except ValueError:
            raise FileNotFoundError(errno.ENOENT, "it lies outside the repository", path) from None
        if "\n" in str(inside):
            raise FileNotFoundError(errno.ENOENT, "git can't be asked for a name with a line end", path)
        return str(inside)

    def _ask(self, *words: str) -> str:
        """What git answers in one line; raises ``NoRevision`` with its reason."""
        done = _git(self._folder, list(words))
        if done.returncode:
            raise NoRevision(done.stderr.decode(errors="replace").strip().removeprefix("fatal: "))
        return done.stdout.decode(errors="surrogateescape").removesuffix("\n")


def _git(folder: Path, words: list[str], given: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    command = ["git", "--no-optional-locks", "-C", str(folder), *words]
    try:
        return subprocess.run(command, input=given, capture_output=True, check=False)
    except OSError as fault:
        raise NoRevision(f"git can't be run: {fault.strerror or fault}") from None


def _existing_folder(path: str) -> Path:
    """The folder of a file, or the nearest above it that is there now."""
    whole = _without_dots(Path.cwd() / path)
    return next(folder for folder in whole.parents if folder.is_dir())


def _without_dots(path: Path) -> Path:
    """A path without steps up, as text: what is named there may not be there."""
    kept: list[str] = []
    for part in path.parts:
        if part == ".." and len(kept) > 1:
            kept.pop()
        elif part != "..":
            kept.append(part)
    return Path(*kept)
