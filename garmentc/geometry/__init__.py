"""Plane geometry in millimetres and radians, y upwards: segments, paths, outlines and their parallels."""
