"""Exit codes."""

CLEAN, FINDINGS, FAULT = 0, 1, 2
