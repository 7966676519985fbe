"""Bytes of a file to text, or a finding that says why not."""

from __future__ import annotations

import re

from garmentc.diagnostics.finding import Finding, Findings
from garmentc.host import Host
from garmentc.source import Source, Span

MOST_BYTES = 1_000_000
UNSHOWABLE = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff\ufffe\uffff\u202a-\u202e\u2066-\u2069]"
)
"""Characters that no spec or YAML text may hold and no label or drawing can show."""


def read_text(
    host: Host, path: str, findings: Findings, asked_at: Span | None = None, most: int = MOST_BYTES
) -> Source | None:
    """The text of a UTF-8 file, without a byte order mark; None after a finding.

    Findings: ``file-unreadable``, ``file-too-large`` (over ``most`` bytes), ``file-not-text`` (not UTF-8, or control
    characters), the last at the first bad character. ``asked_at`` is the place that names the file, if one does.
    """
    nowhere = asked_at or Source(path, "").whole()
    try:
        data = host.read(path, most + 1)
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or str(fault)
        findings.add(
            Finding(
                "file-unreadable",
                f"`{path}` can't be read: {reason}",
                nowhere,
                help="check the path and that the file may be read",
            )
        )
        return None
    return source_of(path, data, findings, nowhere, most)


def source_of(
    path: str, data: bytes, findings: Findings, asked_at: Span | None = None, most: int = MOST_BYTES
) -> Source | None:
    """Bytes that were read from a place as ``read_text`` gives them."""
    nowhere = asked_at or Source(path, "").whole()
    if len(data) > most:
        findings.add(
            Finding(
                "file-too-large",
                f"`{path}` is too large",
                nowhere,
                notes=(f"it has more than {most:,} bytes",),
                help="check that this is the file you meant; what a spec or its data files hold is far smaller",
            )
        )
        return None
    try:
        source = Source(path, data.decode("utf-8-sig"))
    except UnicodeDecodeError as fault:
        good = data[: fault.start].decode("utf-8-sig")
        source = Source(path, good + data[fault.start :].decode("utf-8", errors="replace"))
        findings.add(
            Finding(
                "file-not-text",
                f"`{path}` is not UTF-8 text",
                source.span(len(good), len(good) + 1),
                label=f"byte 0x{data[fault.start]:02x} begins no character",
                help="save the file as UTF-8",
            )
        )
        return None
    bad = UNSHOWABLE.search(source.text)
    if bad is not None:
        findings.add(
            Finding(
                "file-not-text",
                f"`{path}` holds a control character",
                source.span(bad.start(), bad.end()),
                label=f"character U+{ord(bad[0]):04X} does not belong in text",
                help="remove the character, or check that this is the file you meant",
            )
        )
        return None
    return source
