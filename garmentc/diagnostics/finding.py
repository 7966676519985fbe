"""A finding is a value: what is wrong, where, with which numbers, and what to do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import Enum

from garmentc.source import Span


class Severity(Enum):
    ERROR = "error"
    WARNING = "warning"


@dataclass(frozen=True, slots=True)
class Label:
    """A second place that belongs to a finding, with a few words about it."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing wrong with a spec, a body or a chart.

    ``slug`` names the page that explains it. ``headline`` is one phrase that can stand alone; ``label`` stands at
    the primary place; ``notes`` are facts with their numbers and units; ``help`` is something to do. ``sizes`` lists
    the bodies or sizes in which it arises; empty when it holds without any body; ``of_sizes`` is how many were looked
    at, once that is known. ``subject`` tells apart findings of one kind at one place that concern different things (two
    pieces drawn by the same statement).
    """

    slug: str
    headline: str
    span: Span
    label: str = ""
    others: tuple[Label, ...] = ()
    notes: tuple[str, ...] = ()
    help: str = ""
    severity: Severity = Severity.ERROR
    sizes: tuple[str, ...] = ()
    subject: str = ""
    of_sizes: int = 0


_Key = tuple[str, str, int, int, str]


class Findings:
    """Collects findings over a run; the same fault at the same place in several sizes is kept once."""

    def __init__(self) -> None:
        self._kept: dict[_Key, Finding] = {}
        self._leads: dict[str, list[Label]] = {}

    def lead(self, source: str, label: Label) -> None:
        """Show with every finding in a file where it was asked for; and so on, if that file was asked for too."""
        known = self._leads.setdefault(source, [])
        if label not in known:
            known.append(label)

    def is_led_to(self, source: str) -> bool:
        """Whether it is known where a file was asked for."""
        return source in self._leads

    def add(self, finding: Finding) -> None:
        leads = [label for label in self._leading(finding.span.source.name) if label not in finding.others]
        if leads:
            finding = replace(finding, others=(*finding.others, *leads))
        key = _key(finding)
        known = self._kept.get(key)
        if known is None:
            self._kept[key] = finding
        else:
            fresh = tuple(size for size in finding.sizes if size not in known.sizes)
            self._kept[key] = replace(known, sizes=known.sizes + fresh)

    def _leading(self, source: str) -> Iterator[Label]:
        seen: set[str] = set()
        waiting = [source]
        while waiting:
            name = waiting.pop(0)
            if name not in seen:
                seen.add(name)
                for label in self._leads.get(name, ()):
                    yield label
                    waiting.append(label.span.source.name)

    def looked_at(self, count: int) -> None:
        """Note how many sizes there are, so that what arises in all of them can be told as such."""
        self._kept = {key: replace(finding, of_sizes=count) for key, finding in self._kept.items()}

    def add_all(self, others: Findings, note: str) -> None:
        """Add the findings of another run that are not known yet, with a note that says which run it was."""
        for finding in others:
            if _key(finding) not in self._kept:
                self.add(replace(finding, notes=(*finding.notes, note)))

    def __iter__(self) -> Iterator[Finding]:
        """In the order of files first met, then by place."""
        files: dict[str, int] = {}
        for finding in self._kept.values():
            files.setdefault(finding.span.source.name, len(files))
        return iter(
            sorted(
                self._kept.values(),
                key=lambda f: (files[f.span.source.name], f.span.start, f.span.end, f.slug),
            )
        )

    def __len__(self) -> int:
        return len(self._kept)

    @property
    def has_errors(self) -> bool:
        return any(finding.severity is Severity.ERROR for finding in self._kept.values())


def _key(finding: Finding) -> _Key:
    span = finding.span
    return finding.slug, span.source.name, span.start, span.end, finding.subject
