"""Files in one zip, the same bytes in every run."""

from __future__ import annotations

import io
from collections.abc import Iterable

_DATE = (1980, 1, 1, 0, 0, 0)  # the earliest that a zip knows: no clock is asked
_UNIX = 3
_PLAIN_FILE = 0o100644 << 16


def zipped(folder: str, files: Iterable[tuple[str, bytes]]) -> bytes:
    """The files below one folder, sorted by name, and stored as they are: most of the bytes are compressed already."""
    import zipfile

    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_STORED) as archive:
        for name, content in sorted(files):
            entry = zipfile.ZipInfo(f"{folder}/{name}", _DATE)
            entry.create_system = _UNIX
            entry.external_attr = _PLAIN_FILE
            archive.writestr(entry, content)
    return data.getvalue()
