"""True-scale pattern drawings: one SVG for each piece and strip, and one with all of them."""
