"""A comparison in one of its forms; each brings its own imports."""

from __future__ import annotations

from garmentc.comparison.model import Comparison

FORMS = ("text", "short", "json", "html")


def told(comparison: Comparison, form: str) -> str:
    """For reading, for the message of a commit, for programs, or with pictures; ValueError for any other form."""
    if form == "json":
        from garmentc.output.compare.document import comparison_json

        return comparison_json(comparison)
    if form == "html":
        from garmentc.output.compare.html import comparison_html

        return comparison_html(comparison)
    if form == "short":
        from garmentc.output.compare.short import comparison_short

        return comparison_short(comparison) + "\n"
    if form == "text":
        from garmentc.output.compare.text import comparison_text

        return comparison_text(comparison) + "\n"
    raise ValueError(f"no form '{form}' of comparisons; there are {', '.join(FORMS)}")
