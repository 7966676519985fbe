"""Reads a spec and the specs it varies. Paths stay inside the folder of the spec that was asked for."""

from __future__ import annotations

import posixpath

from garmentc.design.vary import VARIATIONS, vary
from garmentc.diagnostics.finding import Finding, Findings, Label
from garmentc.host import Host
from garmentc.reading import read_text
from garmentc.source import Source, Span
from garmentc.syntax import nodes
from garmentc.syntax.nodes import File
from garmentc.syntax.parser import Parser


class Project:
    """The files one spec is made of."""

    def __init__(self, host: Host, parser: Parser) -> None:
        self._host = host
        self._parser = parser

    def file(self, source: Source, findings: Findings) -> File:
        """A spec with the garment it varies worked in, and that with the one it varies in turn."""
        root = posixpath.dirname(source.name)
        return self._file(source, findings, root, {posixpath.normpath(source.name): source.whole()})

    def _file(self, source: Source, findings: Findings, root: str, chain: dict[str, Span]) -> File:
        file = self._parser.file(source, findings)
        header = next((one for one in file.statements if isinstance(one, nodes.Header)), None)
        if header is None and _varies(file):  # the base can't be known, and nothing of what is changed in it
            return file._replace(readable=False)
        if header is None or header.base is None:
            return file
        base = self._base(header.base, source, findings, root, chain)
        if base is None or not base.readable:  # nothing that the variant changes can be known
            return file._replace(readable=False)
        return vary(file, base, findings)

    def _base(
        self, named: nodes.Text, source: Source, findings: Findings, root: str, chain: dict[str, Span]
    ) -> File | None:
        path = posixpath.normpath(posixpath.join(posixpath.dirname(source.name), named.text))
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
            findings.add(
                Finding(
                    "variant-ring",
                    "this garment varies itself",
                    named.span,
                    others=tuple(Label(span, "which is varied from here") for span in list(chain.values())[1:]),
                    notes=(" varies ".join([*(posixpath.basename(one) for one in chain), posixpath.basename(path)]),),
                    help="one of them has to stand on its own",
                )
            )
            return None
        text = read_text(self._host, path, findings, asked_at=named.span)
        if text is None:
            return None
        return self._file(text, findings, root, {**chain, path: named.span})


def _varies(file: File) -> bool:
    """Whether a file whose first line is damaged was to vary another."""
    named = any(lost.span.text.startswith("garment") and '.garment"' in lost.span.text for lost in file.damaged)
    return named or any(isinstance(one, VARIATIONS) for one in file.statements if file.damaged)
