"""Reads a spec, the specs it varies and the blocks it uses. Paths stay inside the folder of the spec asked for."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable

from garmentc.design.opening import check_opening
from garmentc.design.vary import VARIATIONS, vary
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.host import Host
from garmentc.reading import read_text
from garmentc.record import Record
from garmentc.source import Source, Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import File
from garmentc.syntax.parser import Parser


class _Link(Record):
    """How a file was come by: ``verb`` is `varies` or `uses`, ``label`` the place where it is named."""

    verb: str
    label: Label


Chain = dict[str, _Link]


class Project:
    """The files one spec is made of."""

    def __init__(self, host: Host, parser: Parser) -> None:
        self._host = host
        self._parser = parser

    def file(self, source: Source, findings: Findings) -> File:
        """A spec with the garment it varies worked in, and that with the one it varies in turn; so too with blocks."""
        root = posixpath.dirname(source.name)
        chain = {posixpath.normpath(source.name): _Link("", Label(source.whole(), ""))}
        file = self._file(source, findings, root, chain)
        if not _uses_blocks(file.statements):
            return file
        from garmentc.design.blocks import only_taken, with_blocks

        whole = with_blocks(file, lambda use: self._block(use, findings, root, chain), findings)
        return only_taken(whole, findings)

    def _file(self, source: Source, findings: Findings, root: str, chain: Chain) -> File:
        file = self._parser.file(source, findings)
        header = next((one for one in file.statements if isinstance(one, nodes.Header)), None)
        if header is None and _varies(file):  # the base can't be known, and nothing of what is changed in it
            return file._replace(readable=False)
        if header is None or header.base is None:
            return file
        base = self._base(header.base, findings, root, chain)
        if base is None or not base.readable:  # nothing that the variant changes can be known
            return file._replace(readable=False)
        return vary(file, base, findings)

    def _base(self, named: nodes.Text, findings: Findings, root: str, chain: Chain) -> File | None:
        found = self._read(
            _Link("varies", Label(named.span, "which is varied from here")), named, findings, root, chain
        )
        if found is None:
            return None
        source, further = found
        if findings.is_led_to(named.span.source.name):
            findings.lead(source.name, further[posixpath.normpath(source.name)].label)
        return self._file(source, findings, root, further)

    def _block(self, use: nodes.Use, findings: Findings, root: str, chain: Chain) -> File | None:
        """A block with all of its own blocks; None after a finding."""
        label = Label(use.span, f"brought in here as `{use.name.text}`")
        found = self._read(_Link("uses", label), use.path, findings, root, chain)
        if found is None:
            return None
        source, further = found
        findings.lead(source.name, label)
        file = self._file(source, findings, root, further)
        if not file.readable:
            return file
        check_opening(file, file.statements, findings)
        from garmentc.design.blocks import with_blocks

        return with_blocks(file, lambda inner: self._block(inner, findings, root, further), findings).file()

    def _read(
        self, link: _Link, named: nodes.Text, findings: Findings, root: str, chain: Chain
    ) -> tuple[Source, Chain] | None:
        """A file that another names, and the files that lead to it; None after a finding."""
        path = posixpath.normpath(posixpath.join(posixpath.dirname(named.span.source.name), named.text))
        if posixpath.isabs(named.text) or posixpath.relpath(path, root or ".").startswith(".."):
            findings.add(
                Finding(
                    "outside-project",
                    f"`{named.text}` lies outside the folder of this project",
                    named.span,
                    help="keep the garments of a project in one folder, and name them from there",
                )
            )
            return None
        if path in chain:
            findings.add(_ring(path, link, named.span, chain))
            return None
        text = read_text(self._host, path, findings, asked_at=named.span)
        return None if text is None else (text, {**chain, path: link})


def _ring(path: str, link: _Link, span: Span, chain: Chain) -> Finding:
    shown = "".join(f" {one.verb} {posixpath.basename(name)}" for name, one in [*chain.items(), (path, link)])
    others = tuple(one.label for one in list(chain.values())[1:])
    help = "one of them has to stand on its own"
    if link.verb == "varies":
        return Finding("variant-ring", "this garment varies itself", span, "", others, (shown.strip(),), help)
    return Finding("use-ring", "this block brings in itself", span, "", others, (shown.strip(),), help)


def _uses_blocks(statements: Iterable[nodes.Statement]) -> bool:
    return any(
        isinstance(one, nodes.Use) or (isinstance(one, nodes.When) and _uses_blocks(one.statements))
        for one in statements
    )


def _varies(file: File) -> bool:
    """Whether a file whose first line is damaged was to vary another."""
    named = any(lost.span.text.startswith("garment") and '.garment"' in lost.span.text for lost in file.damaged)
    return named or any(isinstance(one, VARIATIONS) for one in file.statements if file.damaged)
