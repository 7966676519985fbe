"""What a draft computes once, and which of it has to be computed again when a value is tried anew."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

Key = tuple[str, str]


class Poisoned(Exception):
    """Raised where a value depends on something whose fault is already reported."""


class Memo:
    """Values by key, each found once and when first asked for.

    It notices what leans on a tried value while that is being found, so that another trial keeps all the rest: a
    sleeve is tried at many heights, and its armhole drafted once.
    """

    def __init__(self, tried: Mapping[str, Any]) -> None:
        self._found: dict[Key, Any] = {}
        self._poisoned: set[Key] = set()
        self._under_way: set[Key] = set()
        self._leaning: set[Key] = set()
        self._reads = 0  # of values that lean on tried ones
        self.try_anew(tried)

    def try_anew(self, tried: Mapping[str, Any]) -> None:
        """Set params to other values, and forget what was found with the old ones."""
        for key in self._leaning:
            self._found.pop(key, None)
        self._poisoned -= self._leaning
        self._leaning = {("", name) for name in tried}
        self._found.update((("", name), value) for name, value in tried.items())

    def __contains__(self, key: Key) -> bool:
        """Whether a key has its value, or was found to have none."""
        return key in self._found or key in self._poisoned

    def is_under_way(self, key: Key) -> bool:
        """Whether a value is being found just now, so that asking for it again closes a ring."""
        return key in self._under_way

    def poison(self, key: Key) -> None:
        """Let a value have none."""
        self._poisoned.add(key)

    def once(self, key: Key, find: Callable[[], Any]) -> Any:
        """The value of a key; raises Poisoned when it has none, or leans on itself."""
        if key in self._leaning:
            self._reads += 1
        if key in self._found:
            return self._found[key]
        if key in self._poisoned or key in self._under_way:
            raise Poisoned
        reads = self._reads
        self._under_way.add(key)
        try:
            self._found[key] = find()
        except Poisoned:
            self._poisoned.add(key)
            raise
        finally:
            self._under_way.discard(key)
            if self._reads != reads:
                self._leaning.add(key)
        return self._found[key]
