"""The sheet as PDF, for A4 or Letter paper."""
