"""The shipped library of seam types, finishes and stitches, read one file at a time and only when asked for."""

from __future__ import annotations

from garmentc.diagnostics.finding import Findings
from garmentc.host import Host
from garmentc.shipped import library_file, library_names
from garmentc.source import Source
from garmentc.syntax.nodes import JoinType, Section, Statement, Stitch
from garmentc.syntax.parser import Parser

_FOLDERS = {"seam": "seams", "finish": "finishes"}

_READ_BEFORE: dict[str, tuple[str, tuple[Statement, ...]]] = {}
"""What files of the library said when this process last read them, and the statements made of it."""


class Library:
    """Seam types, finishes and stitches that every spec may use."""

    def __init__(self, host: Host, parser: Parser) -> None:
        self._host = host
        self._parser = parser
        self._known: dict[str, tuple[Statement, ...]] = {}

    def names(self, of: str) -> list[str]:
        """The names of all shipped seam types or finishes."""
        return library_names(_FOLDERS[of])

    def join_type(self, of: str, name: str, findings: Findings) -> JoinType | None:
        """A shipped seam type or finish, or None when there is none of this name."""
        if name not in self.names(of):
            return None
        for statement in self._read(f"{_FOLDERS[of]}/{name}.garment", findings):
            if isinstance(statement, JoinType) and (statement.of, statement.name.text) == (of, name):
                return statement
        return None

    def sections(self, of: str, name: str, findings: Findings) -> tuple[Section, ...]:
        """The shipped pictures of a shipped seam type or finish, in files of their own: only drawings need them."""
        if name not in library_names(f"sections/{_FOLDERS[of]}"):
            return ()
        found = self._read(f"sections/{_FOLDERS[of]}/{name}.garment", findings)
        return tuple(statement for statement in found if isinstance(statement, Section))

    def stitches(self, findings: Findings) -> tuple[Stitch, ...]:
        """All shipped stitches."""
        found = self._read("stitches.garment", findings)
        return tuple(statement for statement in found if isinstance(statement, Stitch))

    def _read(self, name: str, findings: Findings) -> tuple[Statement, ...]:
        if name not in self._known:
            text = self._host.read(library_file(name)).decode()
            if _READ_BEFORE.get(name, ("", ()))[0] != text:
                _READ_BEFORE[name] = text, self._parser.file(Source(f"library/{name}", text), findings).statements
            self._known[name] = _READ_BEFORE[name][1]
        return self._known[name]
