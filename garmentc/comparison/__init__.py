"""Two states of one garment beside each other: what has changed, in numbers, without any output."""
