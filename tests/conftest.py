"""Tests by chance try the same examples in every run, so that a change alone decides whether they pass."""

from hypothesis import settings

settings.register_profile("same", derandomize=True)
settings.load_profile("same")
