"""A hand-out of a garment: everything that someone needs to make it, in one file."""
