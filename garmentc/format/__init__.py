"""One layout for every ``.garment`` file, driven by its tokens and its tree, not by a list of statements."""
