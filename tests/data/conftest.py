"""A door to files that are only in memory, and readers that say what they found and where."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
import yaml

from garmentc.data import yaml_text
from garmentc.diagnostics.finding import Finding, Findings

Read = Callable[[Any, "str | bytes"], tuple[Any, list[Finding]]]


class MemoryHost:
    def __init__(self, files: dict[str, bytes]) -> None:
        self._files = files

    def read(self, path: str, most: int = -1) -> bytes:
        if path not in self._files:
            raise FileNotFoundError(2, "No such file or directory")
        return self._files[path]

    def write(self, path: str, data: bytes) -> bool:
        raise AssertionError("data files are only read")

    def cache_file(self, name: str) -> str | None:
        return None


def read_text_with(reader: Any, text: str | bytes) -> tuple[Any, list[Finding]]:
    data = text.encode() if isinstance(text, str) else text
    findings = Findings()
    return reader(MemoryHost({"given.yaml": data}), "given.yaml", findings), list(findings)


@pytest.fixture(params=["the C parser", "the Python parser"])
def read(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Read:
    """Reads a text with ``read_body`` or ``read_chart``; every test runs with both YAML parsers."""
    if request.param == "the Python parser":
        monkeypatch.setattr(yaml_text, "_Loader", yaml.SafeLoader)
    elif not yaml.__with_libyaml__:
        pytest.skip("this PyYAML has no C parser")
    return read_text_with


@pytest.fixture
def memory() -> type[MemoryHost]:
    return MemoryHost


def placed(findings: list[Finding]) -> list[tuple[str, int, int, str]]:
    """Slug, line, column and the text pointed at, of every finding."""
    return [(f.slug, f.span.line, f.span.column, f.span.text) for f in findings]


@pytest.fixture
def places() -> Callable[[list[Finding]], list[tuple[str, int, int, str]]]:
    return placed
