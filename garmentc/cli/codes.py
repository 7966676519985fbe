"""Exit codes."""

CLEAN, FINDINGS, FAULT = 0, 1, 2
BROKEN_OFF = 130
"""As a shell tells a command that was stopped by Ctrl-C."""
