"""Every finding has a page, every page a finding, and the examples of the pages do what they say."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import garmentc
from garmentc.assembly.allowance import _WORDS as ALLOWANCE_REASONS
from garmentc.diagnostics.explain import explain, slugs
from garmentc.diagnostics.finding import Findings
from garmentc.diagnostics.suggest import did_you_mean
from garmentc.host import DiskHost
from garmentc.pipeline import compile_spec
from garmentc.shipped import grammar_file, page_file
from tests.diagnostics.examples import Example, examples, run, sections
from tests.support import MemoryHost

ROOT = Path(__file__).parents[2]
PACKAGE = Path(garmentc.__file__).parent
NO_EXAMPLE = {"file-too-large", "file-not-text"}
"""Findings about bytes that no page can show; the tests below make them."""

PAGES = {slug: Path(page_file(slug)).read_text(encoding="utf-8") for slug in slugs()}
_SLUG = re.compile(r"[a-z]+(-[a-z]+)*")
_REPORTERS = {"Finding", "fault", "_error", "_report"}


@pytest.fixture(autouse=True)
def in_root(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def made_slugs() -> set[str]:
    """The slugs in the source: constants given to what makes findings, those of the schemas, and the computed ones."""
    found = {f"allowance-{reason}" for reason in ALLOWANCE_REASONS}
    for module in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and _called(node) in _REPORTERS:
                found.update(_given_slugs(node))
    found |= {"bad-value", "wrong-kind"}  # what ``data.faults`` falls back to
    for schema in Path(grammar_file("schemas")).glob("*.json"):
        found.update(_x_slugs(json.loads(schema.read_text(encoding="utf-8"))))
    return found


def _called(call: ast.Call) -> str:
    return call.func.id if isinstance(call.func, ast.Name) else getattr(call.func, "attr", "")


def _given_slugs(call: ast.Call) -> Iterator[str]:
    """The first text among the arguments, and the one given by name, where they have the form of a slug."""
    given = [word.value for word in call.keywords if word.arg == "slug"] + call.args
    texts = [one.value for one in given if isinstance(one, ast.Constant) and isinstance(one.value, str)]
    if texts and _SLUG.fullmatch(texts[0]):
        yield texts[0]


def _x_slugs(schema: Any) -> Iterator[str]:
    if isinstance(schema, dict):
        if isinstance(schema.get("x-slug"), str):
            yield schema["x-slug"]
        for below in schema.values():
            yield from _x_slugs(below)
    elif isinstance(schema, list):
        for below in schema:
            yield from _x_slugs(below)


def test_every_finding_has_a_page_and_every_page_a_finding() -> None:
    assert sorted(made_slugs() - set(PAGES)) == []
    assert sorted(set(PAGES) - made_slugs()) == []


@pytest.mark.parametrize("slug", PAGES)
def test_pages_have_their_form(slug: str) -> None:
    page = PAGES[slug]
    title, prose = page.split("\n", 1)
    assert re.fullmatch(rf"# {slug}: \S.*[^.\s]", title)
    assert list(sections(page)) == ["Fails", "Mended"]
    paragraphs = prose.split("## Fails")[0].strip().split("\n\n")
    assert 1 <= len(paragraphs) <= 3
    assert all(len(line) <= 140 for line in page.splitlines())


def _example(slug: str, section: str) -> Example:
    return examples(PAGES[slug])[section]


@pytest.mark.parametrize("slug", sorted(set(PAGES) - NO_EXAMPLE))
def test_failing_examples_fail_with_their_finding_alone(slug: str) -> None:
    findings = run(_example(slug, "Fails")).findings
    assert {finding.slug for finding in findings} == {slug}


@pytest.mark.parametrize("slug", sorted(set(PAGES) - NO_EXAMPLE))
def test_mended_examples_compile_without_a_finding(slug: str) -> None:
    compiled = run(_example(slug, "Mended"))
    assert [str(finding) for finding in compiled.findings] == []
    assert compiled.made


@pytest.mark.parametrize(
    ("slug", "data"),
    [
        ("file-too-large", b"#" * 1_000_001),
        ("file-not-text", b"garment dunlin \xff"),
        ("file-not-text", b"garment dunlin \x1b"),
    ],
)
def test_findings_about_bytes(slug: str, data: bytes) -> None:
    findings = compile_spec(MemoryHost({"dunlin.garment": data}), "dunlin.garment").findings
    assert {finding.slug for finding in findings} == {slug}


def test_explain_shows_the_page_without_its_signs() -> None:
    shown = explain(DiskHost(), "raw-edge")
    assert shown is not None
    lines = shown.splitlines()
    assert lines[0].startswith("raw-edge: ")
    assert "Fails:" in lines
    assert "Mended:" in lines
    assert '    piece bib "Bib" {' in lines
    assert "```" not in shown
    assert "#" not in shown


@pytest.mark.parametrize("slug", ["raw-egde", "", "../pages/raw-edge", "raw-edge.md", "raw-edge\0"])
def test_explain_knows_only_its_pages(slug: str) -> None:
    assert explain(DiskHost(), slug) is None


def test_a_slip_in_a_slug_is_understood() -> None:
    assert did_you_mean("raw-egde", slugs()) == "did you mean `raw-edge`?"
    assert did_you_mean("sewing-machine", slugs()) == ""


def test_memory_host_lays_texts_over_the_disk() -> None:
    host = MemoryHost({"specs/tern.garment": "x"})
    assert host.read("specs/tern.garment") == b"x"
    assert host.read("specs/plover.garment", 7) == b"garment"
    assert host.write("a", b"1")
    assert not host.write("a", b"1")
    assert host.read("a") == b"1"
    assert not Path("a").exists()
    assert not list(Findings())
