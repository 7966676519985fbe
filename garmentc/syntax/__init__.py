"""From text to a syntax tree: the grammar's door, with several faults reported in one run."""
