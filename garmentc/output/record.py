"""Clears away what an earlier build of the same garment wrote and the new one no longer writes.

For each garment the output folder has a hidden list of the files written, with their digests. Only what is on that list
and has not been changed since is ever removed. A folder that the build writes into is cleared; a folder of another size
only by a build of a whole chart, and only if a build from a chart wrote it.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from garmentc.host import Host
from garmentc.record import Record

FORMAT = "garmentc-files"
_PLAIN = re.compile(r"[\w-][\w.-]*")


class Cleared(Record):
    """How many old files were removed, and the folders of earlier builds that still lie beside the new ones."""

    removed: int
    left: tuple[str, ...]


class Folder(Record):
    """A folder on the list (the output folder itself has no name): digests by file name."""

    from_chart: bool
    files: Mapping[str, str]


def record_name(garment: str) -> str:
    """The name of the list in the output folder."""
    return f".garmentc-{garment}.json"


def clear_stale(
    host: Host,
    out: str,
    garment: str,
    files: Iterable[tuple[str, bytes]],
    *,
    from_chart: bool,
    whole: bool,
    made_from: str = "",
) -> Cleared:
    """Remove old files and bring the list up to date, after ``files`` were written; raises ``OSError``.

    ``whole`` says that all sizes of a chart were built; ``made_from`` is a mark of all that the files were made from.
    """
    path = f"{out}/{record_name(garment)}"
    before, now = _read(host, path), _listed(files, from_chart)
    after, removed = dict(now), 0
    for name, folder in before.items():
        is_stale = name in now or name == "" or (whole and folder.from_chart)
        if not is_stale:
            after[name] = folder
            continue
        kept = now[name].files if name in now else {}
        gone = {one: digest for one, digest in folder.files.items() if one not in kept}
        removed += sum(_remove(host, f"{out}/{name}/{one}", digest) for one, digest in gone.items())
    _write(host, path, after, made_from)
    return Cleared(removed, tuple(name for name in after if name not in now))


def is_made(host: Host, out: str, garment: str, made_from: str) -> bool:
    """Whether the files of a folder were made from what a mark stands for, and lie there as they were written."""
    path = f"{out}/{record_name(garment)}"
    try:
        if json.loads(host.read(path)).get("made_from") != made_from:
            return False
        return all(
            _digest(host.read(f"{out}/{name}/{file}" if name else f"{out}/{file}")) == digest
            for name, folder in _read(host, path).items()
            for file, digest in folder.files.items()
        )
    except (OSError, ValueError, AttributeError, RecursionError):
        return False


def _listed(files: Iterable[tuple[str, bytes]], from_chart: bool) -> dict[str, Folder]:
    found: dict[str, dict[str, str]] = {}
    for path, data in files:
        folder, _, name = path.rpartition("/")
        found.setdefault(folder, {})[name] = _digest(data)
    return {folder: Folder(from_chart, digests) for folder, digests in found.items()}


def _read(host: Host, path: str) -> dict[str, Folder]:
    """The list of earlier builds; empty when there is none that can be trusted."""
    try:
        document: Any = json.loads(host.read(path))
        if document["format"] != FORMAT:
            return {}
        found = {
            str(name): Folder(bool(one["chart"]), {str(file): str(digest) for file, digest in one["files"].items()})
            for name, one in document["folders"].items()
        }
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return {}
    named = [*(name for name in found if name), *(file for one in found.values() for file in one.files)]
    return found if all(_PLAIN.fullmatch(name) for name in named) else {}


def _write(host: Host, path: str, folders: Mapping[str, Folder], made_from: str) -> None:
    document = {
        "format": FORMAT,
        "version": 1,
        **({"made_from": made_from} if made_from else {}),
        "folders": {
            name: {"chart": folders[name].from_chart, "files": dict(sorted(folders[name].files.items()))}
            for name in sorted(folders)
        },
    }
    host.write(path, (json.dumps(document, ensure_ascii=False, indent=1) + "\n").encode())


def _remove(host: Host, path: str, digest: str) -> bool:
    """Remove a file that is as it was written; says whether it was there to remove."""
    try:
        if _digest(host.read(path)) != digest:
            return False
    except OSError:
        return False
    host.remove(path)
    return True


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
