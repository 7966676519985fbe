"""garmentc, a compiler for garments: drafting rules in, true-scale patterns and sewing sheets out."""

__version__ = "0.1.0"
