"""Patterns on paper: true-scale PDF pages of one size or of several laid over each other."""
