"""Words that more than one form of a finding uses."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

_MOST_SIZES = 8
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Zl", "Zp"})


def page_command(slug: str) -> str:
    """The command that shows the page of a finding."""
    return f"garmentc explain {slug}"


def in_sizes(sizes: Sequence[str], of: int) -> str:
    """Where a finding arises: ``in sizes 76, 80``, or ``for Ilse``; empty when it holds without any body.

    ``of`` is how many sizes were looked at.
    """
    if not sizes:
        return ""
    if of > 2 and len(sizes) == of:
        return f"in all {of} sizes"
    shown = ", ".join(one_line(size) for size in sizes[:_MOST_SIZES])
    if len(sizes) > _MOST_SIZES:
        shown += f" and {len(sizes) - _MOST_SIZES} more"
    if len(sizes) > 1:
        return f"in sizes {shown}"
    return f"in size {shown}" if shown[:1].isdigit() else f"for {shown}"


def one_line(text: str) -> str:
    """A text on one line, with a stand-in for each character that a terminal would obey instead of show."""
    return "".join(mark if mark == " " else shown(mark) for mark in " ".join(text.split()))


def shown(mark: str) -> str:
    """A character as a terminal may show it."""
    return "�" if unicodedata.category(mark) in _UNSEEN else mark
