"""Compares the sizes of a garment: how corners and edges move from one to the next, and whether they do so evenly."""
