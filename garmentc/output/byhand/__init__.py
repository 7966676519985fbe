"""A draft as numbered instructions for paper, ruler and pencil, for whoever has no printer."""
