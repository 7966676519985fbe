"""Bodies, size charts and measure names: data files read into frozen values, every fault at its place."""
