"""The two states that ``garmentc compare`` is asked for: files on disk, or files in git revisions."""

from __future__ import annotations

from garmentc.host import Host
from garmentc.record import Record

_SPEC = ".garment"


class State(Record):
    """A spec by the name it is read under, and the door through which it and what it uses are read."""

    spec: str
    host: Host


def read_states(host: Host, old: str, new: str) -> tuple[State, State]:
    """Both states, each from ``FILE``, ``REVISION:FILE`` or ``REVISION``, then of the file that the other names.

    Raises ``ValueError`` when no file is named, ``OSError`` when there is no such revision.
    """
    sides = [_parted(text) for text in (old, new)]
    files = [path for _, path in sides if path is not None]
    if not files:
        raise ValueError(f"which file is meant? name it on one side, as in {old}:specs/NAME{_SPEC} {new}")
    first, second = (_state(host, revision, path or files[0]) for revision, path in sides)
    return first, second


def _parted(text: str) -> tuple[str | None, str | None]:
    """The revision and the file that a word names; None for what it does not name."""
    from garmentc.git import split_revision

    parts = split_revision(text)
    if parts is not None:
        return parts
    on_disk = text.endswith(_SPEC) or text.startswith((".", "/"))
    return (None, text) if on_disk else (text, None)


def _state(host: Host, revision: str | None, path: str) -> State:
    if revision is None:
        return State(path, host)
    from garmentc.git import GitHost

    through_git = GitHost(host, revision, path)
    return State(through_git.named(path), through_git)
