"""``garmentc explain``: the page of a finding."""

from __future__ import annotations

import sys
from argparse import Namespace

from garmentc.diagnostics.explain import explain, listed, slugs
from garmentc.diagnostics.suggest import did_you_mean
from garmentc.host import Host


def explain_command(host: Host, options: Namespace) -> int:
    """Print a page, or the list of all; exit code 2 for a finding that does not exist."""
    slug: str | None = options.slug
    if slug is None:
        print(listed(host))
        return 0
    page = explain(host, slug)
    if page is None:
        guess = did_you_mean(slug, slugs())
        print(f"garmentc: there is no finding `{slug}`. {guess}".rstrip(), file=sys.stderr)
        return 2
    print(page)
    return 0
