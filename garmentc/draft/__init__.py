"""A design drafted for one body: every value computed, every piece an outline in millimetres."""
