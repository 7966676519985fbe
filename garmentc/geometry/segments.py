"""The kinds of segment a path is made of."""

from garmentc.geometry.arc import Arc
from garmentc.geometry.cubic import Cubic
from garmentc.geometry.line import Line
from garmentc.geometry.segment import Box, Segment

__all__ = ["Arc", "Box", "Cubic", "Line", "Segment"]
