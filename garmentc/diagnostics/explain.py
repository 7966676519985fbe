"""The page of a finding, as the terminal shows it."""

from __future__ import annotations

from garmentc.host import Host
from garmentc.shipped import page_file, page_slugs

_INDENT = "    "


def slugs() -> list[str]:
    """The slugs of all findings that have a page, sorted."""
    return page_slugs()


def listed(host: Host) -> str:
    """All findings that have a page, one a line: the slug, and in a few words what it means."""
    heads = (host.read(page_file(slug)).decode("utf-8").split("\n", 1)[0] for slug in slugs())
    return "\n".join(head.removeprefix("# ") for head in heads)


def explain(host: Host, slug: str) -> str | None:
    """The page of a finding, without a line end at the end; None for a finding that does not exist."""
    if slug not in slugs():
        return None
    return _for_terminal(host.read(page_file(slug)).decode("utf-8"))


def _for_terminal(page: str) -> str:
    """Headings without their signs, examples indented instead of fenced."""
    lines: list[str] = []
    fenced = False
    for line in page.strip().splitlines():
        if line.startswith("```"):
            fenced = not fenced
        elif fenced:
            lines.append(f"{_INDENT}{line}".rstrip())
        elif line.startswith("## "):
            lines.append(f"{line.removeprefix('## ')}:")
        else:
            lines.append(line.removeprefix("# "))
    return "\n".join(lines)
